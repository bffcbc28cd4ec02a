"""Out-of-square tops: four sides and two diagonals, adjusted by least squares.

Six measurements fix five unknowns, so one of them can be predicted from the others.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from edgewright.design.outline import Point
from edgewright.design.shapes.blunders import blunder_suggestions
from edgewright.design.shapes.figures import need_triangle
from edgewright.design.shapes.loop import named_loop
from edgewright.design.shapes.misclosure import (
    CLOSES_MM,
    MEASURED,
    TRIANGLES,
    Measured,
    other_diagonal,
    placed_corners,
)
from edgewright.design.shapes.model import SIDES, TAPE_MM, Shape, ShapeCheck
from edgewright.design.shapes.polygon import corner_angles
from edgewright.display import show_mm
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["CLOSING", "SQUARENESS", "QuadFit", "fit_quad", "quad"]

#: Names of the check of the one redundancy, and of that of the corners: a top may be out of square and measured well.
CLOSING: Final = MEASURED[5]
SQUARENESS: Final = "difference of the diagonals"

#: Corners between which each measurement was taken, as numbers of SW, SE, NE, NW.
_ENDS: Final = ((0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3))

_ROUNDS: Final = 50


@dataclass(frozen=True, slots=True)
class QuadFit:
    """The four corners that fit six measurements best.

    Attributes
    ----------
    corners
        South-west (the origin), south-east (on the x axis), north-east, north-west, in mm.
    residuals
        Measured less fitted (mm), in the order of `MEASURED`.
    misclosure
        South-east to north-west diagonal: measured less what the other five predict (mm).
    angles
        Inside angles at the corners, degrees.
    lean
        How far the ends lean to the east over the width, mean of both (mm, west is negative).
    rounds
        Rounds of the adjustment until nothing moved.
    """

    corners: tuple[Point, Point, Point, Point]
    residuals: tuple[float, ...]
    misclosure: float
    angles: tuple[float, ...]
    lean: float
    rounds: int


def fit_quad(measured: Measured) -> QuadFit:
    """Adjust four sides and two diagonals (mm) to one quadrilateral.

    Gauss and Newton's rounds from the corners that five of the figures give; all six weigh alike. The sum of
    the squared residuals is made least.

    Parameters
    ----------
    measured
        South, east, north and west side, south-west to north-east and south-east to north-west diagonal.

    Raises
    ------
    GeometryError
        If three of the figures that meet do not make a triangle, or no quadrilateral comes near the six.
    """
    for names in TRIANGLES:
        one, two, three = (measured[number] for number in names)
        need_triangle((MEASURED[names[0]], MEASURED[names[1]], MEASURED[names[2]]), (one, two, three))
    unknowns = _unknowns(placed_corners(measured))
    for rounds in range(1, _ROUNDS + 1):
        lengths, slopes = _lengths(unknowns)
        step, *_ = np.linalg.lstsq(slopes, np.asarray(measured) - lengths, rcond=None)
        unknowns = unknowns + step
        if not np.all(np.isfinite(unknowns)):
            break
        if float(np.max(np.abs(step))) <= 1e-12 * max(measured):
            corners = _corners(unknowns)
            outline, _ = named_loop([(corner, 0.0, "") for corner in corners])
            (_, _), (east, _), (north_east, _), (north_west, _) = corners
            fitted, _ = _lengths(unknowns)
            return QuadFit(
                corners=corners,
                residuals=tuple(float(off) for off in np.asarray(measured) - fitted),
                misclosure=measured[5] - other_diagonal(measured),
                angles=corner_angles(outline),
                lean=(north_west + north_east - east) / 2,
                rounds=rounds,
            )
    raise GeometryError(
        f"four sides and two diagonals miss one another by {abs(measured[5] - other_diagonal(measured)):g} mm; no "
        "quadrilateral comes near all six: measure them again"
    )


def quad(
    south: float,
    east: float,
    north: float,
    west: float,
    sw_ne: float,
    se_nw: float,
    kerf: float = 25.4 / 8,
    units: Units = "in",
) -> Shape:
    """Out-of-square top from four sides and two diagonals.

    Parameters
    ----------
    south, east, north, west
        Sides in mm.
    sw_ne, se_nw
        Diagonals in mm, named by the corners they join.
    kerf
        The saw's kerf in mm: a likely slip is to be off by one.
    units
        In what the tape reads and the sentences speak.

    Returns
    -------
    Shape
        Corner SW at the origin, south side along x. Checks: the second diagonal against what the others
        predict, the diagonals against each other (squareness), every measurement against the fit. Where the
        six do not close, suggestions of what may have been misread; none is applied.

    Raises
    ------
    GeometryError
        If figures that meet do not make a triangle, or nothing fits.
    """
    measured: Measured = (south, east, north, west, sw_ne, se_nw)
    fit = fit_quad(measured)
    outline, names = named_loop(
        [(corner, 0.0, side) for corner, side in zip(fit.corners, SIDES, strict=True)]
    )

    def shown(mm: float) -> str:
        return show_mm(mm, units)

    expected = other_diagonal(measured)
    # ends that run together or apart alike lean nowhere, and the corners tell it
    leans = shown(abs(fit.lean))
    way = "east" if fit.lean >= 0 else "west"
    lean = "" if leans == shown(0.0) else f"its ends lean {leans} to the {way} over the width; "
    checks = [
        ShapeCheck(
            CLOSING,
            se_nw,
            expected,
            CLOSES_MM,
            f"the {CLOSING} is {shown(se_nw)}; the other five measurements predict {shown(expected)}",
        ),
        ShapeCheck(
            SQUARENESS,
            sw_ne - se_nw,
            0.0,
            CLOSES_MM,
            f"the top is out of square by {shown(abs(sw_ne - se_nw))} between the diagonals: {lean}the corners are "
            + ", ".join(f"{angle:.2f}°" for angle in fit.angles),
        ),
    ]
    for name, value, residual in zip(MEASURED, measured, fit.residuals, strict=True):
        says = (
            f"the {name} is {shown(value)}; the figure that fits all six best has {shown(value - residual)}"
        )
        checks.append(ShapeCheck(f"{name} against the fit", value, value - residual, TAPE_MM, says))
    suggestions = () if checks[0].agrees else blunder_suggestions(measured, kerf, units)
    try:
        return Shape(outline, names, tuple(checks), suggestions)
    except GeometryError as cause:
        raise GeometryError(
            f"four sides and two diagonals that miss one another by {shown(abs(fit.misclosure))} make sides that "
            "cross; a top has none: measure all six again"
        ) from cause


def _unknowns(corners: tuple[Point, Point, Point, Point]) -> NDArray[np.float64]:
    _, (south_east, _), (ax, ay), (bx, by) = corners
    return np.array([south_east, ax, ay, bx, by], dtype=np.float64)


def _corners(unknowns: NDArray[np.float64]) -> tuple[Point, Point, Point, Point]:
    south_east, ax, ay, bx, by = (float(value) for value in unknowns)
    return (0.0, 0.0), (south_east, 0.0), (ax, ay), (bx, by)


def _lengths(unknowns: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Lengths of the six lines, and how each changes with each unknown."""
    corners = _corners(unknowns)
    # columns of the unknowns that are x and y of each corner; the south-west one is fixed
    columns = ((None, None), (0, None), (1, 2), (3, 4))
    lengths, slopes = np.zeros(6), np.zeros((6, 5))
    for row, (begin, end) in enumerate(_ENDS):
        (ax, ay), (bx, by) = corners[begin], corners[end]
        length = math.dist((ax, ay), (bx, by))
        lengths[row] = length
        for corner, sign in ((begin, -1.0), (end, 1.0)):
            for column, part in zip(columns[corner], (bx - ax, by - ay), strict=True):
                if column is not None:
                    slopes[row, column] += sign * part / length
    return lengths, slopes
