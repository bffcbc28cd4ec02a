"""Jobs worked out on paper: 72 x 42 in of 23/32 in plywood, kerf 1/8 in. Computed; common practice, no source.

Arithmetic in inches: n lanes side by side in what comes off take n strips and n kerfs, so w = off / n - 1/8, on the
1/32 grid; three strips of 72 hold the ring when the two ends and a kerf fit in the third.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.stages import plain_plan
from edgewright.cutlist.widest import widest_strip
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.jobfile import parse_job


def inches(text: str) -> int:
    """Ticks of inches like ``32 1/4``."""
    ticks = sum(Fraction(part) for part in text.split()) * 8128
    assert ticks.denominator == 1
    return int(ticks)


def design(trim: str, *, edge: str = "", top: str = "", rest: str = "", length: str = "72") -> Design:
    return build_design(
        parse_job(
            f"""
            [job]
            title = "reference"
            units = "in"
            [top]
            length = "{length} in"
            width = 42
            thickness = "23/32 in"
            material = "plywood"
            {top}
            [trim]
            {trim}
            [edge]
            {edge}
            {rest}
            """
        )
    )


def plan(trim: str, **more: str) -> CutPlan:
    """The plan, passed by the independent checker once more."""
    made = make_cut_plan(design(trim, **more))
    assert check_plan(plain_plan(made)) == ()
    return made


NORTH = "north = 6"
BOTH = "north = 3\nsouth = 3"


@pytest.mark.example
def test_narrowed_from_one_side() -> None:
    made = plan(NORTH)
    assert made.status == "ready"
    assert made.strip_width_ticks == inches("1 7/8")  # 6 / 3 - 1/8
    lengths = {p.id: p.length_ticks for p in made.pieces}
    short = inches("32 1/4")  # 36 - 2 x 1 7/8
    assert lengths == {"N1": inches("72"), "S1": inches("72"), "E1": short, "W1": short}
    assert sum(lengths.values()) == inches("208 1/2")
    lanes = {p.lane_id for p in made.pieces}
    assert len(lanes) == 3
    third = sorted((p for p in made.pieces if p.length_ticks == short), key=lambda p: p.lane_start_ticks)
    assert third[0].lane_id == third[1].lane_id
    assert (third[0].lane_start_ticks, third[1].lane_start_ticks) == (0, inches("32 3/8"))
    assert third[1].lane_start_ticks + short == inches("64 5/8")  # 64 1/2 and a kerf of 1/8
    (left,) = made.remnants
    assert left.length_ticks == inches("7 1/4")  # 72 - 64 5/8 - 1/8
    assert all(stage.proven for stage in made.stages)


@pytest.mark.example
def test_keep_lines_of_one_side() -> None:
    """Pitch 1 7/8 + 1/8 = 2: keep lines 40, 38, 36 from the south edge; each strip 1 7/8 as cut."""
    cuts = plan(NORTH).cuts
    assert [cut.keep_ticks for cut in cuts] == [inches("40"), inches("38"), inches("36")]
    assert cuts[0].kerf_end_ticks == inches("40 1/8")
    assert {cut.offcut_width_ticks for cut in cuts} == {inches("1 7/8")}
    assert {cut.offcut_length_ticks for cut in cuts} == {inches("72")}
    assert {(cut.datum, cut.datum_edge, cut.kind) for cut in cuts} == {("south", "old", "rip")}


@pytest.mark.example
def test_narrowed_from_both_sides() -> None:
    """3 / 2 - 1/8 = 1 3/8, two strips each side; three of the four are needed: 33 1/4 twice and a kerf fit in one."""
    made = plan(BOTH)
    assert made.strip_width_ticks == inches("1 3/8")
    assert {s.side: len(s.lanes) for s in made.sticks} == {"north": 2, "south": 2}
    # north is measured from the old south edge: 42 - 1 1/2, then 42 - 3; south from the fresh north edge of 39
    north = [cut.keep_ticks for cut in made.cuts if cut.side == "north"]
    south = [cut for cut in made.cuts if cut.side == "south"]
    assert north == [inches("40 1/2"), inches("39")]
    assert south[-1].keep_ticks == inches("36")
    assert {cut.datum_edge for cut in south} == {"fresh"}


@pytest.mark.example
def test_mitre_nested_and_not() -> None:
    """36 + 36 - 1 7/8 + 1/8 x root 2 = 70.30 fits in 72; side by side they need 72 1/8, so four strips, 1 3/8 wide."""
    nested = plan(NORTH, edge='corners = "mitre"')
    assert nested.strip_width_ticks == inches("1 7/8")
    ends = [p for p in nested.pieces if p.length_ticks == inches("36")]
    assert len({p.lane_id for p in ends}) == 1
    assert sorted(p.turned for p in ends) == [False, True]
    reach = max(p.lane_start_ticks + p.length_ticks for p in ends)
    assert reach / 8128 == pytest.approx(36 + 36 - 1.875 + 0.125 * 2**0.5, abs=1 / 8128)
    assert nested.trials[0].reason.endswith("with mitres nested end for end")

    flat = plan(NORTH, edge='corners = "mitre"\nnest_mitres = false')
    assert flat.strip_width_ticks == inches("1 3/8")
    assert not any(p.turned for p in flat.pieces)
    (refused,) = [t for t in flat.trials if t.strip_width_ticks == inches("1 7/8")]
    assert (refused.need_ticks, refused.have_ticks) == (inches("216 1/8"), inches("216"))
    assert refused.reason == "need 216 1/8 in, have 216 in, with nesting of mitres forbidden"


@pytest.mark.example
def test_pinwheel() -> None:
    """Each strip butts into the next: 72 - 1 7/8 and 36 - 1 7/8; twice 34 1/8 and a kerf fit in one strip."""
    made = plan(NORTH, edge='corners = "pinwheel"')
    assert made.strip_width_ticks == inches("1 7/8")
    lengths = sorted(p.length_ticks for p in made.pieces)
    assert lengths == [inches("34 1/8")] * 2 + [inches("70 1/8")] * 2
    proud = plan(NORTH, edge='corners = "pinwheel"\nproud = "1/16 in"')
    # both ends of the ring stand 1/16 proud, one end of each strip butts: 72 + 1/8 - 1 7/8
    assert proud.strip_width_ticks == inches("1 7/8")
    assert sorted(p.length_ticks for p in proud.pieces)[-1] == inches("70 1/4")


@pytest.mark.example
def test_through_the_short_pair() -> None:
    """Twice 36 and a kerf are 72 1/8: in whole pieces the ends take a strip each, so four strips, 6 / 4 - 1/8."""
    whole = plan(NORTH, edge='through = "short"', rest="[splice]\nallowed = false")
    assert whole.strip_width_ticks == inches("1 3/8")
    lengths = {p.id: p.length_ticks for p in whole.pieces}
    assert lengths["N1"] == inches("69 1/4")
    assert lengths["E1"] == inches("36")
    assert len({p.lane_id for p in whole.pieces}) == 4


@pytest.mark.example
def test_three_inches_are_too_few() -> None:
    """Floor 13/16 for a bottom round-over of 1/8; then 144 + 2 (39 - 2 x 13/16) = 218 3/4 from three of 72 = 216."""
    made = plan("north = 3", edge='bottom_round_over = "1/8 in"')
    assert made.status == "impossible"
    assert made.strip_width_ticks == inches("13/16")
    shortage = made.shortage
    assert shortage is not None
    assert (shortage.need_ticks, shortage.have_ticks) == (inches("218 3/4"), inches("216"))
    assert shortage.by_length
    assert "218 3/4 in" in shortage.sentence
    assert "216 in" in shortage.sentence
    assert "even with unlimited splices" in shortage.sentence
    # 2 3/4 are missing, no piece is shorter than 8, and nothing shorter than 12 is ripped
    assert shortage.buy_length_ticks == inches("12")
    assert "one more strip" in shortage.buy_sentence
    assert made.pieces == made.cuts == ()
    assert [t.strip_width_ticks for t in made.trials if t.fits] == [inches("5/8")]  # 3 / 4 - 1/8


@pytest.mark.example
def test_proud_ends_need_the_length_before_the_end_is_cut() -> None:
    """Through strips of 72 + 2/16 from 72 do not go; ripped from 72 1/4, before the end is cut to 72, they do."""
    edge, whole = 'proud = "1/16 in"', "[splice]\nallowed = false"
    without = plan(NORTH, edge=edge, rest=whole)
    assert without.status == "impossible"
    assert not any(t.fits for t in without.trials)
    for length, off in (("72 1/4", "1/4"), ("72 1/8", "1/8")):
        longer = plan(f'{NORTH}\neast = "{off} in"', edge=edge, rest=whole, length=length)
        assert longer.status == "ready"
        assert longer.strip_width_ticks == inches("1 7/8")
        assert longer.finished_ticks == (inches("72"), inches("36"))
        assert max(p.length_ticks for p in longer.pieces) == inches("72 1/8")
        assert [cut.kind for cut in longer.cuts] == ["rip", "rip", "rip", "crosscut"]
    short = plan(f'{NORTH}\neast = "3/32 in"', edge=edge, rest=whole, length="72 3/32")
    assert short.status == "impossible"


TABLE = [
    # narrow by, one side, both sides: off / n - 1/8 on the 1/32 grid, with n = 3 (4 for 3 in) or 2 on each side
    ("3", "5/8", "5/8"),
    ("4", "1 3/16", "7/8"),
    ("5", "1 17/32", "1 1/8"),
    ("6", "1 7/8", "1 3/8"),
    ("8", "2 17/32", "1 7/8"),
    ("10", "3 3/16", "2 3/8"),
    ("12", "3 7/8", "2 7/8"),
]


@pytest.mark.example
@pytest.mark.parametrize(("off", "one", "both"), TABLE)
def test_widest_strip_by_what_comes_off(off: str, one: str, both: str) -> None:
    wide = 'max_strip_width = "12 in"'
    half = Fraction(off) / 2
    for trim, expected in (
        (f"north = {off}", one),
        (f'north = "{float(half)} in"\nsouth = "{float(half)} in"', both),
    ):
        width, trials = widest_strip(design(trim, edge=wide))
        assert width == inches(expected)
        assert trials[-1].fits
        assert not any(trial.fits for trial in trials[:-1])
        assert [t.strip_width_ticks for t in trials] == sorted(
            (t.strip_width_ticks for t in trials), reverse=True
        )


@pytest.mark.example
def test_an_old_finished_edge_half_an_inch_deep() -> None:
    """(6 - 1/2) / 3 - 1/8 = 1.708, on the grid 1 11/16; (3 - 1/2) / 2 - 1/8 = 1 1/8."""
    one = plan(NORTH, top="finished_edge = {north = {depth = 0.5}}")
    both = plan(BOTH, top="finished_edge = {north = {depth = 0.5}, south = {depth = 0.5}}")
    assert one.strip_width_ticks == inches("1 11/16")
    assert both.strip_width_ticks == inches("1 1/8")
    # the finished edge itself comes off first and is no strip
    assert one.cuts[0].yields == "rest of offcut north"
