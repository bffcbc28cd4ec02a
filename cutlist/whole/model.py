"""The words of cutting whole pieces, as plain frozen values.

- **stick kind** sticks that are all alike: how many there are, what one counts for in each objective, its lanes.
- **lane** what is crosscut into pieces. A stick that is only crosscut has one lane, its own length; a board that is
  ripped first has several.
- **pattern** what is cut from one lane: how many of each piece.
- **weights** what one stick counts for in each objective, the most important first: ``(price_cents, 1)`` is least
  money, and of all that cost the same, fewest sticks.

Lengths are whole numbers of one unit, as a rule ticks. Pieces fit a lane when the sum of (piece + kerf) is at most
lane + kerf: n pieces need n - 1 kerfs, and the last cut may run out of the end.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = [
    "Branch",
    "Leaf",
    "Limits",
    "Pattern",
    "PieceKind",
    "Proof",
    "Stage",
    "StickKind",
    "WholeProblem",
    "WholeResult",
]


@dataclass(frozen=True, slots=True)
class StickKind:
    """Sticks that are all alike.

    Attributes
    ----------
    name
        Unique among the stick kinds.
    count
        How many there are, at least 0; None when there is no limit.
    weights
        What one stick counts for in each objective, each at least 0; all kinds have equally many.
    lanes
        (length, how many a stick), length at least 1.
    """

    name: str
    count: int | None
    weights: tuple[int, ...]
    lanes: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class PieceKind:
    """``count`` pieces of one ``length`` (at least 1); the name is unique among the pieces."""

    name: str
    length: int
    count: int


@dataclass(frozen=True, slots=True)
class WholeProblem:
    """What there is to cut, what is wanted, and the width of the saw's cut (at least 0)."""

    kinds: tuple[StickKind, ...]
    pieces: tuple[PieceKind, ...]
    kerf: int


@dataclass(frozen=True, slots=True)
class Limits:
    """How much work may be done; each is a count, so that the same problem always gives the same result.

    Attributes
    ----------
    nodes
        Boxes of stick counts looked at, all stages together.
    columns
        Patterns made, all stages together.
    rounds
        Relaxations solved, all stages together.
    search_steps
        Patterns tried in each exhaustive search.
    """

    nodes: int = 1000
    columns: int = 40_000
    rounds: int = 5_000
    search_steps: int = 20_000


@dataclass(frozen=True, slots=True)
class Pattern:
    """What is cut from lanes of one length of one stick kind, ``times`` times: (piece name, how many)."""

    stick: str
    lane_length: int
    pieces: tuple[tuple[str, int], ...]
    times: int


@dataclass(frozen=True, slots=True)
class Leaf:
    """Why no cutting with stick counts in one box does better: prices that anybody can add up.

    Attributes
    ----------
    values
        Price of one piece of each kind, at least 0, in the order of the problem.
    scale
        By how much the weights of this stage are multiplied to compare with the prices; 0 where the prices alone
        show that the box holds no cutting at all.
    multipliers
        The same for the weights of each earlier stage.
    searched
        The box holds one choice of sticks, and a search shows that the pieces do not go into them.

    Notes
    -----
    Let K(l) be the dearest pattern of a lane of length l, no piece oftener than it is wanted. A cutting within the
    box that takes y(s) sticks of kind s, and does as well as ``v`` in each earlier stage, has

        scale * value >= sum(values * counts) - sum(multipliers * v)
                         + sum over s of y(s) * (scale * weight + sum(multipliers * earlier weights) - sum K(lanes))

    because what is cut from a lane is worth at most K. The least of the right side over the box is the bound.
    Source of formula: Lagrange relaxation of the demand (A. M. Geoffrion, Mathematical Programming Study 2, 1974).
    """

    values: tuple[int, ...]
    scale: int
    multipliers: tuple[int, ...] = ()
    searched: bool = False


@dataclass(frozen=True, slots=True)
class Branch:
    """Two halves of a box: at most ``at`` sticks of this kind and of all like it, or more than that.

    Alike are kinds with the same weights and lanes; lanes count as equal where no sum of pieces falls between them,
    for all are multiples of one unit.
    """

    stick: str
    at: int
    fewer: Proof
    more: Proof


Proof = Leaf | Branch


@dataclass(frozen=True, slots=True)
class Stage:
    """One objective: the value reached, the bound, whether they meet, and the proof of the bound.

    The bound of a later stage is for cuttings that do as well as this one in the stages before it.
    """

    value: int | None
    bound: int
    proven: bool
    proof: Proof


@dataclass(frozen=True, slots=True)
class WholeResult:
    """How the pieces are cut, or that they cannot be.

    Attributes
    ----------
    status
        ``"cut"`` there is a cutting; ``"impossible"`` there is none, and that is proven by the first stage;
        ``"open"`` none was found within the limits.
    proven
        Every stage is proven, or that there is no cutting.
    """

    status: Literal["cut", "impossible", "open"]
    sticks: tuple[tuple[str, int], ...]
    patterns: tuple[Pattern, ...]
    stages: tuple[Stage, ...]
    proven: bool
