"""Outlines that are traced: offsets from a snapped line at stations, and outlines drawn elsewhere."""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import pairwise
from typing import Annotated, Any, Literal

from pydantic import PrivateAttr, ValidationInfo, model_validator

from edgewright.drawing.dxf_outline import DrawingFaultError, Loops, read_loops
from edgewright.job_fields import AsTuple, Between, JobFaultsError, say
from edgewright.job_outline_base import SHAPE, OutlineFault, OutlineTable
from edgewright.job_top import optional, required
from edgewright.job_values import Text
from edgewright.units import Length

__all__ = ["Drawing", "Stations"]

Offsets = Annotated[
    tuple[Annotated[Length, Between("-10 ft", "10 ft", hint="measure square to the line")], ...],
    AsTuple(2, 200, "one offset for each station"),
]


class Stations(OutlineTable):
    """A live edge: offsets to both edges, square to a line snapped along the top."""

    shape: Literal["stations"] = SHAPE
    at: Annotated[
        tuple[Annotated[Length, Between("0 in", "30 ft")], ...], AsTuple(2, 200, "stations along the line")
    ] = required("stations along the line, from the west")
    south: Offsets | None = optional(
        "offsets from the line south to the south edge, one for each station",
        "0: the line is the straight edge",
    )
    north: Offsets | None = optional(
        "offsets from the line north to the north edge, one for each station",
        "0: the line is the straight edge",
    )
    straight: Literal["south", "north"] | None = optional(
        "the edge that is straight, if one is", "neither edge is straight"
    )

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Stations out of order, offsets missing, or no wood at a station."""
        for number, (before, after) in enumerate(pairwise(self.at), start=1):
            if after.exact_mm <= before.exact_mm:
                message = f"{say(after)} does not lie east of {say(before)} before it: stations go from west to east"
                yield ("at", number), message
        for side in ("south", "north"):
            offsets: tuple[Length, ...] | None = getattr(self, side)
            if offsets is None and self.straight != side:
                yield (
                    (),
                    f'holds no {side}: write its offsets, or straight = "{side}" if the line is that edge',
                )
            elif offsets is not None and self.straight == side:
                yield (
                    (side,),
                    f'is given beside straight = "{side}", where the line is that edge: keep one of them',
                )
            elif offsets is not None and len(offsets) != len(self.at):
                given, wanted = len(offsets), len(self.at)
                yield (side,), f"the list has {given} entries: {wanted} are allowed, one for each station"
        yield from self._narrow()

    def _narrow(self) -> Iterator[OutlineFault]:
        """Stations without wood; a live edge may come to a point at its ends."""
        south, north = self.widths
        for number, (at, below, above) in enumerate(zip(self.at, south, north, strict=False)):
            width, at_end = below.exact_mm + above.exact_mm, number in (0, len(self.at) - 1)
            if width < 0 or (width == 0 and not at_end):
                side = "north" if self.north is not None else "south"
                offset = say(above if side == "north" else below)
                message = f"{offset} leaves no wood at the station {say(at)}: measure again"
                yield (side, number), message
                return

    def follows(self) -> dict[str, Any]:
        """Offsets that are zero all along."""
        south, north = self.widths
        return {"south": south, "north": north}

    @property
    def widths(self) -> tuple[tuple[Length, ...], tuple[Length, ...]]:
        """Offsets to the south and to the north edge; zero where the line is the edge."""
        zero = (Length("0", self.at[0].exact_mm * 0),) * len(self.at)
        return self.south or zero, self.north or zero


class Drawing(OutlineTable):
    """An outline drawn elsewhere: closed loops of lines and arcs in a DXF file."""

    shape: Literal["drawing"] = SHAPE
    file: Annotated[str, Text(200)] = required("name of the DXF file, seen from the folder of the job file")
    units: Literal["in", "mm"] | None = optional("unit of the drawing", "what the drawing says")
    layer: Annotated[str, Text(200)] | None = optional("layer of the outline", "the only layer with outlines")
    # kept in the job, so that its digest changes with the drawing
    _loops: Loops = PrivateAttr(default=())

    @model_validator(mode="after")
    def _read(self, info: ValidationInfo) -> Drawing:
        folder = (info.context or {}).get("folder") or ""
        try:
            self._loops = read_loops(os.path.join(folder, self.file), self.units, self.layer)
        except DrawingFaultError as fault:
            raise JobFaultsError([((fault.key,), str(fault))]) from None
        return self

    @property
    def loops(self) -> Loops:
        """Loops of vertices (x, y, bulge to the next vertex), in mm; the largest is the outline, others are holes."""
        return self._loops

    def read_from_elsewhere(self) -> dict[str, Any]:
        """Loops to a nanometre, instead of where they were read and how."""
        loops = [[[round(figure, 6) + 0.0 for figure in vertex] for vertex in loop] for loop in self._loops]
        return {"file": None, "units": None, "layer": None, "loops": loops}
