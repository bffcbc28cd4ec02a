"""What the stages count, and what is settled of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.column_generation.pool import Column, SplicePool

__all__ = ["SCALE", "Budget", "Weights", "material_cost", "sticks_touched"]

#: What one unit of a stage is in whole-number prices.
SCALE: Final = 10_000_000


@dataclass(frozen=True, slots=True)
class Weights:
    """What a stage counts: so much a splice, a lane (strip), and a stick of each way; or the settings of the fence.

    Fence settings are no sum over sticks: they are counted in whole numbers only, and no relaxation knows of them.
    """

    splice: int = 0
    lane: int = 0
    ways: tuple[int, ...] = ()
    fence: bool = False

    def of(self, column: Column) -> int:
        """What one component counts."""
        return self.splice * column.splices + self.lane * column.strips

    def total(self, columns: Sequence[Column], counts: Sequence[int], ways: Sequence[int]) -> int:
        """What a choice of columns and ways counts."""
        value = sum(self.of(column) * n for column, n in zip(columns, counts, strict=True))
        return value + (sum(w * n for w, n in zip(self.ways, ways, strict=True)) if self.ways else 0)


@dataclass(frozen=True, slots=True)
class Budget:
    """A stage that is settled: its weights may add up to so much at most."""

    weights: Weights
    most: int


def material_cost(pool: SplicePool) -> Weights:
    """The stage that counts what the sticks cost (cents)."""
    return Weights(ways=tuple(way.price for way in pool.ways))


def sticks_touched(pool: SplicePool) -> Weights:
    """The stage that counts sticks."""
    return Weights(ways=(1,) * len(pool.ways))
