"""The finished top as exact solid bodies, built by the geometry kernel (cadquery, loaded only when needed).

One routed profile runs round the whole edge, so the full edge solid is built first and then divided: the top
layer, and one body for each piece of the build-up. The edge solid is measured against the closed form before it is
divided: where the kernel lost its way, it is built another way, and refused if none helps.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from edgewright.design.outline import FIT_MM
from edgewright.design.solid_edge import edge_area, edge_solids
from edgewright.design.solid_figures import SolidSpec, StripBody
from edgewright.design.solid_void import Seams, corner_seams
from edgewright.errors import GeometryError, OutputError

__all__ = ["EXACT", "Solid", "SolidReport", "build_solid", "load_kernel"]

#: Largest relative difference from the closed form for which a solid counts as exact.
EXACT: Final = 1e-9
#: Largest one of a sound solid: where an arc meets its neighbour at an angle, the kernel joins faces by splines.
SOUND: Final = 1e-5
#: System libraries the kernel needs and the package that holds each on Debian and Ubuntu.
_PACKAGES: Final = {"libGL.so.1": "libgl1", "libX11.so.6": "libx11-6"}


@dataclass(frozen=True, slots=True)
class SolidReport:
    """What the kernel measured.

    Attributes
    ----------
    volume_mm3, edge_area_mm2
        Volume of the edge solid of full thickness everywhere, and surface of its routed edge.
    bodies
        Name and volume (mm³) of each body.
    exact
        Whether both figures agree with the closed form to ``EXACT``.
    note
        The largest relative difference, one sentence.
    """

    volume_mm3: float
    edge_area_mm2: float
    bodies: tuple[tuple[str, float], ...]
    exact: bool
    note: str


@dataclass(frozen=True, slots=True)
class Solid:
    """Kernel shapes: name and body, the top first; and what was measured on them."""

    bodies: tuple[tuple[str, Any], ...]
    report: SolidReport


def load_kernel() -> Any:
    """Return the module cadquery (takes 2 to 3 s the first time).

    Raises
    ------
    OutputError
        If it or a system library that it needs is not installed; the sentence names the package to install.
    """
    try:
        import cadquery
    except (ImportError, OSError) as fault:
        raise OutputError(_missing(fault)) from fault
    return cadquery


def build_solid(spec: SolidSpec) -> Solid:
    """Bodies of the finished top: ``top`` and one for each strip piece.

    Raises
    ------
    OutputError
        If the kernel cannot be loaded.
    GeometryError
        If the kernel cannot build a body, or a strip piece has no wood under the rim.
    """
    cq = load_kernel()
    try:
        seams = corner_seams(spec)
        try:
            return _divided(cq, spec, seams)
        except GeometryError:
            if not seams:
                raise
            # more edges are more to trip over; without them a mitre may be off by 1e-7
            return _divided(cq, spec, ())
    except GeometryError:
        raise
    except Exception as fault:  # the kernel raises its own bare errors when a step fails
        raise GeometryError(
            f"the geometry kernel could not build the solid ({type(fault).__name__}: "
            f"{' '.join(str(fault).split()) or 'no reason given'}); no STEP file is written, all else holds"
        ) from fault


def _missing(fault: ImportError | OSError) -> str:
    """One sentence about what to install, from the message of the loader."""
    found = re.search(r"lib[\w+-]+\.so[\w.]*", str(fault))
    if found:
        library = found.group().rstrip(".")
        package = _PACKAGES.get(library)
        how = f"{package} (Debian, Ubuntu)" if package else "that holds it"
        return (
            f"no STEP file: the geometry kernel needs the system library {library}, which is missing; "
            f"install the package {how}"
        )
    if isinstance(fault, ModuleNotFoundError) and fault.name in ("cadquery", "OCP"):
        return f'no STEP file: the geometry kernel ({fault.name}) is missing; pip install "edgewright[solid]"'
    return f"no STEP file: the geometry kernel cannot be loaded ({fault}); install cadquery again"


def _divided(cq: Any, spec: SolidSpec, seams: Seams) -> Solid:
    """Edge solid, its arcs divided at the seams, and the bodies that it falls into."""
    edge, worst = _sound_edge(cq, spec, seams)
    # the kernel widens tolerances of what it is given: each body is cut from a copy of its own
    bodies = [("top", _top_layer(cq, spec, edge.copy()))]
    bodies += [(strip.name, edge.copy().intersect(_prism(cq, strip))) for strip in spec.strips]
    named = tuple((name, _single(name, body.clean())) for name, body in bodies)
    return Solid(named, _report(spec, edge, worst, named))


def _sound_edge(cq: Any, spec: SolidSpec, seams: Seams = ()) -> tuple[Any, float]:
    """Edge solid and its largest relative difference from the closed form."""
    failures: list[Exception] = []
    for made in edge_solids(cq, spec, seams):
        try:
            edge = _single("edge", made())
            worst = _difference(spec, edge)
        except Exception as fault:  # the kernel raises its own bare errors when a step fails
            failures.append(fault)
            continue
        if worst <= SOUND:
            return edge, worst
        failures.append(
            GeometryError(
                f"solid edge: the geometry kernel's solid differs from the closed form by {worst:.0e}, relative; "
                f"at most {SOUND:.0e} is sound: no STEP file is written, all else holds"
            )
        )
    raise failures[0]


def _difference(spec: SolidSpec, edge: Any) -> float:
    """Largest relative difference of volume and edge area from the closed form."""
    differences = [abs(float(edge.Volume()) / spec.volume_mm3 - 1)]
    if spec.edge_mm2:
        differences.append(abs(edge_area(spec, edge) / spec.edge_mm2 - 1))
    return max(differences)


def _top_layer(cq: Any, spec: SolidSpec, edge: Any) -> Any:
    if spec.seam <= FIT_MM:
        return edge
    x0, y0, _, _ = spec.region.bounds
    size = (spec.size[0] + 2, spec.size[1] + 2, spec.top_thickness + 1)
    return edge.intersect(cq.Solid.makeBox(*size, cq.Vector(x0 - 1, y0 - 1, spec.seam)))


def _prism(cq: Any, strip: StripBody) -> Any:
    wire = cq.Wire.makePolygon([cq.Vector(x, y, strip.z0) for x, y in strip.corners], close=True)
    return cq.Solid.extrudeLinear(cq.Face.makeFromWires(wire), cq.Vector(0, 0, strip.z1 - strip.z0))


def _single(name: str, shape: Any) -> Any:
    """Return the one solid in a result of the kernel."""
    solids = shape.Solids()
    if len(solids) != 1 or not solids[0].isValid():
        raise GeometryError(
            f"solid {name}: the geometry kernel made {len(solids)} bodies; exactly 1 sound one is needed: "
            "check the strip's place and the round-overs"
        )
    return solids[0]


def _report(spec: SolidSpec, edge: Any, worst: float, bodies: tuple[tuple[str, Any], ...]) -> SolidReport:
    exact = worst <= EXACT
    says = "agree with" if exact else "differ from"
    note = f"volume and edge area of the kernel's solid {says} the closed form, largest relative difference {worst:.0e}"
    if spec.left_out:
        note += f"; not in the solid, as they are bent: {', '.join(spec.left_out)}"
    volumes = tuple((name, body.Volume()) for name, body in bodies)
    return SolidReport(edge.Volume(), edge_area(spec, edge), volumes, exact, note)
