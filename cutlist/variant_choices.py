"""What can be chosen in a job: a factor, its choices, and how each changes the job as written in one thing.

Round-overs, layers and corner radii are chosen alike for tops of any shape; they stand here.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final, TypeVar

from edgewright.compass import CORNERS
from edgewright.display import show_mm
from edgewright.job import CornerLengths
from edgewright.job_any import AnyJob
from edgewright.job_fields import Section
from edgewright.units import Units, read_length

__all__ = [
    "BITS",
    "CORNER_RADII",
    "FORMS",
    "LAYERS",
    "Choice",
    "Factor",
    "corner_radius_factor",
    "counted_layers",
    "given",
    "layer_factor",
    "length_text",
    "round_over_factor",
    "with_edge",
    "with_tables",
]

J = TypeVar("J", bound=AnyJob)

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
FORMS: Final = frozenset(("top_form", "bottom_form", "bullnose"))


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing that can be chosen, and how it changes a job of the kind that the factor was made for.

    The change may raise what a faulty job file raises.
    """

    name: str
    change: Callable[[Any], AnyJob]


@dataclass(frozen=True, slots=True)
class Factor:
    """Choices of which one is taken; ``written`` names what the job says where no choice says the same."""

    question: str
    heading: str
    written: str
    choices: tuple[Choice, ...]


def given(section: Section) -> dict[str, Any]:
    """What a table of the job gives, by the keys of the file; what it leaves out keeps its default."""
    fields = type(section).model_fields
    return {fields[name].alias or name: getattr(section, name) for name in section.model_fields_set}


def with_tables(job: J, **tables: Section) -> J:
    """The job with other tables, checked as a job file is."""
    return type(job).model_validate(given(job) | tables)


def with_edge(job: J, without: Collection[str] = (), **keys: object) -> J:
    """The job with other keys under [edge], and those of ``without`` left out."""
    kept = {key: value for key, value in given(job.edge).items() if key not in without}
    return with_tables(job, edge=type(job.edge).model_validate(kept | keys))


def length_text(mm: Fraction, units: Units) -> str:
    """Show an exact length (mm)."""
    return show_mm(float(mm), units)


def layer_factor(job: AnyJob) -> Factor:
    """Layers of strips under the top."""

    def change(layers: int) -> Callable[[AnyJob], AnyJob]:
        return lambda job: with_edge(job, layers=layers)

    choices = tuple(Choice(counted_layers(number), change(number)) for number in LAYERS)
    return Factor("layers", "layers of strips", counted_layers(job.edge.layers), choices)


def counted_layers(number: int) -> str:
    """Write a number of layers, like ``2 layers``."""
    return f"{number} layer{'s' * (number > 1)}"


def round_over_factor(job: AnyJob, more: tuple[Choice, ...] = ()) -> Factor:
    """Round-overs of both arrises, and ``more`` forms."""
    edge, units = job.edge, job.units
    formed = any(getattr(edge, key) for key in FORMS & edge.model_fields_set)
    top, bottom = (length_text(r.exact_mm, units) for r in (edge.top_round_over, edge.bottom_round_over))
    written = "edge forms as written" if formed else f"{top} above, {bottom} below"
    bits = tuple(Choice(f"{bit} round-overs", _bit_change(bit)) for bit in BITS[units])
    return Factor("radii", "round-overs above and below", written, (*bits, *more))


def corner_radius_factor(job: AnyJob) -> Factor:
    """Corners seen from above."""
    units = job.units
    radii = {job.edge.corner_radius[corner].exact_mm for corner in CORNERS}
    written = f"{length_text(max(radii), units)} corners" if len(radii) == 1 else "corner radii as written"
    corners = tuple(Choice(_corner_name(radius), _corner_change(radius)) for radius in CORNER_RADII[units])
    return Factor("radii", "corner radii, seen from above", written, corners)


def _bit_change(bit: str) -> Callable[[AnyJob], AnyJob]:
    radius = read_length(bit)
    return lambda job: with_edge(job, without=FORMS, top_round_over=radius, bottom_round_over=radius)


def _corner_name(radius: str) -> str:
    return "square corners" if radius.startswith("0") else f"{radius} corners"


def _corner_change(radius: str) -> Callable[[AnyJob], AnyJob]:
    lengths = CornerLengths.model_validate(dict.fromkeys(CORNERS, read_length(radius)))
    return lambda job: with_edge(job, corner_radius=lengths)
