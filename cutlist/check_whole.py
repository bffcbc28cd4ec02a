"""Check how whole pieces are cut from sticks, and the proof that it cannot be done better.

It reads problem and result as plain data and recomputes everything in whole numbers, with the standard library
alone: what is cut from each lane, what the sticks count for, and what the prices of each leaf prove.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_whole_bound import recompute_whole_bounds

__all__ = ["check_whole"]


def check_whole(problem: Plain, result: Plain, work_limit: int = 200_000) -> tuple[PlanFault, ...]:
    """Every fault found in a cutting of whole pieces; empty when it is sound.

    Parameters
    ----------
    problem, result
        ``WholeProblem`` and ``WholeResult`` as plain data: ``json.loads(json.dumps(dataclasses.asdict(value)))``.
    work_limit
        Steps allowed for each search that is done again.

    Returns
    -------
    tuple of PlanFault
        Malformed data gives one fault named "malformed cutting"; no input raises.
    """
    try:
        _whole_numbers(problem)
        _whole_numbers(result)
        return tuple(_faults(problem, result, work_limit))
    except (KeyError, TypeError, ValueError, IndexError, AttributeError, RecursionError) as error:
        return (PlanFault("malformed cutting", "cutting", f"{type(error).__name__}: {error}"),)


def _whole_numbers(value: object) -> None:
    """Refuse what is neither text, yes or no, nothing, nor a whole number."""
    if isinstance(value, dict):
        for part in value.values():
            _whole_numbers(part)
    elif isinstance(value, list | tuple):
        for part in value:
            _whole_numbers(part)
    elif value is not None and not isinstance(value, str | int):
        raise TypeError(f"{value!r} is no whole number")


def _faults(problem: Plain, result: Plain, work_limit: int) -> Iterator[PlanFault]:
    if result["status"] == "cut":
        yield from _pattern_faults(problem, result)
        yield from _stick_faults(problem, result)
    elif result["status"] not in ("impossible", "open"):
        raise ValueError(f"status {result['status']!r}")
    elif result["patterns"] or result["sticks"]:
        yield PlanFault("cutting without a cutting", "patterns", f"status is {result['status']}")
    yield from _stage_faults(problem, result, work_limit)


def _pattern_faults(problem: Plain, result: Plain) -> Iterator[PlanFault]:
    """Each pattern fits its lane, the lanes are there, and together they are what is wanted."""
    kerf = problem["kerf"]
    pieces = {piece["name"]: piece for piece in problem["pieces"]}
    kinds = {kind["name"]: kind for kind in problem["kinds"]}
    used = dict(result["sticks"])
    cut: Counter[str] = Counter()
    lanes: Counter[tuple[str, int]] = Counter()
    for number, pattern in enumerate(result["patterns"], 1):
        place = f"pattern {number}"
        length, times = pattern["lane_length"], pattern["times"]
        if times < 1 or any(count < 1 for _, count in pattern["pieces"]):
            yield PlanFault("count below 1", place, f"{times} times {pattern['pieces']}")
        takes = sum(count * (pieces[name]["length"] + kerf) for name, count in pattern["pieces"])
        if takes > length + kerf:
            yield PlanFault(
                "pattern too long", place, f"pieces and kerfs take {takes - kerf}, the lane has {length}"
            )
        lanes[pattern["stick"], length] += times
        for name, count in pattern["pieces"]:
            cut[name] += count * times
    for (stick, length), times in sorted(lanes.items()):
        each = sum(number for lane, number in kinds[stick]["lanes"] if lane == length)
        if times > each * used.get(stick, 0):
            figures = f"{times} lanes of {length} are cut, {used.get(stick, 0)} sticks have {each} each"
            yield PlanFault("lanes not there", stick, figures)
    for name, piece in sorted(pieces.items()):
        if cut[name] != piece["count"]:
            yield PlanFault("pieces cut", name, f"{cut[name]} are cut, {piece['count']} are wanted")


def _stick_faults(problem: Plain, result: Plain) -> Iterator[PlanFault]:
    counts = {kind["name"]: kind["count"] for kind in problem["kinds"]}
    names = [name for name, _ in result["sticks"]]
    if len(set(names)) != len(names):
        yield PlanFault("stick kind listed twice", "sticks", ", ".join(names))
    for name, number in result["sticks"]:
        if number < 1 or (counts[name] is not None and number > counts[name]):
            yield PlanFault("sticks not there", name, f"{number} are used, there are {counts[name]}")


def _stage_faults(problem: Plain, result: Plain, work_limit: int) -> Iterator[PlanFault]:
    weights = {kind["name"]: kind["weights"] for kind in problem["kinds"]}
    cut = result["status"] == "cut"
    wanted = len(problem["kinds"][0]["weights"]) if cut else 1
    if len(result["stages"]) != wanted:
        yield PlanFault("stages", "stages", f"{len(result['stages'])} are given, {wanted} are needed")
        return
    bounds = recompute_whole_bounds(problem, result, work_limit)
    for number, (stage, bound) in enumerate(zip(result["stages"], bounds, strict=True)):
        place = f"stage {number + 1}"
        value = sum(weights[name][number] * count for name, count in result["sticks"]) if cut else None
        if stage["value"] != value:
            yield PlanFault("stage value", place, f"{stage['value']} is given, the sticks come to {value}")
        if cut and value is not None:
            if bound is not None and bound > value:
                yield PlanFault("bound above value", place, f"the proof gives {bound}, {value} is reached")
                continue
            if stage["proven"] != (bound == value):
                yield PlanFault("proven", place, f"{stage['proven']} is given, the proof gives {bound}")
        elif stage["proven"] != (bound is None):
            yield PlanFault(
                "proven", place, f"{stage['proven']} is given, the proof leaves a cutting possible"
            )
        if bound is not None and stage["bound"] != bound:
            yield PlanFault("stage bound", place, f"{stage['bound']} is given, the proof gives {bound}")
        if bound is None and cut:
            yield PlanFault(
                "bound above value", place, "the proof says that there is no cutting, and there is one"
            )
    if result["proven"] != all(stage["proven"] for stage in result["stages"]):
        yield PlanFault("proven", "result", f"{result['proven']} is given, the stages say otherwise")
    if (result["status"] == "impossible") != (not cut and result["stages"][0]["proven"]):
        yield PlanFault("status", "result", f"{result['status']} is given, the proof says otherwise")
