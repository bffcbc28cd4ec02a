"""What a finisher weighs before the first cut: the questions, their factors, and what can be chosen.

A question has one or more factors, and a factor its choices; each choice changes the job as written in one thing.
``QUESTIONS`` is the one place where a question is added: a top of another kind adds its own factors there.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from edgewright.compass import CORNERS, Side
from edgewright.display import show_mm
from edgewright.job import CornerLengths, Edge, Job, Trim
from edgewright.job_fields import Section
from edgewright.units import Length, Units, read_length

__all__ = ["QUESTIONS", "Choice", "Factor"]

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
class Choice:
    """One thing that can be chosen, and how it changes a job; the change may raise what a faulty job file raises."""

    name: str
    change: Callable[[Job], Job]


@dataclass(frozen=True, slots=True)
class Factor:
    """Choices of which one is taken; ``written`` names what the job says where no choice says the same."""

    question: str
    heading: str
    written: str
    choices: tuple[Choice, ...]


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


def _side_factors(job: Job) -> Iterator[Factor]:
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
            choices = [Choice(name, _trim_change(high, low, share, total)) for name, share in shares]
            written = f"{_shown(off_high, job.units)} {high}, {_shown(off_low, job.units)} {low}"
            heading = f"where {_shown(total, job.units)} of the {axis} come off"
            yield Factor("sides", heading, written, tuple(choices))


def _trim_change(high: Side, low: Side, off_high: Fraction, total: Fraction) -> Callable[[Job], Job]:
    def change(job: Job) -> Job:
        amounts = {side: mm for side, mm in job.amounts.items() if mm} | {
            high: off_high,
            low: total - off_high,
        }
        trims = {side: Length(f"{float(mm):.6g} mm", mm) for side, mm in amounts.items()}
        return _with(job, trim=Trim.model_validate(trims))

    return change


def _corner_factors(job: Job) -> Iterator[Factor]:
    """How strips meet at the corners."""
    choices = (
        Choice("butt long through", lambda job: _with_edge(job, corners="butt", through="long")),
        Choice("butt short through", lambda job: _with_edge(job, corners="butt", through="short")),
        Choice("pinwheel", lambda job: _with_edge(job, corners="pinwheel")),
        Choice("mitre", lambda job: _with_edge(job, corners="mitre")),
    )
    yield Factor("corners", "how the strips meet at the corners", "as written", choices)


def _layer_factors(job: Job) -> Iterator[Factor]:
    """Layers of strips under the top."""

    def change(layers: int) -> Callable[[Job], Job]:
        return lambda job: _with_edge(job, layers=layers)

    choices = tuple(Choice(_layers(number), change(number)) for number in LAYERS)
    yield Factor("layers", "layers of strips", _layers(job.edge.layers), choices)


def _layers(number: int) -> str:
    return f"{number} layer{'s' * (number > 1)}"


def _radius_factors(job: Job) -> Iterator[Factor]:
    """Round-overs of both arrises, and corners seen from above."""
    edge, units = job.edge, job.units
    formed = any(getattr(edge, key) for key in _FORMS & edge.model_fields_set)
    top, bottom = (_shown(r.exact_mm, units) for r in (edge.top_round_over, edge.bottom_round_over))
    written = "edge forms as written" if formed else f"{top} above, {bottom} below"
    bits = tuple(Choice(f"{bit} round-overs", _bit_change(bit)) for bit in BITS[units])
    yield Factor("radii", "round-overs above and below", written, bits)
    radii = {edge.corner_radius[corner].exact_mm for corner in CORNERS}
    written = f"{_shown(max(radii), units)} corners" if len(radii) == 1 else "corner radii as written"
    corners = tuple(Choice(_corner_name(radius), _corner_change(radius)) for radius in CORNER_RADII[units])
    yield Factor("radii", "corner radii, seen from above", written, corners)


def _bit_change(bit: str) -> Callable[[Job], Job]:
    radius = read_length(bit)
    return lambda job: _with_edge(job, without=_FORMS, top_round_over=radius, bottom_round_over=radius)


def _corner_name(radius: str) -> str:
    return "square corners" if radius.startswith("0") else f"{radius} corners"


def _corner_change(radius: str) -> Callable[[Job], Job]:
    lengths = CornerLengths.model_validate(dict.fromkeys(CORNERS, read_length(radius)))
    return lambda job: _with_edge(job, corner_radius=lengths)


QUESTIONS: Final[dict[str, Callable[[Job], Iterator[Factor]]]] = {
    "sides": _side_factors,
    "corners": _corner_factors,
    "layers": _layer_factors,
    "radii": _radius_factors,
}
"""What can be asked, in the order in which it is told; each gives the factors that a job has, none where none apply."""
