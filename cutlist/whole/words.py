"""A bound in words that can be added up by hand, where the lengths alone decide."""

from __future__ import annotations

from collections.abc import Callable

from edgewright.cutlist.whole.model import WholeProblem, WholeResult

__all__ = ["bound_in_words"]


def bound_in_words(problem: WholeProblem, result: WholeResult, show: Callable[[int], str]) -> str | None:
    """Say why one stick fewer is not enough, or why all there are cannot be; None where it takes more than lengths.

    Parameters
    ----------
    problem, result
        What was solved, and its result.
    show
        Turns a length into text, like ``lambda ticks: show_ticks(ticks, "in")``.

    Returns
    -------
    str or None
        Like ``the pieces and kerfs take 218 3/4 in, 3 sticks hold 216 in``. Each stick saves one kerf, behind its
        last piece. Kerfs are only mentioned where the pieces without them would fit.
    """
    one_lane = all(len(kind.lanes) == 1 and kind.lanes[0][1] == 1 for kind in problem.kinds)
    if not result.proven or not one_lane:
        return None
    lengths = [kind.lanes[0][0] for kind in problem.kinds]
    if result.status == "impossible":
        counts = [kind.count for kind in problem.kinds if kind.count is not None]
        if len(counts) < len(lengths):
            return None
    elif len(lengths) == 1 and set(problem.kinds[0].weights) == {1}:
        counts = [sum(number for _, number in result.sticks) - 1]
    else:
        return None
    sticks, have = sum(counts), sum(length * count for length, count in zip(lengths, counts, strict=True))
    bare = sum(piece.length * piece.count for piece in problem.pieces)
    kerfs = max(0, sum(piece.count for piece in problem.pieces) - sticks) * problem.kerf
    holds = f"{sticks} stick hold" + "s" if sticks == 1 else f"{sticks} sticks hold"
    if bare > have:
        return f"the pieces take {show(bare)}, {holds} {show(have)}"
    if bare + kerfs > have:
        return f"the pieces and kerfs take {show(bare + kerfs)}, {holds} {show(have)}"
    return None
