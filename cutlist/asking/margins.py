"""How far a reading may be off before the plan is lost: kerf, old sizes and thickness, each by itself.

What a larger error does need not follow from a smaller one (a fraction of an inch may match other stock), so every
step is planned, outwards from the figure as given, up to the first that is worse.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewright.cutlist.asking.at_hand import AtHand, at_hand
from edgewright.cutlist.asking.lost_strips import show_fine
from edgewright.cutlist.asking.model import Answer, AnswerRow, Progress
from edgewright.cutlist.asking.readings import Look, Reading, readings
from edgewright.cutlist.widest import widest_strip
from edgewright.display import show_ticks
from edgewright.job import Job
from edgewright.trade import inch
from edgewright.units import Units

__all__ = ["margins_answer"]

#: Step of the search, and how many steps at most: to 1/16 in or 1.6 mm.
_STEP: Final[dict[Units, tuple[Fraction, int]]] = {"in": (inch("1/128"), 8), "mm": (Fraction(1, 10), 16)}
#: Errors that are told one by one: what a tape or a blade is easily off by. Common practice, no source.
_USUAL: Final[dict[Units, tuple[Fraction, ...]]] = {
    "in": (inch("1/64"), inch("1/32")),
    "mm": (Fraction(1, 2), Fraction(1)),
}
#: Narrower strips that are tried for one that stands every usual error, in steps of the bench grid.
_MOST_NARROWER: Final = 8


@dataclass(frozen=True, slots=True)
class _Margin:
    """How far one reading may be off one way; ``bad`` is the first step that loses something, None if none did."""

    reading: Reading
    sign: int
    holds: Fraction
    bad: Look | None
    beyond: Fraction


@dataclass(frozen=True, slots=True)
class _Looks:
    """What was looked at, by reading, strip width and error; alike ones are planned once."""

    seen: dict[tuple[str, int, Fraction, bool], Look | None]

    def at(self, reading: Reading, width: int, error: Fraction, *, sure: bool = False) -> Look | None:
        """Look at one error; ``sure`` has a plan as good as the one at hand checked as well."""
        key = reading.name, width, error, sure
        if key not in self.seen:
            self.seen[key] = reading.look(width, error, sure)
        return self.seen[key]

    @property
    def proven(self) -> bool:
        return all(look.proven for look in self.seen.values() if look is not None)


def margins_answer(job: Job, progress: Progress | None = None) -> Answer:
    """Largest errors of kerf, old sizes and thickness that the plan stands, with strips as wide."""
    at = at_hand(job)
    units = job.units
    looks = _Looks({})
    margins: list[_Margin] = []
    rows: list[AnswerRow] = []
    every = tuple(readings(at))
    for reading in every:
        if progress is not None:
            progress(f"margins: {reading.name}")
        if at.held.possible:
            margins += [_margin(at, reading, sign, units, looks) for sign in (1, -1)]
        rows += _rows(at, reading, units, looks)
    proven = at.held.proven and looks.proven
    if not at.held.possible:
        return Answer("margins", _lost(at, rows), (at.buy,), tuple(rows), proven, 1 + len(looks.seen))
    more = [_told(at, margin, units) for margin in margins]
    measured = [reading for reading in every if reading.name != "thickness"]
    safe = _safe_width(at, measured, units, progress, looks)
    if safe:
        more.append(safe)
    more.append(
        "Each reading is taken to be wrong by itself, and the plan made again with strips as wide; finished sizes stay."
    )
    return Answer("margins", _tightest(margins, units), tuple(more), tuple(rows), proven, 1 + len(looks.seen))


def _margin(at: AtHand, reading: Reading, sign: int, units: Units, looks: _Looks) -> _Margin:
    """The first step that loses something; the one before it is checked in full, as the last that does not."""
    step, most = _STEP[units]
    number, bad = 0, None
    while number < most and bad is None:
        look = looks.at(reading, at.width, sign * (number + 1) * step)
        if look is None:
            break
        bad = look if look.worse else None
        number += bad is None
    while number and (last := looks.at(reading, at.width, sign * number * step, sure=True)) and last.worse:
        number, bad = number - 1, last
    return _Margin(reading, sign, number * step, bad, (number + 1) * step)


def _told(at: AtHand, margin: _Margin, units: Units) -> str:
    """Like ``Kerf 1/8 in: holds up to 9/64 in; at 19/128 in no plan ...``."""
    reading, sign = margin.reading, margin.sign
    way = "up" if sign > 0 else "down"
    given, held, bad = (
        show_fine(reading.exact_mm + sign * error, units)
        for error in (Fraction(0), margin.holds, margin.beyond)
    )
    name = f"{reading.name.capitalize()} {given}"
    if margin.bad is None:
        return f"{name}: the plan holds {way} to {held}, as far as was tried."
    lost = f"{at.strips} no longer come out" if not margin.bad.possible else "something is lost"
    holds = (
        f"the plan holds {way} to {held}" if margin.holds else f"no room {'above' if sign > 0 else 'below'}"
    )
    return f"{name}: {holds}; at {bad} {lost} ({margin.bad.words})."


def _tightest(margins: list[_Margin], units: Units) -> str:
    bad = [margin for margin in margins if margin.bad is not None]
    if not bad:
        step, most = _STEP[units]
        return f"The plan stands every reading off by up to {show_fine(step * most, units)}, each by itself."
    least = min(margin.holds for margin in bad)
    names = " or ".join(_off_words(margin) for margin in bad if margin.holds == least)
    if not least:
        return f"The plan has no room for {names}: {show_fine(_STEP[units][0], units)} is too much."
    return f"The plan is lost first by {names}: it stands up to {show_fine(least, units)}."


def _off_words(margin: _Margin) -> str:
    if margin.reading.name == "kerf":
        return "a wider kerf" if margin.sign > 0 else "a thinner kerf"
    size = {"old width": ("wider", "narrower"), "old length": ("longer", "shorter")}
    more, less = size.get(margin.reading.name, ("thicker", "thinner"))
    return f"a top that is {more if margin.sign > 0 else less} than was read"


def _rows(at: AtHand, reading: Reading, units: Units, looks: _Looks) -> list[AnswerRow]:
    rows = []
    usual = _USUAL[units]
    for error in (*(-e for e in reversed(usual)), *usual):
        look = looks.at(reading, at.width, error)
        if look is None:
            continue
        words = _row_words(at, reading, error, look, units)
        rows.append(
            AnswerRow(
                f"{reading.name} {show_fine(reading.exact_mm + error, units)}",
                words,
                (
                    ("reading", reading.name),
                    ("error_mm", float(error)),
                    ("holds", look.possible and not look.worse),
                    ("possible", look.possible),
                    ("proven", look.proven),
                ),
            )
        )
    return rows


def _row_words(at: AtHand, reading: Reading, error: Fraction, look: Look, units: Units) -> str:
    if look.possible:
        if not at.held.possible:
            return "a plan is possible"
        return f"holds, but {look.words}" if look.words else "holds"
    words = f"no plan: {look.words}"
    design = reading.design(error)
    if design is None or not at.held.possible:
        return words
    width, _ = widest_strip(design)
    return words if width is None else f"{words}; {show_ticks(width, units)} would come out"


def _lost(at: AtHand, rows: list[AnswerRow]) -> str:
    rescued = [row.name for row in rows if dict(row.figures)["possible"]]
    sentence = f"There is no plan that could be lost: {at.why}."
    if rescued:
        return f"{sentence} But there would be one with {' or '.join(rescued)}: measure again."
    return f"{sentence} No reading that is a little off would make one."


def _safe_width(
    at: AtHand, measured: Sequence[Reading], units: Units, progress: Progress | None, looks: _Looks
) -> str:
    """The widest strip that stands every usual error of kerf and old sizes; empty where the plan's own does."""
    grid, floor = at.design.sizes.grid, at.design.limits.floor
    for narrower in range(_MOST_NARROWER + 1):
        width = at.width - narrower * grid
        if width < floor:
            break
        if progress is not None:
            progress(f"margins: strips {show_ticks(width, units)} wide")
        if all(_stands(reading, width, units, looks) for reading in measured):
            most = show_fine(_USUAL[units][-1], units)
            words = f"Strips {show_ticks(width, units)} wide stand every one of these off by {most}"
            return f"{words}: kerf, old width, old length." if narrower else ""
    return ""


def _stands(reading: Reading, width: int, units: Units, looks: _Looks) -> bool:
    found = [looks.at(reading, width, sign * _USUAL[units][-1]) for sign in (1, -1)]
    return not any(look.worse for look in found if look is not None)
