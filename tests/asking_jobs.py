"""Jobs for the tests of questions: 72 x 42 in of 23/32 in plywood, kerf 1/8 in, and what is asked of them."""

from __future__ import annotations

from fractions import Fraction

from edgewright.cutlist.asking.model import Answer, AnswerRow
from edgewright.job import Job
from edgewright.jobfile import parse_job

INCH = 8128

PLANK = '[[stock]]\nname = "plank"\nlength = 96\nwidth = 4\nthickness = "23/32 in"\nprice = 14\n'

#: Ends of 36 in that run through: twice 36 and a kerf are 72 1/8, so that one of them is spliced from three strips.
SHORT_THROUGH = 'strip_width = "1 7/8 in"\nthrough = "short"'


def job(trim: str = "north = 6", *, top: str = "", edge: str = "", rest: str = "", **keys: str) -> Job:
    """A job in inches; ``keys`` are length, width, thickness and job (more keys of [job])."""
    return parse_job(
        f"""
        [job]
        title = "asked"
        units = "in"
        {keys.get("job", "")}
        [top]
        length = "{keys.get("length", "72")} in"
        width = "{keys.get("width", "42")} in"
        thickness = "{keys.get("thickness", "23/32")} in"
        material = "plywood"
        {top}
        [trim]
        {trim}
        [edge]
        {edge}
        {rest}
        """
    )


def ticks(text: str) -> int:
    """Ticks of inches like ``1 7/8``."""
    return int(sum(map(Fraction, text.split())) * INCH)


def row(answer: Answer, name: str) -> AnswerRow:
    """The row of a name."""
    (found,) = [row for row in answer.rows if row.name == name]
    return found


def figure(row: AnswerRow, key: str) -> object:
    """A figure of a row."""
    return dict(row.figures)[key]
