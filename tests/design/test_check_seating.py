"""Findings 403 to 405, 407 and 408 against published clearances and hand-worked figures."""

import pytest

from edgewright.compass import PerSide
from edgewright.design.check_seating import (
    accessible_findings,
    arm_findings,
    knee_depth,
    middle_zone_findings,
    places,
    places_findings,
    thigh_findings,
)

INCH = 25.4
UNKNOWN = PerSide(None, None, None, None)


def arms(height, arm, edge):
    return arm_findings(height * INCH, arm * INCH, edge * INCH, "in")


@pytest.mark.reference
@pytest.mark.parametrize(
    ("height", "arm", "most"),
    # T_max = H - arm - 1/2 (common practice); arms 25 to 27 in high (furniture-maker notes)
    [(29, 27, 1.5), (29, 25, 3.5), (30, 27, 2.5), (30, 25, 4.5)],
)
def test_edge_that_chair_arms_allow(height, arm, most):
    assert arms(height, arm, most) == ()
    (finding,) = arms(height, arm, most + 1 / 32)
    assert (finding.number, finding.severity) == (403, "warn")


@pytest.mark.example
def test_arms_higher_than_the_table_leave_no_edge():
    (finding,) = arms(28, 28, 1)
    assert finding.figures == "edge 1 in, at most 0 in with arms 28 in high under a table 28 in high"


@pytest.mark.reference
def test_an_apron_lower_than_the_edge_stops_the_arms():
    # table 29 in, arms 26 in: at most 2-1/2 in (common practice); the apron ends 4-23/32 in below the face
    def apron(below, overhang=UNKNOWN, edge=1.4375):
        return arm_findings(29 * INCH, 26 * INCH, edge * INCH, "in", below * INCH, overhang)

    assert apron(2.5) == ()
    (finding,) = apron(4.71875, PerSide(4.25 * INCH, 6 * INCH, 4.25 * INCH, 6 * INCH))
    assert (finding.number, finding.severity) == (403, "warn")
    assert finding.figures == (
        "apron ends 4 23/32 in below the upper face, at most 2 1/2 in with arms 26 in high under a table "
        "29 in high; arms go under by 4 1/4 in (north, south), 6 in (east, west)"
    )
    (finding,) = apron(4.71875)
    assert finding.figures.endswith("how far the arms go under is not known")
    # where the edge stops them already they do not get as far as the apron
    (finding,) = apron(4.71875, PerSide(INCH, INCH, INCH, INCH), edge=3)
    assert finding.figures.startswith("edge 3 in")


@pytest.mark.reference
def test_both_gaps_above_the_seat_are_shown():
    # 30 in table, 18 in seat, 1-1/2 in edge: 12 in to the upper face, 10-1/2 to the underside (several texts)
    assert thigh_findings(30 * INCH, 18 * INCH, 1.5 * INCH, None, "in") == ()
    # an apron 5 in below the face leaves 7 in, just enough (a furniture-design handout)
    assert thigh_findings(30 * INCH, 18 * INCH, 1.5 * INCH, 5 * INCH, "in") == ()
    (finding,) = thigh_findings(30 * INCH, 18 * INCH, 1.5 * INCH, (5 + 1 / 32) * INCH, "in")
    assert (finding.number, finding.severity) == (404, "warn")
    assert finding.figures == "seat to lowest part 6 31/32 in, at least 7 in; seat to upper face 12 in"


@pytest.mark.example
def test_the_edge_decides_over_a_shallow_apron():
    assert thigh_findings(28 * INCH, 18 * INCH, 3 * INCH, 1 * INCH, "in") == ()
    assert len(thigh_findings(28 * INCH, 18 * INCH, 3.25 * INCH, 1 * INCH, "in")) == 1


def accessible(height, edge, apron=None, overhang=UNKNOWN):
    found = accessible_findings(
        height * INCH, edge * INCH, None if apron is None else apron * INCH, overhang, "in"
    )
    assert all((f.number, f.severity) == (405, "stop") for f in found)
    return [f.place for f in found]


@pytest.mark.reference
@pytest.mark.parametrize(("height", "most"), [(28, 1.0), (29, 2.0), (34, 7.0)])
def test_edge_over_an_accessible_knee_zone(height, most):
    # 2010 ADA Standards 306.3 and 902.3: at most H - 27 in
    assert accessible(height, most) == []
    assert accessible(height, most + 1 / 64) == ["edge"]


@pytest.mark.reference
def test_height_of_an_accessible_top():
    # 2010 ADA Standards 902.3: 28 to 34 in, both included
    assert accessible(28, 0.5) == accessible(34, 0.5) == []
    assert accessible(34.25, 0.5) == ["upper face"]
    assert accessible(27.75, 0.5) == ["upper face"]
    # a 28 in top with a 1-1/2 in edge fails
    (finding,) = accessible_findings(28 * INCH, 1.5 * INCH, None, UNKNOWN, "in")
    assert finding.figures == "edge 1 1/2 in, at most 1 in under a table 28 in high"


