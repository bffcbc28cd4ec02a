"""What more wood would save: the shadow price of each offcut and board, in words, and the least that changes anything.

A plan for less wood can be cut from more, so more of one kind never makes the best plan worse: when the most that is
looked at changes nothing, no less does, and the least that does is found by halving. That holds of best plans; where
a plan on the way is not proven, the answer is not either.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.asking.at_hand import AtHand, at_hand
from edgewright.cutlist.asking.changes import with_width
from edgewright.cutlist.asking.extra_wood import MOST_BOARDS, ExtraWood, extra_wood
from edgewright.cutlist.asking.model import Answer, AnswerRow, Figures, Progress
from edgewright.cutlist.asking.outcome import Outcome, gain_words, outcome
from edgewright.cutlist.asking.own_wood import OwnWidest, own_widest
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.job import Job
from edgewright.ticks import TICKS_PER_INCH, TICKS_PER_MM
from edgewright.units import Units

__all__ = ["scarce_answer"]

#: One more inch, or 25 mm.
_ONE_MORE: Final[dict[Units, int]] = {"in": TICKS_PER_INCH, "mm": 25 * TICKS_PER_MM}

_IDLE: Final = "changes nothing: not scarce"
#: Savings told in the answer itself; the rows hold all.
_MOST_SAID: Final = 3


@dataclass(slots=True)
class _Looked:
    """Plans and widths looked at for one kind of wood, and whether all of them are proven."""

    tried: int = 0
    proven: bool = True

    def outcome(self, at: AtHand, design: Design) -> Outcome:
        found = outcome(with_width(design, at.width), expect=at.held.possible)
        self.tried += 1
        self.proven &= found.proven
        return found

    def widest(self, design: Design) -> OwnWidest:
        found = own_widest(design)
        self.tried += found.tried
        self.proven &= found.proven
        return found


@dataclass(frozen=True, slots=True)
class _Gain:
    """What more wood gives, in words; the least that gives anything, ticks; the strip width where it is wider."""

    words: str
    least: int
    width: int | None = None


def scarce_answer(job: Job, progress: Progress | None = None) -> Answer:
    """For each offcut and board: what one more inch (or 25 mm) saves, and the least that saves anything."""
    at = at_hand(job)
    looked = _Looked()
    written = looked.widest(at.design) if job.edge.strip_width == "widest" else None
    rows, saving = [], []
    for wood in extra_wood(at.design, at.width, _ONE_MORE[job.units]):
        if progress is not None:
            progress(f"what is scarce: {wood.name}")
        row, saves = _row(at, written, wood, looked)
        rows.append(row)
        if saves:
            saving.append(f"{row.name} {row.words}")
    more = [at.buy] if at.buy else []
    idle = [row.name for row in rows if row.words == _IDLE]
    if idle and saving:
        more.append(f"Not scarce: {'; '.join(idle)}.")
    if len(job.stock) > MOST_BOARDS:
        more.append(f"Only the first {MOST_BOARDS} of {len(job.stock)} kinds of board were looked at.")
    if not at.held.possible:
        more.insert(0, f"There is no plan as written: {at.why}.")
    rows.sort(key=lambda row: row.words == _IDLE)
    sentence = _sentence(at, rows, saving)
    proven = looked.proven and at.held.proven
    return Answer("scarce", sentence, tuple(more), tuple(rows), proven, 1 + looked.tried)


def _sentence(at: AtHand, rows: list[AnswerRow], saving: list[str]) -> str:
    if not rows:
        return "There is no wood to have more of: nothing comes off the top, and no boards are listed."
    if saving:
        return " ".join(f"{words[0].upper()}{words[1:]}." for words in saving[:_MOST_SAID])
    more = "one more inch" if at.design.job.units == "in" else "25 mm more"
    if not at.held.possible:
        return f"No plan as written, and {more} of any one offcut or board makes none."
    return f"Nothing is scarce so far: {more} of any one offcut or board changes nothing."


def _row(at: AtHand, written: OwnWidest | None, wood: ExtraWood, looked: _Looked) -> tuple[AnswerRow, bool]:
    """One kind of wood, and whether more of it saves something."""
    name = f"{_amount(wood, wood.most, at.design.job.units)} {wood.name}"
    full = wood.more(wood.most)
    if full is None:
        return AnswerRow(name, "not told: no such wood is taken"), False
    found = looked.outcome(at, full)
    saves = _saves(at, found, wood, looked)
    wider = None if written is None else _wider(at, written, full, wood, looked)
    said = [gain.words for gain in (saves, wider) if gain is not None]
    figures: Figures = (
        ("extra_ticks", None if wood.by_count else wood.most),
        ("possible_after", found.possible),
        ("cost_cents_after", found.cost if found.possible else None),
        ("splices_after", found.splices if found.possible else None),
        ("least_that_saves_ticks", None if saves is None or wood.by_count else saves.least),
        ("wider_strip_width_ticks", wider.width if wider else None),
        ("least_that_widens_ticks", None if wider is None or wood.by_count else wider.least),
    )
    return AnswerRow(name, " and ".join(said) or _IDLE, figures), bool(said)


def _saves(at: AtHand, full: Outcome, wood: ExtraWood, looked: _Looked) -> _Gain | None:
    """What the most saves with strips as wide, and the least that saves anything."""
    words = gain_words(at.held, full)
    if not words:
        return None
    least = _least(wood, lambda design: looked.outcome(at, design).rank < at.held.rank)
    design = wood.more(least)
    if least == wood.most or design is None:
        return _Gain(words, least)
    already, less = gain_words(at.held, looked.outcome(at, design)), show_ticks(least, at.design.job.units)
    words += f" ({less} is enough)" if already == words else f" (and {less} already {already})"
    return _Gain(words, least)


def _wider(at: AtHand, written: OwnWidest, full: Design, wood: ExtraWood, looked: _Looked) -> _Gain | None:
    """Wider strips from own wood, where they are wide enough for pins."""
    units = at.design.job.units
    now = max(written.width or 0, at.design.limits.floor - 1)
    widest = looked.widest(full).width or 0
    if widest <= now:
        return None
    least = _least(wood, lambda design: (looked.widest(design).width or 0) > now)
    words = f"gives strips {show_ticks(widest, units)} wide"
    design = wood.more(least)
    if least < wood.most and design is not None:
        first = looked.widest(design).width or 0
        words += f" (and {show_ticks(least, units)} already gives {show_ticks(first, units)})"
    return _Gain(words, least, widest)


def _least(wood: ExtraWood, changes: Callable[[Design], bool]) -> int:
    """Least extra, a multiple of the step, that changes something, when the most does."""
    low, high = 0, wood.most // wood.step
    while high - low > 1:
        middle = (low + high) // 2
        design = wood.more(middle * wood.step)
        if design is not None and changes(design):
            high = middle
        else:
            low = middle
    return high * wood.step


def _amount(wood: ExtraWood, ticks: int, units: Units) -> str:
    if wood.by_count:
        return "one more"
    if ticks == _ONE_MORE[units]:
        return "one more inch of" if units == "in" else "25 mm more of"
    return f"{show_ticks(ticks, units)} more of"
