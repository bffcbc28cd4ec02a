"""The edge profile: its length and what does not fit."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_sharp_edge_is_as_long_as_it_is_thick():
    profile = EdgeProfile.round_overs(36.5, 0, 0)

    assert profile.length == 36.5
    assert profile.flat == 36.5


@pytest.mark.example
def test_round_overs_may_just_meet():
    # a half round of radius 9 is half a circle long
    profile = EdgeProfile.round_overs(18, 9, 9)

    assert profile.flat == 0
    assert profile.length == pytest.approx(9 * math.pi, rel=1e-15)
    # as floats 0.1 + 0.2 > 0.3
    assert EdgeProfile.round_overs(0.3, 0.1, 0.2).flat == 0


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(0.5, 80), st.floats(0, 1), st.floats(0, 1))
def test_length_matches_a_walk_in_small_steps(thickness, share, split):
    top, bottom = thickness * share * split, thickness * share * (1 - split)
    profile = EdgeProfile.round_overs(thickness, top, bottom)
    steps = 500
    angles = [math.pi / 2 * step / steps for step in range(steps + 1)]
    # (inset, depth) from the top face down over the flat to the underside
    points = [(top * (1 - math.sin(a)), top * (1 - math.cos(a))) for a in angles]
    points += [(bottom * (1 - math.cos(a)), thickness - bottom * (1 - math.sin(a))) for a in angles]
    walked = sum(math.dist(a, b) for a, b in pairwise(points))

    # chords of angle δ = π/1000 fall short by δ²/24 = 4.1e-7 at most
    assert walked == pytest.approx(profile.length, rel=5e-7)
    assert walked <= profile.length * (1 + 1e-12)


@pytest.mark.example
@pytest.mark.parametrize(
    ("figures", "words"),
    [
        # 23/32 in panel with two 3/8 in round-overs: 1/32 in too thin
        ((18.25625, 9.525, 9.525), ["9.525 mm at the top", "need 19.05 mm", "has 18.25625 mm", "0.79375 mm"]),
        ((0, 0, 0), ["thickness is 0 mm"]),
        ((math.nan, 1, 1), ["thickness is nan mm"]),
        ((20, -1, 0), ["top round-over radius is -1 mm", "at least 0 mm"]),
        ((20, 0, math.inf), ["bottom round-over radius is inf mm"]),
    ],
)
def test_a_profile_that_cannot_exist_is_refused_with_all_figures(figures, words):
    with pytest.raises(GeometryError) as caught:
        EdgeProfile.round_overs(*figures)

    for word in words:
        assert word in str(caught.value)
