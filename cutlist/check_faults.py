"""What the checker reports, and whether a plan has the shape of a plan at all.

The checker shares no code with the planner: it reads a plan as plain data (what ``plan.json`` holds) and
imports the standard library only, so that a mistake in the planner cannot hide in a helper that both use.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

__all__ = ["AtLeast", "Maybe", "Plain", "PlanFault", "shape_faults"]

#: A record of plain data: the plan or one of its parts.
Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class PlanFault:
    """One fault: a short plain name, the part it was found in, and the deciding figures (whole ticks)."""

    name: str
    place: str
    message: str


@dataclass(frozen=True, slots=True)
class AtLeast:
    """A whole number, not below ``lowest``."""

    lowest: int


@dataclass(frozen=True, slots=True)
class Maybe:
    """None, or what ``shape`` says."""

    shape: Any


@dataclass(frozen=True, slots=True)
class _Pair:
    shape: Any
    entries: int = 2


_SIDE = ("north", "east", "south", "west")
_END_CUT = ("square", "mitre")
_GRAIN = ("", "along", "across")
_GUIDE_SIDE = ("keep", "waste")

_DUAL_PRICE: Plain = {"ids": [str], "length_ticks": int, "value": AtLeast(0)}
_DEFECT: Plain = {"name": str, "metal": bool, "along_ticks": _Pair(int), "across_ticks": _Pair(int)}

# A record is a dict of shapes, a list holds one shape, a tuple lists the words allowed.
_SHAPE: Plain = {
    "status": ("ready", "impossible"),
    "rules": {
        "grid_ticks": AtLeast(1),
        "kerf_ticks": AtLeast(0),
        "mitre_kerf_ticks": AtLeast(0),
        "nest_mitres": bool,
        "splices_allowed": bool,
        "min_piece_ticks": AtLeast(0),
        "from_corner_ticks": int,
        "from_seam_ticks": int,
        "stagger_ticks": int,
        "guide_side": _GUIDE_SIDE,
        "guide_offset_ticks": int,
        "sliver_ticks": AtLeast(0),
        "defect_clearance_ticks": AtLeast(0),
        "metal_clearance_ticks": AtLeast(0),
        "labour_cents": Maybe(_Pair(AtLeast(0), 3)),
        "effort_percent": AtLeast(0),
    },
    "corners": ("butt", "pinwheel", "mitre"),
    "strip_map_view": str,
    "old_ticks": _Pair(AtLeast(1)),
    "finished_ticks": _Pair(AtLeast(1)),
    "finished_origin_ticks": _Pair(int),
    "proud_ticks": int,
    "strip_width_ticks": AtLeast(1),
    "pitch_ticks": int,
    "sides": [
        {
            "id": str,
            "side": _SIDE,
            "layer": int,
            "length_ticks": int,
            "start_offset_ticks": int,
            "end_offset_ticks": int,
            "seams_ticks": [int],
            "end_cut": _END_CUT,
            "max_splices": AtLeast(0),
            "grain": _GRAIN,
        }
    ],
    "sticks": [
        {
            "id": str,
            "name": str,
            "source": ("offcut", "on hand", "for sale"),
            "side": Maybe(_SIDE),
            "length_ticks": AtLeast(0),
            "width_ticks": AtLeast(0),
            "price_cents": AtLeast(0),
            "edge_waste_ticks": AtLeast(0),
            "defects": [_DEFECT],
            "grain": _GRAIN,
            "lanes": [
                {
                    "id": str,
                    "length_ticks": AtLeast(0),
                    "width_ticks": AtLeast(0),
                    "trim_start_ticks": AtLeast(0),
                    "trim_end_ticks": AtLeast(0),
                    "strip": str,
                }
            ],
        }
    ],
    "defects": [_DEFECT],
    "pieces": [
        {
            "id": str,
            "side_id": str,
            "lane_id": str,
            "length_ticks": int,
            "side_start_ticks": int,
            "lane_start_ticks": int,
            "start_cut": _END_CUT,
            "end_cut": _END_CUT,
            "turned": bool,
        }
    ],
    "strip_map": [{"piece_id": str, "x0_ticks": int, "y0_ticks": int, "x1_ticks": int, "y1_ticks": int}],
    "cuts": [
        {
            "number": int,
            "kind": ("rip", "crosscut"),
            "side": _SIDE,
            "datum": _SIDE,
            "datum_edge": ("old", "fresh"),
            "keep_ticks": int,
            "kerf_end_ticks": int,
            "guide_side": _GUIDE_SIDE,
            "guide_offset_ticks": int,
            "guide_ticks": int,
            "panel_before_ticks": int,
            "offcut_width_ticks": int,
            "offcut_length_ticks": int,
            "yields": Maybe(str),
        }
    ],
    "remnants": [{"id": str, "stick_id": str, "length_ticks": int, "width_ticks": int}],
    "stages": [
        {
            "name": str,
            "value": int,
            "bound": Maybe(int),
            "proven": bool,
            "why": str,
            "certificate": Maybe(
                {
                    "scale": AtLeast(1),
                    "sides": [_DUAL_PRICE],
                    "lanes": [_DUAL_PRICE],
                    "budgets": [AtLeast(0)],
                    "most_lanes": AtLeast(1),
                }
            ),
        }
    ],
    "trials": [
        {
            "strip_width_ticks": int,
            "lanes": int,
            "need_ticks": int,
            "have_ticks": int,
            "fits": bool,
            "reason": str,
        }
    ],
    "shortage": Maybe(
        {
            "strip_width_ticks": int,
            "sides": int,
            "lanes": int,
            "sides_sum_ticks": int,
            "joints_ticks": int,
            "need_ticks": int,
            "have_ticks": int,
            "by_length": bool,
            "proven": bool,
            "sentence": str,
            "buy_length_ticks": Maybe(int),
            "buy_sentence": str,
        }
    ),
    "as_cut": Maybe(
        {
            "cuts_made": AtLeast(0),
            "west_ticks": int,
            "south_ticks": int,
            "east_ticks": int,
            "north_ticks": int,
            "fresh": [_SIDE],
            "loose": [
                {
                    "id": str,
                    "cut": int,
                    "side": _SIDE,
                    "length_ticks": AtLeast(0),
                    "width_ticks": AtLeast(0),
                    "edge_waste_ticks": AtLeast(0),
                    "lanes": [str],
                }
            ],
        }
    ),
}


def shape_faults(plan: object, shape: Plain | None = None) -> tuple[PlanFault, ...]:
    """Every place where ``plan`` lacks a key or holds the wrong kind of value; unknown keys are let pass.

    ``shape`` is that of a strip plan unless another is given.
    """
    return tuple(
        PlanFault("malformed plan", place, message)
        for place, message in _misfits(plan, _SHAPE if shape is None else shape, "plan")
    )


def _misfits(value: object, shape: Any, place: str) -> Iterator[tuple[str, str]]:
    if isinstance(shape, Maybe):
        if value is not None:
            yield from _misfits(value, shape.shape, place)
    elif isinstance(shape, dict):
        if not isinstance(value, dict):
            yield place, f"{_shown(value)} is no record"
            return
        for key, part in shape.items():
            if key in value:
                yield from _misfits(value[key], part, f"{place}.{key}")
            else:
                yield f"{place}.{key}", "is missing"
    elif isinstance(shape, list | _Pair):
        if not isinstance(value, list | tuple):
            yield place, f"{_shown(value)} is no list"
            return
        if isinstance(shape, _Pair) and len(value) != shape.entries:
            yield place, f"has {len(value)} entries, not {shape.entries}"
        part = shape.shape if isinstance(shape, _Pair) else shape[0]
        for number, entry in enumerate(value):
            yield from _misfits(entry, part, f"{place}[{number}]")
    elif isinstance(shape, tuple):
        if not isinstance(value, str) or value not in shape:
            yield place, f"{_shown(value)} is none of {', '.join(shape)}"
    elif shape is int or isinstance(shape, AtLeast):
        # bool is a kind of int in Python, and never a length
        if not isinstance(value, int) or isinstance(value, bool):
            yield place, f"{_shown(value)} is no whole number"
        elif isinstance(shape, AtLeast) and value < shape.lowest:
            yield place, f"{value} is below {shape.lowest}"
    elif not isinstance(value, shape):
        yield place, f"{_shown(value)} is no {'yes or no' if shape is bool else 'text'}"


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 40 else text[:37] + "..."
