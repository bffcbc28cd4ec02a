"""Cases of the shop for strips that may be spliced: sides and sticks of whole tables, by seed; and plans as plain data.

Lengths are ticks in steps of 1/4 in (of 1/32 in where stock is tight); nothing here calls the planner.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from random import Random
from typing import Any

from strip_cases import EIGHTH, INCH, INCH_RULES, side, stick

from edgewright.cutlist.model import CutPlan, PlanRules, RingSide, Shortage, Stage, Stick
from edgewright.cutlist.solve import StripLayout
from edgewright.cutlist.stages import STAGES, stage_values

Case = tuple[tuple[RingSide, ...], tuple[Stick, ...]]


def _quarters(pick: Random, low: int, high: int) -> int:
    return pick.randint(low * 4, high * 4) * INCH // 4


def _ring(table: str, layer: int, length: int, width: int) -> list[RingSide]:
    """Four sides of one layer; from 8 ft on a side may have two splices."""
    sizes = {"N": length, "S": length, "E": width, "W": width}
    return [
        dataclasses.replace(
            side(f"{name}{layer}", size, splices=1 + (size >= 96 * INCH)), id=f"{table}{name}{layer}"
        )
        for name, size in sizes.items()
    ]


def single_table(seed: int) -> Case:
    """One table, one layer: its own offcuts, boards on the rack and boards for sale, four kinds in all."""
    pick = Random(seed)
    length, width = _quarters(pick, 48, 96), _quarters(pick, 24, 48)
    return tuple(_ring("", 1, length, width)), _sticks(pick, 4, 2, length)


def two_layers(seed: int) -> Case:
    """One table, two layers, where the second has the other pair of sides run through; six kinds of sticks."""
    pick = Random(seed)
    length, width = _quarters(pick, 48, 96), _quarters(pick, 24, 48)
    sides = [*_ring("", 1, length, width), *_ring("", 2, length - 3 * INCH, width + 3 * INCH)]
    return tuple(sides), _sticks(pick, 6, 4, length)


def _sticks(pick: Random, kinds: int, sale: int, length: int) -> tuple[Stick, ...]:
    """So many kinds of sticks; the first is an offcut as long as the top, of the last there are enough for sale."""
    found = [stick("offcut", *[length] * pick.randint(1, 3))]
    for kind in range(1, kinds):
        lanes, long = pick.randint(1, 3), _quarters(pick, 16, 96)
        price = pick.choice([None, None, 500, 900, 1500]) if kind < kinds - 1 else pick.choice([900, 1500])
        number = pick.randint(1, 3) if price is None else sale * (2 if kind == kinds - 1 else 1)
        found += [stick(f"k{kind}.{n}", *[long] * lanes, price=price) for n in range(number)]
    return tuple(found)


def twelve_tables(seed: int) -> Case:
    """Twelve tables with strips of one width: their offcuts serve each other, three kinds of boards are for sale."""
    pick = Random(seed)
    sides, sticks = [], []
    strip = INCH * 3 // 2
    for table in range(1, 13):
        length, width, off = (
            _quarters(pick, 48, 96),
            _quarters(pick, 30, 48),
            pick.choice([3, 4, 5, 6, 8, 10]),
        )
        sides += _ring(f"{table}.", 1, length, width - off * INCH - 2 * strip)
        sticks.append(stick(f"{table}.offcut", *[length] * (off * INCH // (strip + EIGHTH))))
    for inches, lanes, price in ((96, 3, 2400), (72, 2, 1300), (48, 4, 1500)):
        sticks += [stick(f"{inches} in {n}", *[inches * INCH] * lanes, price=price) for n in range(24)]
    return tuple(sides), tuple(sticks)


def tight_stock(seed: int, most_tables: int = 4) -> Case:
    """One to four tables whose sticks, kerfs counted in, hold from what the sides need to 1 % more."""
    pick = Random(seed)
    sides: list[RingSide] = []
    for table in range(1, pick.randint(1, most_tables) + 1):
        sides += _ring(f"{table}.", 1, _quarters(pick, 48, 96), _quarters(pick, 20, 44))
    target = int(sum(one.length_ticks + EIGHTH for one in sides) * (1 + pick.random() / 100))
    step = INCH // 32
    sticks: list[Stick] = []
    held = 0
    while True:
        length, lanes = _quarters(pick, 24, 96), pick.randint(1, 3)
        if held + (length + EIGHTH) * lanes > target - 30 * INCH:
            break
        sticks.append(stick(f"s{len(sticks)}", *[length] * lanes))
        held += (length + EIGHTH) * lanes
    rest = (target - held - EIGHTH) // step * step
    while rest > 96 * INCH:
        half = rest // 2 // step * step
        sticks.append(stick(f"s{len(sticks)}", half))
        rest -= half + EIGHTH
    return tuple(sides), (*sticks, stick(f"s{len(sticks)}", rest))


CLASSES: Mapping[str, Callable[[int], Case]] = {
    "spliced, one table": single_table,
    "two layers, six kinds of stock": two_layers,
    "12 tables, one width": twelve_tables,
    "tight stock, 4 or 8 sides": partial(tight_stock, most_tables=2),
    "tight stock, 4 to 16 sides": tight_stock,
}


def as_data(
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    layout: StripLayout | None,
    rules: PlanRules = INCH_RULES,
) -> dict[str, Any]:
    """As much of a plan as its bounds and certificates are checked against, as plain data; cuts are left out."""
    values = () if layout is None else stage_values(sides, sticks, layout.pieces, rules)
    need = sum(one.length_ticks for one in sides)
    have = sum(lane.length_ticks for one in sticks for lane in one.lanes)
    number = sum(len(one.lanes) for one in sticks)
    kerfs = max(0, len(sides) - number) * rules.kerf_ticks
    lacking = Shortage(
        INCH, len(sides), number, need, kerfs, need + kerfs, have, need + kerfs > have, False, "", None, ""
    )
    certificates = {} if layout is None else layout.certificates
    plan = CutPlan(
        status="ready" if layout else "impossible",
        rules=rules,
        corners="butt",
        strip_map_view="underside",
        old_ticks=(INCH, INCH),
        finished_ticks=(INCH, INCH),
        finished_origin_ticks=(0, 0),
        proud_ticks=0,
        strip_width_ticks=INCH,
        pitch_ticks=INCH,
        sides=tuple(sides),
        sticks=tuple(sticks),
        pieces=layout.pieces if layout else (),
        strip_map=(),
        cuts=(),
        remnants=(),
        stages=tuple(
            Stage(name, value, None, False, "", certificates.get(name))
            for name, value in zip(STAGES, values, strict=bool(layout))
        ),
        trials=(),
        shortage=None if layout else lacking,
    )
    read: dict[str, Any] = json.loads(json.dumps(dataclasses.asdict(plan)))
    return read


def as_problem(
    sides: Sequence[RingSide], sticks: Sequence[Stick], rules: PlanRules = INCH_RULES
) -> dict[str, Any]:
    """The same for a general constraint solver, sticks that are alike one after the other."""
    alike = sorted(
        ({"price": one.price_cents, "lanes": [lane.length_ticks for lane in one.lanes]} for one in sticks),
        key=str,
    )
    return {
        "kerf": rules.kerf_ticks,
        "min_piece": rules.min_piece_ticks,
        "sides": [(one.length_ticks, one.max_splices) for one in sides],
        "sticks": sorted(alike, key=str),
    }
