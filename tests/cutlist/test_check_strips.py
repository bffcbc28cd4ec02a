"""Findings that the strip plan decides, on hand-made plans and on whole jobs."""

import dataclasses

import pytest
from handmade_plans import narrowed

from edgewright.cutlist.check_strips import plan_findings
from edgewright.cutlist.plan import plan
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "top"
units = "{units}"
[top]
length = {length}
width = {width}
thickness = {thickness}
material = "{material}"
{top}
{tables}
"""
DEFAULTS = {
    "units": "in", "length": 72, "width": 42, "thickness": '"23/32"', "material": "plywood", "top": "",
}  # fmt: skip


def job(tables="", **changes):
    return parse_job(JOB.format(tables=tables, **DEFAULTS | changes))


def found(number, tables="", **changes):
    return [f for f in plan(job(tables, **changes)).findings if f.number == number]


# ---- 103: grain ----


def grain(tables="[trim]\nnorth = 6", cut_plan=None, **changes):
    """Return finding 103 of the hand-made plan: E1 and W1, N1 and S1, all four from the north offcut."""
    design = build_design(job(tables, material="solid wood", **changes))
    return [f for f in plan_findings(design, cut_plan or narrowed()) if f.number == 103]


@pytest.mark.reference
def test_strips_under_the_ends_from_a_side_offcut_lie_across_the_grain():
    # common practice: strips along the grain from side offcuts, under the ends from end offcuts only
    (finding,) = grain()
    assert (finding.severity, finding.overridable, finding.place) == ("stop", True, "E1, W1")
    assert "E1-1, W1-1 from offcut north" in finding.figures
    assert "grain of the top along the length" in finding.figures
    assert "trim the east or west side" in finding.change


@pytest.mark.example
def test_only_solid_wood_has_a_grain_that_matters():
    design = build_design(job("[trim]\nnorth = 6"))
    assert not [f for f in plan_findings(design, narrowed()) if f.number == 103]


@pytest.mark.example
def test_a_strip_turned_by_a_quarter_is_wrong_whichever_way_the_grain_runs():
    # north to south: strips off the north side have it across, as N1 and S1 need it and E1 and W1 do not
    (finding,) = grain(top='grain = "width"')
    assert finding.place == "E1, W1"
    assert "grain of the top along the width" in finding.figures


@pytest.mark.example
def test_strips_under_the_ends_from_an_end_offcut_pass():
    cut_plan = narrowed()
    ends = {piece.lane_id for piece in cut_plan.pieces if piece.side_id in ("E1", "W1")}
    (stick,) = [s for s in cut_plan.sticks if s.source == "offcut"]
    end = dataclasses.replace(
        stick,
        id="offcut east",
        side="east",
        lanes=tuple(lane for lane in stick.lanes if lane.id in ends),
    )
    rest = dataclasses.replace(stick, lanes=tuple(lane for lane in stick.lanes if lane.id not in ends))
    assert grain(cut_plan=dataclasses.replace(cut_plan, sticks=(rest, end))) == []
    # and a strip of a long side from that end is as wrong as the other way round
    turned = (dataclasses.replace(rest, side="west"), end)
    (finding,) = grain(cut_plan=dataclasses.replace(cut_plan, sticks=turned))
    assert finding.place == "N1, S1"
    assert "trim the north or south side" in finding.change


@pytest.mark.example
def test_a_board_has_its_grain_along_its_length():
    boards = """
