"""Trims of a board and of odd tops: what is left, what comes off, in which order."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import BOARD, PLAIN_EDGE, design, job

from edgewright.design.anytop.build import build_shaped
from edgewright.errors import GeometryError

KERF = "[saw]\nkerf = 3\n"
ODD = """shape = "quad"
south = 1000
east = 600
north = 990
west = 610
diagonals = ["1166", "1166"]"""


@pytest.mark.example
def test_one_edge() -> None:
    """50 mm off the north: 550 are left, and an offcut of 50 - 3 mm."""
    trims = design(more=KERF + "[trim.edges]\nnorth = 50\n").trims
    assert trims.finished.outline.bounds == pytest.approx((0, 0, 1000, 550))
    assert len(trims.cuts) == 1
    (offcut,) = trims.offcuts
    assert offcut.length == pytest.approx(1000)
    assert (offcut.width_start, offcut.width_end, offcut.depth) == pytest.approx((47, 47, 47))
    assert trims.orders is None
    assert trims.finished.names == ("south", "east", "north", "west")


@pytest.mark.example
def test_all_round_cuts_four_sides_rips_first() -> None:
    """20 mm all round: 960 x 560; both long sides first, at full length, then both ends at 560 mm."""
    trims = design(more=KERF + "[trim]\nall_round = 20\n").trims
    assert trims.finished.outline.bounds == pytest.approx((20, 20, 980, 580))
    assert [round(offcut.length, 6) for offcut in trims.offcuts] == [1000, 1000, 560, 560]
    assert all(offcut.depth == pytest.approx(17) for offcut in trims.offcuts)
    assert trims.orders is not None


@pytest.mark.example
def test_chosen_sizes_are_snapped_to_the_bench_grid() -> None:
    """12.3 mm is 12.5 on a grid of half a millimetre."""
    trims = design(more="[trim.edges]\nwest = 12.3\n").trims
    assert trims.finished.outline.bounds[0] == pytest.approx(12.5)


@pytest.mark.example
def test_a_cut_parallel_to_another_edge() -> None:
    trims = design(more='[trim.parallel]\nto = "south"\nedge = "north"\ndistance = 500\n').trims
    assert trims.finished.outline.bounds == pytest.approx((0, 0, 1000, 500))


@pytest.mark.example
def test_a_round_from_a_board_is_routed_on_a_trammel() -> None:
    found = design(more='[trim.to]\nshape = "round"\ndiameters = [500]\n')
    trims = found.trims
    assert trims.finished.outline.area == pytest.approx(math.pi * 250**2)
    assert trims.finished.outline.centroid == pytest.approx((500, 300))
    assert len(trims.arcs) >= 1
    assert trims.cuts == ()


@pytest.mark.example
def test_largest_rectangle_is_upright_true_and_on_the_grid() -> None:
    found = design(ODD, PLAIN_EDGE, "[trim]\nlargest_rectangle = true\n")
    x0, y0, x1, y1 = found.finished.outline.bounds
    assert found.finished.outline.area == pytest.approx((x1 - x0) * (y1 - y0), rel=1e-12)
    for size in (x1 - x0, y1 - y0):
        assert size / 0.5 == pytest.approx(round(size / 0.5), abs=1e-6)
    assert 985 < x1 - x0 <= 1000
    assert len(found.trims.fits) == 4
    assert all(fit.outline.area <= found.old.outline.area for fit in found.trims.fits)


@pytest.mark.example
def test_nothing_asked_nothing_done() -> None:
    trims = design().trims
    assert (trims.cuts, trims.offcuts, trims.paths, trims.arcs) == ((), (), (), ())


@pytest.mark.example
@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("[trim.edges]\nback = 20\n", 'no edge "back" to cut; this top has .*south.*east.*north.*west'),
        ("[trim.edges]\nnorth = 700\n", "700 mm, as much as the top has there"),
    ],
)
def test_cuts_that_cannot_be_made_are_refused(more: str, says: str) -> None:
    asked = job(BOARD, PLAIN_EDGE, more)
    with pytest.raises(GeometryError, match=says):
        build_shaped(asked)
