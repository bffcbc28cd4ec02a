"""Variants of tops with an outline, against what a bench works out by hand."""

import math

import pytest

from edgewright.cutlist.compare import compare
from edgewright.cutlist.shaped_plan import plan_shaped
from edgewright.cutlist.variants import one_at_a_time
from edgewright.jobfile import parse_any_job

HEAD = """
[job]
title = "t"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
"""
ROUND = HEAD + 'shape = "round"\ndiameters = 48\n[edge]\nsegments = 12\n'
SLAB = HEAD + 'shape = "rectangle"\nlength = 72\nwidth = 42\n'
QUAD = HEAD + (
    'shape = "quad"\nsouth = 60\neast = 30\nnorth = 60\nwest = 31\ndiagonals = ["67.31","67.29"]\n'
)
# a right-angled trapezium: 58 long, 30 at the west end, 28 1/2 at the east end
TAPER = (
    HEAD + 'shape = "tapered"\nlength = 58\nwest_width = 30\neast_width = "28 1/2"\nsquare_side = "south"\n'
)
INCH = 25.4


def group(text, question, number=0):
    found = compare(parse_any_job(text), [question]).groups[number]
    return {row.name: row for row in found.rows}, " ".join(found.decides)


@pytest.mark.example
def test_more_segments_need_less_board():
    rows, decides = group(ROUND, "segments")
    assert list(rows) == ["12 segments", "8 segments", "16 segments", "as few as the blanks give"]
    for number in (8, 12, 16):
        row = rows[f"{number} segments"]
        assert row.blank_count == number
        # the long side of a segment touches no less than the circle at its middle: 2 R tan(180°/n) and no shorter
        (blank,) = row.blanks
        long = 2 * 24 * math.tan(math.pi / number) * INCH
        assert long <= blank.length_mm + 1e-6 < long + INCH / 16
        # the segment covers the strip's width and the rise of its chord
        assert blank.width_mm > 24 * (1 - math.cos(math.pi / number)) * INCH
        assert row.running_mm == pytest.approx(number * (blank.length_mm + INCH / 8))
    areas = [rows[f"{n} segments"].board_area_mm2 for n in (8, 12, 16)]
    assert areas == sorted(areas, reverse=True)
    assert rows["16 segments"].yield_part > rows["8 segments"].yield_part
    assert "Board area: least" in decides
    assert "(8 segments)" in decides


@pytest.mark.example
def test_segments_are_asked_of_curves_only():
    assert one_at_a_time(parse_any_job(SLAB), ["segments"]) == ()
    assert one_at_a_time(parse_any_job(ROUND), ["corners"]) == ()
    assert one_at_a_time(parse_any_job(ROUND), ["orders", "fits", "sides"]) == ()


@pytest.mark.example
def test_a_round_has_no_corner_to_be_rounded():
    headings = [found.heading for found in one_at_a_time(parse_any_job(ROUND), ["radii"])]
    assert headings == ["round-overs above and below"]
    headings = [found.heading for found in one_at_a_time(parse_any_job(SLAB), ["radii"])]
    assert headings == ["round-overs above and below", "corner radii, seen from above"]


@pytest.mark.example
def test_forms_are_among_the_round_overs():
    (found,) = one_at_a_time(parse_any_job(ROUND), ["radii"])
    jobs = {variant.name: variant.job for variant in found.variants}
    assert jobs["bullnose"].edge.bullnose
    chamfer = jobs["1/4 in chamfers"].edge
    assert (chamfer.top_form.form, chamfer.bottom_form.form) == ("chamfer", "chamfer")
    assert chamfer.top_form.size.given == "1/4 in"


@pytest.mark.example
def test_mitres_cost_length_of_blanks():
    rows, _ = group(SLAB, "corners")
    # butt: 72 + 72 + 2 x (42 - 2 x 2); mitre: 72 + 72 + 2 x 42; a kerf of 1/8 in to each of four
    assert rows["butt"].running_mm / INCH == pytest.approx(220.5)
    assert rows["mitre"].running_mm / INCH == pytest.approx(228.5)
    assert rows["butt"].board_area_mm2 / INCH**2 == pytest.approx(220.5 * 2.125)


@pytest.mark.example
def test_a_skirt_reaches_as_far_down_as_the_strips():
    rows, _ = group(ROUND, "build_up")
    flat, skirt = rows["flat, 1 layer"], rows["skirt under, 3/4 in drop"]
    assert flat.as_written
    assert flat.edge_thickness_mm == pytest.approx(1.5 * INCH)
    assert skirt.edge_thickness_mm == pytest.approx(1.5 * INCH)
    assert {blank.kind for blank in skirt.blanks} == {"skirt"}
    assert skirt.yield_part is None
    assert one_at_a_time(parse_any_job(ROUND + 'build_up = "none"'), ["build_up"]) == ()


@pytest.mark.example
def test_what_comes_off_is_shared_with_the_edge_opposite():
    rows, decides = group(SLAB + "[trim.edges]\nnorth = 6\n", "sides")
    assert list(rows) == ["all off north", "all off south", "half off each"]
    # 6 in hold two lanes of 2 in (2 + 1/8 + 2 + 1/8 + ...: 5 7/8 in are left beside the first kerf), 3 in one each
    strips = [rows[name].offcut_strip_mm / INCH for name in rows]
    assert strips == pytest.approx([144, 144, 144])
    for row in rows.values():
        assert row.finished_mm == pytest.approx((72 * INCH, 36 * INCH))
        assert row.comes_off_mm2 == pytest.approx(6 * 72 * INCH**2)
    # as for a rectangle: one offcut of 5 7/8 in gives three strips of 1 7/8 in (3 x 1 7/8 + 2 x 1/8 = 5 7/8 in), and by
    # length alone 208 1/2 of 216 in; twice 2 7/8 in give two each of 1 3/8 in
    assert rows["all off north"].offcut_widest_mm / INCH == pytest.approx(15 / 8, abs=1e-3)
    assert rows["half off each"].offcut_widest_mm / INCH == pytest.approx(11 / 8, abs=1e-3)
    assert "Widest strip that the offcuts give all round: least 1 3/8 in (half off each)" in decides


