"""An answer as frozen data: one sentence, what else must be said, a row for each thing that was tried."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Answer", "AnswerRow", "Figures", "Progress"]

Progress = Callable[[str], None]

Figures = tuple[tuple[str, int | float | str | bool | None], ...]
"""Named figures of a row; names of lengths carry their unit, like ``strip_width_ticks``."""


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """One thing that was tried: its name, what came of it in words, and the figures behind the words."""

    name: str
    words: str
    figures: Figures = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """What one question came to.

    Attributes
    ----------
    question
        Its name, one of `edgewright.cutlist.asking.ask.ASKED`.
    sentence
        The answer; lengths in the job's units.
    more
        Further sentences: what it rests on.
    rows
        What was tried and is worth telling, in the order of the answer.
    proven
        Whether every plan that the answer compares is proven, and every one that it says is none.
    tried
        Plans and strip widths looked at.
    applies
        False where the question does not arise for such a top; the sentence says why.
    """

    question: str
    sentence: str
    more: tuple[str, ...] = ()
    rows: tuple[AnswerRow, ...] = ()
    proven: bool = True
    tried: int = 0
    applies: bool = True
