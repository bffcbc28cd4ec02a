"""The least that must come off beyond what is written so that a splice or a purchase is saved, or a plan possible.

More trim makes the sides shorter and the offcut of that side wider, but the offcuts across it shorter: what it saves
need not grow with it. So every step is planned, from the least up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from pydantic import ValidationError

from edgewright.compass import SIDES, PerSide, Side
from edgewright.cutlist.asking.at_hand import AtHand, at_hand
from edgewright.cutlist.asking.changes import with_more_off, with_width
from edgewright.cutlist.asking.model import Answer, AnswerRow, Progress
from edgewright.cutlist.asking.outcome import Outcome, gain_words, outcome
from edgewright.cutlist.plan import plan
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.errors import GeometryError
from edgewright.findings import open_stops
from edgewright.job import Job
from edgewright.ticks import TICKS_PER_INCH, TICKS_PER_MM
from edgewright.units import Units

__all__ = ["MOST_EXTRA", "trim_answer"]

#: How far it is looked, ticks: 2 in or 50 mm.
MOST_EXTRA: dict[Units, int] = {"in": 2 * TICKS_PER_INCH, "mm": 50 * TICKS_PER_MM}
#: Sides of all plans at most: a work limit. Beyond it several steps of the bench grid are taken at once.
_MOST_SIDES = 640

Way = tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class _Tried:
    """One step: how much more comes off each side of ``way``, ticks."""

    each: int
    way: Way
    design: Design
    found: Outcome


@dataclass(frozen=True, slots=True)
class _Wish:
    """What extra trim may save; ``better`` compares the plan at hand with another."""

    name: str
    better: Callable[[Outcome, Outcome], bool]


_WISHES = (
    _Wish("a plan", lambda at, new: not at.possible and new.possible),
    _Wish("a purchase", lambda at, new: at.possible and new.possible and new.cost < at.cost),
    _Wish(
        "a splice",
        lambda at, new: at.possible and new.possible and new.cost <= at.cost and new.splices < at.splices,
    ),
)


def trim_answer(job: Job, progress: Progress | None = None) -> Answer:
    """Least extra trim that saves something, on the bench grid; strips stay as wide as in the plan at hand."""
    at = at_hand(job)
    wishes = [wish for wish in _WISHES if _is_open(wish, at.held)]
    if not wishes:
        return Answer(
            "trim",
            "Nothing to save by trimming more: the plan needs no splice and buys nothing.",
            (f"As written: {at.held.proof()}.",),
            proven=at.held.proven,
            tried=1,
        )
    step = _step(at)
    tried, hits = _scan(at, wishes, step, progress)
    units, limit = job.units, show_ticks(MOST_EXTRA[job.units], job.units)
    sentences: list[str] = []
    found: list[_Tried] = []
    for wish in wishes:
        if hits.get(wish.name):
            sentences.append(_hit_sentence(at, hits[wish.name]))
            found += hits[wish.name]
        else:
            saves = "makes a plan possible" if wish.name == "a plan" else f"saves {wish.name}"
            sentences.append(f"No extra trim up to {limit} {saves}.")
    open_before = _stops(at.design, at.width) if found else set()
    rows = [_row(at, hit, units, open_before) for hit in {id(hit): hit for hit in found}.values()]
    firsts = {hit.found.proof(): hit for some in hits.values() for hit in some}.values()
    more = (
        f"As written: {at.held.proof()}.",
        *(f"With {_trim_words(hit, units)}: {hit.found.proof()}." for hit in firsts),
        *filter(None, (at.buy, _step_words(step, at.design.sizes.grid, units))),
    )
    proven = at.held.proven and all(t.found.proven for t in tried)
    return Answer("trim", " ".join(sentences), more, tuple(dict.fromkeys(rows)), proven, 1 + len(tried))


def _step_words(step: int, grid: int, units: Units) -> str:
    if step == grid:
        return ""
    return f"Work limit: tried in steps of {show_ticks(step, units)}, finer just below what was found."


def _is_open(wish: _Wish, at: Outcome) -> bool:
    return {"a plan": not at.possible, "a purchase": at.cost > 0, "a splice": at.splices > 0}[wish.name]


def _ways(amounts: PerSide[int]) -> list[Way]:
    """Sides that are cut, each alone and opposite ones together; all sides where nothing is cut yet."""
    cut = [side for side in SIDES if amounts[side]] or list(SIDES)
    pairs: tuple[tuple[Side, Side], ...] = (("north", "south"), ("east", "west"))
    return [*((side,) for side in cut), *(pair for pair in pairs if pair[0] in cut and pair[1] in cut)]


def _scan(
    at: AtHand, wishes: list[_Wish], step: int, progress: Progress | None
) -> tuple[list[_Tried], dict[str, list[_Tried]]]:
    """Every step that was planned, and for each wish the ways that fulfil it with the least in all.

    What comes off in all grows from step to step; opposite sides share it.
    """
    tried: list[_Tried] = []
    hits: dict[str, list[_Tried]] = {}
    units, grid = at.design.job.units, at.design.sizes.grid

    def keep(here: list[_Tried]) -> None:
        tried.extend(here)
        for wish in wishes:
            fulfilled = [t for t in here if wish.better(at.held, t.found)]
            if fulfilled:
                hits.setdefault(wish.name, fulfilled)

    for extra in range(step, MOST_EXTRA[units] + 1, step):
        if progress is not None:
            progress(f"extra trim: {show_ticks(extra, units)}")
        here = list(_look(at, extra))
        if any(w.name not in hits and w.better(at.held, t.found) for w in wishes for t in here):
            for finer in range(extra - step + grid, extra, grid):
                keep(list(_look(at, finer)))
        keep(here)
        if len(hits) == len(wishes):
            break
    return tried, hits


def _look(at: AtHand, extra: int) -> Iterator[_Tried]:
    """Plan each way to take off ``extra`` (ticks) in all, where it can be shared out on the bench grid."""
    grid = at.design.sizes.grid
    for way in _ways(at.design.sizes.amounts):
        each, rest = divmod(extra, len(way) * grid)
        design = None if rest else _trimmed(at, dict.fromkeys(way, each * grid))
        if design is not None:
            found = outcome(with_width(design, at.width), prove=False, expect=at.held.possible)
            yield _Tried(each * grid, way, design, found)


def _step(at: AtHand) -> int:
    """Bench grid, or a multiple of it where every step is a whole plan and there would be too many."""
    sizes, most = at.design.sizes, MOST_EXTRA[at.design.job.units]
    if not at.held.possible:
        return sizes.grid  # length alone decides most of them
    plans = sum(most // (sizes.grid * len(way)) for way in _ways(sizes.amounts))
    return sizes.grid * -(-plans * 4 * at.design.job.edge.layers // _MOST_SIDES)


def _trimmed(at: AtHand, more: Mapping[Side, int]) -> Design | None:
    try:
        return build_design(with_more_off(at.design.job, at.design.sizes.amounts, more))
    except (ValidationError, GeometryError):
        return None


def _trim_words(hit: _Tried, units: Units) -> str:
    sides = " and ".join(hit.way)
    each = " each" * (len(hit.way) > 1)
    return f"{show_ticks(hit.each, units)} more off the {sides} side{'s' * (len(hit.way) > 1)}{each}"


def _hit_sentence(at: AtHand, hits: list[_Tried]) -> str:
    units = at.design.job.units
    ways = " or ".join(_trim_words(hit, units) for hit in hits)
    gain = gain_words(at.held, hits[0].found)
    size = hits[0].design.sizes.finished
    finished = f"{show_ticks(size[0], units)} x {show_ticks(size[1], units)}"
    return f"Trim {ways}: that {gain} (finished size then {finished})."


def _row(at: AtHand, hit: _Tried, units: Units, open_before: set[int]) -> AnswerRow:
    stops = sorted(_stops(hit.design, at.width) - open_before)
    words = gain_words(at.held, hit.found)
    if stops:
        words += f"; but it opens stop {', '.join(map(str, stops))}"
    return AnswerRow(
        _trim_words(hit, units),
        words,
        (
            ("extra_each_ticks", hit.each),
            ("sides", " ".join(hit.way)),
            ("cost_cents_before", at.held.cost if at.held.possible else None),
            ("cost_cents_after", hit.found.cost),
            ("splices_before", at.held.splices if at.held.possible else None),
            ("splices_after", hit.found.splices),
            ("strip_width_ticks", at.width),
            ("stops", " ".join(map(str, stops)) or None),
        ),
    )


def _stops(design: Design, width: int) -> set[int]:
    """Numbers of the stops that are open with strips of one width."""
    return {finding.number for finding in open_stops(plan(with_width(design, width).job).findings)}
