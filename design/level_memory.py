"""Curved pieces of levels that remember what was asked: areas and volumes of a form meet the same insets again."""

from __future__ import annotations

from dataclasses import dataclass, field, fields

from edgewright.design.curved_level import CurvedLevel
from edgewright.design.levels import Level, Levels

__all__ = ["remembered"]


@dataclass(frozen=True, slots=True)
class _Remembered(CurvedLevel):
    lengths: dict[float, float] = field(default_factory=dict, compare=False)
    areas: dict[float, float] = field(default_factory=dict, compare=False)

    def perimeter(self, d: float) -> float:
        found = self.lengths.get(d)
        if found is None:
            found = self.lengths[d] = CurvedLevel.perimeter(self, d)
        return found

    def area(self, d: float) -> float:
        found = self.areas.get(d)
        if found is None:
            found = self.areas[d] = CurvedLevel.area(self, d)
        return found


def remembered(levels: Levels) -> Levels:
    """The same levels, each figure of a curved piece worked out once for as long as they are held."""
    return tuple(
        level
        if isinstance(level, Level)
        else _Remembered(**{one.name: getattr(level, one.name) for one in fields(CurvedLevel)})
        for level in levels
    )
