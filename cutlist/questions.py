"""The questions that `edgewright compare` asks: the one place where a question is added.

Each has the factors of a rectangular top and those of a top with an outline; either may be missing. A function that
gives factors yields none where the question does not arise.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from edgewright.cutlist.variant_choices import Factor
from edgewright.cutlist.variant_factors import corner_factors, layer_factors, radius_factors, side_factors
from edgewright.job import Job

if TYPE_CHECKING:
    from edgewright.design.anytop.model import ShapedDesign
    from edgewright.job_shaped import ShapedJob

__all__ = ["QUESTIONS", "Question"]


@dataclass(frozen=True, slots=True)
class Question:
    """What can be chosen of one thing.

    Attributes
    ----------
    says
        What is varied, in a few words.
    plain
        Factors of a top given by length and width.
    shaped
        Module and function that gives the factors of a top with an outline, from its job and the design of the job as
        written (None where there is no such top). It is loaded when it is asked for: a plain job needs no shapes.
    """

    says: str
    plain: Callable[[Job], Iterator[Factor]] | None
    shaped: tuple[str, str] | None

    def shaped_factors(self, job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
        """Factors of a top with an outline."""
        if self.shaped is None:
            return iter(())
        from importlib import import_module

        factors: Callable[[ShapedJob, ShapedDesign | None], Iterator[Factor]] = getattr(
            import_module(self.shaped[0]), self.shaped[1]
        )
        return factors(job, design)


_EDGE: Final = "edgewright.cutlist.shaped_factors"
_TRIM: Final = "edgewright.cutlist.shaped_trim_factors"

QUESTIONS: Final[dict[str, Question]] = {
    "sides": Question("which side the trim comes off", side_factors, (_TRIM, "edge_factors")),
    "corners": Question("how the strips meet", corner_factors, (_EDGE, "shaped_corner_factors")),
    "layers": Question("layers of strips", layer_factors, (_EDGE, "shaped_layer_factors")),
    "radii": Question("round-overs, forms, corner radii", radius_factors, (_EDGE, "shaped_radius_factors")),
    "segments": Question("segments in a circle of the build-up", None, (_EDGE, "segment_factors")),
    "build_up": Question("flat strips or a skirt", None, (_EDGE, "build_up_factors")),
    "orders": Question("order of the cuts", None, (_TRIM, "order_factors")),
    "fits": Question("how an odd top is made true", None, (_TRIM, "fit_factors")),
}
"""What can be asked, in the order in which it is told."""
