"""Labels of the pieces as plain strings, each with a QR code that holds the same in plain text.

References
----------
ISO/IEC 18004 (QR code; a quiet zone of four modules all round).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any, Final

from edgewright.cli.printable import printable
from edgewright.job_any import AnyJob

__all__ = ["from_words", "label_cell", "label_sheet", "size_words"]

#: Size of a module of the code on paper, mm: a phone reads 0.33 mm from a hand's breadth (common practice, no source).
MODULE_MM: Final = 0.42
_QUIET: Final = 4
#: Letters of a title, and bytes of it in a code.
_TITLE: Final = 24
_TITLE_BYTES: Final = 36
#: What a code of 41 x 41 modules holds at the lowest level of correction (version 6-L, ISO/IEC 18004).
_MOST_BYTES: Final = 134
_FROM: Final = 40


def label_cell(
    job: AnyJob,
    code: str,
    *,
    name: str,
    size: str,
    face: str,
    lines: Sequence[str],
    out: str = "",
    ends: tuple[str, str] = ("", ""),
) -> dict[str, Any]:
    """One label.

    Parameters
    ----------
    job, code
        Whose piece it is, and the code of the plan.
    name, size
        Like ``N1``, and length by width by thickness.
    face
        Which way it lies, the one line that is never left out.
    lines
        What else is said, the most important first; a small label leaves out the last ones. The first one, its place,
        stands in the code, too.
    out
        What the arrow at its upper edge points to; "" for no arrow.
    ends
        Its left and its right end, with the arrow upwards; "" for an end that nothing is said of.
    """
    title = job.info.title if len(job.info.title) <= _TITLE else job.info.title[: _TITLE - 1] + "…"
    text = "\n".join((_shortened(title, _TITLE_BYTES), f"plan {code}", f"{name}: {size}", *lines[:1]))
    text = _shortened(text, _MOST_BYTES)
    svg, side = _qr(text)
    left, right = ends
    words = [*lines[:1], " · ".join(filter(None, (left and f"◀ {left}", right and f"{right} ▶"))), *lines[1:]]
    return {
        "id": printable(name),
        "size": printable(size),
        "face": printable(face),
        "lines": [printable(line) for line in words if line],
        "out": printable(out),
        "job": printable(title),
        "code": code,
        "qr": svg,
        "qr-size": side,
        "qr-text": text,
    }


def label_sheet(job: AnyJob) -> dict[str, float]:
    """Size of a label on paper, mm: as the job says, else three beside each other on either paper."""
    width, height = job.info.label_size
    return {"width": width.mm, "height": height.mm}


def size_words(sides: Sequence[str]) -> str:
    """Length by width by thickness; a unit that all have is said once, behind the last."""
    units = {side.rpartition(" ")[2] for side in sides}
    if len(units) > 1:
        return " x ".join(sides)
    return " x ".join([*(side.rpartition(" ")[0] for side in sides[:-1]), sides[-1]])


def from_words(name: str) -> str:
    """What a piece is cut from; of a long name the middle is left out, for its end tells the strip."""
    if len(name) > _FROM:
        half = _FROM // 2
        name = f"{name[: half - 1].rstrip()}…{name[-half:].lstrip()}"
    return f"from {name}"


def _shortened(text: str, most: int) -> str:
    """The text, or as much of it as takes no more bytes, with an ellipsis."""
    if len(text.encode()) <= most:
        return text
    kept = text.encode()[: most - len("…".encode())].decode(errors="ignore")
    return f"{kept.rstrip()}…"


@cache
def _qr(text: str) -> tuple[str, float]:
    """SVG of a QR code with its quiet zone, and its side on paper (mm)."""
    import segno

    # any of the eight masks can be read; to look for the best one takes five times as long
    made = segno.make(text, micro=False, error="l", boost_error=False, encoding="utf-8", mask=0)
    side = (made.symbol_size(border=0)[0] + 2 * _QUIET) * MODULE_MM
    return made.svg_inline(border=_QUIET, omitsize=True, svgclass=None, lineclass=None), round(side, 3)
