"""One stage proven: boxes of stick counts, halved until each has a bound that no cutting in it beats."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from edgewright.cutlist.check_packing import SearchLimitError, pack
from edgewright.cutlist.whole.cutting import Cutting, make_cutting, value_of
from edgewright.cutlist.whole.dive import dive
from edgewright.cutlist.whole.instance import Instance
from edgewright.cutlist.whole.known_patterns import best_of_known
from edgewright.cutlist.whole.model import Branch, Leaf, Proof
from edgewright.cutlist.whole.prices import NONE_FITS, Box, Goal, Prices
from edgewright.cutlist.whole.pricing import Counts
from edgewright.cutlist.whole.relaxation import Relaxation, Relaxed
from edgewright.cutlist.whole.work import WorkDone

__all__ = ["StageTree"]

_NEAR = 1e-6
#: How sure a pattern must be to be taken along in a dive; each dive that fails leaves patterns for the next.
_SURE = (0.7, 0.9, 0.5, 0.8, 0.6, 0.99, 0.75, 0.85, 0.65, 0.55, 0.95, 0.45)
#: Ways given up before a dive is; many short dives do better than few long ones (measured).
_TURNS = 10
#: Boxes within boxes; the proof is nested as deep, and has to be written and read.
_DEEPEST = 150
#: Boxes from one dive to the next: bounding alone is cheap.
_PAUSE = 3
#: The known patterns are put together by an integer program after so many boxes; at once only if they are few.
_DUE, _FEW, _NODES = (0, 12, 48, 100, 200, 400, 800, 1600), 200, 20


@dataclass(slots=True)
class _Node:
    box: Box
    bound: float
    prices: Prices
    depth: int
    searched: bool = False
    branch: tuple[int, int, _Node, _Node] | None = None


@dataclass(slots=True)
class StageTree:
    """Boxes of one stage: `run` works on them, `proof` and `bound` say what is proven so far."""

    relaxation: Relaxation
    goal: Goal
    best: Cutting | None
    known: list[Prices]
    search_steps: int
    root: _Node = field(init=False)
    _seen: int = 0
    _settled: dict[tuple[int, ...], bool] = field(default_factory=dict)

    def __post_init__(self) -> None:
        inst = self.relaxation.inst
        box = tuple((0, group.most) for group in inst.groups)
        self.root = self._node(box, 0)

    @property
    def value(self) -> float:
        """What the best cutting counts for in this stage; infinite when there is none."""
        if self.best is None:
            return math.inf
        return value_of(self.relaxation.inst, self.best.sticks, self.goal.stage)

    def _node(self, box: Box, depth: int) -> _Node:
        """Return the best that known prices prove of a box."""
        inst = self.relaxation.inst
        bound, at = max((prices.bound(inst, self.goal, box), -at) for at, prices in enumerate(self.known))
        return _Node(box, bound, self.known[-at], depth)

    def run(self) -> None:
        """Prove the stage, as far as the limits allow."""
        queue: list[tuple[float, int, _Node]] = [(self.root.bound, 0, self.root)]
        made = 1
        while queue:
            _, _, node = heapq.heappop(queue)
            if node.bound >= self.value:
                break
            if not self.relaxation.work.node():
                return
            again = self._node(node.box, node.depth)
            if again.bound > node.bound:
                node.bound, node.prices = again.bound, again.prices
            if node.bound >= self.value:
                continue
            try:
                halves = self._work_on(node)
            except WorkDone:
                return
            for half in halves:
                # the newest of equals first: it is the deepest
                heapq.heappush(queue, (half.bound, -made, half))
                made += 1

    def _work_on(self, node: _Node) -> Sequence[_Node]:
        """Bound a box, look for a cutting in it, and halve it if need be."""
        inst = self.relaxation.inst
        relaxed = self.relaxation.solve(node.box, enough=self.value)
        for prices in relaxed.prices:
            self.known.append(prices)
            bound = prices.bound(inst, self.goal, node.box)
            if bound > node.bound:
                node.bound, node.prices = bound, prices
        if node.bound >= self.value or not relaxed.times:
            return ()
        if self._seen % _PAUSE == 0:
            self._dive(node, relaxed)
        if node.bound < self.value:
            self._put_together(node, relaxed)
        self._seen += 1
        if node.bound >= self.value:
            return ()
        if all(low == high for low, high in node.box):
            if self._settled[tuple(low for low, _ in node.box)]:
                node.searched, node.bound = True, NONE_FITS
            return ()
        if node.depth == _DEEPEST:
            return ()
        at, cut = _halve(node.box, relaxed.sticks)
        low, high = node.box[at]
        fewer = self._node(_with(node.box, at, (low, cut)), node.depth + 1)
        more = self._node(_with(node.box, at, (cut + 1, high)), node.depth + 1)
        node.branch = (at, cut, fewer, more)
        return fewer, more

    def _dive(self, node: _Node, relaxed: Relaxed) -> None:
        """Dive until the bound of the box is met; oftener in the first box, for there most is to be won."""
        # with one kind of stick only the last one is in question, and that is worth turning round for
        alone = len(node.box) == 1
        first = node is self.root
        for sure in _SURE[: (len(_SURE) if alone else 2) if first else 1]:
            found = dive(self.relaxation, node.box, relaxed, self.value, sure, _TURNS if alone else 0)
            self.best = self.best if found is None else found
            if node.bound >= self.value:
                return

    def _put_together(self, node: _Node, relaxed: Relaxed) -> None:
        """Try harder where the relaxation takes whole sticks, and now and then elsewhere."""
        if self._seen in _DUE and (self._seen or len(self.relaxation.patterns) <= _FEW):
            found = best_of_known(self.relaxation, relaxed, self.root.box, self.value, _NODES)
            self.best = self.best if found is None else found
        sticks = tuple(round(number) for number in relaxed.sticks)
        whole = all(abs(a - b) < _NEAR for a, b in zip(sticks, relaxed.sticks, strict=True))
        if node.bound < self.value and whole and sticks not in self._settled:
            self._settled[sticks] = self._none_fits(tuple((number, number) for number in sticks), node)

    def _none_fits(self, box: Box, node: _Node) -> bool:
        """Look for a cutting with one choice of sticks; whether a search shows that there is none."""
        relaxed = self.relaxation.solve(box)
        found = dive(self.relaxation, box, relaxed, self.value, _SURE[1], _TURNS) if relaxed.times else None
        if found is None:
            try:
                times = self._search(box, node.prices)
            except SearchLimitError:
                found = best_of_known(self.relaxation, relaxed, box, self.value, _NODES)
            else:
                if times is None:
                    return True
                found = make_cutting(self.relaxation.inst, self.goal, box, times)
        self.best = self.best if found is None else found
        return False

    def _search(self, box: Box, prices: Prices) -> dict[tuple[int, Counts], int] | None:
        inst = self.relaxation.inst
        lanes = [
            capacity
            for (number, _), group in zip(box, inst.groups, strict=True)
            for capacity, each in zip(inst.capacities, group.lanes, strict=True)
            for _ in range(number * each)
        ]
        packed = pack(inst.sizes, inst.demand, lanes, prices.values, self.search_steps)
        if packed is None:
            return None
        times: dict[tuple[int, Counts], int] = {}
        for capacity, counts in packed:
            pattern = inst.capacities.index(capacity), counts
            times[pattern] = times.get(pattern, 0) + 1
        return times

    def bound(self) -> float:
        """Return the least bound of all boxes, `NONE_FITS` when none holds a cutting."""
        return _bound(self.root)

    def proof(self) -> Proof:
        """Return the boxes as the certificate has them."""
        return _proof(self.relaxation.inst, self.root)


def _with(box: Box, at: int, pair: tuple[int, int]) -> Box:
    return (*box[:at], pair, *box[at + 1 :])


def _halve(box: Box, sticks: Sequence[float]) -> tuple[int, int]:
    """Group to halve, and the most of it in the lower half: a fraction of a stick first, the plainest half first."""
    parts = [(abs(number - math.floor(number) - 0.5), at) for at, number in enumerate(sticks)]
    nearest, at = min(parts)
    if nearest < 0.5 - _NEAR:
        return at, math.floor(sticks[at])
    at = max((at for at, (low, high) in enumerate(box) if low < high), key=lambda at: sticks[at])
    low, high = box[at]
    return at, min(max(round(sticks[at]), low), high - 1)


def _bound(node: _Node) -> float:
    if node.branch is None:
        return node.bound
    return min(_bound(node.branch[2]), _bound(node.branch[3]))


def _proof(inst: Instance, node: _Node) -> Proof:
    if node.branch is not None:
        at, cut, fewer, more = node.branch
        return Branch(inst.groups[at].kinds[0].name, cut, _proof(inst, fewer), _proof(inst, more))
    prices = node.prices
    by_piece = tuple(
        prices.values[inst.type_of(piece.length)] if piece.count else 0 for piece in inst.problem.pieces
    )
    return Leaf(by_piece, prices.scale, prices.multipliers, node.searched)
