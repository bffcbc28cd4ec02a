"""Which variants of a job a finisher weighs before the first cut: the questions, and the jobs that answer them.

A question has one or more factors, and a factor its choices; each choice changes the job as written in one thing.
``QUESTIONS`` is the one place where a question is added: a top of another kind adds its own factors there.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, product
from typing import Any, Final

from pydantic import ValidationError

from edgewright.compass import CORNERS, Side
from edgewright.display import show_mm
from edgewright.errors import InputError
from edgewright.job import CornerLengths, Edge, Job, Trim, job_digest
from edgewright.job_fields import JobFaultsError, Section
from edgewright.units import Length, Units, read_length

__all__ = ["MOST_COMBINED", "QUESTIONS", "Variant", "VariantGroup", "combined", "one_at_a_time"]

MOST_COMBINED: Final = 60
"""Combinations that are made at most; a limit in counts, so that the same job always gives the same ones."""

LAYERS: Final = (1, 2, 3)
#: Round-over bits of most shops. Common practice, no source.
BITS: Final[dict[Units, tuple[str, ...]]] = {
    "in": ("1/4 in", "3/8 in", "1/2 in", "5/8 in"),
    "mm": ("6 mm", "10 mm", "12 mm", "16 mm"),
}
#: From a square corner to one that a hip slides past. Common practice, no source.
CORNER_RADII: Final[dict[Units, tuple[str, ...]]] = {
    "in": ("0 in", "1 in", "2 in", "4 in"),
    "mm": ("0 mm", "25 mm", "50 mm", "100 mm"),
}
#: Keys of [edge] that stand in for a round-over.
_FORMS: Final = frozenset(("top_form", "bottom_form", "bullnose"))


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
    job: Job | None
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


@dataclass(frozen=True, slots=True)
class _Choice:
    name: str
    change: Callable[[Job], Job]


@dataclass(frozen=True, slots=True)
class _Factor:
    """One thing that can be chosen; ``written`` names what the job says where no choice says the same."""

    question: str
    heading: str
    written: str
    choices: tuple[_Choice, ...]


def one_at_a_time(job: Job, questions: Collection[str]) -> tuple[VariantGroup, ...]:
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


def combined(job: Job, questions: Collection[str], most: int = MOST_COMBINED) -> VariantGroup:
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


def _fewest_changes_first(factors: list[tuple[_Choice, ...]]) -> Iterator[tuple[_Choice, ...]]:
    for changes in range(1, len(factors) + 1):
        for chosen in combinations(factors, changes):
            yield from product(*chosen)


def _factors(job: Job, questions: Collection[str]) -> Iterator[_Factor]:
    for name, factors in QUESTIONS.items():
        if name in questions:
            yield from factors(job)


def _told_apart(job: Job, factor: _Factor) -> tuple[str, tuple[_Choice, ...]]:
    """Name of what the job says, and the choices that say something else."""
    written, others = factor.written, []
    for choice in factor.choices:
        variant = _variant(job, (choice,))
        if variant.job is not None and job_digest(variant.job) == job_digest(job):
            written = choice.name
        else:
            others.append(choice)
    return written, tuple(others)


def _variant(job: Job, choices: Iterable[_Choice]) -> Variant:
    name = ", ".join(choice.name for choice in choices)
    try:
        for choice in choices:
            job = choice.change(job)
    except ValidationError as error:
        return Variant(name, None, why=_first_fault(error))
    except InputError as error:
        return Variant(name, None, why=str(error))
    return Variant(name, job)


def _first_fault(error: ValidationError) -> str:
    """Sentence of the first fault, as the job file would be told it."""
    detail = error.errors(include_url=False)[0]
    cause = detail.get("ctx", {}).get("error")
    return cause.faults[0][1] if isinstance(cause, JobFaultsError) else str(cause or detail["msg"])


def _given(section: Section) -> dict[str, Any]:
    """What a table of the job gives, by the keys of the file; what it leaves out keeps its default."""
    fields = type(section).model_fields
    return {fields[name].alias or name: getattr(section, name) for name in section.model_fields_set}


def _with(job: Job, **tables: Section) -> Job:
    """The job with other tables, checked as a job file is."""
    return Job.model_validate(_given(job) | tables)


def _with_edge(job: Job, without: Collection[str] = (), **keys: object) -> Job:
    kept = {key: value for key, value in _given(job.edge).items() if key not in without}
    return _with(job, edge=Edge.model_validate(kept | keys))


def _shown(mm: Fraction, units: Units) -> str:
    return show_mm(float(mm), units)


def _side_factors(job: Job) -> Iterator[_Factor]:
    """Share out what comes off the width, and what comes off the length."""
    axes: tuple[tuple[str, Side, Side, str], ...] = (
        ("width", "north", "south", "half off each side"),
        ("length", "east", "west", "half off each end"),
    )
    for axis, high, low, half in axes:
        off_high, off_low = job.amounts[high], job.amounts[low]
        total = off_high + off_low
        if total > 0:
            shares = (
                (f"all off {high}", total),
                (f"all off {low}", Fraction(0)),
                (half, total / 2),
            )
            choices = [_Choice(name, _trim_change(high, low, share, total)) for name, share in shares]
            written = f"{_shown(off_high, job.units)} {high}, {_shown(off_low, job.units)} {low}"
            heading = f"where {_shown(total, job.units)} of the {axis} come off"
            yield _Factor("sides", heading, written, tuple(choices))


def _trim_change(high: Side, low: Side, off_high: Fraction, total: Fraction) -> Callable[[Job], Job]:
    def change(job: Job) -> Job:
        amounts = {side: mm for side, mm in job.amounts.items() if mm} | {
            high: off_high,
            low: total - off_high,
        }
        trims = {side: Length(f"{float(mm):.6g} mm", mm) for side, mm in amounts.items()}
        return _with(job, trim=Trim.model_validate(trims))

    return change


def _corner_factors(job: Job) -> Iterator[_Factor]:
    """How strips meet at the corners."""
    choices = (
        _Choice("butt long through", lambda job: _with_edge(job, corners="butt", through="long")),
        _Choice("butt short through", lambda job: _with_edge(job, corners="butt", through="short")),
        _Choice("pinwheel", lambda job: _with_edge(job, corners="pinwheel")),
        _Choice("mitre", lambda job: _with_edge(job, corners="mitre")),
    )
    yield _Factor("corners", "how the strips meet at the corners", "as written", choices)


def _layer_factors(job: Job) -> Iterator[_Factor]:
    """Layers of strips under the top."""

    def change(layers: int) -> Callable[[Job], Job]:
        return lambda job: _with_edge(job, layers=layers)

    choices = tuple(_Choice(_layers(number), change(number)) for number in LAYERS)
    yield _Factor("layers", "layers of strips", _layers(job.edge.layers), choices)


def _layers(number: int) -> str:
    return f"{number} layer{'s' * (number > 1)}"


def _radius_factors(job: Job) -> Iterator[_Factor]:
    """Round-overs of both arrises, and corners seen from above."""
    edge, units = job.edge, job.units
    formed = any(getattr(edge, key) for key in _FORMS & edge.model_fields_set)
    top, bottom = (_shown(r.exact_mm, units) for r in (edge.top_round_over, edge.bottom_round_over))
    written = "edge forms as written" if formed else f"{top} above, {bottom} below"
    bits = tuple(_Choice(f"{bit} round-overs", _bit_change(bit)) for bit in BITS[units])
    yield _Factor("radii", "round-overs above and below", written, bits)
    radii = {edge.corner_radius[corner].exact_mm for corner in CORNERS}
    written = f"{_shown(max(radii), units)} corners" if len(radii) == 1 else "corner radii as written"
    corners = tuple(_Choice(_corner_name(radius), _corner_change(radius)) for radius in CORNER_RADII[units])
    yield _Factor("radii", "corner radii, seen from above", written, corners)


def _bit_change(bit: str) -> Callable[[Job], Job]:
    radius = read_length(bit)
    return lambda job: _with_edge(job, without=_FORMS, top_round_over=radius, bottom_round_over=radius)


def _corner_name(radius: str) -> str:
    return "square corners" if radius.startswith("0") else f"{radius} corners"


def _corner_change(radius: str) -> Callable[[Job], Job]:
    lengths = CornerLengths.model_validate(dict.fromkeys(CORNERS, read_length(radius)))
    return lambda job: _with_edge(job, corner_radius=lengths)


QUESTIONS: Final[dict[str, Callable[[Job], Iterator[_Factor]]]] = {
    "sides": _side_factors,
    "corners": _corner_factors,
    "layers": _layer_factors,
    "radii": _radius_factors,
}
"""What can be asked, in the order in which it is told; each gives the factors that a job has, none where none apply."""
