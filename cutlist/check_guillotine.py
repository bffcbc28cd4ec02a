"""The independent checker of guillotine plans: layout, cost, and the bounds from the certificate.

It reads plain data and shares no code with the planner; see ``check_guillotine_*``.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from edgewright.cutlist.check_faults import AtLeast, Maybe, Plain, PlanFault, shape_faults
from edgewright.cutlist.check_guillotine_bounds import recompute_guillotine_bounds, shortage_is_proven
from edgewright.cutlist.check_guillotine_layout import guillotine_values, layout_faults
from edgewright.cutlist.check_stages import bound_faults

__all__ = [
    "GuillotineBounds",
    "check_guillotine",
    "malformed_guillotine",
    "recompute_guillotine_bounds",
    "shortage_is_proven",
]

#: Bound and reason of each stage, by its name.
GuillotineBounds = dict[str, tuple[int | None, str]]

_STAGES = ("new material cost", "sticks touched", "fence settings", "largest remnant")
_SIDE = ("length", "width")
#: No planner makes more: 1200 in, and as many blanks. More would take the checker beyond any time.
_LONGEST = 1200 * 8128
_MOST_BLANKS = 20_000
_CERTIFICATE: Plain = {"cuts": [{"points": [list]}], "searched": [[list]]}
_SHAPE: Plain = {
    "stock": [
        {
            "id": str,
            "source": ("offcut", "on hand", "for sale"),
            "length": AtLeast(0),
            "width": AtLeast(0),
            "count": Maybe(AtLeast(0)),
            "price_cents": AtLeast(0),
            "grain": Maybe(_SIDE),
        }
    ],
    "blanks": [
        {
            "id": str,
            "length": AtLeast(1),
            "width": AtLeast(1),
            "count": AtLeast(0),
            "grain": Maybe(_SIDE),
        }
    ],
    "rules": {"kerf": AtLeast(0), "min_rip_width": AtLeast(0), "first": (*_SIDE, "either")},
    "plan": Maybe(
        {
            "layouts": [
                {
                    "stock_id": str,
                    "copy": int,
                    "first": _SIDE,
                    "lanes": [
                        {
                            "width": int,
                            "pieces": [{"blank_id": str, "length": int, "start": int, "turned": bool}],
                        }
                    ],
                }
            ],
            "rests": [{"stock_id": str, "copy": int, "length": int, "width": int}],
            "stages": [{"name": str, "value": int, "bound": Maybe(int), "proven": bool, "why": str}],
            "certificate": _CERTIFICATE,
        }
    ),
    "shortage": Maybe({"sentence": str, "missing": [str], "proven": bool, "certificate": _CERTIFICATE}),
}


def check_guillotine(
    plain: Plain, work_limit: int = 200_000, bounds: GuillotineBounds | None = None
) -> tuple[PlanFault, ...]:
    """Every fault found in a guillotine plan or shortage; empty when it is sound.

    Parameters
    ----------
    plain
        ``stock``, ``blanks``, ``rules`` and either ``plan`` or ``shortage`` (the other None), as plain data.
    work_limit
        Steps allowed for the bounds.
    bounds
        What `recompute_guillotine_bounds` gave for this very plan, so that it is not done twice; None to do it here.

    Returns
    -------
    tuple of PlanFault
        Malformed data gives faults named "malformed plan" and no others; no input raises.
    """
    return malformed_guillotine(plain) or tuple(_faults(plain, work_limit, bounds))


def malformed_guillotine(plain: object) -> tuple[PlanFault, ...]:
    """What keeps the data from being read as a plan or a shortage at all, or makes it larger than any that is made."""
    faults = shape_faults(plain, _SHAPE)
    if faults:
        return faults
    assert isinstance(plain, dict)
    found = []
    sides = [entry[side] for what in ("stock", "blanks") for entry in plain[what] for side in _SIDE]
    if max(sides, default=0) > _LONGEST:
        found.append(f"a side is longer than {_LONGEST} ticks")
    if sum(blank["count"] for blank in plain["blanks"]) > _MOST_BLANKS:
        found.append(f"more than {_MOST_BLANKS} blanks are wanted")
    if (plain["plan"] is None) == (plain["shortage"] is None):
        found.append("either a plan or a shortage is given, not both")
    result = plain["plan"] or plain["shortage"] or {"certificate": {"cuts": [], "searched": []}}
    pairs: list[Any] = [pair for cut in result["certificate"]["cuts"] for pair in cut["points"]]
    pairs += [pair for choice in result["certificate"]["searched"] for pair in choice]
    if not all(len(pair) == 2 and isinstance(pair[0], str) and type(pair[1]) is int for pair in pairs):
        found.append("the certificate holds pairs of an id and a whole number")
    for what in ("stock", "blanks"):
        if len({entry["id"] for entry in plain[what]}) != len(plain[what]):
            found.append(f"two of the {what} have one id")
    if any(rect["count"] is None and rect["source"] != "for sale" for rect in plain["stock"]):
        found.append("only stock for sale is without a count")
    return tuple(PlanFault("malformed plan", "plan", message) for message in found)


def _faults(plain: Plain, work_limit: int, bounds: GuillotineBounds | None) -> Iterator[PlanFault]:
    if plain["plan"] is None:
        wanted = {blank["id"]: blank["count"] for blank in plain["blanks"]}
        missing = plain["shortage"]["missing"]
        if any(missing.count(name) > wanted.get(name, 0) for name in set(missing)) or not missing:
            yield PlanFault("wrong blanks missing", "shortage", f"{len(missing)} named")
        if plain["shortage"]["proven"] and not shortage_is_proven(plain, work_limit):
            yield PlanFault("shortage not shown", "shortage", "the stock is not shown to hold too little")
        return
    faults = tuple(layout_faults(plain))
    yield from faults
    if not any(fault.name.startswith("unknown") for fault in faults):
        yield from _stage_faults(plain, work_limit, bounds)


def _stage_faults(plain: Plain, work_limit: int, bounds: GuillotineBounds | None) -> Iterator[PlanFault]:
    stages = plain["plan"]["stages"]
    names = tuple(stage["name"] for stage in stages)
    if names != _STAGES:
        yield PlanFault("wrong stages", "stages", f"{', '.join(names)} given, not {', '.join(_STAGES)}")
        return
    values = guillotine_values(plain)
    if bounds is None:
        bounds = recompute_guillotine_bounds(plain, work_limit)
    for stage in stages:
        name, value = stage["name"], stage["value"]
        if value != values[name]:
            yield PlanFault("stage value wrong", name, f"{value} given, {values[name]} counted")
        yield from bound_faults(stage, *bounds[name])
