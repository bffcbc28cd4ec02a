"""What is said of a shaped top, as labelled rows and tables: the summary and the packet set the same words."""

from __future__ import annotations

import math
from typing import Final

from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.sheets.tip_sheet import drawn_tips
from edgewright.cutlist.takeoff_factors import wood_density
from edgewright.design.form_words import arris_name, form_text
from edgewright.design.job_forms import edge_form
from edgewright.design.outline import Arc
from edgewright.design.passes import router_passes
from edgewright.design.shapes.model import Shape
from edgewright.display import show_area, show_decimal, show_mm, shown_edge_areas
from edgewright.job_edge import Arris
from edgewright.units import Length, Units

__all__ = [
    "check_rows",
    "edge_rows",
    "mass_rows",
    "pass_rows",
    "run_rows",
    "size_rows",
    "tip_rows",
]

Row = tuple[str, str]
_ARRISES: Final[tuple[tuple[str, Arris], ...]] = (("above", "top"), ("below", "bottom"))


def size_rows(plan: ShapedPlan) -> list[Row]:
    """Old and finished top, edge and build-up."""
    design, units, edge = plan.design, plan.job.units, plan.job.edge
    shape, by = _words(plan.job.top.outline.shape), plan.job.top.oversize
    wood = f"{show_mm(design.thickness_mm, units)} thick, {plan.job.top.material}"
    larger = f", {_length(by, units)} larger all round" if by.exact_mm else ""
    return [
        *([("new top", f"{shape}, {wood}"), ("blank", f"{_box(design.old, units)} from a sheet{larger}")]
          if plan.job.top.new else
          [("old top", f"{shape}, {_box(design.old, units)}, {wood}"), ("comes off", _comes_off(plan))]),
        ("finished", f"{_box(design.finished, units)}, edge {show_mm(design.edge_thickness_mm, units)} thick"),
        ("edge form", " / ".join(
            f"{where}: {form_text(edge_form(edge, arris, design.edge_thickness_mm), units)}"
            for where, arris in _ARRISES
        )),
        ("build-up", _build_up(plan)),
    ]  # fmt: skip


def _words(shape: str) -> str:
    return {"l_counter": "L counter", "u_counter": "U counter", "d_end": "D end"}.get(
        shape, shape.replace("_", " ")
    )


def _box(shape: Shape, units: Units) -> str:
    x0, y0, x1, y1 = shape.outline.bounds
    return f"{show_mm(x1 - x0, units)} x {show_mm(y1 - y0, units)}"


def _comes_off(plan: ShapedPlan) -> str:
    trim, units = plan.job.trim, plan.job.units
    match trim.way:
        case "all_round" if trim.all_round is not None:
            return f"{_length(trim.all_round, units)} all round"
        case "edges":
            cuts = [pair for pair in trim.cuts if pair.length.exact_mm]
            return (
                ", ".join(f"{_length(pair.length, units)} {pair.name}" for pair in cuts) + " (kerf included)"
            )
        case "parallel" if trim.parallel is not None:
            way = trim.parallel
            return f"{way.edge} cut parallel to {way.to}, {_length(way.distance, units)} left between them"
        case "largest_rectangle":
            return "all that lies outside the largest true rectangle"
        case "to" if trim.to is not None:
            return f"all that lies outside the new outline, {_words(trim.to.shape)}"
    return "nothing"


def _length(length: Length, units: Units) -> str:
    return show_mm(length.mm, units)


def _build_up(plan: ShapedPlan) -> str:
    edge, units, design = plan.job.edge, plan.job.units, plan.design
    thick = show_mm(design.strip_thickness_mm, units)
    match edge.build_up:
        case "none":
            return "none"
        case "flat":
            layers = f"{edge.layers} layer{'s' * (edge.layers > 1)}"
            wide = show_mm(design.strip_width_mm, units)
            return f"flat, {layers} of {thick}, strips {wide} wide, corners {edge.corners}"
    where = "under the edge" if edge.build_up == "skirt_under" else "on the edge"
    drop = show_mm(design.edge_thickness_mm - design.thickness_mm, units)
    return f"skirt {where}, {thick} thick, {drop} below the top"


def check_rows(plan: ShapedPlan) -> list[Row]:
    """What the measurements say of one another."""
    units = plan.job.units
    rows = []
    for check in plan.design.old.checks:
        figure = show_area if " area" in f" {check.what}" else None
        said = (
            f"{check.measured:.2f}°, expected {check.expected:.2f}°"
            if "angle" in check.what
            else f"{figure(check.measured, units)}, expected {figure(check.expected, units)}"
            if figure
            else f"{show_decimal(check.measured, units)}, expected {show_decimal(check.expected, units)}"
        )
        rows.append((check.what, f"{said}: {'agrees' if check.agrees else check.says}"))
    if plan.design.finished.fit_error_mm or plan.design.old.fit_error_mm:
        off = max(plan.design.finished.fit_error_mm, plan.design.old.fit_error_mm)
        whose = "the curve itself" if plan.design.finished.ellipse is not None else "these arcs"
        rows.append(
            ("drawn as arcs", f"within {show_decimal(off, units)} of the exact curve; figures are of {whose}")
        )
    return rows


