"""Variants of a job: one choice changed at a time, or choices combined."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, product
from typing import Final

from pydantic import ValidationError

from edgewright.cutlist.questions import QUESTIONS, Question
from edgewright.cutlist.variant_choices import Choice, Factor
from edgewright.errors import GeometryError, InputError
from edgewright.job import AnyJob, Job, job_digest
from edgewright.job_fields import JobFaultsError

__all__ = ["MOST_COMBINED", "Variant", "VariantGroup", "combined", "one_at_a_time"]

MOST_COMBINED: Final = 60
"""Combinations that are made at most; a limit in counts, so that the same job always gives the same ones."""


@dataclass(frozen=True, slots=True)
class Variant:
    """One way to do the job.

    Attributes
    ----------
    job
        None where there is no such job; ``why`` then says it in one sentence.
    as_written
        Whether it is the job as written.
    """

    name: str
    job: AnyJob | None
    as_written: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class VariantGroup:
    """Variants that answer one question, the job as written first.

    ``left_out`` counts combinations beyond the limit.
    """

    question: str
    heading: str
    variants: tuple[Variant, ...]
    left_out: int = 0


def one_at_a_time(job: AnyJob, questions: Collection[str]) -> tuple[VariantGroup, ...]:
    """Groups of variants that each change one thing of the job as written.

    Parameters
    ----------
    questions
        Names among `QUESTIONS`; the groups come in the order of those.
    """
    groups = []
    for factor in _factors(job, questions):
        written, others = _told_apart(job, factor)
        variants = (Variant(written, job, as_written=True), *(_variant(job, (choice,)) for choice in others))
        groups.append(VariantGroup(factor.question, factor.heading, variants))
    return tuple(groups)


def combined(job: AnyJob, questions: Collection[str], most: int = MOST_COMBINED) -> VariantGroup:
    """Combinations of all choices, those first that change the least of the job.

    Parameters
    ----------
    most
        Variants that are made at most, the job as written among them, at least 1.
    """
    factors = [_told_apart(job, factor)[1] for factor in _factors(job, questions)]
    made = [Variant("as written", job, as_written=True)]
    number = 1
    for choices in factors:
        number *= 1 + len(choices)
    for choices in _fewest_changes_first(factors):
        if len(made) >= most:
            break
        made.append(_variant(job, choices))
    return VariantGroup("all", "all combinations", tuple(made), number - len(made))


def _fewest_changes_first(factors: list[tuple[Choice, ...]]) -> Iterator[tuple[Choice, ...]]:
    for changes in range(1, len(factors) + 1):
        for chosen in combinations(factors, changes):
            yield from product(*chosen)


def _factors(job: AnyJob, questions: Collection[str]) -> Iterator[Factor]:
    asked = [question for name, question in QUESTIONS.items() if name in questions]
    if isinstance(job, Job):
        for question in asked:
            if question.plain is not None:
                yield from question.plain(job)
        return
    yield from _shaped_factors(job, asked)


def _shaped_factors(job: AnyJob, asked: Iterable[Question]) -> Iterator[Factor]:
    from edgewright.design.anytop.build import build_shaped
    from edgewright.job_shaped import ShapedJob

    assert isinstance(job, ShapedJob)
    try:
        design = build_shaped(job)
    except GeometryError:  # another variant may be possible all the same
        design = None
    for question in asked:
        yield from question.shaped_factors(job, design)


def _told_apart(job: AnyJob, factor: Factor) -> tuple[str, tuple[Choice, ...]]:
    """Name of what the job says, and the choices that say something else."""
    written, others = factor.written, []
    for choice in factor.choices:
        variant = _variant(job, (choice,))
        if variant.job is not None and job_digest(variant.job) == job_digest(job):
            written = choice.name
        else:
            others.append(choice)
    return written, tuple(others)


def _variant(job: AnyJob, choices: Iterable[Choice]) -> Variant:
    name = ", ".join(choice.name for choice in choices)
    try:
        for choice in choices:
            job = choice.change(job)
    except ValidationError as error:
        return Variant(name, None, why=_first_fault(error))
    except (InputError, GeometryError) as error:
        return Variant(name, None, why=str(error))
    return Variant(name, job)


def _first_fault(error: ValidationError) -> str:
    """Sentence of the first fault, as the job file would be told it."""
    detail = error.errors(include_url=False)[0]
    cause = detail.get("ctx", {}).get("error")
    return cause.faults[0][1] if isinstance(cause, JobFaultsError) else str(cause or detail["msg"])
