"""Finding 108 against blunders of common practice and against measured parallelograms."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.check_closure import closure_findings, closure_suspects, misclosure

INCH = 25.4
KERF = INCH / 8


def closure(length, width, diagonals, radius=0.0):
    measured = (diagonals[0] * INCH, diagonals[1] * INCH)
    return closure_findings(length * INCH, width * INCH, measured, radius * INCH, KERF, "in")


def suspects(length, width, *diagonals, units="in", unit=INCH):
    measured = (diagonals[0] * unit, diagonals[1] * unit)
    return closure_suspects(length * unit, width * unit, measured, 0.0, KERF, units)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(length=st.floats(300, 3000), width=st.floats(300, 3000), lean=st.floats(-0.5, 0.5))
def test_a_parallelogram_closes_however_it_leans(length, width, lean):
    # sides (length, 0) and a width leaning by an angle: its diagonals are their sum and difference
    x, y = width * math.sin(lean), width * math.cos(lean)
    diagonals = (math.hypot(length + x, y), math.hypot(length - x, y))
    assert misclosure(length, width, diagonals) == pytest.approx(0, abs=1e-8)


@pytest.mark.reference
def test_a_leaning_top_of_common_practice_closes_and_a_burnt_inch_does_not():
    # 72 x 36 with 80.55 and 80.44 leans 1/16 in; a short side entered as 35 moves the diagonal by 0.45 in
    assert closure(72, 36, (80.55, 80.44)) == ()
    assert misclosure(72 * INCH, 35 * INCH, (80.55 * INCH, 80.44 * INCH)) / INCH == pytest.approx(
        0.44, abs=0.01
    )
    (finding,) = closure(72, 35, (80.55, 80.44))
    assert (finding.number, finding.severity, finding.overridable) == (108, "warn", True)
    assert "width 36 in (a whole inch)" in finding.change
    # a long side that burnt an inch moves it by twice as much
    (finding,) = closure(71, 36, (80.55, 80.44))
    assert finding.severity == "stop"
    assert "length 72 in (a whole inch)" in finding.change


@pytest.mark.reference
def test_both_diagonals_with_a_burnt_inch():
    # √(72² + 42²) = 83.355 = 83 23/64; measured 84 3/8 is 1 1/64 more
    (finding,) = closure(72, 42, (84.375, 84.375))
    assert (finding.severity, finding.place) == ("stop", "top")
    assert finding.figures == (
        "length 72 in, width 42 in: mean diagonal ~83 23/64 in; measured 84 3/8 in and 84 3/8 in: "
        "~1 1/64 in too long"
    )
    assert "both diagonals 1 in shorter (a whole inch)" in finding.change
    assert "length" not in finding.change.partition("close with")[2]


@pytest.mark.example
def test_bounds_of_an_eighth_and_a_half_inch():
    exact = math.hypot(72, 42)
    for off, severities in ((0.125, []), (0.126, ["warn"]), (-0.5, ["warn"]), (-0.501, ["stop"])):
        assert [f.severity for f in closure(72, 42, (exact + off, exact + off))] == severities
    assert closure_findings(72 * INCH, 42 * INCH, None, 0.0, KERF, "in") == ()


@pytest.mark.example
def test_six_read_for_nine():
    # 69 x 36 in has 77.83 in from corner to corner
    diagonal = math.hypot(69, 36)
    assert "length 69 in (9 for 6)" in suspects(66, 36, diagonal, diagonal)
    assert "width 36 in (6 for 9)" in suspects(69, 39, diagonal, diagonal)


@pytest.mark.example
def test_one_kerf():
    diagonal = math.hypot(72, 10)
    assert "length 72 in (one kerf)" in suspects(71.875, 10, diagonal + 0.05, diagonal + 0.05)


@pytest.mark.example
def test_one_diagonal_alone_is_suspected_only_where_the_other_disagrees():
    exact = math.hypot(72, 42)
    assert "first diagonal ~83 23/64 in (a whole inch)" in suspects(72, 42, exact + 1, exact)
    assert not any(s.startswith("first") for s in suspects(72, 41, exact, exact))


@pytest.mark.example
def test_a_metric_tape_burns_a_centimetre():
    diagonal = math.hypot(1830, 1060)
    found = suspects(1830, 1050, diagonal, diagonal, units="mm", unit=1.0)
    assert "width 1060 mm (10 mm)" in found
    assert not any("inch" in text for text in found)


@pytest.mark.example
def test_nothing_is_suspected_when_no_single_slip_closes_it():
    (finding,) = closure(72, 42, (90, 90))
    assert "no single slip" in finding.change


@pytest.mark.example
def test_old_rounded_corners_may_be_measured_across_or_to_where_the_edges_would_meet():
    # radius 3 in: from arc to arc √(66² + 36²) + 6 = 81.18 in, from corner to corner 83.36 in
    arc = math.hypot(66, 36) + 6
    assert closure(72, 42, (arc, arc), 3) == closure(72, 42, (83.375, 83.375), 3) == ()
    assert len(closure(72, 42, (arc, arc))) == 1
    (finding,) = closure(72, 42, (arc + 0.25, arc + 0.25), 3)
    assert "mean diagonal ~81 3/16 in across the rounded corners" in finding.figures
