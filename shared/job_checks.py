"""Checks that need more than one table of a job file: whether what is asked fits the old top.

Here stand only jobs that make no sense as written. What is merely unwise or unsafe is a finding, not a fault.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from edgewright.compass import CORNERS, OPPOSITE, SIDES, Side, is_lengthwise
from edgewright.job_defects import box_faults
from edgewright.job_edge import ARRISES, Edge
from edgewright.job_fields import say
from edgewright.job_shop import Base, Board
from edgewright.job_top import Top, Trim
from edgewright.trade import FLUSH_TRIM, PIN_TO_INNER_EDGE, PIN_WANDER, inch, inch_text
from edgewright.units import Length

__all__ = [
    "LEAST_LEFT",
    "base_faults",
    "edge_faults",
    "ring_cap",
    "stock_faults",
    "top_faults",
    "trim_faults",
]

Fault = tuple[tuple[str | int, ...], str]
LEAST_LEFT = inch("2")
#: Shortest strip between two others that can be held while it is cut (common practice, no source).
LEAST_BETWEEN = inch("1/2")


def _mm(mm: Fraction) -> str:
    # inches where they come out even to a 64th, else millimetres
    inches = mm / Fraction(254, 10)
    return inch_text(mm) if mm >= 0 and 64 % inches.denominator == 0 else f"{float(mm):.4g} mm"


def _size(top: Top, side: Side) -> tuple[str, Length]:
    """Size of the top that runs across ``side``."""
    return ("width", top.width) if is_lengthwise(side) else ("length", top.length)


def top_faults(top: Top) -> Iterator[Fault]:
    """Seams, defects, diagonals, old corners and old edges that cannot belong to this top."""
    length, width = top.length.exact_mm, top.width.exact_mm
    for number, seam in enumerate(top.seams):
        size = top.length if seam.across == "length" else top.width
        if seam.at.exact_mm >= size.exact_mm:
            yield (
                ("top", "seams", number, "at"),
                f"{say(seam.at)} lies outside the top: less than its {seam.across} of {say(size)} is allowed",
            )
    for number, defect in enumerate(top.defects):
        for place, message in box_faults(defect, top.length, top.width, "top"):
            yield ("top", "defects", number, *place), message
    for number, diagonal in enumerate(top.diagonals or ()):
        if not abs(length - width) < diagonal.exact_mm < length + width:
            yield (
                ("top", "diagonals", number),
                f"{say(diagonal)} cannot be a diagonal of {say(top.length)} by {say(top.width)}: more than "
                f"{_mm(abs(length - width))} and less than {_mm(length + width)} is possible; measure again",
            )
    if 2 * top.corner_radius.exact_mm > min(length, width):
        yield (
            ("top", "corner_radius"),
            f"{say(top.corner_radius)} does not fit the top: at most half the shorter side, "
            f"{_mm(min(length, width) / 2)}, is allowed",
        )
    for side in SIDES:
        edge = top.finished_edge[side]
        name, size = _size(top, side)
        both = edge.depth.exact_mm + top.finished_edge[OPPOSITE[side]].depth.exact_mm
        if both >= size.exact_mm:
            yield (
                ("top", "finished_edge", side, "depth"),
                f"{say(edge.depth)} and the opposite edge leave nothing of the {name} of {say(size)}: "
                "give how deep the old finish goes into the edge",
            )
        if edge.arris_radius.exact_mm > top.thickness_min.exact_mm:
            yield (
                ("top", "finished_edge", side, "arris_radius"),
                f"{say(edge.arris_radius)} does not fit the edge: at most the top's thickness, "
                f"{say(top.thickness_min)}, is allowed",
            )


def _trim_keys(trim: Trim, low: Side, high: Side) -> tuple[str, Length]:
    size = trim.finished_width if is_lengthwise(low) else trim.finished_length
    if size is not None:
        return ("finished_width" if is_lengthwise(low) else "finished_length"), size
    first, second = getattr(trim, high), getattr(trim, low)
    return (high, first) if first.exact_mm >= second.exact_mm else (low, second)


def trim_faults(top: Top, trim: Trim) -> Iterator[Fault]:
    """Trims that leave no top, or a finished size that the top does not hold."""
    off = trim.amounts(top)
    axes: tuple[tuple[Side, Side], ...] = (("south", "north"), ("west", "east"))
    for low, high in axes:
        key, given = _trim_keys(trim, low, high)
        name, size = _size(top, low)
        total = off[low] + off[high]
        if total < 0:
            yield (
                ("trim", key),
                (
                    f"{say(given)} is larger than the top: at most its {name} of {say(size)} is allowed, "
                    "for a saw only takes away"
                ),
            )
        elif total > size.exact_mm - LEAST_LEFT:
            yield (
                ("trim", key),
                (
                    f"{say(given)} is too much: {_mm(off[low])} off the {low} side and {_mm(off[high])} "
                    f"off the {high} side of a {name} of {say(size)}; at least 2 in must stay"
                ),
            )


def edge_faults(top: Top, trim: Trim, edge: Edge) -> Iterator[Fault]:
    """Corners, strips and forms that the finished top cannot hold; silent when the trims are faulty."""
    if next(trim_faults(top, trim), None) is not None:
        return
    off = trim.amounts(top)
    shorter = min(
        top.length.exact_mm - off["west"] - off["east"], top.width.exact_mm - off["south"] - off["north"]
    )
    seen: set[Fraction] = set()
    for corner in CORNERS:
        radius = edge.corner_radius[corner]
        if 2 * radius.exact_mm > shorter and radius.exact_mm not in seen:
            seen.add(radius.exact_mm)
            yield (
                ("edge", "corner_radius", corner),
                f"{say(radius)} does not fit the finished top: at most half its shorter side, "
                f"{_mm(shorter / 2)}, is allowed",
            )
    yield from _strip_faults(top, trim, edge)
    thickness = edge.thickness(top.thickness_mean.exact_mm)
    for arris in ARRISES:
        reach = edge.reach(arris, thickness)
        if 2 * reach > shorter:
            key = "bullnose" if edge.bullnose else f"{arris}_form"
            key = key if edge.bullnose or getattr(edge, key) is not None else f"{arris}_round_over"
            yield (
                ("edge", key),
                f"it reaches {_mm(reach)} in from the edge, which does not fit the finished top: at most half "
                f"its shorter side, {_mm(shorter / 2)}, is allowed",
            )


def ring_cap(length: Fraction, width: Fraction, edge: Edge) -> tuple[Fraction, str]:
    """Widest strips of which a finished top holds a ring, exact mm, and why.

    Two strips meet in the middle of the shorter side; with butt corners a strip of at least 1/2 in must fit between
    two that run through. What stands proud is left out of account, for it is trimmed away.

    Parameters
    ----------
    length, width
        Finished size, exact mm.
    edge
        Says how the strips meet at the corners.
    """
    shorter = min(length, width)
    cap, reason = shorter / 2, f"two strips meet in the middle of the shorter finished side of {_mm(shorter)}"
    if edge.corners != "butt":
        return cap, reason
    # every second layer swaps the pair that runs through
    swaps = edge.layers > 1 and edge.alternate_layers
    crossed = shorter if edge.through == "long" or swaps else max(length, width)
    between = (crossed - LEAST_BETWEEN) / 2
    if between >= cap:
        return cap, reason
    return between, (
        f"between two strips that run through, {_mm(LEAST_BETWEEN)} must stay of the finished side of "
        f"{_mm(crossed)} for the strip that fits there"
    )


def _strip_faults(top: Top, trim: Trim, edge: Edge) -> Iterator[Fault]:
    """Strips of which the finished top holds no ring."""
    off = trim.amounts(top)
    cap, reason = ring_cap(
        top.length.exact_mm - off["west"] - off["east"],
        top.width.exact_mm - off["south"] - off["north"],
        edge,
    )
    if isinstance(edge.strip_width, Length):
        if edge.strip_width.exact_mm > cap:
            yield (
                ("edge", "strip_width"),
                f"{say(edge.strip_width)} does not fit the finished top: at most {_mm(cap)} is allowed, "
                f"because {reason}",
            )
        return
    reach = edge.reach("bottom", edge.thickness(top.thickness_mean.exact_mm))
    proud = max(edge.proud.exact_mm, FLUSH_TRIM.value)
    least = reach + proud + PIN_WANDER.value + PIN_TO_INNER_EDGE.value
    if least > cap:
        yield (
            ("edge", "strip_width"),
            f'"widest" finds no strip: pins and the bottom form need at least {_mm(least)}, at most '
            f"{_mm(max(cap, Fraction(0)))} is possible, because {reason}; trim less, or give a smaller bottom form",
        )


def base_faults(top: Top, base: Base) -> Iterator[Fault]:
    """Find a base larger than the old top, or overhangs that leave no base."""
    for key, size in (("footprint_length", top.length), ("footprint_width", top.width)):
        footprint = getattr(base, key)
        if footprint is not None and footprint.exact_mm > size.exact_mm:
            yield (
                ("base", key),
                f"{say(footprint)} is larger than the top: at most {say(size)} is allowed; "
                "measure over the apron",
            )
    if base.overhang is not None:
        hang = base.overhang.per_side()
        for side in ("north", "east"):
            name, size = _size(top, side)
            other = OPPOSITE[side]
            if hang[side].exact_mm + hang[other].exact_mm >= size.exact_mm:
                yield (
                    ("base", "overhang", side),
                    f"{say(hang[side])} and {say(hang[other])} at the {side} and {other} sides leave no base "
                    f"under a {name} of {say(size)}: measure from the top's edge to the apron",
                )


def stock_faults(stock: tuple[Board, ...]) -> Iterator[Fault]:
    """Boards that share a name, and defects that lie on no board or on several."""
    seen: set[str] = set()
    for number, board in enumerate(stock):
        if board.name in seen:
            yield (
                ("stock", number, "name"),
                f'"{board.name}" is the name of an earlier board: names must differ',
            )
        seen.add(board.name)
        for index, defect in enumerate(board.defects):
            for place, message in box_faults(defect, board.length, board.width, "board"):
                yield ("stock", number, "defects", index, *place), message
        if board.defects and board.limit != 1:
            many = "as many as needed" if board.limit is None else str(board.limit)
            yield (
                ("stock", number, "count"),
                f"{many}: several boards cannot share the same defects, list each by itself with count = 1",
            )