@pytest.mark.example
def test_an_old_finish_is_no_strip():
    clean = group(SLAB + "[trim.edges]\nnorth = 4\n", "sides")[0]["all off north"]
    text = SLAB.replace("[top.outline]", 'finished_edge = {depth = "1/2"}\n[top.outline]')
    taped = group(text + "[trim.edges]\nnorth = 4\n", "sides")[0]["all off north"]
    # of 3 7/8 in the outer 1/2 in and 1/2 in at both ends are finished: 71 in of 2 in, and no second lane in either
    assert clean.offcut_strip_mm / INCH == pytest.approx(72)
    assert taped.offcut_strip_mm / INCH == pytest.approx(71)


@pytest.mark.example
def test_orders_of_the_cuts():
    rows, decides = group(SLAB + "[trim.edges]\neast = 4\nnorth = 4\n", "orders")
    assert list(rows) == ["east, north", "north, east"]
    # the first cut gets the full length: 42 of the end and 68 of the side, or 72 and 38
    assert rows["east, north"].offcut_strip_mm / INCH == pytest.approx(42 + 68)
    assert rows["north, east"].offcut_strip_mm / INCH == pytest.approx(72 + 38)
    assert one_at_a_time(parse_any_job(SLAB + "[trim.edges]\nnorth = 4\n"), ["orders"]) == ()
    assert decides


@pytest.mark.example
def test_the_three_fits_of_a_tapered_top():
    rows, decides = group(TAPER, "fits")
    assert rows["nothing comes off"].as_written
    assert rows["nothing comes off"].comes_off_mm2 == 0
    # square to both ends, the largest rectangle is as wide as the narrow end; a triangle of 58 x 1 1/2 comes off
    for name in ("largest true rectangle", "square to south", "square to east", "square to west"):
        row = rows[name]
        assert row.ready, row.why
        assert row.finished_mm == pytest.approx((58 * INCH, 28.5 * INCH), abs=INCH / 32 + 1e-6), name
        assert row.comes_off_mm2 / INCH**2 == pytest.approx(58 * 1.5 / 2, abs=3)
    # one cut from the narrow end does the same
    north = rows["north parallel to south"]
    assert north.comes_off_mm2 / INCH**2 == pytest.approx(58 * 1.5 / 2, abs=2)
    assert "Comes off: least" in decides
    assert "(nothing comes off)" in decides


@pytest.mark.example
def test_a_rectangle_needs_no_fit():
    assert one_at_a_time(parse_any_job(SLAB), ["fits"]) == ()
    assert one_at_a_time(parse_any_job(QUAD + "[trim.edges]\nsouth = 1\n"), ["fits"]) == ()


@pytest.mark.example
def test_fits_of_a_quadrilateral_lie_in_it_and_none_is_better_than_the_largest():
    rows, _ = group(QUAD, "fits")
    old = plan_shaped(parse_any_job(QUAD)).design.old.outline.area
    rectangles = [row for name, row in rows.items() if name.startswith(("square", "largest"))]
    assert len(rectangles) == 5
    largest = rows["largest true rectangle"]
    for row in rectangles:
        assert row.ready, row.why
        assert row.finished_area_mm2 == pytest.approx(row.finished_mm[0] * row.finished_mm[1])
        assert row.comes_off_mm2 == pytest.approx(old - row.finished_area_mm2)
        # but for the steps of 1/32 in to which both sizes are snapped down
        assert row.finished_area_mm2 <= largest.finished_area_mm2 + 90 * INCH * INCH / 32


@pytest.mark.example
def test_a_variant_without_room_is_a_row_with_its_reason():
    rows, decides = group(ROUND.replace("diameters = 48", "diameters = 8"), "layers")
    assert all(not row.ready or row.plan_code for row in rows.values())
    rows, decides = group(ROUND.replace('"3/4"', '"1/2"'), "radii")
    assert rows["5/8 in round-overs"].why.startswith("cannot be: no such profile")
    assert "5/8 in round-overs" in decides


@pytest.mark.example
def test_rows_are_what_the_plan_says():
    job = parse_any_job(ROUND)
    result = plan_shaped(job)
    row = compare(job, ["layers"]).groups[0].rows[0]
    assert (row.plan_code, row.ready, row.findings) == (result.code, result.ready, result.findings)
    assert row.edge_area_mm2 == result.design.metrics.edge_mm2
    assert row.weight_g == result.takeoff.total("weight").expected


@pytest.mark.example
def test_combinations_of_a_shape_stand_best_first():
    (found,) = compare(parse_any_job(ROUND), ["segments", "layers"], combine=True).groups
    assert len(found.rows) == 4 * 3
    ready = [row for row in found.rows[1:] if row.ready]
    assert list(found.rows[1 : 1 + len(ready)]) == ready
    areas = [round(row.board_area_mm2) for row in ready]
    assert areas == sorted(areas)
