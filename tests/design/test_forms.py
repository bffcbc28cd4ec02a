"""Forms: where they begin and end, how long they are, what a bit takes off in section."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.form_words import arris_name, bit_name, form_text
from edgewright.design.forms import Form, bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.outline import Arc, Line
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError

INCH = 25.4
SIZES = st.floats(0.5, 40)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("form", "reach", "depth", "length"),
    [
        (no_form(), 0, 0, 0),
        (round_over(12), 12, 12, 6 * math.pi),
        (chamfer(6), 6, 6, 6 * math.sqrt(2)),
        (bevel(3, 4), 3, 4, 5),
        (cove(12), 12, 12, 6 * math.pi),
        # two quarter circles of 4 and two steps of 1
        (ogee(4, 1), 9, 9, 4 * math.pi + 2),
        (ogee(4), 8, 8, 4 * math.pi),
    ],
)
def test_reach_depth_and_length(form, reach, depth, length):
    assert (form.reach, form.depth) == (reach, depth)
    assert form.length == pytest.approx(length, rel=1e-15)


@pytest.mark.reference
def test_profile_lengths_worked_by_hand():
    # π(r1 + r2)/2 + T - r1 - r2
    assert EdgeProfile.round_overs(38, 12, 12).length == pytest.approx(51.69911, abs=5e-6)
    assert EdgeProfile.round_overs(36, 12, 3).length == pytest.approx(44.56194, abs=5e-6)


@pytest.mark.reference
def test_full_bullnose_of_three_quarters_is_a_radius_of_three_eighths():
    # trade text: full bullnose when r = T/2, 3/8 on 3/4
    profile = EdgeProfile.bullnose(0.75 * INCH)
    assert profile.top_radius == profile.bottom_radius == 0.375 * INCH
    assert profile.flat == 0
    assert profile.length == pytest.approx(math.pi * 0.375 * INCH, rel=1e-15)


def section_area(form):
    """Wood taken off in section: the region between the curve and the square arris, by the shoelace of chords."""
    points = [(0.0, 0.0)]
    for part in form.parts:
        if isinstance(part, Arc):
            for step in range(2000):
                angle = part.start_angle + part.sweep * step / 2000
                points.append(
                    (
                        part.centre[0] + part.radius * math.cos(angle),
                        part.centre[1] + part.radius * math.sin(angle),
                    )
                )
        else:
            points.append(part.start)
    points.append(form.parts[-1].end)
    return abs(
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True))
        / 2
    )


@pytest.mark.reference
def test_section_areas_of_textbooks():
    # spandrel r²(1 - π/4), of radius 12 30.90266 mm²; quarter disc; triangle
    assert section_area(round_over(12)) == pytest.approx(30.90266, abs=1e-4)
    assert section_area(cove(12)) == pytest.approx(36 * math.pi, rel=1e-6)
    assert section_area(chamfer(6)) == pytest.approx(18)
    assert section_area(bevel(3, 8)) == pytest.approx(12)
    # an ogee takes a spandrel, a quarter disc and what lies above and beside them
    r, s = 4.0, 1.0
    ogee_area = r * r * (1 - math.pi / 4) + r * s + math.pi * r * r / 4 + r * (r + s) + s * (2 * r + s)
    assert section_area(ogee(r, s)) == pytest.approx(ogee_area, rel=1e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, SIZES, st.floats(0, 5), st.floats(0, 1))
def test_inset_at_lies_on_the_curve_and_never_grows(size, other, step, share):
    for form in (round_over(size), chamfer(size), bevel(size, other), cove(size), ogee(size, step)):
        depth = share * form.depth
        d = form.inset_at(depth)
        assert -1e-9 <= d <= form.reach + 1e-9
        on = []
        for part in form.parts:
            if isinstance(part, Arc):
                on.append(abs(math.dist((d, depth), part.centre) - part.radius))
            else:
                (x0, y0), (x1, y1) = part.start, part.end
                on.append(abs((x1 - x0) * (depth - y0) - (y1 - y0) * (d - x0)) / part.length)
        assert min(on) < 1e-7
        assert form.inset_at(min(depth + 0.01 * form.depth, form.depth)) <= d + 1e-9
    assert round_over(size).inset_at(size + 1) == 0


@pytest.mark.example
def test_a_form_that_turns_back_or_has_a_gap_is_refused():
    bad = [
        (Line((5, 0), (6, 1)), Line((6, 1), (0, 5))),
        (Line((5, 0), (3, 2)), Line((3, 1), (0, 5))),
        (Line((5, 1), (0, 5)),),
        (Line((5, 0), (1, 5)),),
        # half a circle about (0, 5) bulges out beyond the edge
        (Arc((0, 0), (0, 10), (0, 5), 5, -math.pi),),
    ]
    words = [
        "part 1 turns back by 1 mm",
        "part 2 starts 1 mm",
        "begins 1 mm",
        "ends 1 mm",
        "turns back by 5 mm",
    ]
    for parts, word in zip(bad, words, strict=True):
        with pytest.raises(GeometryError, match=word):
            Form("own", parts)


@pytest.mark.example
@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: chamfer(0), "chamfer size is 0 mm; it must be greater than 0 mm"),
        (lambda: bevel(3, -1), "bevel depth is -1 mm"),
        (lambda: cove(math.nan), "cove radius is nan mm"),
        (lambda: ogee(3, -0.5), "ogee step is -0.5 mm; it must be at least 0 mm"),
        (lambda: round_over(-1), "round-over radius is -1 mm; it must be at least 0 mm"),
        (
            lambda: EdgeProfile(18, ogee(4, 1), cove(9.5)),
            "the top ogee, 9 mm deep, and the bottom cove, 9.5 mm deep, need 18.5 mm of thickness; "
            "the edge has 18 mm, 0.5 mm too little",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_figures(make, words):
    with pytest.raises(GeometryError) as caught:
        make()
    assert words in str(caught.value)


@pytest.mark.example
def test_names_that_people_read():
    assert form_text(round_over(0.375 * INCH), "in") == "round-over 3/8 in"
    assert form_text(bevel(INCH / 2, INCH / 4), "in") == "bevel 1/2 in x 1/4 in"
    assert form_text(ogee(INCH / 8, INCH / 16), "in") == "ogee 1/8 in, step 1/16 in"
    assert form_text(ogee(3), "mm") == "ogee 3 mm"
    assert form_text(no_form(), "in") == "sharp"
    assert (arris_name(no_form()), arris_name(cove(3))) == ("round-over", "cove")
    assert (bit_name("top", round_over(3)), bit_name("bottom", chamfer(3))) == (
        "top bit",
        "bottom chamfer bit",
    )
