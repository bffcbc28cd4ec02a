"""``plan.json`` of a shaped top: everything about its plan as plain data; every key says its unit."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Any, Final

from edgewright import __version__
from edgewright.cli.output import FORMAT
from edgewright.cli.plan_json import VERSION, edge_dict, job_dict, takeoff_dict
from edgewright.cutlist.new_top_cuts import guide_cuts
from edgewright.cutlist.new_top_proof import part_list
from edgewright.cutlist.shaped_build_up import BuildUpPlan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Outline
from edgewright.design.shapes.model import Shape

__all__ = ["SHAPED_KEYS", "build_up_dict", "shaped_dict"]

SHAPED_KEYS: Final[dict[str, str]] = {
    "format": "Always `edgewright plan`.",
    "version": "Version of this format, a whole number.",
    "made_by": "Program and its version.",
    "plan_code": "Short code of job and plan; it stands on every file of the plan.",
    "status": "`ready`, or `NOT FOR CUTTING` while a stop is open.",
    "files": "Names of the files written beside this one.",
    "job": "The job as read: title, revision, date, units, digest, keys.",
    "top": "The top before and after the trims; x to the east, y to the north from its south-west corner.",
    "top.new": "Whether the top is cut new from a sheet; `old` is then the blank that it is sawn as.",
    "top.thickness_mm": "Thickness of the top, mean of the readings.",
    "top.strip_thickness_mm": "Thickness of one layer of strips, or of the skirt.",
    "top.edge_thickness_mm": "Thickness of the edge.",
    "top.old": "Outline as measured: vertices [x, y, bulge of the edge that begins there] in mm, and edge names.",
    "top.finished": "Finished outline in the same form.",
    "top.cut_outs": "Cut-outs: name, vertices, whether routed, perimeter in mm and area of the edge in mm².",
    "top.checks": "Measurements against what the others predict: mm, mm² for areas, degrees for angles.",
    "top.suggestions": "Likely misreadings, one sentence each; nothing was corrected.",
    "edge": "The routed edge, exact; null where no such profile exists. Keys as in the plan of a rectangle.",
    "edges": "Each named edge of the rim: length in mm, whether routed.",
    "layer_areas_mm2": "Area of the routed edge that each layer shows, the top layer first.",
    "seams": "Seams by length in mm: glue lines, joints of pieces, panel seams.",
    "mass": "Wood: volume in mm³ and centre [x, y, depth below the face] in mm of top, ring and whole.",
    "uncut_tips": "What the bearing cannot reach at inside corners.",
    "cuts": "Saw cuts in order: edge, keep line from and to in mm, kerf; withheld while NOT FOR CUTTING.",
    "offcuts": "What comes off: name, length, widths at both ends, depth, mm; withheld while NOT FOR CUTTING.",
    "router": "Arcs routed on a trammel: pivot and distances in mm; withheld while NOT FOR CUTTING.",
    "pieces": "Pieces of the build-up, mm and degrees; withheld while NOT FOR CUTTING.",
    "blanks": "Blanks of equal size in one row, mm and mm²; withheld while NOT FOR CUTTING.",
    "build_up": "What the pieces are cut from; withheld while NOT FOR CUTTING.",
    "build_up.sticks": "What could have been cut from: id, names and places in mm of own wood, old edge of a board.",
    "build_up.parts": "Least size in ticks of each piece, and of a new top, which is called `top`; its grain if fixed.",
    "build_up.wanted": "Blanks by size in ticks, their grain and their pieces.",
    "build_up.laid_out": "Stock, blanks, rules, plan and certificate in ticks, as the checker reads them, or null.",
    "build_up.cut": "Each blank that is cut: its piece, stick, lane, where it begins and its sides in ticks.",
    "build_up.to_buy": "Blanks still to be bought or found, in the form of `blanks`.",
    "build_up.shortage": "Why the stock does not give all blanks, if so: whether that is proven, and by what.",
    "build_up.segments": "Numbers of segments tried, null for what the blanks give; which was `taken`.",
    "sheet_cuts": "Cuts along the guide that free a new top: ticks; withheld while NOT FOR CUTTING.",
    "findings": "What the bench checks found.",
    "takeoff": "Quantities as expected, low and high; null where no such profile exists.",
}
_WITHHELD: Final = ("cuts", "offcuts", "router", "pieces", "blanks", "build_up", "sheet_cuts")


def shaped_dict(plan: ShapedPlan, files: Sequence[str] = ()) -> dict[str, Any]:
    """Give the content of plan.json; ``files`` are the names of the files written beside it."""
    design, trims = plan.design, plan.design.trims
    content: dict[str, Any] = {
        "format": FORMAT,
        "version": VERSION,
        "made_by": f"edgewright {__version__}",
        "plan_code": plan.code,
        "status": "ready" if plan.ready else "NOT FOR CUTTING",
        "files": list(files),
        "job": job_dict(plan.job),
        "top": {
            "new": plan.job.top.new,
            "thickness_mm": design.thickness_mm,
            "strip_thickness_mm": design.strip_thickness_mm,
            "edge_thickness_mm": design.edge_thickness_mm,
            "old": _shape(design.old),
            "finished": _shape(design.finished),
            "cut_outs": [
                {
                    "name": hole.name,
                    "vertices": _vertices(hole.outline),
                    "routed": hole.routed,
                    "perimeter_mm": hole.perimeter,
                    "edge_area_mm2": hole.edge_area,
                }
                for hole in design.cut_outs
            ],
            "checks": [{**dataclasses.asdict(check), "agrees": check.agrees} for check in design.old.checks],
            "suggestions": list(design.old.suggestions),
        },
        "edge": edge_dict(design.profile, design.metrics),
        "edges": [dataclasses.asdict(run) for run in design.runs],
        "layer_areas_mm2": list(design.layer_areas),
        "seams": dataclasses.asdict(design.seams),
        "mass": dataclasses.asdict(design.mass),
        "uncut_tips": [dataclasses.asdict(tip) for tip in design.tips],
        "cuts": [
            {
                "edge": sawn.cut.name,
                "keep_from_mm": list(sawn.cut.keep.start),
                "keep_to_mm": list(sawn.cut.keep.end),
                "kerf_mm": sawn.cut.kerf,
            }
            for sawn in trims.cuts
        ],
        "offcuts": [
            {
                "off": offcut.name,
                "length_mm": offcut.length,
                "width_start_mm": offcut.width_start,
                "width_end_mm": offcut.width_end,
                "depth_mm": offcut.depth,
            }
            for offcut in trims.offcuts
        ],
        "router": [
            {
                "pivot_mm": list(arc.pivot),
                "radius_mm": arc.to_finished,
                "to_cutter_centre_mm": arc.to_cutter_centre,
                "to_near_side_mm": arc.to_near_side,
                "pivot_in_wood": arc.pivot_in_wood,
            }
            for arc in trims.arcs
        ],
        "pieces": [dataclasses.asdict(piece) for piece in design.pieces],
        "blanks": [dataclasses.asdict(row) for row in plan.blanks],
        "build_up": build_up_dict(plan.design, plan.build_up),
        "sheet_cuts": [dataclasses.asdict(cut) for cut in guide_cuts(plan.build_up, plan.job.saw)],
        "findings": [dataclasses.asdict(finding) for finding in plan.findings],
        "takeoff": None if plan.takeoff is None else takeoff_dict(plan.takeoff),
    }
    if not plan.ready:
        for key in _WITHHELD:
            del content[key]
    return content


def build_up_dict(design: ShapedDesign, found: BuildUpPlan) -> dict[str, Any]:
    """What the pieces are cut from, as it stands in plan.json."""
    return {
        "sticks": [
            {
                "id": stick.stock.id,
                "names": list(stick.names),
                "places_mm": [[list(corner) for corner in place.corners] for place in stick.places],
                "edge_waste_ticks": stick.edge_waste,
            }
            for stick in found.stock
        ],
        "parts": part_list(design),
        "wanted": [dataclasses.asdict(one.blank) | {"pieces": list(one.piece_ids)} for one in found.blanks],
        "laid_out": None if found.layout is None else found.layout.plain,
        "cut": [dataclasses.asdict(one) for one in found.cut],
        "to_buy": [dataclasses.asdict(row) for row in found.to_buy],
        "shortage": _shortage(found),
        "segments": [
            dataclasses.asdict(trial) | {"taken": trial.segments == found.chosen} for trial in found.trials
        ],
    }


def _shortage(found: BuildUpPlan) -> dict[str, Any] | None:
    short = found.shortage
    if short is None or found.asked is None:
        return None
    return {"sentence": short.sentence, "proven": short.proven, "laid_out": found.asked.plain(short)}


def _vertices(outline: Outline) -> list[list[float]]:
    return [list(vertex) for vertex in outline.bulge_vertices()]


def _shape(shape: Shape) -> dict[str, Any]:
    return {
        "vertices": _vertices(shape.outline),
        "edges": list(shape.names),
        "fit_error_mm": shape.fit_error_mm,
    }
