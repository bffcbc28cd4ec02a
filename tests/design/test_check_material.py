"""Findings 1xx, each at its bound and beyond; figures worked by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.check_material import (
    build_up_findings,
    lean,
    particleboard_findings,
    squareness_findings,
    thickness_findings,
)
from edgewright.design.forms import round_over

INCH = 25.4


def numbers(findings):
    return [finding.number for finding in findings]


@pytest.mark.example
def test_bare_plywood_gives_nothing():
    assert build_up_findings("plywood", True, "in") == ()


@pytest.mark.example
def test_glue_face_that_is_not_bare():
    (finding,) = build_up_findings("plywood", False, "in")
    assert (finding.number, finding.severity) == (101, "warn")


@pytest.mark.example
def test_solid_wood_waits_for_the_plan():
    # which strip comes from which offcut decides whether it lies across the grain
    assert build_up_findings("solid wood", True, "in") == ()


@pytest.mark.example
@pytest.mark.parametrize(("material", "number"), [("mdf", 104), ("laminate", 107)])
def test_notes_by_material(material, number):
    (finding,) = build_up_findings(material, True, "in")
    assert (finding.number, finding.severity) == (number, "note")
    assert numbers(build_up_findings("particleboard", True, "in")) == []


@pytest.mark.example
def test_particleboard_holds_a_quarter_inch():
    assert particleboard_findings("particleboard", round_over(INCH / 4), round_over(INCH / 4), "in") == ()
    assert particleboard_findings("plywood", round_over(INCH), round_over(INCH), "in") == ()
    found = particleboard_findings("particleboard", round_over(INCH / 4), round_over(INCH * 5 / 16), "in")
    assert [(f.number, f.severity, f.place) for f in found] == [(102, "warn", "bottom arris")]
    assert found[0].figures == "bottom round-over 5/16 in, holds up to 1/4 in"
    (both,) = particleboard_findings("particleboard", round_over(INCH / 2), round_over(INCH / 2), "in")
    assert (both.place, both.figures) == (
        "both arrises",
        "top and bottom round-over 1/2 in, holds up to 1/4 in",
    )
    # 6.35 mm, shown so that it holds
    assert particleboard_findings("particleboard", round_over(6.0), round_over(8.0), "mm")[
        0
    ].figures.endswith("holds up to 6 mm")


@pytest.mark.example
def test_distance_to_an_end_in_whole_millimetres():
    (finding,) = build_up_findings("mdf", True, "mm")
    assert finding.figures == "pins within 20 mm of an end"


@pytest.mark.reference
def test_lean_of_a_measured_top():
    # common practice: a 1/16 in difference on 72 x 36 is 0.035 in over 36; 80.55 and 80.44 lean 1/16 in
    diagonal = math.hypot(72, 36)
    assert lean(72, (diagonal + 1 / 32, diagonal - 1 / 32)) == pytest.approx(0.035, abs=5e-4)
    assert lean(72, (80.55, 80.44)) == pytest.approx(0.0615, abs=5e-5)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    length=st.floats(100, 3000),
    height=st.floats(100, 3000),
    shift=st.floats(-50, 50),
)
def test_lean_is_that_of_the_parallelogram(length, height, shift):
    diagonals = (math.hypot(length + shift, height), math.hypot(length - shift, height))
    assert lean(length, diagonals) == pytest.approx(abs(shift), abs=1e-9)


@pytest.mark.example
def test_out_of_square_is_a_note_up_to_a_sixteenth_and_a_warning_above():
    def found(*diagonals):
        return squareness_findings(72 * INCH, 36 * INCH, tuple(d * INCH for d in diagonals), "in")

    assert squareness_findings(72 * INCH, 36 * INCH, None, "in") == ()
    assert found(80.5, 80.5) == ()
    assert [f.severity for f in found(80.55, 80.44)] == ["note"]
    assert "leans ~1/16 in" in found(80.44, 80.55)[0].figures
    # the parallelogram that leans by exactly 1/16 in, and one that leans by 1/15
    exact, beyond = ((math.hypot(72 + s, 36), math.hypot(72 - s, 36)) for s in (1 / 16, 1 / 15))
    assert [f.severity for f in found(*exact)] == ["note"]
    assert [(f.number, f.severity) for f in found(*beyond)] == [(105, "warn")]


@pytest.mark.example
def test_thickness_may_vary_by_a_thirty_second():
    assert thickness_findings((18.0,), "mm") == ()
    assert thickness_findings((23 / 32 * INCH, 24 / 32 * INCH), "in") == ()
    (finding,) = thickness_findings((23 / 32 * INCH, 22 / 32 * INCH, 24 / 32 * INCH), "in")
    assert (finding.number, finding.severity) == (106, "warn")
    assert finding.figures == "readings 11/16 in to 3/4 in, allowed spread 1/32 in"
