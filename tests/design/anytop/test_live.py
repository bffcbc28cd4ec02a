"""Live edges are left as they grew, unless the job says so or they are cut."""

from __future__ import annotations

import pytest
from anytop_jobs import design

LIVE = 'shape = "stations"\nstraight = "south"\nat = [0, 300, 600, 900]\nnorth = [400, 420, 410, 430]'
BOTH = 'shape = "stations"\nat = [0, 300, 600]\nnorth = [200, 220, 210]\nsouth = [200, 210, 205]'
EDGE = 'build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5\n'


def routed(outline: str, edge: str = EDGE, more: str = "") -> list[str]:
    """Names of the edges that are routed; every length is told once."""
    found = design(outline, edge, more)
    assert sum(run.length for run in found.runs) == pytest.approx(found.finished.outline.length)
    return [run.name for run in found.runs if run.routed]


@pytest.mark.example
def test_traced_sides_are_left_by_default() -> None:
    assert routed(LIVE) == ["south", "east end", "west end"]
    assert routed(BOTH) == ["east end", "west end"]


@pytest.mark.example
def test_the_job_may_say_itself_what_is_routed() -> None:
    assert len(routed(LIVE, EDGE + "unrouted = []")) == 6
    assert routed(LIVE, EDGE + 'unrouted = ["north"]') == routed(LIVE)
    assert routed(LIVE, EDGE + 'unrouted = ["north", "west end"]') == ["south", "east end"]
    assert "north, station 1 to 2" in routed(LIVE, EDGE + 'unrouted = ["west end"]')


@pytest.mark.example
def test_a_rounding_between_live_edges_is_live() -> None:
    names = routed(LIVE, EDGE + "corner_radius = 10")
    assert [name for name in names if "north" in name] == [
        "corner of east end and north, station 3 to 4",
        "corner of north, station 1 to 2 and west end",
    ]


@pytest.mark.example
def test_what_is_cut_is_live_no_longer() -> None:
    # the bark side is still there when the other one is cut
    assert sorted(routed(LIVE, more="[trim.edges]\nsouth = 20\n")) == sorted(routed(LIVE))
    for way in ("all_round = 10", "largest_rectangle = true"):
        found = design(LIVE, EDGE, f"[trim]\n{way}\n")
        assert all(run.routed for run in found.runs)


@pytest.mark.example
def test_a_top_with_nothing_but_bark_has_nothing_routed() -> None:
    pointed = 'shape = "stations"\nat = [0, 300, 600]\nnorth = [0, 220, 0]\nsouth = [0, 210, 0]'
    found = design(pointed, EDGE)
    assert not any(run.routed for run in found.runs)
    assert found.metrics is not None
    assert found.metrics.solid_volume_mm3 == pytest.approx(found.finished.outline.area * 20)
