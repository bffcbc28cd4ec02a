from __future__ import annotations

import dataclasses
from collections import Counter, defaultdict
from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strip_cases import EIGHTH, INCH, INCH_RULES, lane, side

from edgewright.cutlist.fill import Group, Segment, fill_lanes
from edgewright.cutlist.model import PlanRules, RingSide


def splices_of(segments: Sequence[Segment], name: str) -> list[int]:
    return sorted(s.start for s in segments if s.side_id == name and s.start)


def assert_lawful(groups: Sequence[Group], segments: Sequence[Segment], rules: PlanRules) -> None:
    """Every side covered end to end, no lane overfull, every rule kept: worked out from the words of the rules."""
    room: dict[str, int] = {}
    used: dict[str, list[int]] = defaultdict(list)
    places: list[tuple[RingSide, int]] = []
    for group in groups:
        room |= {ln.id: ln.length_ticks for ln in group.lanes}
        for one in group.sides:
            pieces = sorted((s for s in segments if s.side_id == one.id), key=lambda s: s.start)
            assert pieces[0].start == 0
            assert all(a.start + a.length == b.start for a, b in pairwise(pieces))
            assert pieces[-1].start + pieces[-1].length == one.length_ticks
            assert {p.lane_id for p in pieces} <= {ln.id for ln in group.lanes}
            assert len(pieces) - 1 <= one.max_splices
            if len(pieces) > 1:
                assert min(p.length for p in pieces) >= rules.min_piece_ticks
            for p in pieces[1:]:
                assert p.start % rules.grid_ticks == 0
                assert one.start_offset_ticks + p.start >= rules.from_corner_ticks
                assert one.length_ticks - p.start + one.end_offset_ticks >= rules.from_corner_ticks
                assert all(abs(p.start - seam) >= rules.from_seam_ticks for seam in one.seams_ticks)
                places.append((one, p.start))
    for s in segments:
        used[s.lane_id].append(s.length)
    assert used.keys() == room.keys()
    for name, lengths in used.items():
        assert sum(lengths) + (len(lengths) - 1) * rules.kerf_ticks <= room[name]
    for a, at in places:
        for b, there in places:
            if a.side == b.side and b.layer == a.layer + 1:
                apart = abs(a.start_offset_ticks + at - b.start_offset_ticks - there)
                assert apart >= rules.stagger_ticks


@pytest.mark.example
def test_one_side_from_two_lanes_leaves_the_longest_end() -> None:
    """72 in from 50 and 40: 18 are left, all in one lane; the rest of the other lane would be waste."""
    groups = [Group((side("N1", 72 * INCH),), (lane("a", 50 * INCH), lane("b", 40 * INCH)))]
    segments = fill_lanes(groups, INCH_RULES)
    assert segments is not None
    assert_lawful(groups, segments, INCH_RULES)
    taken = {s.lane_id: s.length for s in segments}
    assert taken in ({"a": 50 * INCH, "b": 22 * INCH}, {"a": 32 * INCH, "b": 40 * INCH})


@pytest.mark.example
def test_a_splice_keeps_six_inches_from_corner_and_seam() -> None:
    """Lane of 50 and seam at 46: allowed are up to 40 and from 52, so the long piece is 40 in (or 32 from the end)."""
    groups = [
        Group((side("N1", 72 * INCH, seams=(46 * INCH,)),), (lane("a", 50 * INCH), lane("b", 40 * INCH)))
    ]
    segments = fill_lanes(groups, INCH_RULES)
    assert segments is not None
    assert_lawful(groups, segments, INCH_RULES)
    # 70 of 72: the splice would have to lie within 6 in of an end, or leave less than 8 in
    near = [Group((side("N1", 72 * INCH),), (lane("a", 66 * INCH), lane("b", 7 * INCH)))]
    assert fill_lanes(near, INCH_RULES) is None
    # a short offset (a fit-between strip) moves the corner away: 3 in from the strip's end are 7 from the corner
    short = dataclasses.replace(INCH_RULES, min_piece_ticks=INCH)
    moved = [Group((side("N1", 72 * INCH, offset=4 * INCH),), (lane("a", 69 * INCH), lane("b", 3 * INCH)))]
    found = fill_lanes(moved, short)
    assert found is not None
    assert_lawful(moved, found, short)
    unmoved = [Group((side("N1", 72 * INCH),), (lane("a", 69 * INCH), lane("b", 3 * INCH)))]
    assert fill_lanes(unmoved, short) is None


@pytest.mark.example
def test_the_shortest_piece_is_exactly_the_minimum() -> None:
    at_least = [Group((side("N1", 72 * INCH),), (lane("a", 64 * INCH), lane("b", 8 * INCH)))]
    assert fill_lanes(at_least, INCH_RULES) is not None
    less = [Group((side("N1", 72 * INCH),), (lane("a", 72 * INCH - 254), lane("b", 8 * INCH - 254)))]
    assert fill_lanes(less, INCH_RULES) is None


