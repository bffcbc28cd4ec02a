"""Faults of a guillotine layout: every lane, blank, kerf and rest of every stick, and what the whole plan costs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault

__all__ = ["guillotine_values", "layout_faults"]

#: Sides of a lane: its length, and what lies across the stick.
Box = tuple[int, int]


def layout_faults(plain: Plain) -> Iterator[PlanFault]:
    """Everything wrong with the layouts and rests of a well-formed plan."""
    stock = {rect["id"]: rect for rect in plain["stock"]}
    blanks = {blank["id"]: blank for blank in plain["blanks"]}
    layouts = plain["plan"]["layouts"]
    for layout in layouts:
        if layout["stock_id"] not in stock:
            yield PlanFault("unknown stock", layout["stock_id"], "no such stock")
            return
        for lane in layout["lanes"]:
            for piece in lane["pieces"]:
                if piece["blank_id"] not in blanks:
                    yield PlanFault("unknown blank", piece["blank_id"], "no such blank")
                    return
    yield from _stock_faults(stock, layouts)
    for layout in layouts:
        yield from _rip_faults(plain["rules"], stock[layout["stock_id"]], layout)
        for number, lane in enumerate(layout["lanes"], 1):
            place = f"{_name(layout)}, lane {number}"
            yield from _lane_faults(plain["rules"], stock[layout["stock_id"]], blanks, layout, lane, place)
    made = Counter(
        piece["blank_id"] for layout in layouts for lane in layout["lanes"] for piece in lane["pieces"]
    )
    for name, blank in blanks.items():
        if made[name] != blank["count"]:
            yield PlanFault("wrong number of blanks", name, f"{made[name]} sawn, {blank['count']} wanted")
    yield from _rest_faults(plain, stock)


def _name(layout: Plain) -> str:
    return f"{layout['stock_id']} copy {layout['copy']}"


def _box(stock: Plain, layout: Plain) -> Box:
    sides = stock["length"], stock["width"]
    return sides if layout["first"] == "length" else (sides[1], sides[0])


def _stock_faults(stock: dict[str, Plain], layouts: list[Plain]) -> Iterator[PlanFault]:
    used = Counter((layout["stock_id"], layout["copy"]) for layout in layouts)
    for (name, copy), times in used.items():
        most = stock[name]["count"]
        if times > 1:
            yield PlanFault("stick used twice", name, f"copy {copy} is sawn {times} times")
        if copy < 1 or (most is not None and copy > most):
            yield PlanFault("more stock than there is", name, f"copy {copy} of {most}")


def _rip_faults(rules: Plain, stock: Plain, layout: Plain) -> Iterator[PlanFault]:
    name, (_, across) = _name(layout), _box(stock, layout)
    if rules["first"] not in ("either", layout["first"]):
        yield PlanFault("ripped the wrong way", name, f"along its {layout['first']}, not {rules['first']}")
    if not layout["lanes"]:
        yield PlanFault("nothing sawn", name, "a layout without lanes")
    taken = sum(lane["width"] + rules["kerf"] for lane in layout["lanes"])
    if taken > across + rules["kerf"]:
        yield PlanFault("lanes do not fit", name, f"lanes and kerfs take {taken - rules['kerf']} of {across}")
    for lane in layout["lanes"]:
        if lane["width"] < rules["min_rip_width"] and lane["width"] != across:
            yield PlanFault("rip too narrow", name, f"{lane['width']} is below {rules['min_rip_width']}")


def _lane_faults(
    rules: Plain, stock: Plain, blanks: dict[str, Plain], layout: Plain, lane: Plain, place: str
) -> Iterator[PlanFault]:
    length, _ = _box(stock, layout)
    if not lane["pieces"]:
        yield PlanFault("empty lane", place, "a lane that gives no blank")
    free = 0
    for piece in lane["pieces"]:
        blank = blanks[piece["blank_id"]]
        sides = (blank["length"], blank["width"])
        along, across = (sides[1], sides[0]) if piece["turned"] else sides
        if (piece["length"], lane["width"]) != (along, across):
            yield PlanFault(
                "wrong size", place, f"{piece['blank_id']} is {along} by {across}, sawn otherwise"
            )
        if piece["start"] < free:
            yield PlanFault(
                "blanks overlap", place, f"{piece['blank_id']} starts at {piece['start']}, not {free}"
            )
        elif piece["start"] > free:
            yield PlanFault(
                "gap in a lane", place, f"{piece['blank_id']} starts at {piece['start']}, not {free}"
            )
        if piece["start"] + piece["length"] > length:
            yield PlanFault(
                "out of the stick", place, f"ends at {piece['start'] + piece['length']} of {length}"
            )
        if blank["grain"] and stock["grain"]:
            # the side of the stick that the blank's grain side lies along
            across_side = "width" if layout["first"] == "length" else "length"
            lies = layout["first"] if (blank["grain"] == "length") != piece["turned"] else across_side
            if lies != stock["grain"]:
                yield PlanFault("across the grain", place, f"{piece['blank_id']} lies across the grain")
        free = piece["start"] + piece["length"] + rules["kerf"]


def _rest_faults(plain: Plain, stock: dict[str, Plain]) -> Iterator[PlanFault]:
    least, kerf = max(plain["rules"]["min_rip_width"], 1), plain["rules"]["kerf"]
    right: Counter[tuple[str, int, int, int]] = Counter()
    for layout in plain["plan"]["layouts"]:
        length, across = _box(stock[layout["stock_id"]], layout)
        beside = across - sum(lane["width"] + kerf for lane in layout["lanes"])
        left = [(length, beside)]
        for lane in layout["lanes"]:
            left.append((length - sum(p["length"] + kerf for p in lane["pieces"]), lane["width"]))
        for long, wide in left:
            if min(long, wide) >= least:
                right[(layout["stock_id"], layout["copy"], long, wide)] += 1
    said = Counter(
        (rest["stock_id"], rest["copy"], rest["length"], rest["width"]) for rest in plain["plan"]["rests"]
    )
    for name, copy, long, wide in (said - right) | (right - said):
        yield PlanFault("wrong rest", f"{name} copy {copy}", f"{long} by {wide}")


def guillotine_values(plain: Plain) -> dict[str, int]:
    """Value of each stage, counted from the layouts: cents, counts, square ticks."""
    stock = {rect["id"]: rect for rect in plain["stock"]}
    layouts = plain["plan"]["layouts"]
    least, kerf = max(plain["rules"]["min_rip_width"], 1), plain["rules"]["kerf"]
    settings: set[int] = set()
    remnants = [0]
    for layout in layouts:
        length, across = _box(stock[layout["stock_id"]], layout)
        settings |= {lane["width"] for lane in layout["lanes"]} - {across}
        beside = across - sum(lane["width"] + kerf for lane in layout["lanes"])
        if min(length, beside) >= least:
            remnants.append(length * beside)
    touched = Counter(layout["stock_id"] for layout in layouts)
    for name, rect in stock.items():
        if rect["source"] != "for sale" and rect["count"] > touched[name]:
            remnants.append(rect["length"] * rect["width"])
    bought = [stock[layout["stock_id"]] for layout in layouts]
    return {
        "new material cost": sum(rect["price_cents"] for rect in bought if rect["source"] == "for sale"),
        "sticks touched": len(layouts),
        "fence settings": len(settings),
        "largest remnant": max(remnants),
    }