[edge]
strip_width = "1 1/2"
[[stock]]
name = "board"
length = 80
width = 12
thickness = "3/4"
"""
    (finding,) = found(103, boards, material="solid wood", thickness='"3/4"')
    assert finding.place == "E1, W1"
    assert "from board" in finding.figures
    # on a top whose grain runs the other way the same boards suit the ends and not the long sides
    (finding,) = found(103, boards, material="solid wood", thickness='"3/4"', top='grain = "width"')
    assert finding.place == "N1, S1"


@pytest.mark.example
def test_the_longer_extent_has_the_grain_unless_the_job_says_otherwise():
    assert job(length=36, width=84).top.grain_along == "width"
    assert job(length=84, width=36).top.grain_along == job(length=48, width=48).top.grain_along == "length"
    assert job(length=36, width=84, top='grain = "length"').top.grain_along == "length"


@pytest.mark.example
def test_so_many_pieces_that_no_override_could_repeat_them_are_counted():
    cut_plan = narrowed()
    wrong = [piece for piece in cut_plan.pieces if piece.side_id in ("E1", "W1")]
    many = [dataclasses.replace(wrong[n % 2], id=f"{wrong[n % 2].id}-{n}") for n in range(100)]
    (finding,) = grain(cut_plan=dataclasses.replace(cut_plan, pieces=tuple(many)))
    assert len(finding.figures) <= 500
    assert finding.figures.endswith("100 pieces of E1, W1")


@pytest.mark.example
def test_an_override_of_103_reaches_the_plan():
    trim = "[trim]\nnorth = 6\n"
    (stop,) = found(103, trim, material="solid wood")
    seen = f'[[override]]\nfinding = 103\nfigures = "{stop.figures}"\nreason = "turned at the bench"\n'
    (after,) = found(103, trim + seen, material="solid wood")
    assert after.overridden == "turned at the bench"


# ---- 302 and 402, 508: what the overhang leaves ----

NARROW = """
[trim]
north = {north}
[base]
overhang = {overhang}
"""


@pytest.mark.example
def test_a_side_that_402_stops_is_not_stopped_twice():
    # 7 in off the north of an overhang of 4: the base reaches past, which is finding 402; the others keep 4 in
    def numbers(tables):
        design = build_design(job(tables))
        found = [*design.findings, *plan_findings(design, narrowed())]
        return {f.number: f for f in found if f.number in (302, 402)}

    assert set(numbers(NARROW.format(north=7, overhang=4))) == {402}
    # in the east strips of 1-7/8 in have no room of their own accord
    both = numbers(NARROW.format(north=7, overhang="{north = 4, south = 9, east = 1, west = 9}"))
    assert set(both) == {302, 402}
    assert both[302].change.startswith("overhang 1 in on the east side")


@pytest.mark.reference
def test_a_floor_above_what_the_overhang_leaves_is_said_so():
    # floor 1-1/16 in for a 3/8 in round-over; 7 - 6 in of overhang less 1/8 leaves 7/8: 3/16 in short
    tables = NARROW.format(north=6, overhang=7)
    (finding,) = found(508, tables)
    assert finding.figures == "floor 1 1/16 in exceeds what the overhang leaves, 7/8 in on the north side"
    assert finding.change == (
        "trim 3/16 in less on the north side, move the base, or use a smaller bottom round-over"
    )
    (stop,) = found(302, tables)
    assert "use a narrower strip" not in stop.change


@pytest.mark.example
def test_what_is_short_is_not_to_be_trimmed_off_where_nothing_is():
    (finding,) = found(508, NARROW.format(north=6, overhang="{north = 9, south = 1, east = 9, west = 9}"))
    assert finding.change == "move the base, or use a smaller bottom round-over"
    # a base that is centred again shares: twice as much must stay on, and it cannot be moved more
    moved = found(
        508, NARROW.format(north=6, overhang="{north = 7, south = 1, east = 9, west = 9}") + "moved = true"
    )
    assert moved[0].figures.endswith("7/8 in on the north side")
    assert (
        moved[0].change
        == "trim 3/8 in less on the north and south side together, or use a smaller bottom round-over"
    )


SALE = """
[[stock]]
name = "sheet"
length = 96
width = 12
thickness = "23/32"
price = 20
"""


@pytest.mark.example
def test_own_wood_too_narrow_advises_what_may_help():
    # 3 in off one side: at most 5/8 in of strip without buying (computed)
    (bought,) = found(508, "[trim]\nnorth = 3" + SALE)
    assert bought.figures == "own wood gives at most 5/8 in, the bench checks ask for 1 1/16 in"
    assert "buy" not in bought.change.replace("boards to buy", "")
    assert "trim more" not in bought.change
    (short,) = found(508, "[trim]\nnorth = 3")
    assert "trim more, or list boards under [[stock]]" in short.change
    # enough wood in all, but every way to splice it is forbidden: more trim would not help
    (ruled,) = found(508, "[trim]\nfinished_length = 84", length=96, width=36, thickness='"3/4"')
    assert "trim more" not in ruled.change
    assert "[splice]" in ruled.change


# ---- 507: as typed ----


@pytest.mark.example
def test_what_was_snapped_is_shown_as_typed():
    tables = '[trim]\nnorth = 3.1\nsouth = "80 mm"\n[edge]\nstrip_width = "1.4"'
    figures = {f.place: f.figures for f in found(507, tables)}
    # 42 - 3.1 = 38.9 in lies nearest to 38-29/32, so 3-3/32 comes off; 80 mm = 3.1496 in
    assert figures["north trim"] == "asked 3.1 in, used 3 3/32 in, grid 1/32 in"
    assert figures["south trim"] == "asked 80 mm, used 3 5/32 in, grid 1/32 in"
    assert figures["strip width"] == "asked 1.4 in, used 1 13/32 in, grid 1/32 in"


@pytest.mark.example
def test_used_figures_off_the_tape_are_decimals():
    # 41.97 - 3.1 = 38.87 in, nearest 38-7/8: 3.095 in comes off
    (finding,) = found(507, "[trim]\nnorth = 3.1", width=41.97)
    assert finding.figures == "asked 3.1 in, used 3.0950 in, grid 1/32 in"


@pytest.mark.example
def test_a_finished_size_is_shown_as_what_it_asks_off_each_side():
    # 42 - 35.63 = 6.37, half of it 3.185 in
    asked = {f.place: f.figures for f in found(507, "[trim]\nfinished_width = 35.63")}
    assert asked["north trim"].startswith("asked 3.1850 in, used 3 3/16 in")


# ---- 509 ----


@pytest.mark.example
def test_metric_offcuts_by_millimetres():
    tables = "[trim]\nnorth = 100\n[edge]\nstrip_thickness = 12\nbottom_round_over = 6\ntop_round_over = 6"
    (finding,) = found(509, tables, units="mm", length=1800, width=1000, thickness=18)
    assert finding.change.endswith("within 0.8 mm")
    (inches,) = found(509, '[trim]\nnorth = 6\n[edge]\nstrip_thickness = "1/2"')
    assert inches.change.endswith("within 1/32 in")


@pytest.mark.example
def test_a_spliced_plan_says_how_wide_strips_are_without_a_splice() -> None:
    """Proud 1/16 in, a through strip of 72 1/8 in cannot come whole from a 72 in offcut (computed)."""
    text = (
        '[job]\ntitle = "proud"\nunits = "in"\n[top]\nlength = 72\nwidth = 42\nthickness = "23/32"\n'
        'material = "plywood"\n[trim]\nnorth = 6\n[edge]\nproud = "1/16"\n'
    )
    spliced = next(f for f in plan(parse_job(text)).findings if f.number == 505)
    assert "without a splice own wood gives no strips wide enough" in spliced.change
