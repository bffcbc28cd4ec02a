"""The whole plan of a shaped top: its code, its blanks, its take-off, and that no reasonable job breaks it."""

import dataclasses
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.outline import Arc
from edgewright.errors import JobError
from edgewright.jobfile import parse_any_job

SHAPES = Path(__file__).resolve().parents[2] / "examples" / "shapes"
#: Examples that need no drawing beside them.
TEXTS = {
    path.stem: path.read_text(encoding="utf-8")
    for path in sorted(SHAPES.glob("*.toml"))
    if path.stem != "drawn_desk"
}


def planned(text) -> ShapedPlan:
    plan = plan_any(parse_any_job(text))
    assert isinstance(plan, ShapedPlan)
    return plan


@pytest.mark.example
def test_a_round_ring_is_bought_as_blanks_of_one_size():
    plan = planned(TEXTS["round_from_square"])
    # twelve segments to the circle: equal chords, so equal blanks
    assert len(plan.design.pieces) == 12
    assert sum(row.count for row in plan.blanks) == 12
    # the circle of 46 in, and the edge is its circumference times the thickness of top and strip
    assert plan.design.finished.outline.length == pytest.approx(46 * 25.4 * math.pi)
    assert plan.design.edge_thickness_mm == pytest.approx(1.5 * 25.4)
    # glued: the circle less the regular twelve-sided hole inside the blanks
    radius, apothem = 23 * 25.4, 23 * 25.4 + plan.job.edge.proud.mm - plan.design.pieces[0].blank_width
    hole = 12 * apothem**2 * math.tan(math.pi / 12)
    assert plan.design.glue_face_mm2 == pytest.approx(math.pi * radius**2 - hole)


@pytest.mark.example
def test_without_a_build_up_nothing_is_glued_or_pinned():
    plan = planned(TEXTS["live_edge"])
    assert plan.blanks == ()
    assert plan.design.pieces == ()
    assert plan.takeoff is not None
    assert not {"pins", "glue"} & {line.group.split()[0] for line in plan.takeoff.lines}
    ring = planned(TEXTS["octagon"]).takeoff
    assert {"pins", "glue"} <= {line.group.split()[0] for line in ring.lines}


def test_the_code_follows_job_and_plan():
    one = planned(TEXTS["tapered"])
    assert one.code == planned(TEXTS["tapered"]).code
    assert one.code == planned("# a remark\n" + TEXTS["tapered"]).code
    assert (
        one.code != planned(TEXTS["tapered"].replace('corner_radius = "3/4"', 'corner_radius = "1/2"')).code
    )
    assert one.code != planned(TEXTS["tapered"].replace("width = 30", 'width = "30 1/64"')).code


def test_a_plan_without_a_profile_has_no_bill_and_is_not_ready():
    plan = planned(TEXTS["octagon"] + 'top_round_over = "3/4"\nbottom_round_over = "3/4"\n')
    assert plan.takeoff is None
    assert plan.design.metrics is None
    assert not plan.ready
    assert 201 in [finding.number for finding in plan.findings if finding.severity == "stop"]


@pytest.mark.example
def test_edges_that_stay_at_a_corner_that_was_rounded_are_planned():
    """Arcs that stay beside edges that move: at the smallest insets their ends must not be pulled together."""
    text = TEXTS["octagon"].replace(
        "corner_radius = 1",
        'corner_radius = 1\nunrouted = ["corner of edge 6 and edge 7", "edge 6", "corner of edge 8 and edge 1"]',
    )
    plan = planned(text)
    assert plan.ready
    routed = math.fsum(run.length for run in plan.design.runs if run.routed)
    side = 44 * 25.4 * math.tan(math.pi / 8)
    corner = 25.4 * math.pi / 4
    straight = side - 2 * 25.4 * math.tan(math.pi / 8)
    assert routed == pytest.approx(7 * straight + 6 * corner)


@pytest.mark.example
def test_an_inside_corner_of_the_old_top_gets_no_wood_that_is_not_there():
    text = TEXTS["u_counter"].replace("inside_radius = 15\n", "")
    sharp = planned(text).design
    assert sharp.finished.outline.area == pytest.approx(sharp.old.outline.area)
    assert 207 in [finding.number for finding in planned(text).findings]
    # where wood is taken off all round, the router leaves the corner round
    trimmed = planned(text + "[trim]\nall_round = 30\n").design
    hollow = [s for s in trimmed.finished.outline.segments if isinstance(s, Arc) and s.sweep < 0]
    assert len(hollow) == 2