@pytest.mark.reference
def test_metric_heights_are_the_printed_ones_not_conversions():
    # the standard prints 27 in (685 mm), 28 in (710 mm), 34 in (865 mm); 28 in would be 711.2 mm
    assert accessible_findings(710.0, 25.0, None, UNKNOWN, "mm") == ()
    assert accessible_findings(865.0, 180.0, None, UNKNOWN, "mm") == ()
    assert [f.place for f in accessible_findings(709.9, 24.0, None, UNKNOWN, "mm")] == ["upper face"]
    assert [f.place for f in accessible_findings(865.1, 20.0, None, UNKNOWN, "mm")] == ["upper face"]
    assert [f.place for f in accessible_findings(710.0, 25.1, None, UNKNOWN, "mm")] == ["edge"]


@pytest.mark.reference
@pytest.mark.parametrize(("height", "depth"), [(9, 11), (15, 10), (21, 9), (24, 8.5), (27, 0), (0, 11)])
def test_knee_depth(height, depth):
    # 2010 ADA Standards 306.3.3 and 306.3.4: 11 in at 9 in high, less 1 in for each 6 in, 8 in at 27 in
    assert knee_depth(height * INCH) == pytest.approx(depth * INCH)


@pytest.mark.reference
def test_apron_may_reach_into_the_knee_zone_behind_the_depth_that_is_asked():
    # apron 24 in above the floor: 8-1/2 in behind the edge is enough on any one side
    def deepest(inches):
        return PerSide(2 * INCH, inches * INCH, 2 * INCH, 2 * INCH)

    assert accessible(30, 1.5, 6, deepest(8.5)) == []
    assert accessible(30, 1.5, 6, deepest(8.25)) == ["apron"]
    # an apron that ends at 27 in or above is no matter, nor can one be judged without an overhang
    assert accessible(30, 1.5, 3, deepest(2)) == []
    assert accessible(30, 1.5, 6, UNKNOWN) == []


@pytest.mark.reference
def test_places_by_width_per_person():
    # 24 in least, 30 in with comfort: 72 in seats 6 along the sides, 8 with the ends (common practice)
    assert places((72 * INCH, 36 * INCH), 24 * INCH) == (6, 8)
    assert places((72 * INCH, 36 * INCH), 30 * INCH) == (4, 6)
    # the longer size is the side, whichever is called length
    assert places((36 * INCH, 72 * INCH), 24 * INCH) == (6, 8)
    # 96 x 48: 4 on each side and 2 at each end
    assert places((96 * INCH, 48 * INCH), 24 * INCH) == (8, 12)
    assert places((95.9 * INCH, 47.9 * INCH), 24 * INCH) == (6, 8)


@pytest.mark.example
def test_places_before_and_after():
    (finding,) = places_findings((72 * INCH, 42 * INCH), (70 * INCH, 28 * INCH), 6, "in")
    assert (finding.number, finding.severity) == (407, "note")
    assert finding.figures == (
        "at 24 in each: 4 along the sides, 6 with the ends (before: 6, 8); "
        "at 30 in each: 4 along the sides, 4 with the ends (before: 4, 6); "
        "6 wanted: with the ends at 24 in each, too many at 30 in each"
    )


@pytest.mark.example
@pytest.mark.parametrize(
    ("seats", "said"),
    [
        (4, "4 wanted: along the sides at 24 in each and at 30 in each"),
        (7, "7 wanted: too many at 24 in each and at 30 in each"),
    ],
)
def test_whether_the_seats_wanted_are_there(seats, said):
    (finding,) = places_findings((72 * INCH, 42 * INCH), (70 * INCH, 28 * INCH), seats, "in")
    assert finding.figures.endswith(said)


@pytest.mark.example
def test_metric_places_by_whole_millimetres():
    # 24 and 30 in are 609.6 and 762 mm
    (finding,) = places_findings((1830.0, 1060.0), (1830.0, 900.0), None, "mm")
    assert finding.figures.startswith("at 610 mm each: 6 along")
    assert "at 762 mm each" in finding.figures


@pytest.mark.example
def test_middle_zone_goes_below_34_in():
    old = (72 * INCH, 42 * INCH)
    assert middle_zone_findings(old, (72 * INCH, 34 * INCH), "in") == ()
    (finding,) = middle_zone_findings(old, (72 * INCH, (34 - 1 / 32) * INCH), "in")
    assert (finding.number, finding.severity) == (408, "warn")
    # a top that was as narrow before, or is only shortened, has lost nothing
    narrow = (72 * INCH, 30 * INCH)
    assert middle_zone_findings((72 * INCH, (34 - 1 / 32) * INCH), narrow, "in") == ()
    assert len(middle_zone_findings((72 * INCH, 34 * INCH), narrow, "in")) == 1
    assert middle_zone_findings(narrow, narrow, "in") == ()
    assert middle_zone_findings(narrow, (60 * INCH, 30 * INCH), "in") == ()
