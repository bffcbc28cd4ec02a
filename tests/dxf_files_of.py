"""DXF files of real plans for many tests, their groups, and the faults that are planted in them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

from edgewright.cli.dxf_files import AUDIT, dxf_files
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_plan import ShapedPlan

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
#: Straight and round, with cut-outs, of arcs alone, new, in inches and in millimetres.
NAMES = (
    "narrow_one_side",
    "shapes/l_counter",
    "shapes/ellipse",
    "shapes/boat",
    "new_tops/racetrack_from_sheet",
)
MM = {"in": 25.4, "mm": 1.0}

Groups = list[tuple[int, str]]


@cache
def planned(name: str) -> Plan | ShapedPlan:
    """Plan an example once."""
    return plan_any(str(EXAMPLES / f"{name}.toml"), lambda words: None)


@cache
def drawings(name: str, units: str, dialect: str) -> dict[str, bytes]:
    """DXF files of an example, by name without the folder."""
    files = dxf_files(planned(name), units, dialect)  # type: ignore[arg-type]
    return {path.partition("/")[2]: data for path, data in files.items() if not path.endswith(AUDIT)}


def one_file(name: str, units: str, dialect: str, part: str) -> tuple[str, bytes]:
    """Name and content of the file of a part."""
    return next(
        (path, data) for path, data in drawings(name, units, dialect).items() if path.startswith(part)
    )


def groups_of(data: bytes) -> Groups:
    """All groups of a file, read anew here."""
    lines = data.decode("ascii").split("\n")
    return [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=False)]


def file_of(groups: Groups) -> bytes:
    """Write groups as a file."""
    return "".join(f"{code:3}\n{value}\n" for code, value in groups).encode("ascii")


def entities(groups: Groups, layer: str) -> Iterator[tuple[int, int]]:
    """Where each entity on a layer begins and ends."""
    start = next(n for n, group in enumerate(groups) if group == (2, "ENTITIES")) + 1
    marks = [n for n in range(start, len(groups)) if groups[n][0] == 0]
    for first, last in pairwise(marks):
        if (8, layer) in groups[first:last]:
            yield first, last
        if groups[first] == (0, "ENDSEC"):
            return


def _value(groups: Groups, first: int, last: int, code: int) -> float:
    return next(float(value) for found, value in groups[first:last] if found == code)


def _put(groups: Groups, first: int, last: int, code: int, value: float | int) -> None:
    at = next(n for n in range(first, last) if groups[n][0] == code)
    groups[at] = (code, repr(value))


def gap(groups: Groups, layer: str, mm: float) -> None:
    """Open an outline by 0.3 mm."""
    first, last = next(entities(groups, layer))
    kind, wide = groups[first][1], 0.3 / mm
    if kind == "LWPOLYLINE":
        x, y = _value(groups, first, last, 10), _value(groups, first, last, 20)
        count = int(_value(groups, first, last, 90))
        _put(groups, first, last, 70, 0)
        _put(groups, first, last, 90, count + 1)
        groups[last:last] = [(10, repr(x + wide)), (20, repr(y))]
    elif kind == "LINE":
        _put(groups, first, last, 11, _value(groups, first, last, 11) + wide)
    else:
        turn = math.degrees(wide / _value(groups, first, last, 40))
        _put(groups, first, last, 51, _value(groups, first, last, 51) - turn)


def dropped(groups: Groups, layer: str, mm: float) -> None:
    """Leave out a line or arc of an outline; of a polyline its last edge."""
    found = list(entities(groups, layer))
    first, last = found[len(found) // 2]
    if groups[first][1] == "LWPOLYLINE":
        _put(groups, first, last, 70, 0)
    else:
        del groups[first:last]


def flipped(groups: Groups, layer: str, mm: float) -> None:
    """Turn an arc over, about its chord."""
    for first, last in entities(groups, layer):
        if groups[first][1] == "LWPOLYLINE":
            at = next(n for n in range(first, last) if groups[n][0] == 42 and float(groups[n][1]))
            groups[at] = (42, repr(-float(groups[at][1])))
            return
        if groups[first][1] == "ARC":
            x, y, r, a, b = (_value(groups, first, last, code) for code in (10, 20, 40, 50, 51))
            middle, half = math.radians(a + (b - a) % 360 / 2), math.radians((b - a) % 360 / 2)
            # the centre goes to the other side of the chord, as far away
            _put(groups, first, last, 10, x + 2 * r * math.cos(half) * math.cos(middle))
            _put(groups, first, last, 20, y + 2 * r * math.cos(half) * math.sin(middle))
            begin = math.degrees(middle + math.pi - half)
            _put(groups, first, last, 50, begin % 360)
            _put(groups, first, last, 51, (begin + math.degrees(2 * half)) % 360)
            return
    raise AssertionError("no arc")


def duplicate(groups: Groups, layer: str, mm: float) -> None:
    """Draw an entity twice."""
    found = list(entities(groups, layer))
    first, last = found[0]
    end = found[-1][1]
    groups[end:end] = groups[first:last]


def contradicting_units(groups: Groups, layer: str, mm: float) -> None:
    """Let $INSUNITS say the other unit."""
    at = groups.index((9, "$INSUNITS")) + 1
    groups[at] = (70, "4" if groups[at][1].strip() == "1" else "1")


FAULTS: dict[str, Callable[[Groups, str, float], None]] = {
    "open": gap,
    "open, a line dropped": dropped,
    "flipped": flipped,
    "double": duplicate,
    "units": contradicting_units,
}


def without_check_figures(groups: Groups) -> Groups:
    """As another program would write it: nothing says what the layers hold."""
    kept: Groups = []
    for first, last in _records(groups):
        text = next((value for code, value in groups[first:last] if code == 1), "")
        if not (groups[first][1] == "TEXT" and " closed, " in text):
            kept += groups[first:last]
    return kept


def _records(groups: Groups) -> Iterator[tuple[int, int]]:
    marks = [n for n, (code, _) in enumerate(groups) if code == 0]
    yield from zip(marks, [*marks[1:], len(groups)], strict=True)
