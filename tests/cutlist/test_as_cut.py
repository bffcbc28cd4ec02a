"""A top whose cutting has begun: what is left of it, and the rest planned again from that.

Figures in inches are worked out on paper; what is common practice has no source.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from fractions import Fraction
from functools import cache

import pytest
from as_cut_jobs import as_planned
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import SIDES, PerSide
from edgewright.cutlist.as_cut import PieceOff, begun_by_sides, begun_of, job_as_cut, pieces_off
from edgewright.cutlist.check_sequence import sequence_faults
from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.plan import Plan, plan
from edgewright.cutlist.stages import plain_plan
from edgewright.design.model import Begun
from edgewright.errors import GeometryError
from edgewright.jobfile import parse_job


def inch(text: str | float) -> int:
    """Ticks of inches that are whole in ticks."""
    ticks = sum(Fraction(part) for part in str(text).split()) * 8128
    assert ticks.denominator == 1
    return int(ticks)


def job_text(
    trim: str = "north = 6", *, size: str = "72 x 42", top: str = "", edge: str = "", more: str = ""
) -> str:
    length, _, width = size.partition(" x ")
    return (
        f'[job]\ntitle = "T"\nunits = "in"\n[top]\nlength = {length}\nwidth = {width}\nthickness = "23/32"\n'
        f'material = "plywood"\n{top}\n[trim]\n{trim}\n[edge]\n{edge}\n{more}\n'
    )


@cache
def planned(text: str) -> Plan:
    return plan(parse_job(text))


def begun(text: str, as_cut: str) -> Begun:
    before = planned(text)
    job = parse_job(f"{text}[as_cut]\n{as_cut}\n")
    assert job.as_cut is not None
    return begun_of(job.as_cut, before.cut_plan, before.design.sizes)


def again(text: str, as_cut: str) -> Plan:
    return plan(parse_job(f"{text}[as_cut]\n{as_cut}\n"))


def keeps(made: Plan) -> list[tuple[int, str, float]]:
    return [(cut.number, cut.side, cut.keep_ticks / 8128) for cut in made.cut_plan.cuts]


NORTH = job_text()  # keep lines at 40, 38 and 36 in
BOTH = job_text(
    "north = 4\nsouth = 4", edge='strip_width = "1 7/8"'
)  # 40, 38; then 36, 34 from the fresh edge
BOTH_CUTS = [(1, "north", 40), (2, "north", 38), (3, "south", 36), (4, "south", 34)]


@pytest.mark.example
def test_the_jobs_of_these_tests_are_cut_as_their_comments_say() -> None:
    assert keeps(planned(NORTH)) == [(1, "north", 40), (2, "north", 38), (3, "north", 36)]
    assert keeps(planned(BOTH)) == BOTH_CUTS


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "as_cut", "off", "amounts"),
    [
        # off and amounts: north, east, south, west
        (NORTH, "cuts = 0", (0, 0, 0, 0), (6, 0, 0, 0)),
        (NORTH, "cuts = 1\nwidth = 40", (2, 0, 0, 0), (6, 0, 0, 0)),
        (NORTH, "cuts = 1\nwidth = 39.5", (2.5, 0, 0, 0), (6, 0, 0, 0)),
        # all cuts made and 1/32 in too wide: north is cut once more
        (NORTH, "cuts = 3\nwidth = 36.03125", (5.96875, 0, 0, 0), (6, 0, 0, 0)),
        # less than 1/64 in too wide or too narrow: it stays
        (NORTH, "cuts = 3\nwidth = 36.015", None, (5.985, 0, 0, 0)),
        (NORTH, "cuts = 3\nwidth = 35.99", None, (6.01, 0, 0, 0)),
        # 1/2 in too narrow stays so, too
        (NORTH, "cuts = 2\nwidth = 35.5", (6.5, 0, 0, 0), (6.5, 0, 0, 0)),
        (BOTH, "cuts = 1\nwidth = 40.125", (1.875, 0, 0, 0), (4, 0, 4, 0)),
        # north is done, 1/16 in too much: from the fresh north edge the south side gives less
        (BOTH, "cuts = 2\nwidth = 37.9375", (4.0625, 0, 0, 0), (4.0625, 0, 3.9375, 0)),
        (BOTH, "cuts = 2\nwidth = 38.25", (3.75, 0, 0, 0), (3.75, 0, 4.25, 0)),
        (BOTH, "cuts = 3\nwidth = 36.125", (4, 0, 1.875, 0), (4, 0, 4, 0)),
        # so far gone on the north that nothing more may come off there
        (BOTH, "cuts = 1\nwidth = 36", (6, 0, 0, 0), (6, 0, 2, 0)),
        (BOTH, "cuts = 1\nwidth = 38.01", None, (3.99, 0, 4.01, 0)),
        # no cut on the length, yet it was measured 1/16 in less: so it is
        (NORTH, "cuts = 1\nwidth = 40\nlength = 71.9375", (2, 0.0625, 0, 0), (6, 0.0625, 0, 0)),
    ],
)
def test_what_came_off_and_what_comes_off_in_all(
    text: str, as_cut: str, off: tuple[float, ...] | None, amounts: tuple[float, ...]
) -> None:
    found = begun(text, as_cut)

    if off is not None:
        assert [ticks / 8128 for _, ticks in found.off.items()] == list(off)
    assert [ticks / 8128 for _, ticks in found.sizes.amounts.items()] == pytest.approx(amounts, abs=1 / 8000)
    length, width = found.sizes.old
    total = found.sizes.amounts
    assert found.sizes.finished == (length - total.east - total.west, width - total.north - total.south)
    assert found.sizes.origin == (total.west, total.south)
    assert min(ticks for _, ticks in found.still.items()) >= 0


@pytest.mark.example
def test_sides_that_were_cut_are_fresh() -> None:
    assert begun(BOTH, "cuts = 2\nwidth = 38").fresh == ("north",)
    assert begun(BOTH, "cuts = 3\nwidth = 36").fresh == ("north", "south")
    assert begun(BOTH, "cuts = 0").fresh == ()


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "off", "amounts"),
    [
        # off and amounts: north, east, south, west; NORTH takes 6 in off the north, BOTH 4 in off each side
        (NORTH, (4.0625, 0, 0, 0), (6, 0, 0, 0)),
        (NORTH, (6.5, 0, 0, 0), (6.5, 0, 0, 0)),
        (NORTH, (5.96875, 0, 0, 0), (6, 0, 0, 0)),
        (NORTH, (2, 0.0625, 0, 0), (6, 0.0625, 0, 0)),
        (BOTH, (2, 0, 0, 0), (4, 0, 4, 0)),
        (BOTH, (4.0625, 0, 0, 0), (4.0625, 0, 3.9375, 0)),
        # the south side was cut first: the north takes what is left
        (BOTH, (0, 0, 4, 0), (4, 0, 4, 0)),
        (BOTH, (0, 0, 4.5, 0), (3.5, 0, 4.5, 0)),
        (BOTH, (2, 0, 2, 0), (4, 0, 4, 0)),
        (BOTH, (3.75, 0, 4.25, 0), (3.75, 0, 4.25, 0)),
    ],
)
def test_what_came_off_each_side_is_taken_as_it_is(
    text: str, off: tuple[float, ...], amounts: tuple[float, ...]
) -> None:
    sides = ", ".join(f"{side} = {inches}" for side, inches in zip(SIDES, off, strict=True))
    job = parse_job(f"{text}[as_cut]\ncuts = 4\noff = {{{sides}}}\n")
    assert job.as_cut is not None
    found = begun_by_sides(job.as_cut, planned(text).design.sizes, inch("1/8"))

    assert [ticks / 8128 for _, ticks in found.off.items()] == list(off)
    assert [ticks / 8128 for _, ticks in found.sizes.amounts.items()] == list(amounts)
    assert found.fresh == tuple(side for side, inches in zip(SIDES, off, strict=True) if inches)


PIECE = '[[as_cut.piece]]\nside = "{}"\nlength = 72\nwidth = 1.875\n{}\n'


@pytest.mark.example
def test_pieces_belong_to_the_cuts_of_their_side_in_order_unless_they_name_one() -> None:
    cuts = planned(BOTH).cut_plan.cuts
    job = parse_job(
        BOTH
        + "[as_cut]\ncuts = 4\nwidth = 34\n"
        + PIECE.format("south", "")
        + PIECE.format("north", "cut = 1")
        + PIECE.format("north", "usable = false")
        + PIECE.format("north", "")
    )
    assert job.as_cut is not None
    found = list(pieces_off(job.as_cut, cuts))

    # the fourth piece is one too many for the two cuts on the north side
    assert [off.cut.number if isinstance(off, PieceOff) else None for off in found] == [3, 1, 2, None]


@pytest.mark.example
def test_what_is_loose_lies_as_deep_in_the_top_as_the_cuts_before_it_took() -> None:
    pieces = PIECE.format("north", "") + PIECE.format("north", "") + PIECE.format("south", "cut = 3")
    found = begun(BOTH, "cuts = 3\nwidth = 36\n" + pieces)

    assert [(p.cut, p.side, p.edge_depth / 8128) for p in found.loose] == [
        (1, "north", 0),
        (2, "north", 2),
        (3, "south", 0),
    ]
    assert {p.length for p in found.loose} == {inch(72)}
    spoiled = begun(BOTH, "cuts = 1\nwidth = 40\n" + PIECE.format("north", "usable = false"))
    assert spoiled.loose == ()


@pytest.mark.example
def test_the_test_cut_stands_in_for_the_saw() -> None:
    job = parse_job(
        NORTH.replace("[edge]", '[saw]\nshoe_side = "narrow"\nguide_width = 3\n[edge]')
        + '[as_cut]\ncuts = 0\nkerf = "5/32"\nguide_offset = 2'
    )
    saw = job_as_cut(job).saw

    assert (saw.kerf.given, saw.guide_offset.given, saw.guide_offset_wide.mm) == ("5/32", "2", 114.3)
    assert saw.guide_width == job.saw.guide_width
    without = parse_job(NORTH + "[as_cut]\ncuts = 0")
    assert job_as_cut(without).saw == without.saw


# the rest planned again


@pytest.mark.example
def test_the_strip_that_came_out_narrow_sets_the_width_and_the_cuts_are_numbered_on() -> None:
    """Cut 1 left 40 1/32 in with a kerf of 5/32 in: 42 - 40 1/32 - 5/32 = 1 13/16 in of offcut.

    Two more strips of 1 13/16 in take 2 x 1 31/32 of the 4 1/32 in left, so that 3/32 in come off first. The ends fit
    between: 36 - 2 x 1 13/16 = 32 3/8, and 2 x 32 3/8 + 5/32 = 64 29/32 of 72 in.
    """
    made = again(
        NORTH,
        'cuts = 1\nwidth = 40.03125\nkerf = "5/32"\nguide_offset = "4 17/32"\n'
        + PIECE.format("north", "").replace("1.875", "1.8125"),
    )
    cut_plan = made.cut_plan

    assert made.ready
    assert check_plan(plain_plan(cut_plan)) == ()
    assert cut_plan.strip_width_ticks == inch("1 13/16")
    assert keeps(made) == [(2, "north", 39.9375), (3, "north", 37.96875), (4, "north", 36)]
    assert {cut.guide_offset_ticks for cut in cut_plan.cuts} == {inch("4 17/32")}
    assert {cut.kerf_end_ticks - cut.keep_ticks for cut in cut_plan.cuts} == {inch("5/32")}
    lengths = {piece.id: piece.length_ticks for piece in cut_plan.pieces}
    assert lengths == {"N1": inch(72), "S1": inch(72), "E1": inch("32 3/8"), "W1": inch("32 3/8")}
    assert "strip of cut 1" in {piece.lane_id for piece in cut_plan.pieces}
    assert made.rips == ()  # it is as wide as the strips, so no fence is set for it


@pytest.mark.example
def test_without_a_spoiled_strip_the_rest_must_do() -> None:
    """Three strips from the 4 in that are left: 4 / 3 - 1/8 is 1 5/24 in, on the grid 1 3/16 in."""
    pieces = "cuts = 1\nwidth = 40\n" + PIECE.format("north", "usable = false")
    narrower = again(NORTH, pieces)
    assert narrower.ready
    assert narrower.cut_plan.strip_width_ticks == inch("1 3/16")

    # of the width that was asked for there are two strips, 144 in for a ring of more than 200 in
    spoiled = again(job_text(edge='strip_width = "1 7/8"'), pieces)
    assert not spoiled.ready
    assert spoiled.cut_plan.shortage is not None
    assert check_plan(plain_plan(spoiled.cut_plan)) == ()


@pytest.mark.example
def test_a_wider_loose_strip_is_ripped_on_the_fence_and_its_rest_goes_back() -> None:
    # cut 1 went 1/2 in too deep: 2 3/8 in came off, and 3 1/2 in are left for two strips of 1 5/8 in and kerfs
    made = again(NORTH, "cuts = 1\nwidth = 39.5\n" + PIECE.format("north", "").replace("1.875", "2.375"))

    assert made.ready
    assert made.cut_plan.strip_width_ticks == inch("1 5/8")
    assert keeps(made) == [(2, "north", 37.75), (3, "north", 36)]
    (rip,) = made.rips
    assert (rip.stick_id, rip.lane_id, rip.fence_ticks) == (
        "offcut of cut 1",
        "strip of cut 1",
        inch("1 5/8"),
    )
    rest = next(r for r in made.cut_plan.remnants if r.id == "rest of offcut of cut 1")
    assert (rest.width_ticks, rest.length_ticks) == (inch("2 3/8") - inch("1 5/8") - inch("1/8"), inch(72))


@pytest.mark.example
def test_a_loose_strip_too_narrow_for_a_given_width_is_no_strip() -> None:
    text = job_text("north = 8", edge='strip_width = "1 7/8"')  # four strips, of which three are needed
    narrow = PIECE.format("north", "").replace("1.875", "1.859375")
    made = again(text, "cuts = 1\nwidth = 40.015625\n" + narrow)

    assert made.ready
    assert "strip of cut 1" not in {lane.id for stick in made.cut_plan.sticks for lane in stick.lanes}
    assert made.cut_plan.as_cut is not None
    assert [strip.lanes for strip in made.cut_plan.as_cut.loose] == [()]
    whole = next(r for r in made.cut_plan.remnants if r.id == "offcut of cut 1")
    assert (whole.width_ticks, whole.length_ticks) == (inch(1.859375), inch(72))


@pytest.mark.example
def test_a_second_time_is_planned_from_what_came_off_whatever_was_planned() -> None:
    """Cuts 1 to 4 by two plans, the second of them dust: 6 in off the north less one strip, kerf 5/32 in.

    What is left, 1 15/16 in, gives one strip of 1 25/32 in, so the two loose ones of 1 13/16 in are ripped to it.
    """
    text = NORTH + (
        '[as_cut]\ncuts = 4\noff = {north = 4.0625}\nkerf = "5/32"\n'
        + "".join(PIECE.format("north", f"cut = {n}").replace("1.875", "1.8125") for n in (3, 1))
    )
    made = plan(parse_job(text))

    assert made.ready
    assert keeps(made) == [(5, "north", 36)]
    assert made.cut_plan.strip_width_ticks == inch("1 25/32")
    assert [rip.stick_id for rip in made.rips] == ["offcut of cut 1", "offcut of cut 3"]
    assert made.design.begun is not None
    # 1 13/16 in and a kerf of 5/32 in came off before it
    assert [p.edge_depth for p in made.design.begun.loose] == [0, inch("1 31/32")]
    assert [(f.number, f.place) for f in made.findings if f.number > 510] == [(521, "kerf")]


@pytest.mark.example
def test_after_the_last_cut_only_strips_are_left_to_cut() -> None:
    made = again(NORTH, "cuts = 3\nwidth = 36\n" + PIECE.format("north", "") * 3)

    assert made.ready
    assert made.cut_plan.cuts == ()
    assert len(made.cut_plan.pieces) == 4
    assert check_plan(plain_plan(made.cut_plan)) == ()


@pytest.mark.example
def test_the_base_is_told_from_where_the_cuts_really_went() -> None:
    base = job_text("north = 4\nsouth = 4", edge='strip_width = "1 7/8"', more="[base]\noverhang = 9")
    pieces = PIECE.format("north", "") + PIECE.format("north", "").replace("1.875", "1.9375")
    made = again(base, "cuts = 2\nwidth = 37.9375\n" + pieces)

    # 4 1/16 off the north, 3 15/16 off the south
    assert made.design.base.overhang == PerSide(
        *(pytest.approx(inches * 25.4) for inches in (4.9375, 9, 5.0625, 9))
    )
    assert made.design.sizes.finished == (inch(72), inch(34))


@pytest.mark.example
def test_a_round_old_corner_is_gone_with_the_strip_it_was_in() -> None:
    """Radius 1 in: it shortens the strip that came off first, 1 in at each end, and no other."""
    text = job_text(top="corner_radius = 1")
    made = plan(parse_job(text + as_planned(planned(text).cut_plan, 1)))
    before = {lane.id: lane for stick in planned(text).cut_plan.sticks for lane in stick.lanes}
    now = {lane.id: lane for stick in made.cut_plan.sticks for lane in stick.lanes}

    assert now["strip of cut 1"].trim_start_ticks == before["offcut north 3"].trim_start_ticks > 0
    assert [now[f"offcut north {n}"] for n in (1, 2)] == [before[f"offcut north {n}"] for n in (1, 2)]


JOBS = st.builds(
    lambda sides, amounts, size, top, corners, width, kerf, layers, stock: job_text(
        "\n".join(f"{side} = {amount / 8}" for side, amount in zip(sides, amounts, strict=False)),
        size=size,
        top=top,
        edge=f'corners = "{corners}"\nlayers = {layers}\nbottom_round_over = "1/8"\n{width}',
        more=f'[saw]\nkerf = "{kerf}"\n{stock}',
    ),
    st.permutations(["north", "south", "east", "west"]).flatmap(
        lambda sides: st.integers(1, 3).map(lambda count: sides[:count])
    ),
    st.lists(st.integers(16, 56), min_size=3, max_size=3),
    st.sampled_from(["72 x 42", "48 x 36", "60 x 60", "36 x 50"]),
    st.sampled_from(["", "corner_radius = 2", 'finished_edge.north = {depth = "1/2"}']),
    st.sampled_from(["butt", "pinwheel", "mitre"]),
    st.sampled_from(["", "strip_width = 1.5"]),
    st.sampled_from(["1/8", "0.12", "3.2 mm"]),
    st.sampled_from([1, 1, 2]),
    st.sampled_from(["", '[[stock]]\nname = "b"\nlength = 96\nwidth = 8\nthickness = "23/32"\nprice = 20']),
)


def pieces_of(made: Plan) -> list[tuple[object, ...]]:
    return [
        (p.id, p.length_ticks, p.side_start_ticks, p.lane_start_ticks, p.start_cut, p.end_cut, p.turned)
        for p in made.cut_plan.pieces
    ]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=12)
@given(text=JOBS, part=st.floats(0, 1), by_sides=st.booleans())
def test_where_every_cut_came_out_as_planned_the_rest_is_the_same_plan(
    text: str, part: float, by_sides: bool
) -> None:
    try:
        before = plan(parse_job(text))
    except GeometryError:
        return
    if before.cut_plan.status != "ready":
        return
    count = round(part * len(before.cut_plan.cuts))
    # by sides it is not known how much a cut took that gave no piece
    by_sides &= all(cut.offcut_width_ticks for cut in before.cut_plan.cuts[:count])
    made = plan(parse_job(text + as_planned(before.cut_plan, count, by_sides=by_sides)))

    assert made.cut_plan.cuts == before.cut_plan.cuts[count:]
    assert made.cut_plan.strip_width_ticks == before.cut_plan.strip_width_ticks
    assert pieces_of(made) == pieces_of(before)
    assert [s.value for s in made.cut_plan.stages] == [s.value for s in before.cut_plan.stages]
    assert made.design.sizes == before.design.sizes
    assert [(f.number, f.figures) for f in made.findings] == [(f.number, f.figures) for f in before.findings]
    assert made.takeoff == before.takeoff


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=12)
@given(
    made=st.integers(1, 4),
    error=st.integers(-400, 400),
    narrow=st.integers(0, 400),
    kerf=st.sampled_from(["1/8", "5/32", "3 mm"]),
    width=st.sampled_from(['"widest"', '"1 1/2"']),
)
def test_whatever_was_measured_the_rest_is_a_plan_that_the_checker_takes_or_a_shortage(
    made: int, error: int, narrow: int, kerf: str, width: str
) -> None:
    text = job_text("north = 4\nsouth = 4", edge=f"strip_width = {width}")
    cut_plan = planned(text).cut_plan
    made = min(made, len(cut_plan.cuts))
    panel = cut_plan.cuts[made - 1].keep_ticks + error
    pieces = [
        f'[[as_cut.piece]]\nside = "{cut.side}"\nlength = 71.9\nwidth = "{wide / 320} mm"'
        for cut in cut_plan.cuts[:made]
        for wide in [cut.offcut_width_ticks - 401 - narrow]
    ]
    again_made = again(
        text, f'cuts = {made}\nwidth = "{panel / 320} mm"\nkerf = "{kerf}"\n' + "\n".join(pieces)
    )  # make_cut_plan raises where the checker refuses

    assert [cut.number for cut in again_made.cut_plan.cuts] == list(
        range(made + 1, made + 1 + len(again_made.cut_plan.cuts))
    )
    assert again_made.cut_plan.finished_ticks[1] <= planned(text).design.sizes.finished[1] + 126
    assert check_plan(plain_plan(again_made.cut_plan)) == ()


@pytest.mark.example
@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({"stick_id": "offcut of cut 2"}, "unknown stick"),
        ({"lane_id": "offcut north 1"}, "wrong rip"),
        ({"fence_ticks": inch("1 11/16")}, "wrong fence"),
        ({"length_ticks": inch(71)}, "wrong fence"),
    ],
)
def test_a_wrong_rip_of_a_loose_strip_is_refused(changed: dict[str, object], fault: str) -> None:
    made = again(NORTH, "cuts = 1\nwidth = 39.5\n" + PIECE.format("north", "").replace("1.875", "2.375"))
    plain = plain_plan(made.cut_plan)
    rips, cuts, stops = (
        json.loads(json.dumps([asdict(entry) for entry in part]))
        for part in (made.rips, made.crosscuts, made.stops)
    )

    assert sequence_faults(plain, rips, cuts, stops) == ()
    assert fault in {f.name for f in sequence_faults(plain, [{**rips[0], **changed}], cuts, stops)}
    assert "strip never ripped" in {f.name for f in sequence_faults(plain, [], cuts, stops)}
    plain["as_cut"]["loose"][0]["width_ticks"] = inch("1 1/2")
    assert "no wood for the strip" in {f.name for f in sequence_faults(plain, rips, cuts, stops)}
