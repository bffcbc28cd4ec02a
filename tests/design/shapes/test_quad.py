"""Out-of-square tops: the adjustment against other solvers, and the two worked cases of the trade."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import INCH, inches

from edgewright.design.shapes.misclosure import BLUNDER_MM, CLOSES_MM, MEASURED
from edgewright.design.shapes.quad import fit_quad, quad
from edgewright.errors import GeometryError

SQUARE_ENOUGH = inches(72, 36, 72, 36, 80.55, 80.44)
SHORT_SIDE = inches(72, 36, 72, 35, 80.55, 80.44)


def six(points):
    """Sides and diagonals of four corners."""
    a, b, c, d = points
    return tuple(math.dist(*ends) for ends in ((a, b), (b, c), (c, d), (d, a), (a, c), (b, d)))


@st.composite
def quads(draw: st.DrawFn):
    length, width = draw(st.floats(600, 2400)), draw(st.floats(400, 1200))
    off = st.floats(-40, 40)
    return [
        (x + draw(off), y + draw(off)) for x, y in ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    ]


@pytest.mark.reference
def test_a_top_of_72_by_36_leans_a_sixteenth():
    # common practice: diagonals 80.55 and 80.44 mean a lean of 1/16 in; (80.55² - 80.44²) / (4 · 72) = 0.0615
    fit, top = fit_quad(SQUARE_ENOUGH), quad(*SQUARE_ENOUGH)

    assert fit.lean / INCH == pytest.approx((80.55**2 - 80.44**2) / 288, rel=1e-3)
    assert fit.lean / INCH == pytest.approx(1 / 16, abs=0.002)
    assert top.checks[0].agrees
    assert not top.checks[1].agrees
    assert "the top is out of square by 7/64 in" in top.checks[1].says
    assert "lean 1/16 in to the east" in top.checks[1].says
    assert all(check.agrees for check in top.checks[2:])
    assert top.suggestions == ()
    assert top.names == ("south", "east", "north", "west")


@pytest.mark.reference
def test_a_short_side_read_an_inch_short_is_named_and_not_mended():
    # common practice: the other diagonal is predicted about 0.45 in off; +1 in on that side closes it
    top = quad(*SHORT_SIDE)

    assert abs(top.checks[0].off) / INCH == pytest.approx(0.45, abs=0.02)
    assert not top.checks[0].agrees
    assert top.suggestions[0].startswith("west side 35 in may have been read 1 in short: with 36 in")
    assert "opposite sides are equal" in top.suggestions[0]
    assert sum("are equal" in says for says in top.suggestions) == 1
    assert abs(top.checks[0].off) > BLUNDER_MM > CLOSES_MM
    # the fit spreads the inch, it does not take it away
    west = dict(zip(top.names, top.outline.segments, strict=True))["west"]
    assert west.length / INCH < 35.1


@pytest.mark.reference
def test_a_long_side_read_an_inch_short_moves_the_diagonal_twice_as_far():
    # common practice: 0.45 on a short side, 0.90 on a long one
    top = quad(*inches(72, 36, 71, 36, 80.5, 80.5))

    assert abs(top.checks[0].off) / INCH == pytest.approx(0.90, abs=0.02)
    assert top.suggestions[0].startswith("north side 71 in may have been read 1 in short")


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(quads())
def test_true_measurements_give_the_true_corners(points):
    measured = six(points)
    fit, top = fit_quad(measured), quad(*measured)

    assert six(fit.corners) == pytest.approx(measured, abs=1e-8)
    assert fit.misclosure == pytest.approx(0, abs=1e-7)
    assert sum(fit.angles) == pytest.approx(360)
    x, y = zip(*points, strict=True)
    area = abs(sum(x[k] * y[(k + 1) % 4] - x[(k + 1) % 4] * y[k] for k in range(4))) / 2
    assert top.outline.area == pytest.approx(area)
    assert not top.suggestions


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(quads(), st.lists(st.floats(-6, 6), min_size=6, max_size=6))
def test_the_adjustment_is_the_least_squares_solution(points, errors):
    measured = tuple(value + error for value, error in zip(six(points), errors, strict=True))
    fit = fit_quad(measured)

    def off(unknowns):
        (a, bx, by, cx, cy) = unknowns
        return np.array(six([(0, 0), (a, 0), (bx, by), (cx, cy)])) - measured

    (x0, y0), (x1, y1) = points[0], points[1]
    turn = complex(x1 - x0, y1 - y0).conjugate() / abs(complex(x1 - x0, y1 - y0))
    moved = [complex(x - x0, y - y0) * turn for x, y in points]
    start = [moved[1].real, moved[2].real, moved[2].imag, moved[3].real, moved[3].imag]
    solved = scipy.optimize.least_squares(off, start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert sum(r * r for r in fit.residuals) <= 2 * solved.cost * (1 + 1e-9) + 1e-12
    assert fit.residuals == pytest.approx(tuple(-solved.fun), abs=1e-4)
    # at the least sum every unknown's slope along the residuals is level
    slopes = scipy.optimize.approx_fprime(
        [fit.corners[1][0], *fit.corners[2], *fit.corners[3]], lambda u: sum(off(u) ** 2) / 2, 1e-6
    )
    assert np.allclose(slopes, 0, atol=1e-4)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(quads(), st.integers(0, 5), st.sampled_from((25.4, -25.4)))
def test_an_inch_put_into_one_reading_is_among_the_suggestions(points, number, inch):
    measured = list(six(points))
    measured[number] += inch
    top = quad(*measured)

    assert not top.checks[0].agrees
    assert any(says.startswith(f"{MEASURED[number]} ") and " 1 in " in says for says in top.suggestions)


@pytest.mark.example
@pytest.mark.parametrize(
    ("figures", "words"),
    [
        (
            (1800, 900, 1800, 900, 2800, 2000),
            "diagonal is 2800 mm; south side 1800 mm and east side 900 mm reach",
        ),
        (
            (1800, 900, 1800, 900, 2000, 800),
            "side 900 mm and south-east to north-west diagonal 800 mm reach 1700",
        ),
        ((1800, 0, 1800, 900, 2000, 2000), "east side is 0 mm"),
        ((1800, 900, math.nan, 900, 2000, 2000), "north side is nan mm"),
    ],
)
def test_figures_that_make_no_triangle_are_refused(figures, words):
    with pytest.raises(GeometryError, match=words):
        quad(*figures)