def run_rows(plan: ShapedPlan) -> list[list[str]]:
    """Edges of the rim by name, then cut-outs: length, radius, routed or not; equal corners in one row."""
    units, design = plan.job.units, plan.design
    lengths: dict[str, float] = {}
    routed: dict[str, bool] = {}
    for run in design.runs:
        name = run.name.split(", station ")[0]
        lengths[name] = lengths.get(name, 0.0) + run.length
        routed[name] = run.routed
    radii = _radii(design.finished)
    rows: dict[tuple[str, str], list[str]] = {}
    for name, length in lengths.items():
        said = "routed" if routed[name] else "not routed"
        key = (show_mm(length, units), f"R {show_mm(radii[name], units)}, {said}" if name in radii else said)
        # edges keep a row of their own
        rows.setdefault(key if "corner" in name else (key[0], f"{key[1]}\n{name}"), []).append(name)
    found = [
        [names[0] if len(names) == 1 else f"{len(names)} corners, each", length, said.split("\n")[0]]
        for (length, said), names in rows.items()
    ]
    return found + [
        [
            hole.name,
            show_mm(hole.perimeter, units),
            f"{'routed, top bit only' if hole.routed else 'not routed'}, edge {show_area(hole.edge_area, units)}",
        ]
        for hole in design.cut_outs
    ]


def _radii(shape: Shape) -> dict[str, float]:
    """Radius of each edge that is arcs of one radius only (mm)."""
    found: dict[str, set[float]] = {}
    for name, segment in zip(shape.names, shape.outline.segments, strict=True):
        radius = round(segment.radius, 4) if isinstance(segment, Arc) else 0.0
        found.setdefault(name.split(", station ")[0], set()).add(radius)
    return {name: max(radii) for name, radii in found.items() if len(radii) == 1 and 0.0 not in radii}


def tip_rows(plan: ShapedPlan) -> list[list[str]]:
    """Inside corners that the bearing does not reach: corner, arris, how far from the corner wood stands."""
    units, found = plan.job.units, []
    for one in drawn_tips(plan.design):
        runs = show_mm(max(*one.tip.runs, *one.tip.runs_below), units)
        corner = one.corner.replace(", station ", " ")
        found.append([corner, one.arris, f"up to {runs} along the edge: finish by hand"])
    return found


def edge_rows(plan: ShapedPlan) -> list[Row]:
    """Exact figures of the routed edge and the faces."""
    metrics, units, design = plan.design.metrics, plan.job.units, plan.design
    if metrics is None or design.profile is None:
        return []
    zones = metrics.top_round_over_mm2, metrics.flat_mm2, metrics.bottom_round_over_mm2
    (top, flat, bottom), in_all = shown_edge_areas(zones, units)
    layers, _ = shown_edge_areas(design.layer_areas, units)
    off = max(abs(metrics.edge_twin_mm2 - metrics.edge_mm2), metrics.edge_twin_error_mm2)
    figures = math.floor(-math.log10(max(off / max(metrics.edge_mm2, 1.0), 1e-12)))
    return [
        ("routed length", show_decimal(metrics.perimeter_mm, units)),
        ("profile length", show_decimal(metrics.profile_length_mm, units)),
        (f"top {arris_name(design.profile.top)}", top),
        ("flat", flat),
        (f"bottom {arris_name(design.profile.bottom)}", bottom),
        ("edge in all", in_all),
        ("by layer, top first", ", ".join(layers)),
        ("flat top", show_area(metrics.flat_top_mm2, units)),
        ("flat underside", show_area(metrics.flat_underside_mm2, units)),
        ("checked", f"a second way to work it out, by quadrature, agrees to {figures} figures"),
        ("glue seams", show_mm(design.seams.glue, units)),
        ("joints of pieces", show_mm(design.seams.joints, units)),
        ("panel seams", show_mm(design.seams.panel, units)),
    ]


def mass_rows(plan: ShapedPlan) -> list[Row]:
    """Weight of the wood and where its centre lies."""
    units, design = plan.job.units, plan.design
    band = wood_density((plan.job.top.material,)).band
    volume = design.mass.whole.volume
    grams = [band.low * volume, band.high * volume]
    said = [f"{g / 453.59237:.0f} lb" if units == "in" else f"{g / 1000:.1f} kg" for g in grams]
    x, y, depth = design.mass.whole.centre
    x0, y0, x1, y1 = design.finished.outline.bounds
    return [
        ("wood", f"{' to '.join(dict.fromkeys(said))}, without filler, colour and resin"),
        (
            "centre of mass",
            f"{show_mm(x - x0, units)} from the west, {show_mm(y - y0, units)} from the south of the finished box "
            f"({show_mm(x1 - x0, units)} x {show_mm(y1 - y0, units)}), {show_mm(depth, units)} below the face",
        ),
    ]


def pass_rows(plan: ShapedPlan) -> list[list[str]]:
    """Router passes of both forms."""
    units, profile = plan.job.units, plan.design.profile
    rows: list[list[str]] = []
    if profile is None:
        return rows
    # the underside of a cut-out keeps its sharp arris
    holes = ", not in cut-outs" if any(hole.routed for hole in plan.design.cut_outs) else ""
    for where, form in (("top", profile.top), (f"bottom{holes}", profile.bottom)):
        if form.parts:
            depths = [show_mm(p.depth, units) for p in router_passes(form, grid=plan.job.bench_grid.mm)]
            rows.append([where, form_text(form, units), str(len(depths)), ", ".join(depths)])
    return rows
