"""Answers on the terminal: the sentence first, then what it rests on, then what was tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from edgewright.cli.text import heading, paragraph, ticks_in_words
from edgewright.cutlist.asking.ask import ASKED, Replies
from edgewright.cutlist.asking.model import Answer, AnswerRow
from edgewright.units import Units

__all__ = ["answer_lines"]


def answer_lines(replies: Replies, width: int) -> list[str]:
    """Write all answers, wrapped to ``width`` columns."""
    lines = paragraph(f"{replies.job.info.title}: questions beyond the plan", width)
    for answer in replies.answers:
        over = heading(ASKED[answer.question].says)
        lines += [line for part in over for line in (paragraph(part, width) or [""])]
        lines += _one(answer, replies.job.units, width)
    return lines


def _one(answer: Answer, units: Units, width: int) -> Iterator[str]:
    yield from paragraph(answer.sentence, width, 2)
    for sentence in answer.more:
        yield from paragraph(ticks_in_words(sentence, units), width, 2, 4)
    if answer.rows:
        yield "  looked at:"
    for words, names in _alike(answer.rows):
        yield from paragraph(f"{names}{' ' if names.endswith('.') else ': '}{words}", width, 4, 6)
    if answer.applies:
        proof = (
            "proven"
            if answer.proven
            else "not proven in full: for some plans on the way it is not proven that none is better"
        )
        yield from paragraph(f"{proof}; plans and widths tried: {answer.tried}", width, 2, 4)


def _alike(rows: Sequence[AnswerRow]) -> Iterator[tuple[str, str]]:
    """Words and names of rows: those of which the same is said stand together, errors of one reading by figure."""

    def reading(row: AnswerRow) -> str:
        return str(dict(row.figures).get("reading", ""))

    for (words, same), some in groupby(rows, key=lambda row: (row.words, reading(row))):
        first, *others = (row.name for row in some)
        yield words, ", ".join([first, *(name.removeprefix(f"{same} ") for name in others)])
