"""Every kind of measured outline as one type, chosen by ``shape``; and outlines set down on another top."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from edgewright.job_fields import AsTuple, Between, Section
from edgewright.job_outline_base import OutlineTable
from edgewright.job_outline_counter import InsideDiagonal, LCounter, UCounter
from edgewright.job_outline_curved import Boat, DEnd, Ellipse, Oval, Racetrack, Round
from edgewright.job_outline_straight import Clip, Clips, Polygon, Quad, Rectangle, RegularPolygon, Tapered
from edgewright.job_outline_traced import Drawing, Stations
from edgewright.job_top import ZERO, default
from edgewright.units import Length

__all__ = [
    "AnyOutline",
    "AnyPlaced",
    "Boat",
    "Clip",
    "Clips",
    "DEnd",
    "Drawing",
    "Ellipse",
    "InsideDiagonal",
    "LCounter",
    "OutlineTable",
    "Oval",
    "Placed",
    "Polygon",
    "Quad",
    "Racetrack",
    "Rectangle",
    "RegularPolygon",
    "Round",
    "Stations",
    "Tapered",
    "UCounter",
]

AnyOutline = Annotated[
    Rectangle
    | Racetrack
    | Round
    | Ellipse
    | Oval
    | Boat
    | DEnd
    | RegularPolygon
    | Polygon
    | Tapered
    | Quad
    | LCounter
    | UCounter
    | Stations
    | Drawing,
    Field(discriminator="shape"),
]
"""The outline of an old top."""


class Placed(Section):
    """Where a new outline lies on the old top."""

    offset: Annotated[
        tuple[Annotated[Length, Between("-20 ft", "20 ft")], ...], AsTuple(2, 2, "east and north")
    ] = default((ZERO, ZERO), "how far its box's centre lies [east, north] of the old centre", "centred")
    turn: Annotated[float, Field(ge=-360, le=360, allow_inf_nan=False)] = default(
        0.0, "how far it is turned about its centre, degrees counter-clockwise", "not turned"
    )


class PlacedRectangle(Placed, Rectangle):
    """A rectangle on the old top."""


class PlacedRacetrack(Placed, Racetrack):
    """A racetrack on the old top."""


class PlacedRound(Placed, Round):
    """A round on the old top."""


class PlacedEllipse(Placed, Ellipse):
    """An ellipse on the old top."""


class PlacedOval(Placed, Oval):
    """An oval on the old top."""


class PlacedBoat(Placed, Boat):
    """A boat on the old top."""


class PlacedDEnd(Placed, DEnd):
    """A top with bowed ends on the old top."""


class PlacedRegularPolygon(Placed, RegularPolygon):
    """A regular polygon on the old top."""


class PlacedPolygon(Placed, Polygon):
    """A polygon on the old top."""


class PlacedTapered(Placed, Tapered):
    """A tapered top on the old top."""


class PlacedQuad(Placed, Quad):
    """A quadrilateral on the old top."""


class PlacedLCounter(Placed, LCounter):
    """An L on the old top."""


class PlacedUCounter(Placed, UCounter):
    """A U on the old top."""


class PlacedStations(Placed, Stations):
    """A live edge on the old top."""


AnyPlaced = Annotated[
    PlacedRectangle
    | PlacedRacetrack
    | PlacedRound
    | PlacedEllipse
    | PlacedOval
    | PlacedBoat
    | PlacedDEnd
    | PlacedRegularPolygon
    | PlacedPolygon
    | PlacedTapered
    | PlacedQuad
    | PlacedLCounter
    | PlacedUCounter
    | PlacedStations,
    Field(discriminator="shape"),
]
"""The outline that shall be left of an old top; a drawing is read for an old top only."""
