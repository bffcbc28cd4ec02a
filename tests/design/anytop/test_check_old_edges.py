"""Findings 206 and 319: edges that stay as they were."""

from __future__ import annotations

import pytest
from anytop_jobs import BOARD, job

from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.check_old_edges import trim_at
from edgewright.jobfile import parse_any_job

FLAT = 'build_up = "flat"\ntop_round_over = 5\nbottom_round_over = 5'
LIVE = 'shape = "stations"\nstraight = "south"\nat = [0, 300, 600, 900]\nnorth = [400, 420, 410, 430]'


def found(number: int, outline: str = BOARD, edge: str = FLAT, more: str = "", top: str = ""):
    text = (
        '[job]\ntitle = "t"\nunits = "mm"\n[top]\nthickness = 20\nmaterial = "plywood"\n'
        f"{top}\n[top.outline]\n{outline}\n[edge]\n{edge}\n{more}"
    )
    return [one for one in build_shaped(parse_any_job(text)).findings if one.number == number]


ARRIS = "finished_edge = {depth = 10, arris_radius = 8}"


@pytest.mark.example
@pytest.mark.parametrize(
    ("trim", "figures"),
    [
        ("", ["south, east, north, west: arris radius 8 mm, not trimmed"]),
        (
            "[trim.edges]\nnorth = 30\neast = 5\n",
            ["east: arris radius 8 mm, trim 5 mm", "south, west: arris radius 8 mm, not trimmed"],
        ),
        ("[trim]\nall_round = 6\n", ["south, east, north, west: arris radius 8 mm, trim 6 mm"]),
        ("[trim]\nall_round = 8\n", []),
        ('[trim]\nto = {shape = "rectangle", length = 960, width = 560}\n', []),
        # a circle that touches both long sides
        (
            '[trim]\nto = {shape = "round", diameters = 600}\n',
            ["south half, north half: arris radius 8 mm, not trimmed"],
        ),
    ],
)
def test_206_every_edge_from_which_less_comes_off_than_its_arris(trim: str, figures: list[str]) -> None:
    told = found(206, more=trim, top=ARRIS)
    assert sorted(one.figures for one in told) == figures
    assert {(one.severity, one.title) for one in told} <= {("warn", "old arris above a strip")}


@pytest.mark.example
def test_206_needs_a_strip_and_an_arris() -> None:
    assert found(206) == []
    assert found(206, edge='build_up = "none"', top=ARRIS) == []


@pytest.mark.example
def test_the_trim_of_a_slanting_cut_is_its_least() -> None:
    """Parallel to the south edge of a taper of 400 to 300, at 290: 10 at the narrow end."""
    outline = 'shape = "tapered"\nlength = 1000\nwest_width = 400\neast_width = 300\nsquare_side = "south"'
    design = build_shaped(
        job(outline, more='[trim]\nparallel = {edge = "north", to = "south", distance = 290}\n')
    )
    sawn = design.trims.finished
    north = dict(zip(sawn.names, sawn.outline.segments, strict=True))["north"]
    # at the narrow end the old edge ends right above
    assert trim_at(north, design.old) == pytest.approx(10, rel=1e-9)


@pytest.mark.example
def test_319_strips_under_a_live_edge() -> None:
    (one,) = found(319, LIVE)
    assert (one.severity, one.place) == ("warn", "north")
    assert "straight outer edge" in one.change
    # one that is cut is live no longer
    assert found(319, LIVE, more="[trim]\nlargest_rectangle = true\n") == []


@pytest.mark.example
def test_319_a_live_edge_is_routed_only_when_asked() -> None:
    plain = 'build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5\n'
    assert found(319, LIVE, plain) == []
    (one,) = found(319, LIVE, plain + "unrouted = []")
    assert (one.severity, one.place) == ("note", "north")
    assert "bark" in one.change
    # no form, no bearing
    assert (
        found(319, LIVE, 'build_up = "none"\ntop_round_over = 0\nbottom_round_over = 0\nunrouted = []') == []
    )
