"""Take a typed text apart into sign, number and unit, and read the number exactly.

A number is whole (``41``), decimal (``41.63`` or ``41,63``), a fraction below one (``5/8``) or a mixed number
(``41 5/8`` or ``41-5/8``). Everything else is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Final

from edgewright.errors import UnitError
from edgewright.unit_words import WANTED, plain_text, printable

__all__ = ["LARGEST", "Figure", "number_of", "take_apart"]

_LONGEST: Final = 40
"""Characters of the longest text that is read."""
LARGEST: Final = 10**9
"""Largest figure that is read (mm for a length): beyond it lies a slip, or float overflow."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A text taken apart: sign and number characters in front, everything else behind."""

    given: str
    minus: bool
    head: str
    tail: str
    wanted: str

    @property
    def example(self) -> str:
        """How to write what is wanted."""
        return f"write a {self.wanted} like {WANTED[self.wanted][0]}"

    def error(self, reason: str) -> UnitError:
        """Make the error for this text; ``reason`` goes on from the quoted text."""
        return UnitError(f"`{printable(self.given)}` {reason}")


def take_apart(text: object, wanted: str) -> Figure:
    """Check the type, replace typographic signs by plain ones and split number from unit."""
    example = f"write a {wanted} like {WANTED[wanted][0]}"
    if isinstance(text, str):
        given = text.strip()
        if not given:
            raise UnitError(f"the text is empty: {example}")
        if len(given) > _LONGEST:
            start = printable(given[:20])
            raise UnitError(
                f"`{start}...` is {len(given)} characters long, at most {_LONGEST} are read: {example}"
            )
        plain = plain_text(given)
    elif isinstance(text, int | float) and not isinstance(text, bool):
        if not (abs(text) <= LARGEST):  # NaN compares false
            raise UnitError(f"the number is not finite or beyond {LARGEST}: {example}")
        given = repr(float(text)) if isinstance(text, float) else str(int(text))
        plain = format(Decimal(given), "f")
    else:
        name = f"`{str(text).lower()}`" if isinstance(text, bool) else f"a {type(text).__name__}"
        raise UnitError(f"{name} is not a {wanted}: {example}")
    body = plain.removeprefix("-").lstrip()
    tail = body.lstrip("0123456789 ./,-")
    head = body[: len(body) - len(tail)]
    figure = Figure(given, plain.startswith("-"), head, tail.lower(), wanted)
    if re.match(r"(nan|inf|infinity)\b", body.lower()):
        raise figure.error(f"is not a finite number: {example}")
    if "**" in body or re.search("[0-9.]e[+-]?[0-9]", body.lower()):
        raise figure.error(f"holds a power or an exponent, which is not read: {example}")
    if not re.match("[0-9.,]", body):
        raise figure.error(f"does not begin with a number: {example}")
    return figure


def number_of(figure: Figure, head: str) -> Fraction:
    """Read a whole number, a decimal, a fraction or a mixed number, without sign."""
    head = head.strip()
    if re.fullmatch(r"[0-9]*\.[0-9]+|[0-9]+", head):
        return Fraction(head)
    if match := re.fullmatch("([0-9]+),([0-9]+)", head):
        if len(match[2]) == 3:
            unit = f" {printable(figure.tail)}" if figure.tail and head == figure.head.strip() else ""
            point, none = f"{match[1]}.{match[2]}{unit}", f"{int(match[1] + match[2])}{unit}"
            raise figure.error(f"may mean {point} or {none}: write the one that is meant, without the comma")
        return Fraction(f"{match[1]}.{match[2]}")
    if match := re.fullmatch("(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)", head):
        whole, top, bottom = (int(part or 0) for part in match.groups())
        if bottom == 0:
            raise figure.error("has a fraction with denominator 0: check the fraction")
        if top >= bottom:
            # 415/8 is more often 41 5/8 with the space lost than 51 7/8
            whole_top, rest = divmod(top, bottom)
            better = f"{whole + whole_top} {rest}/{bottom}" if rest else f"{whole + whole_top}"
            raise figure.error(f"has a fraction part of 1 or more: write {better} if that is meant")
        return whole + Fraction(top, bottom)
    if "," in head:
        raise figure.error("has a comma that is not surely a decimal comma: write decimals with a point")
    if "-" in head:
        raise figure.error("looks like a sum or a range, which is not read: give one number with one unit")
    raise figure.error(f"does not hold one clear number: {figure.example}")
