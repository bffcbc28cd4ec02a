"""Clean runs of a strip: what a defect takes, what the kerf between two runs takes, what touches nothing."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.clean_runs import NO_CLEARANCE, Clearance, clean_runs, strip_lanes
from edgewright.cutlist.model import DefectBox

KERF = 5


def box(low: int, high: int, *, across: tuple[int, int] = (0, 10), metal: bool = False) -> DefectBox:
    return DefectBox("hole", metal, (low, high), across)


def runs(
    *boxes: DefectBox, clearance: Clearance = NO_CLEARANCE, grid: int = 1
) -> tuple[tuple[int, int], ...]:
    """Of a strip 100 long that lies from 2 to 8 across."""
    return clean_runs(0, 100, (2, 8), boxes, clearance, KERF, grid)


@pytest.mark.example
def test_a_defect_divides_a_strip_and_keeps_its_clearance() -> None:
    assert runs() == ((0, 100),)
    assert runs(box(40, 50)) == ((0, 40), (50, 100))
    assert runs(box(40, 50), clearance=Clearance(3)) == ((0, 37), (53, 100))
    assert runs(box(-5, 10), box(90, 130)) == ((10, 90),)
    assert runs(box(-5, 130)) == ()


@pytest.mark.example
def test_a_kerf_fits_the_waste_or_shortens_the_run_behind_it() -> None:
    """Kerf 5: waste of 5 holds it, waste of 3 leaves 2 of it to the run behind."""
    assert runs(box(40, 45)) == ((0, 40), (45, 100))
    assert runs(box(40, 43)) == ((0, 40), (45, 100))
    # nothing lies before the first run, so no kerf is needed there
    assert runs(box(0, 2)) == ((2, 100),)


@pytest.mark.example
def test_metal_keeps_the_kerf_away_too() -> None:
    """Kerf 5 and 4 clear of metal: the pieces end 9 from it."""
    assert runs(box(40, 50, metal=True), clearance=Clearance(3, 4)) == ((0, 31), (59, 100))
    assert runs(box(40, 50, metal=True), clearance=Clearance(20, 4)) == ((0, 20), (70, 100))


@pytest.mark.example
def test_what_lies_beside_the_strip_touches_nothing() -> None:
    for across in ((0, 2), (8, 10)):
        assert runs(box(40, 50, across=across), clearance=Clearance(3)) == ((0, 100),)
    for across in ((0, 3), (7, 10), (4, 5)):
        assert len(runs(box(40, 50, across=across))) == 2


@pytest.mark.example
def test_a_run_begins_on_the_bench_grid() -> None:
    assert runs(box(40, 51), grid=8) == ((0, 40), (56, 100))


@pytest.mark.example
def test_names_of_runs_and_what_lies_around_them() -> None:
    (one,) = strip_lanes("north 1", 100, 6, ((10, 90),))
    assert (one.id, one.strip, one.trim_start_ticks, one.length_ticks, one.trim_end_ticks) == (
        *("north 1", "north 1"),
        *(10, 80, 10),
    )
    two = strip_lanes("north 1", 100, 6, ((0, 40), (50, 100)))
    assert [lane.id for lane in two] == ["north 1a", "north 1b"]
    assert {(lane.strip, lane.raw_ticks) for lane in two} == {("north 1", 100)}
    (none,) = strip_lanes("north 1", 100, 6, ())
    assert (none.length_ticks, none.raw_ticks) == (0, 100)
    many = strip_lanes("x", 1000, 6, [(10 * n, 10 * n + 4) for n in range(30)])
    assert [lane.id for lane in many[25:28]] == ["xz", "xaa", "xab"]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    st.lists(st.tuples(st.integers(-20, 120), st.integers(1, 40), st.booleans()), max_size=6),
    st.integers(0, 8),
    st.integers(1, 7),
)
def test_runs_by_going_along_the_strip_tick_by_tick(
    spans: list[tuple[int, int, bool]], wood: int, grid: int
) -> None:
    """Every tick that is clean belongs to a run, but for what the grid and a kerf take at a run's start."""
    clearance = Clearance(wood, 2)
    boxes = [box(low, low + size, metal=metal) for low, size, metal in spans]
    found = runs(*boxes, clearance=clearance, grid=grid)

    def clean(tick: int) -> bool:
        around = [max(wood, KERF + 2) if b.metal else wood for b in boxes]
        return not any(
            b.along_ticks[0] - c < tick + 1 and tick < b.along_ticks[1] + c
            for b, c in zip(boxes, around, strict=True)
        )

    kept = {tick for low, high in found for tick in range(low, high)}
    assert all(map(clean, kept))
    assert all(b[0] - a[1] >= KERF for a, b in pairwise(found))
    lost = [tick for tick in range(100) if clean(tick) and tick not in kept]
    for tick in lost:
        # it lies just behind a defect, less than a kerf and a step of the grid
        behind = next(n for n in range(tick, -2, -1) if n < 0 or not clean(n))
        assert behind >= 0
        assert tick - behind <= KERF + grid
