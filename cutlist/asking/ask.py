"""Ask questions beyond one plan.

This is what the command line and a script call::

    from edgewright.cutlist.asking.ask import ask
    for answer in ask("job.toml").answers:
        print(answer.sentence)
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from os import PathLike
from typing import Final

from edgewright.cutlist.asking.best import best_answer
from edgewright.cutlist.asking.extra_trim import trim_answer
from edgewright.cutlist.asking.margins import margins_answer
from edgewright.cutlist.asking.model import Answer, Progress
from edgewright.cutlist.asking.scarce import scarce_answer
from edgewright.cutlist.asking.widest import widest_answer
from edgewright.job import AnyJob, Job
from edgewright.jobfile import read_any_job

__all__ = ["ASKED", "Asked", "Replies", "ask"]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question: what it asks in a few words, and the function that answers it for a rectangular top."""

    says: str
    answer: Callable[[Job, Progress | None], Answer]


ASKED: Final[dict[str, Asked]] = {
    "widest": Asked("the widest strip from own wood", widest_answer),
    "trim": Asked("the least extra trim that saves a splice or a purchase", trim_answer),
    "best": Asked("the best side and corners", best_answer),
    "margins": Asked("how far a reading may be off", margins_answer),
    "scarce": Asked("what one more inch of wood would save", scarce_answer),
}
"""What can be asked, in the order in which it is answered."""


@dataclass(frozen=True, slots=True)
class Replies:
    """Answers about one job, in the order of `ASKED`."""

    job: AnyJob
    answers: tuple[Answer, ...]


def ask(
    source: str | PathLike[str] | AnyJob,
    questions: Collection[str] = tuple(ASKED),
    progress: Progress | None = None,
) -> Replies:
    """Answer questions about a job.

    Parameters
    ----------
    source
        Path of a job file, or a job already read.
    questions
        Names among `ASKED`.
    progress
        Called with a few words before each step that may take a while.

    Raises
    ------
    JobError
        With all faults of the file.
    GeometryError
        If the job as written makes no top.
    CheckError
        If the independent checker refuses its plan.
    """
    job = source if isinstance(source, AnyJob) else read_any_job(source)
    names = [name for name in ASKED if name in questions]
    if isinstance(job, Job):
        return Replies(job, tuple(ASKED[name].answer(job, progress) for name in names))
    from edgewright.job_shaped import ShapedJob

    new = isinstance(job, ShapedJob) and job.top.new
    words = _NOT_FOR_NEW_TOPS if new else _NOT_FOR_OUTLINES
    return Replies(job, tuple(Answer(name, words, applies=False) for name in names))


_NOT_FOR_NEW_TOPS: Final = (
    "This is asked of an old top that is trimmed; a new one is cut from the sheets under [[stock]], and its plan says "
    "why they are the cheapest."
)


_NOT_FOR_OUTLINES: Final = (
    "This is asked of a top given by length and width only; a top with an outline has no strips of one width to ask "
    "about: compare its variants instead."
)
