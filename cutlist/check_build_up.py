"""The independent checker of a build-up: its layout, and that each piece is cut where the layout says, or bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_faults import AtLeast, Maybe, Plain, PlanFault, shape_faults
from edgewright.cutlist.check_guillotine import (
    GuillotineBounds,
    check_guillotine,
    malformed_guillotine,
)

__all__ = ["build_up_faults", "malformed_build_up"]

_SHAPE: Plain = {
    "sticks": [{"id": str, "names": [str]}],
    "wanted": [{"id": str, "length": AtLeast(1), "width": AtLeast(1), "count": AtLeast(0), "pieces": [str]}],
    "laid_out": Maybe({}),
    "cut": [
        {
            "piece_id": str,
            "stock_id": str,
            "copy": int,
            "lane": int,
            "start": int,
            "length": int,
            "width": int,
            "turned": bool,
        }
    ],
    "to_buy": [{"piece_ids": [str]}],
    "shortage": Maybe({"sentence": str, "proven": bool, "laid_out": {}}),
}


def malformed_build_up(build_up: object) -> tuple[PlanFault, ...]:
    """What keeps the record from being read at all: a key is missing, or holds the wrong kind of value."""
    found = shape_faults(build_up, _SHAPE)
    if found or not isinstance(build_up, dict):
        return found
    short = build_up["shortage"]
    for part, key in ((build_up["laid_out"], "plan"), (short and short["laid_out"], "shortage")):
        if part is None:
            continue
        found += malformed_guillotine(part)
        if not found and part[key] is None:
            found += (PlanFault("malformed plan", f"build_up.{key}", "is missing"),)
    return found


def build_up_faults(build_up: Plain, bounds: GuillotineBounds | None = None) -> tuple[PlanFault, ...]:
    """Every fault of a build-up as it stands in plan.json; empty when it is sound.

    ``bounds`` are those of its layout where they were recomputed already.
    """
    malformed = malformed_build_up(build_up)
    if malformed:
        return malformed
    laid, short = build_up["laid_out"], build_up["shortage"]
    found: list[PlanFault] = []
    if laid is not None:
        found += check_guillotine(laid, bounds=bounds)
    if short is not None:
        found += check_guillotine(short["laid_out"])
        found += _shortage_faults(build_up)
    return (*found, *_piece_faults(build_up), *_place_faults(build_up))


def _piece_faults(build_up: Plain) -> Iterator[PlanFault]:
    """Each piece that is wanted is cut once or bought once."""
    cut = Counter(one["piece_id"] for one in build_up["cut"])
    bought = Counter(name for row in build_up["to_buy"] for name in row["piece_ids"])
    wanted = Counter(name for one in build_up["wanted"] for name in one["pieces"])
    for name in wanted | cut:
        if wanted[name] != 1:
            yield PlanFault("piece not wanted once", name, f"wanted {wanted[name]} times")
        if cut[name] + bought[name] != 1:
            yield PlanFault(
                "piece not covered once", name, f"cut {cut[name]} times, bought {bought[name]} times"
            )
    for one in build_up["wanted"]:
        if one["count"] != len(one["pieces"]):
            yield PlanFault("wrong number of pieces", one["id"], f"{len(one['pieces'])} for {one['count']}")


def _place_faults(build_up: Plain) -> Iterator[PlanFault]:
    """What is said of each piece is what the layout says of one of its blanks, and all of them are said."""
    laid = build_up["laid_out"]
    placed = Counter(
        (
            layout["stock_id"], layout["copy"], number, piece["start"],
            piece["length"], lane["width"], piece["turned"], piece["blank_id"],
        )
        for layout in (laid["plan"]["layouts"] if laid else ())
        for number, lane in enumerate(layout["lanes"], 1)
        for piece in lane["pieces"]
    )  # fmt: skip
    blank_of = {name: one["id"] for one in build_up["wanted"] for name in one["pieces"]}
    for one in build_up["cut"]:
        keys = ("stock_id", "copy", "lane", "start", "length", "width", "turned")
        place = (*(one[key] for key in keys), blank_of.get(one["piece_id"]))
        placed[place] -= 1
        if placed[place] < 0:
            where = f"{one['stock_id']} {one['copy']} lane {one['lane']} at {one['start']}"
            yield PlanFault("piece not where the layout has it", one["piece_id"], where)
    left = +placed
    if left:
        yield PlanFault("blank without a piece", "layout", f"{left.total()} blanks become no piece")
    sizes = _sizes(build_up["wanted"])
    for blank in laid["blanks"] if laid else ():
        length, width, count = sizes.get(blank["id"], (0, 0, 0))
        if (blank["length"], blank["width"]) != (length, width) or blank["count"] > count:
            yield PlanFault(
                "blank not as wanted",
                blank["id"],
                f"{blank['count']} of {blank['length']} x {blank['width']}",
            )


def _shortage_faults(build_up: Plain) -> Iterator[PlanFault]:
    """A shortage is one of all blanks, from the sticks that the others are cut from."""
    short, laid = build_up["shortage"], build_up["laid_out"]
    asked = short["laid_out"]
    if asked["shortage"]["proven"] != short["proven"]:
        yield PlanFault("shortage not shown", "shortage", "what is laid out says otherwise")
    if _sizes(asked["blanks"]) != _sizes(build_up["wanted"]):
        yield PlanFault("shortage of other blanks", "shortage", "not all that are wanted, or others")
    if laid is not None and _sticks(asked) != _sticks(laid):
        yield PlanFault("shortage of other sticks", "shortage", "not the sticks of the layout")


def _sizes(blanks: list[Plain]) -> dict[str, tuple[int, int, int]]:
    return {one["id"]: (one["length"], one["width"], one["count"]) for one in blanks}


def _sticks(laid: Plain) -> list[Plain]:
    """Sticks without their grain: blanks of sheet goods are laid one way, though they could be turned."""
    return [{key: value for key, value in rect.items() if key != "grain"} for rect in laid["stock"]]