@pytest.mark.example
def test_splices_of_neighbouring_layers_keep_apart() -> None:
    """Both layers from 40 + 32: at 40 from one end in layer 1, so layer 2 must start from the other end (at 32)."""
    groups = [
        Group((side("N1", 72 * INCH),), (lane("a", 40 * INCH), lane("b", 32 * INCH))),
        Group((side("N2", 72 * INCH),), (lane("c", 40 * INCH), lane("d", 32 * INCH))),
    ]
    segments = fill_lanes(groups, INCH_RULES)
    assert segments is not None
    assert_lawful(groups, segments, INCH_RULES)
    assert splices_of(segments, "N1") != splices_of(segments, "N2")
    # 36 + 36 leaves only the middle in both
    middle = [
        Group((side("N1", 72 * INCH),), (lane("a", 36 * INCH), lane("b", 36 * INCH))),
        Group((side("N2", 72 * INCH),), (lane("c", 36 * INCH), lane("d", 36 * INCH))),
    ]
    assert fill_lanes(middle, INCH_RULES) is None
    # two layers further down it does not matter, nor on another side
    for other in ("N3", "S2"):
        free = [middle[0], Group((side(other, 72 * INCH),), middle[1].lanes)]
        assert fill_lanes(free, INCH_RULES) is not None


@pytest.mark.example
def test_a_loop_where_every_tree_leaves_too_short_a_piece() -> None:
    """Sides 51 and 42 from 50 and 50 in.

    One splice, in the 51: the 42 takes its lane up to 7 7/8 in, too short to end the 51. One splice, in the 42: the 51
    is longer than a lane. Two splices: 51 = x + (51 - x), 42 = y + (42 - y), both lanes hold both, as with x = y = 25.
    """
    sides = (side("N1", 51 * INCH), side("S1", 42 * INCH))
    lanes = (lane("a", 50 * INCH), lane("b", 50 * INCH))
    assert fill_lanes([Group(sides, lanes)], INCH_RULES) is None
    groups = [Group(sides, lanes, loops=1)]
    segments = fill_lanes(groups, INCH_RULES)
    assert segments is not None
    assert_lawful(groups, segments, INCH_RULES)
    assert len(segments) == 4


@pytest.mark.example
def test_six_sides_from_seven_lanes_none_of_which_can_end_a_path() -> None:
    """Five long lanes hold a side and 63,944 ticks more, just under 8 in: every lane must end in a piece of a side."""
    names = ("N1", "S1", "N2", "S2", "N3", "S3")
    sides = tuple(side(name, 744_800) for name in names)
    lanes = (*(lane(f"l{n}", 809_760) for n in range(5)), lane("s1", 223_360), lane("s2", 223_360))
    rules = dataclasses.replace(INCH_RULES, grid_ticks=160)
    segments = fill_lanes([Group(sides, lanes)], rules)
    assert segments is not None
    assert_lawful([Group(sides, lanes)], segments, rules)


@st.composite
def cut_up(draw: st.DrawFn) -> tuple[Group, int]:
    """Sides cut up at lawful places and the pieces put into lanes as a chain: there is a way, perhaps a tight one."""
    count = draw(st.integers(1, 3))
    lengths = draw(st.lists(st.integers(28 * 32, 90 * 32), min_size=count, max_size=count))
    sides = tuple(
        side(f"{'NES'[i]}1", n * 254, splices=draw(st.integers(1, 2))) for i, n in enumerate(lengths)
    )
    slack = draw(st.sampled_from([0, 0, 254, 5 * INCH]))
    lanes: list[int] = []
    open_end = 0
    for one in sides:
        steps = one.length_ticks // 254
        cuts = [draw(st.integers(8 * 32, steps - 8 * 32)) * 254] if draw(st.booleans()) else []
        ends = [0, *cuts, one.length_ticks]
        pieces = [b - a for a, b in pairwise(ends)]
        lanes += [open_end + pieces[0], *pieces[1:]] if len(pieces) > 1 else [open_end + pieces[0]]
        open_end = lanes.pop() + EIGHTH
    lanes.append(open_end - EIGHTH + slack)
    group = Group(sides, tuple(lane(f"l{n}", length) for n, length in enumerate(lanes)))
    return group, slack


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(cut_up())
def test_what_was_cut_up_lawfully_is_put_together_again(case: tuple[Group, int]) -> None:
    group, slack = case
    segments = fill_lanes([group], INCH_RULES)
    assert segments is not None
    assert_lawful([group], segments, INCH_RULES)
    pieces = len(group.sides) + len(group.lanes) - 1
    assert len(segments) == pieces
    per_lane = Counter(s.lane_id for s in segments)
    left = {
        ln.id: ln.length_ticks
        - sum(s.length for s in segments if s.lane_id == ln.id)
        - (per_lane[ln.id] - 1) * EIGHTH
        for ln in group.lanes
    }
    assert sum(left.values()) == slack
