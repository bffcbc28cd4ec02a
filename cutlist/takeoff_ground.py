"""Lines of what goes under the resin: filler with its hardener, and base colour."""

from __future__ import annotations

from edgewright.band import Band, Factor, total_band
from edgewright.cutlist.takeoff_factors import (
    BASE_FILM,
    BASE_TRAY,
    DENSITY_FILLER,
    EDGE_DRINK,
    FILLER_DEPTH,
    FILLER_LOSS,
    FILLER_SECOND,
    GEOMETRY,
    GROOVE_DEPTH,
    GROOVE_WIDTH,
    HARDENER,
    JOB_FILE,
)
from edgewright.cutlist.takeoff_figures import TopFigures
from edgewright.cutlist.takeoff_lines import TakeoffLine, exactly
from edgewright.design.coating import base_coat, edge_drink, edge_filler, seam_filler, tool_residue
from edgewright.design.metrics import EdgeMetrics
from edgewright.job_any import AnyJob

__all__ = ["BASE", "FILLER", "base_lines", "filler_lines", "hardener_line"]

FILLER = "filler"
BASE = "base coat"


def filler_lines(top: TopFigures) -> list[TakeoffLine]:
    """Two passes over the edge, the glue seams and the panel seams."""
    thickness, perimeter = top.edge_thickness_mm, top.metrics.perimeter_mm
    first = edge_filler(thickness, perimeter, FILLER_DEPTH.band)
    skim = (
        exactly("edge thickness", "mm", thickness, GEOMETRY),
        exactly("perimeter", "mm", perimeter, GEOMETRY),
        FILLER_DEPTH,
    )
    loss, second = FILLER_LOSS, FILLER_SECOND
    lines = [
        _filler("edge, first pass", first, skim, "One full skim of the square edge, before it is routed."),
        _filler(
            "edge, first pass: loss",
            first * loss.band,
            (*skim, loss),
            "Sanded off again, or set on the board.",
        ),
        _filler(
            "edge, second pass",
            first * second.band,
            (*skim, second),
            "What shrank or was missed; a thinner skim.",
        ),
        _filler(
            "edge, second pass: loss",
            first * second.band * loss.band,
            (*skim, second, loss),
            "Sanded off again, or set on the board.",
        ),
    ]
    if top.routed_cut_outs_mm2:
        area = exactly("edges of routed cut-outs", "mm2", top.routed_cut_outs_mm2, GEOMETRY)
        skim_of = FILLER_DEPTH.band * top.routed_cut_outs_mm2
        lines += [
            _filler("cut-outs, first pass", skim_of, (area, FILLER_DEPTH), "One full skim of their edges."),
            _filler(
                "cut-outs, second pass",
                skim_of * second.band,
                (area, FILLER_DEPTH, second),
                "What shrank or was missed.",
            ),
            _filler(
                "cut-outs: loss",
                (skim_of + skim_of * second.band) * loss.band,
                (area, FILLER_DEPTH, loss),
                "Sanded off again, or set on the board.",
            ),
        ]
    if top.glue_seams_mm:
        lines.append(_seam("glue seams", top.glue_seams_mm, "All round, one seam for each layer of strips."))
    if top.panel_seams_mm:
        lines.append(
            _seam("panel seams", top.panel_seams_mm, "Seams of the old top that remain in the finished top.")
        )
    return lines


def hardener_line(filler: list[TakeoffLine]) -> TakeoffLine:
    """Hardener paste of a polyester filler, g."""
    volume = total_band(line.quantity for line in filler)
    return TakeoffLine(
        "filler hardener",
        "hardener paste",
        volume * DENSITY_FILLER.band * HARDENER.band,
        "g",
        (Factor("filler", "mm3", volume, "lines of filler above"), DENSITY_FILLER, HARDENER),
        "For polyester filler only: 2 g to 100 g of filler, never under 1 or over 3; weigh the filler.",
    )


def base_lines(job: AnyJob, metrics: EdgeMetrics) -> list[TakeoffLine]:
    """Lay base colour on the flat of the top and the edge; the underside stays as it is."""
    coats = job.coating.base_coats
    # one line, for the film is the same unknown on the flat and on the edge
    area = metrics.flat_top_mm2 + metrics.edge_mm2
    given = "base_coats" in job.coating.model_fields_set
    count = exactly("coats", "count", coats, JOB_FILE if given else BASE_FILM.origin)
    return [
        _base(
            "flat and edge",
            base_coat(area, BASE_FILM.band, coats),
            (exactly("flat of the top face and edge", "mm2", area, GEOMETRY), BASE_FILM, count),
            "Rolled on the top face and brushed on the edge.",
        ),
        _base(
            "edge drinks",
            edge_drink(metrics.edge_mm2, BASE_FILM.band, EDGE_DRINK.band),
            (
                exactly(f"edge with its {job.edge.routed_words}", "mm2", metrics.edge_mm2, GEOMETRY),
                BASE_FILM,
                EDGE_DRINK,
            ),
            "The first coat on a raw edge takes two to three times as much.",
        ),
        _base(
            "roller and tray",
            tool_residue(BASE_TRAY.band, coats),
            (BASE_TRAY, count),
            "Washed out after each coat.",
        ),
    ]


def _seam(name: str, length: float, reason: str) -> TakeoffLine:
    half = exactly("half, for a V", "", 0.5, GEOMETRY)
    factors = (exactly("seam", "mm", length, GEOMETRY), GROOVE_WIDTH, GROOVE_DEPTH, half)
    return _filler(name, seam_filler(length, GROOVE_WIDTH.band, GROOVE_DEPTH.band), factors, reason)


def _filler(name: str, quantity: Band, factors: tuple[Factor, ...], reason: str) -> TakeoffLine:
    return TakeoffLine(FILLER, name, quantity, "mm3", factors, reason)


def _base(name: str, quantity: Band, factors: tuple[Factor, ...], reason: str) -> TakeoffLine:
    return TakeoffLine(BASE, name, quantity, "mm3", factors, reason)
