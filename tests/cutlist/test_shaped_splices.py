"""Splices of long strips: every rule of the job is kept, and what cannot be kept is said."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shaped_jobs import shaped_plan
from stock_jobs import STRAIGHT

from edgewright.cutlist.shaped_splices import DIVISIONS, spliced
from edgewright.design.buildup.split_strip import crossings, place_on_strip

INCH = 8128


def divided(text, longest, division="as long"):
    design = shaped_plan(text).design
    return spliced(design, design.pieces, lambda width, number: longest * INCH, division)


def lengths(found):
    return [(piece.id, round(piece.blank_length / 25.4, 4)) for piece in found.pieces]


@pytest.mark.example
def test_a_strip_is_as_long_as_the_stick_goes_or_even():
    assert lengths(divided(STRAIGHT, 40)) == [
        ("1.1a", 40.0), ("1.1b", 20.0), ("1.2", 26.0), ("1.3a", 40.0), ("1.3b", 20.0), ("1.4", 26.0)
    ]  # fmt: skip
    assert lengths(divided(STRAIGHT, 40, "even"))[:2] == [("1.1a", 30.0), ("1.1b", 30.0)]
    # what is left after 55 in would be 5 in, and no piece is shorter than 8 in
    assert lengths(divided(STRAIGHT, 55))[:2] == [("1.1a", 52.0), ("1.1b", 8.0)]
    assert divided(STRAIGHT, 60).splices == 0


@pytest.mark.example
def test_a_splice_keeps_away_from_a_seam():
    seam = STRAIGHT.replace("[top.outline]", 'seams = [{across = "length", at = 38}]\n[top.outline]')
    # 40 in is 2 in from the seam at 38 in; 6 in before it is the nearest place
    assert lengths(divided(seam, 40))[:2] == [("1.1a", 32.0), ("1.1b", 28.0)]


@pytest.mark.example
def test_splices_of_two_layers_stand_apart():
    found = divided(STRAIGHT.replace("strip_width", "layers = 2\nalternate_layers = false\nstrip_width"), 40)
    one, other = ([p.joints[1] for p in found.pieces if p.id == name] for name in ("1.1a", "2.1a"))
    # twice the strip width of 2 in
    assert math.dist(one[0], other[0]) == pytest.approx(4 * 25.4)


@pytest.mark.example
def test_what_forbids_a_splice_is_said():
    none = divided(STRAIGHT + "[splice]\nallowed = false\n", 40)
    assert none.refused[0] == (
        "1.1", "1.1 is 60 in long, the longest stick 40 in, and the job allows no splice in it"
    )  # fmt: skip
    few = divided(STRAIGHT, 25)
    assert few.refused[0][1] == "1.1 is 60 in long, the longest stick 25 in: 2 splices are needed, 1 allowed"
    tight = divided(STRAIGHT + '[splice]\nfrom_corner = "28 in"\nmin_piece = "8 in"\n', 31)
    assert lengths(tight)[0] == ("1.1a", 31.0)
    none = divided(STRAIGHT + '[splice]\nfrom_corner = "31 in"\n', 40)
    assert "no place was found for a splice 31 in from corners, 6 in from seams" in none.refused[0][1]
    # nothing to divide it into
    assert divided(STRAIGHT, 0).refused == ()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    longest=st.integers(20, 64),
    seam=st.integers(5, 55),
    division=st.sampled_from(DIVISIONS),
    most=st.integers(1, 3),
    layers=st.integers(1, 2),
)
def test_every_division_keeps_the_rules(longest, seam, division, most, layers):
    text = (
        STRAIGHT.replace(
            "[top.outline]", f'seams = [{{across = "length", at = {seam}}}]\n[top.outline]'
        ).replace("strip_width", f"layers = {layers}\nstrip_width")
        + f"[splice]\nmax_per_side = {most}\n"
    )
    design = shaped_plan(text).design
    rules = design.job.splice
    found = spliced(design, design.pieces, lambda width, number: longest * INCH, division)
    parts: dict[str, list] = {}
    for piece in found.pieces:
        parts.setdefault(piece.id.rstrip("abcdefgh"), []).append(piece)
    whole = {piece.id: piece for piece in design.pieces}
    refused = dict(found.refused)
    assert set(parts) == set(whole)
    joints: dict[tuple, list] = {}
    for name, pieces in parts.items():
        strip = whole[name]
        assert math.fsum(p.blank_length for p in pieces) == pytest.approx(strip.blank_length)
        if len(pieces) == 1:
            assert strip.blank_length <= longest * 25.4 + 1e-4 or name in refused
            continue
        assert len(pieces) - 1 <= rules.most(Fraction(strip.blank_length))
        assert all(rules.min_piece.mm - 1e-6 <= p.blank_length <= longest * 25.4 + 1e-6 for p in pieces)
        for before, after in pairwise(pieces):
            at = place_on_strip(strip, before.joints[1])
            assert before.joints[1] == after.joints[0]
            assert min(at, strip.blank_length - at) >= rules.from_corner.mm - 1e-6
            clear = [abs(at - crossing) for crossing in crossings(strip, design.panel_seams)]
            assert min(clear, default=1e9) >= rules.from_seam.mm - 0.01
            joints.setdefault((strip.edges, strip.layer), []).append(before.joints[1])
    for (edges, layer), points in joints.items():
        for point in points:
            for other in joints.get((edges, layer - 1), []):
                assert math.dist(point, other) >= 2 * design.strip_width_mm - 0.02
