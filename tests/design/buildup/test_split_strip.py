"""A strip that is spliced: its pieces lie end to end and are the strip again."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shaped_jobs import shaped_plan
from stock_jobs import STRAIGHT

from edgewright.design.buildup.split_strip import crossings, place_on_strip, split_strip
from edgewright.design.outline import Line

PIECES = shaped_plan(STRAIGHT).design.pieces
LONG = PIECES[0]
MITRED = shaped_plan("octagon").design.pieces[1]


@pytest.mark.example
def test_two_splices_give_three_pieces_that_lie_end_to_end():
    parts = split_strip(LONG, [500.0, 900.0], 0.0)
    assert [part.id for part in parts] == ["1.1a", "1.1b", "1.1c"]
    assert [part.blank_length for part in parts] == pytest.approx([500.0, 400.0, 60 * 25.4 - 900.0])
    assert parts[0].joints[0] == LONG.joints[0]
    assert parts[-1].joints[1] == LONG.joints[1]
    for before, after in pairwise(parts):
        assert before.joints[1] == after.joints[0]
        assert math.dist(before.plan[1], after.plan[0]) == 0.0
        assert math.dist(before.plan[2], after.plan[3]) == 0.0
    assert split_strip(LONG, [], 0.0) == (LONG,)


@pytest.mark.example
def test_mitred_ends_keep_their_angles_and_the_splice_is_square():
    first, last = split_strip(MITRED, [200.0], 0.0)
    assert (first.start_angle, first.end_angle) == (MITRED.start_angle, 0.0)
    assert (last.start_angle, last.end_angle) == (0.0, MITRED.end_angle)
    assert first.blank_length == pytest.approx(200.0)
    # the longest edges of both make up the longest edge of the whole
    assert first.blank_length + last.blank_length == pytest.approx(MITRED.blank_length)


@pytest.mark.example
def test_the_joint_stands_on_the_finished_edge_where_the_strip_stands_proud():
    first, _ = split_strip(LONG, [300.0], 2.0)
    (x, y), (px, py) = first.joints[1], first.plan[1]
    assert math.dist((x, y), (px, py)) == pytest.approx(2.0)
    assert place_on_strip(LONG, (x, y)) == pytest.approx(300.0)


@pytest.mark.example
def test_a_seam_crosses_only_strips_that_it_comes_to():
    seam = Line((400.0, 0.0), (400.0, 30 * 25.4))
    crossed = [(piece.id, crossings(piece, [seam])) for piece in PIECES]
    assert [piece_id for piece_id, at in crossed if at] == ["1.1", "1.3"]
    assert crossed[0][1] == pytest.approx((400.0,))
    assert crossed[2][1] == pytest.approx((60 * 25.4 - 400.0,))
