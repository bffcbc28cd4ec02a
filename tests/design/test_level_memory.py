"""Levels that remember give the same figures, each worked out once."""

from __future__ import annotations

import pytest
from region_cases import LENS, SHARP_L

from edgewright.design.curved_level import CurvedLevel
from edgewright.design.front import Front
from edgewright.design.level_memory import remembered
from edgewright.design.levels import area_at, perimeter_at
from edgewright.design.wavefront import region_levels


@pytest.mark.example
def test_straight_pieces_are_left_as_they_are() -> None:
    (levels,) = region_levels(SHARP_L, 12.0)
    assert remembered(levels) == levels


@pytest.mark.example
def test_curved_pieces_are_asked_once_for_each_inset(monkeypatch: pytest.MonkeyPatch) -> None:
    (levels,) = region_levels(LENS, 12.0)
    asked: list[float] = []
    corner_at = Front.corner_at

    def counted(self: Front, number: int, d: float):
        asked.append(d)
        return corner_at(self, number, d)

    monkeypatch.setattr(Front, "corner_at", counted)
    kept = remembered(levels)
    assert all(isinstance(level, CurvedLevel) for level in kept)
    lengths, areas = ([figure(kept, 7.0) for _ in range(3)] for figure in (perimeter_at, area_at))
    assert len(asked) == 2 * len(LENS.segments)  # two corners, for the length and for the area
    assert lengths == [perimeter_at(levels, 7.0)] * 3
    assert areas == [area_at(levels, 7.0)] * 3
