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

__all__ = ["label_cell", "label_sheet"]

#: Size of a module of the code on paper, mm: a phone reads 0.33 mm from a hand's breadth (common practice, no source).
MODULE_MM: Final = 0.42
_QUIET: Final = 4
_TITLE: Final = 24


def label_cell(
    job: AnyJob, code: str, *, name: str, size: str, face: str, lines: Sequence[str], out: str = ""
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
        What else is said, the most important first; a small label leaves out the last ones.
    out
        What the arrow at its upper edge points to; "" for no arrow.
    """
    title = job.info.title if len(job.info.title) <= _TITLE else job.info.title[: _TITLE - 1] + "…"
    text = "\n".join((title, f"plan {code}", f"{name}: {size}", *lines[:1]))
    svg, side = _qr(text)
    return {
        "id": printable(name),
        "size": printable(size),
        "face": printable(face),
        "lines": [printable(line) for line in lines if line],
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


@cache
def _qr(text: str) -> tuple[str, float]:
    """SVG of a QR code with its quiet zone, and its side on paper (mm)."""
    import segno

    made = segno.make(text, micro=False, error="l", boost_error=False, encoding="utf-8")
    side = (made.symbol_size(border=0)[0] + 2 * _QUIET) * MODULE_MM
    return made.svg_inline(border=_QUIET, omitsize=True, svgclass=None, lineclass=None), round(side, 3)