#: A line of [edge] that may be added, and figures for it in inches.
LENGTHS = {
    "corner_radius": (0.0, 6.0),
    "inside_radius": (0.0, 3.0),
    "strip_width": (1.0, 4.0),
    "top_round_over": (0.05, 0.75),
    "bottom_round_over": (0.05, 0.75),
}


@st.composite
def changed(draw):
    """An example with some lines of [edge] of its own, and perhaps a cut-out."""
    text = TEXTS[draw(st.sampled_from(sorted(TEXTS)))]
    lines, done = [], set()
    for key in draw(st.lists(st.sampled_from(sorted(LENGTHS)), max_size=3, unique=True)):
        low, high = LENGTHS[key]
        done.add(key)
        lines.append(f'{key} = "{draw(st.floats(low, high)):.3f} in"')
    if draw(st.booleans()):
        done.add("segments")
        lines.append(f"segments = {draw(st.integers(4, 24))}")
    if "build_up" not in text and draw(st.booleans()):
        kind = draw(st.sampled_from(["none", "skirt_under", "skirt_on_edge"]))
        lines.append(f'build_up = "{kind}"')
        if kind != "none":
            lines.append('skirt_drop = "1 1/2 in"')
    kept = [line for line in text.splitlines() if line.partition(" ")[0] not in done]
    if "[edge]" not in kept:
        kept.append("[edge]")
    at = kept.index("[edge]") + 1
    kept[at:at] = lines
    if draw(st.booleans()):
        x, y, size = (draw(st.floats(1, top)) for top in (60, 40, 16))
        kept += ["[[cut_out]]", 'kind = "round"', f'x = "{x:.2f} in"', f'y = "{y:.2f} in"']
        kept += [f'diameter = "{size:.2f} in"', f"routed = {draw(st.sampled_from(['true', 'false']))}"]
    return "\n".join(kept) + "\n"


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(text=changed())
def test_every_change_gives_a_whole_plan_or_one_sentence(text):
    try:
        plan = planned(text)
    except JobError as error:
        faults = error.faults
    else:
        faults = ()
    assert all(fault.key and fault.message and "\n" not in fault.message for fault in faults)
    if faults:
        return
    design = plan.design
    lengths = math.fsum(run.length for run in design.runs)
    assert lengths == pytest.approx(design.finished.outline.length)
    assert all(piece.blank_length > 0 and piece.blank_width > 0 for piece in design.pieces)
    assert sum(row.count for row in plan.blanks) == len(design.pieces)
    assert plan.ready == (not [f for f in plan.findings if f.severity == "stop" and f.overridden is None])
    # what is left of the top is no more than what there was, but for a skirt on its edge
    if plan.job.edge.build_up != "skirt_on_edge":
        assert design.finished.outline.area <= design.old.outline.area * (1 + 1e-9)
    if design.metrics is not None:
        numbers = dataclasses.asdict(design.metrics).values()
        assert all(math.isfinite(number) for number in numbers if isinstance(number, float))


@pytest.mark.example
def test_edges_of_cut_outs_are_filled_coated_and_sealed():
    text = TEXTS["octagon"]
    hole = '\n[[cut_out]]\nkind = "round"\nx = "24 in"\ny = "24 in"\ndiameter = "10 in"\nrouted = {routed}\n'
    plain, raw, routed = (
        planned(text + more).takeoff for more in ("", hole.format(routed="false"), hole.format(routed="true"))
    )
    assert plain is not None
    assert raw is not None
    assert routed is not None

    def expected(takeoff, group, name):
        return sum(line.quantity.expected for line in takeoff.in_group(group) if line.name == name)

    # a sink's edge is sealed and gets no more; a hatch's edge is coated like the rim
    assert expected(plain, "seal coat", "edges of cut-outs") == 0
    assert expected(raw, "seal coat", "edges of cut-outs") > 0
    assert expected(raw, "resin coat 1", "edge") == pytest.approx(expected(plain, "resin coat 1", "edge"))
    assert expected(routed, "seal coat", "edges of cut-outs") == 0
    more = expected(routed, "resin coat 1", "edge") - expected(plain, "resin coat 1", "edge")
    hatch = planned(text + hole.format(routed="true")).design
    share = hatch.cut_outs[0].edge_area / hatch.metrics.edge_mm2
    assert more == pytest.approx(share * expected(plain, "resin coat 1", "edge"), rel=1e-9)
    drips = expected(routed, "resin coat 1", "drips") / expected(plain, "resin coat 1", "drips")
    assert drips == pytest.approx(1 + hatch.cut_outs[0].perimeter / hatch.metrics.perimeter_mm, rel=1e-9)
    assert expected(routed, "filler", "cut-outs, first pass") > 0
