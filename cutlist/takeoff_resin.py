"""Lines of the seal coat and of each flood coat of resin, mixed volume (both parts together)."""

from __future__ import annotations

from edgewright.band import Band, Factor, total_band
from edgewright.cutlist.mixing import largest_batch
from edgewright.cutlist.takeoff_factors import (
    DRIP,
    EDGE_FILM,
    GEOMETRY,
    LIP_WIDTH,
    RESIN_TOOLS,
    SEAL_FILM,
    flood_film,
)
from edgewright.cutlist.takeoff_lines import TakeoffLine, exactly
from edgewright.design.coating import (
    bucket_residue,
    cups_for,
    drips,
    leaves_at_most,
    resin_film,
    resin_on_lip,
    thinner_film,
    tool_residue,
)
from edgewright.design.metrics import EdgeMetrics
from edgewright.job_any import AnyJob
from edgewright.trade import COMMON

__all__ = ["SEAL", "STAYS", "coat_film", "resin_lines"]

SEAL = "seal coat"
STAYS = ("flat", "edge", "edges of cut-outs", "underside lip")
"""Lines that stay on the top; the rest is lost."""


def resin_lines(job: AnyJob, metrics: EdgeMetrics, raw_edges_mm2: float = 0.0) -> list[TakeoffLine]:
    """Lines of all coats, first coat first; edges of cut-outs that get no coat (mm²) are sealed all the same."""
    lines = _seal(job, metrics, raw_edges_mm2) if job.coating.seal_coat else []
    flood = flood_film(job)
    for coat in range(1, job.coating.resin_coats + 1):
        lines += _flood(f"resin coat {coat}", job, metrics, flood)
    return lines


def _seal(job: AnyJob, metrics: EdgeMetrics, raw_edges_mm2: float) -> list[TakeoffLine]:
    film, routed = SEAL_FILM.band, job.edge.routed_words
    lines = [
        _line(
            SEAL,
            "flat",
            resin_film(metrics.flat_top_mm2, film),
            (_flat_area(metrics), SEAL_FILM),
            "A thin first coat that closes the ground, so that the flood gives off fewer bubbles.",
        ),
        _line(
            SEAL,
            "edge",
            resin_film(metrics.edge_mm2, film),
            (_edge_area(metrics, routed), SEAL_FILM),
            "Brushed on the edge as thin as on the flat; nothing runs.",
        ),
    ]
    if raw_edges_mm2:
        lines.append(
            _line(
                SEAL,
                "edges of cut-outs",
                resin_film(raw_edges_mm2, film),
                (exactly("edges of cut-outs", "mm2", raw_edges_mm2, GEOMETRY), SEAL_FILM),
                "Water gets at them first; brushed on, they get no other coat.",
            )
        )
    return lines + _losses(SEAL, lines, job)


def _flood(group: str, job: AnyJob, metrics: EdgeMetrics, flood: Factor) -> list[TakeoffLine]:
    edge, routed = EDGE_FILM.band, job.edge.routed_words
    film = Factor(EDGE_FILM.name, EDGE_FILM.unit, thinner_film(edge, flood.band), EDGE_FILM.origin)
    perimeter = exactly("perimeter", "mm", metrics.perimeter_mm, GEOMETRY)
    lines = [
        _line(
            group,
            "flat",
            resin_film(metrics.flat_top_mm2, flood.band),
            (_flat_area(metrics), flood),
            f"What the trowel lays down inside the {routed.removesuffix('s')}.",
        ),
        _line(
            group,
            "edge",
            resin_film(metrics.edge_mm2, film.band),
            (_edge_area(metrics, routed), film),
            "A steep face keeps only a thin film; the rest runs off and is counted as drips.",
        ),
        _line(
            group,
            "underside lip",
            resin_on_lip(metrics.perimeter_mm, LIP_WIDTH.band.expected, film.band),
            (perimeter, LIP_WIDTH, film),
            "Resin curls under the edge; a little over, for the lip's inner edge is shorter.",
        ),
        _line(
            group,
            "drips",
            drips(metrics.perimeter_mm, DRIP.band),
            (perimeter, DRIP),
            "Runs off all round onto the floor; nothing if the edge is dammed.",
        ),
    ]
    return lines + _losses(group, lines, job)


def coat_film(job: AnyJob, group: str) -> Factor:
    """Film that a coat of this group is spread to on the flat."""
    return SEAL_FILM if group == SEAL else flood_film(job)


def _losses(group: str, lines: list[TakeoffLine], job: AnyJob) -> list[TakeoffLine]:
    """Bucket and tools; buckets are chosen for the most that may leave them, and there is one to a batch."""
    tools = tool_residue(RESIN_TOOLS.band, 1)
    leaves = total_band([*(line.quantity for line in lines), tools]).high
    batch, _ = largest_batch(job.coating, job.units, coat_film(job, group).band.expected)
    most = leaves_at_most(batch)
    cup, count = cups_for(leaves, most)
    cups = exactly(f"cups of {cup.name}", "count", count, "three quarters full at most; " + COMMON)
    wall = Factor("stays on the wall of a cup", "mm3", cup.residue, COMMON)
    return [
        _line(
            group,
            "bucket",
            bucket_residue(leaves, most),
            (cups, wall),
            "Least with the wall scraped into the second cup, most unscraped; never scrape it onto the work.",
        ),
        _line(group, "tools", tools, (RESIN_TOOLS,), "Stays in the trowel and the brush."),
    ]


def _line(group: str, name: str, quantity: Band, factors: tuple[Factor, ...], reason: str) -> TakeoffLine:
    return TakeoffLine(group, name, quantity, "mm3", factors, reason)


def _flat_area(metrics: EdgeMetrics) -> Factor:
    return exactly("flat of the top face", "mm2", metrics.flat_top_mm2, GEOMETRY)


def _edge_area(metrics: EdgeMetrics, routed: str) -> Factor:
    return exactly(f"edge with its {routed}", "mm2", metrics.edge_mm2, GEOMETRY)
