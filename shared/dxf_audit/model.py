"""What an audit tells, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["CheckFigures", "Fault", "LayerAudit"]


@dataclass(frozen=True, slots=True)
class CheckFigures:
    """What a file says of a layer, in drawing units; ``step`` is the last place of its figures."""

    layer: str
    closed: int
    open: int
    length: float
    area: float
    step: float


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault: a word for its kind, the layer (empty for the whole file), one sentence."""

    kind: str
    layer: str
    message: str


@dataclass(frozen=True, slots=True)
class LayerAudit:
    """Figures of a layer, in mm.

    Attributes
    ----------
    closed, open
        Loops, and lines that are not closed.
    saw_lines
        Whether its open lines are meant to be open.
    box
        x min, y min, x max, y max.
    length, area
        Of all lines; within its loops.
    """

    name: str
    cut: bool
    closed: int
    open: int
    saw_lines: bool
    box: tuple[float, float, float, float]
    length: float
    area: float

    def agrees(self, figures: CheckFigures, mm: float) -> bool:
        """Whether check figures, in drawing units of so many mm, say the same."""
        counts = (self.closed, self.open) == (figures.closed, figures.open)
        close = (
            abs(got / unit - said) <= 2 * figures.step + 1e-8 * said
            for got, unit, said in ((self.length, mm, figures.length), (self.area, mm * mm, figures.area))
        )
        return counts and all(close)
