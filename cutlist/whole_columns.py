"""Components without a splice, from the planner of whole pieces: the best cutting of all sides whole.

It finds such cuttings where the strip planner's own columns would need luck, as with many sides and little to spare.
"""

from __future__ import annotations

from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.whole.model import Limits, PieceKind, StickKind, WholeProblem
from edgewright.cutlist.whole.solve import solve_whole

__all__ = ["whole_columns"]

#: With more kinds of sticks its search takes longer than the strip planner's own.
_MOST_KINDS = 80
_NODES = 60
_ROUNDS = 400


def whole_columns(pool: SplicePool, effort: int = 100) -> tuple[Column, ...]:
    """Components of one lane that cut every side whole, for least money and then few sticks; none where there are none.

    Only for one family without nesting mitres, each stick ripped in one way.
    """
    if pool.joints != (pool.kerf,) or len(pool.ways) != len(pool.group_counts):
        return ()
    if effort <= 0 or len(pool.ways) > _MOST_KINDS:
        return ()
    lanes: dict[int, list[tuple[int, int]]] = {}
    for lane in pool.lanes:
        lanes.setdefault(lane.way, []).append((lane.length, lane.per_stick))
    kinds = tuple(
        StickKind(str(number), pool.group_counts[way.group], (way.price, 1), tuple(lanes[number]))
        for number, way in enumerate(pool.ways)
        if number in lanes
    )
    pieces = tuple(PieceKind(str(i), side.length, side.count) for i, side in enumerate(pool.sides))
    longest = max((lane.length for lane in pool.lanes), default=0)
    if any(piece.length > longest for piece in pieces):
        return ()
    limits = Limits(nodes=-(-_NODES * effort // 100), rounds=-(-_ROUNDS * effort // 100))
    result = solve_whole(WholeProblem(kinds, pieces, pool.kerf), limits)
    place = {(lane.way, lane.length): t for t, lane in enumerate(pool.lanes)}
    return tuple(
        Column(
            tuple(sorted((int(name), n) for name, n in pattern.pieces)),
            ((place[int(pattern.stick), pattern.lane_length], 1),),
        )
        for pattern in result.patterns
    )
