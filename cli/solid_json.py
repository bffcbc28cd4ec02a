"""The figures of a solid as plain JSON values and back, for the process that builds it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from edgewright.design.forms import Form
from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.solid_figures import SolidSpec, StripBody

__all__ = ["spec_from_plain", "spec_to_plain"]


def spec_to_plain(spec: SolidSpec) -> dict[str, Any]:
    """Return dicts, lists, numbers and texts only; floats keep all their digits in JSON."""
    profile = spec.profile
    return {
        "loops": [_segments(loop.segments) for loop in spec.region.loops],
        "thickness": profile.thickness,
        "forms": [
            {"name": form.name, "parts": _segments(form.parts), "sizes": form.sizes}
            for form in (profile.top, profile.bottom)
        ],
        "top_thickness": spec.top_thickness,
        "strips": [
            {"name": strip.name, "corners": strip.corners, "z0": strip.z0, "z1": strip.z1}
            for strip in spec.strips
        ],
        "volume_mm3": spec.volume_mm3,
        "edge_mm2": spec.edge_mm2,
        "still": sorted(spec.still),
        "holes_below": spec.holes_below,
        "left_out": spec.left_out,
    }


def spec_from_plain(data: dict[str, Any]) -> SolidSpec:
    """Figures as they were before they went through JSON."""
    outer, *holes = (Outline(_parts(loop)) for loop in data["loops"])
    top, bottom = (
        Form(form["name"], _parts(form["parts"]), tuple((name, mm) for name, mm in form["sizes"]))
        for form in data["forms"]
    )
    return SolidSpec(
        region=Region(outer, tuple(holes)),
        profile=EdgeProfile(data["thickness"], top, bottom),
        top_thickness=data["top_thickness"],
        strips=tuple(
            StripBody(**{**strip, "corners": tuple(_point(corner) for corner in strip["corners"])})
            for strip in data["strips"]
        ),
        volume_mm3=data["volume_mm3"],
        edge_mm2=data["edge_mm2"],
        still=frozenset(data["still"]),
        holes_below=data["holes_below"],
        left_out=tuple(data["left_out"]),
    )


def _segments(segments: Sequence[Segment]) -> list[list[Any]]:
    return [
        [s.start, s.end] if isinstance(s, Line) else [s.start, s.end, s.centre, s.radius, s.sweep]
        for s in segments
    ]


def _parts(rows: Sequence[Sequence[Any]]) -> tuple[Segment, ...]:
    return tuple(
        Line(_point(row[0]), _point(row[1]))
        if len(row) == 2
        else Arc(_point(row[0]), _point(row[1]), _point(row[2]), row[3], row[4])
        for row in rows
    )


def _point(pair: Sequence[float]) -> Point:
    x, y = pair
    return x, y
