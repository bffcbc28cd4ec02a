"""Joints of a curve: staggered from layer to layer, clear of seams, fewer where corners leave no room."""

import math

import pytest
from region_cases import D_END, RACETRACK, circle
from ring_cases import assert_covers, bowed, numbered, rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.seam_clearance import seam_clearance
from edgewright.design.outline import Line, Outline


@pytest.mark.example
@pytest.mark.parametrize("outline", [circle(10, 20, 600, hole=False), RACETRACK.outer, D_END.outer])
def test_no_joint_of_a_curve_lies_over_another(outline):
    made = ring_pieces(outline, numbered(outline), rules())
    one, two = ([p.joints[0] for p in made if p.layer == n and p.kind == "segment"] for n in (1, 2))
    nearest = min(math.dist(a, b) for a in one for b in two)
    longest = max(p.blank_length for p in made if p.kind == "segment")
    assert nearest > 0.4 * longest


@pytest.mark.example
def test_the_ring_turns_away_from_a_seam():
    """12 joints of two layers lie 15° apart on a circle of 600; the seam on the x axis lies best between two."""
    outline, seam = circle(0, 0, 600, hole=False), Line((-700, 0), (700, 0))
    rule = rules(segments_per_circle=12)
    straight = ring_pieces(outline, ("a", "b"), rule)
    turned = ring_pieces(outline, ("a", "b"), rule, (seam,))
    assert min(seam_clearance(p, (seam,), 30) for p in straight) == pytest.approx(0, abs=1e-6)
    # best: 7.5° off; nearest point of the joint to the seam is its inner end
    clear = min(seam_clearance(p, (seam,), 30) for p in turned)
    assert clear == pytest.approx(570 * math.sin(math.radians(7.5)), rel=1e-6)
    assert_covers(outline, turned, rule)


@pytest.mark.example
def test_a_seam_across_an_open_curve_takes_another_count():
    """Six segments of a D-end have joints 30° apart; with a seam on the middle joint, seven have theirs beside it."""
    seam = (Line((700, 350), (1300, 350)),)
    rule = rules(segments_per_circle=12, layers=1)
    made = ring_pieces(D_END.outer, numbered(D_END.outer), rule, seam)
    assert [p.kind for p in made].count("segment") == 7
    # middle of seven: joints at ±180/14 degrees
    clear = min(seam_clearance(p, seam, 30) for p in made if p.kind == "segment")
    assert clear == pytest.approx(320 * math.sin(math.pi / 14), rel=1e-6)
    assert_covers(D_END.outer, made, rule)


@pytest.mark.example
def test_sharp_ends_take_fewer_segments():
    """A lens of two arcs of 400 chord: at its tips a short segment would have no inner edge left."""
    lens = Outline((bowed((-200, 0), (200, 0), 0.3), bowed((200, 0), (-200, 0), 0.3)))
    rule = rules(segments_per_circle=60)
    made = ring_pieces(lens, numbered(lens), rule)
    asked = math.ceil(60 * 4 * math.atan(0.3) / (2 * math.pi))
    assert len([p for p in made if p.layer == 1]) < 2 * asked
    assert_covers(lens, made, rule)
