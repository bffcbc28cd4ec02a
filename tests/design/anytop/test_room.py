"""Base, chairs and knees at a top of any outline."""

from __future__ import annotations

import pytest
from anytop_jobs import BOARD, PLAIN_EDGE, design

from edgewright.design.anytop.ring import USUAL_WIDTH_MM, strip_floor_mm
from edgewright.design.build import build_design
from edgewright.findings import Finding
from edgewright.jobfile import parse_any_job

FLAT = 'build_up = "flat"\n'
ROUND = 'shape = "round"\ndiameters = [1219.2]'
SEATED = "[seating]\ntable_height = 740\narm_height = 720\nseat_height = 600\nseats = 9\naccessible = true\n"


def found(outline: str, edge: str, more: str, *numbers: int) -> list[Finding]:
    return [one for one in design(outline, edge, more).findings if one.number in numbers]


@pytest.mark.example
@pytest.mark.parametrize(
    "base",
    ["overhang = 60\napron_depth = 90", "footprint_length = 900\nfootprint_width = 700\napron_depth = 90"],
)
def test_rectangle_with_an_outline_is_told_what_one_without_is_told(base: str) -> None:
    room = {401, 402, 403, 404, 405, 406, 407, 408}
    more = f"north = 150\neast = 20\n[base]\n{base}\n{SEATED}"
    edge = "[edge]\nstrip_width = 30\n"
    head = '[job]\ntitle = "t"\nunits = "mm"\n[top]\nthickness = 20\nmaterial = "plywood"\n'
    plain = build_design(parse_any_job(f"{head}length = 1200\nwidth = 900\n{edge}[trim]\n{more}"))
    shaped = design(
        'shape = "rectangle"\nlength = 1200\nwidth = 900', "strip_width = 30", "[trim.edges]\n" + more
    )
    told = [one for one in plain.findings if one.number in room]
    assert {401, 402, 403, 404, 405, 407, 408} <= {one.number for one in told}
    assert [one for one in shaped.findings if one.number in room] == told


@pytest.mark.example
def test_a_job_without_base_and_seating_is_told_nothing_but_the_way_off_the_middle() -> None:
    assert found(BOARD, PLAIN_EDGE, "", *range(401, 409)) == []
    (one,) = found(BOARD, PLAIN_EDGE, "[trim.edges]\nnorth = 40\n", *range(401, 409))
    assert (one.number, one.severity) == (401, "warn")
    assert one.figures.startswith("if the base stays where it is: base centre 20 mm north")


@pytest.mark.example
def test_strips_end_an_eighth_of_an_inch_before_the_base() -> None:
    """45 mm less 1/8 in (3.175 mm) on a grid of half a millimetre."""
    made = design(BOARD, FLAT, "[base]\noverhang = 45\n")
    assert strip_floor_mm(made.job) < 41.5 < USUAL_WIDTH_MM["in"]
    assert made.strip_width_mm == pytest.approx(41.5)
    assert not [one for one in made.findings if one.number == 302]
    assert {round(piece.blank_width, 6) for piece in made.pieces} == {41.5}
    wide = design(BOARD, FLAT, "[base]\noverhang = 200\n")
    assert wide.strip_width_mm == pytest.approx(USUAL_WIDTH_MM["mm"])


@pytest.mark.example
def test_strips_into_the_base_stop_the_job() -> None:
    (one,) = found(BOARD, FLAT + "strip_width = 60", "[base]\noverhang = 60\n", 302)
    assert (one.severity, one.figures) == ("stop", "strip 60 mm, at most 56.5 mm")
    assert "overhang 60 mm on the north side" in one.change
    assert "use a narrower strip" in one.change
    assert found(BOARD, FLAT + "strip_width = 60", "[base]\noverhang = 64\n", 302) == []


@pytest.mark.example
def test_no_room_for_the_narrowest_strip_stops_the_job() -> None:
    made = design(BOARD, FLAT, "[base]\noverhang = 20\n")
    assert made.strip_width_mm == pytest.approx(strip_floor_mm(made.job))
    (one,) = [one for one in made.findings if one.number in (301, 302)]
    assert (one.number, one.severity) == (302, "stop")
    assert "narrower" not in one.change


@pytest.mark.example
def test_skirt_has_room_before_the_base_or_stops_the_job() -> None:
    """20 mm thick, and 1/8 in of clearance."""
    under = 'build_up = "skirt_under"\nskirt_drop = 60'
    assert found(BOARD, under, "[base]\noverhang = 24\n", 302) == []
    (one,) = found(BOARD, under, "[base]\noverhang = 22\n", 302)
    assert (one.severity, one.figures) == ("stop", "skirt 20 mm thick, at most 18.5 mm")
    # on the edge it takes no wood of the overhang, nor adds any that carries
    on_edge = under.replace("skirt_under", "skirt_on_edge")
    assert found(BOARD, on_edge, "[base]\noverhang = 22\n", 302, 402) == []
    (past,) = found(BOARD, on_edge, "[trim.edges]\nnorth = 30\n[base]\noverhang = 22\n", 402)
    assert past.figures == "north: trim 30 mm, overhang left -8 mm"


@pytest.mark.example
def test_places_at_a_round_top_are_counted_round_its_edge() -> None:
    """48 in across is 150.8 in round: six places of 24 in and five of 30 in."""
    (one,) = found(ROUND, PLAIN_EDGE, "[seating]\nseats = 6\n", 407)
    assert one.figures == (
        "at 610 mm each: 6 round the edge (before: 6); at 762 mm each: 5 round the edge (before: 5); "
        "6 wanted: round the edge at 610 mm each, too many at 762 mm each"
    )
