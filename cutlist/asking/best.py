"""Which side to trim and how the strips should meet: all combinations, ranked one criterion after the other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby

from edgewright.cutlist.asking.model import Answer, AnswerRow, Progress
from edgewright.cutlist.compare import row_of
from edgewright.cutlist.compare_words import base_way, counted
from edgewright.cutlist.plan import plan
from edgewright.cutlist.rows import Row
from edgewright.cutlist.variants import Variant, combined
from edgewright.display import show_ticks
from edgewright.errors import CheckError, GeometryError
from edgewright.job import Job
from edgewright.units import Units

__all__ = ["best_answer"]

#: Names in a row; more of them are counted.
_MOST_NAMES = 4


@dataclass(frozen=True, slots=True)
class _Criterion:
    """One thing that is weighed: the lesser ``value`` wins; ``figure`` shows it, ``words`` says it with its noun."""

    name: str
    value: Callable[[Row], int]
    figure: Callable[[Row, Units], str]
    words: str = "{}"


_CRITERIA = (
    _Criterion("a plan", lambda r: not r.has_plan, lambda r, u: "there" if r.has_plan else "none"),
    _Criterion("an open stop", lambda r: not r.ready, lambda r, u: "none" if r.ready else "open"),
    _Criterion("missing strip", lambda r: r.short_ticks or 0, lambda r, u: show_ticks(r.short_ticks or 0, u)),
    _Criterion("cost", lambda r: r.cost_cents, lambda r, u: f"{r.cost_cents / 100:.2f}", "new boards for {}"),
    _Criterion("splices", lambda r: r.splices or 0, lambda r, u: counted(r.splices or 0, "splice")),
    _Criterion(
        "strip width",
        lambda r: -(r.strip_width_ticks or 0),
        lambda r, u: show_ticks(r.strip_width_ticks or 0, u),
        "strips {} wide",
    ),
    _Criterion("sticks", lambda r: r.sticks or 0, lambda r, u: counted(r.sticks or 0, "stick")),
    _Criterion("strips", lambda r: r.strips or 0, lambda r, u: counted(r.strips or 0, "strip"), "{} to rip"),
)
"""In the order in which they decide."""
_COST = 3


def best_answer(job: Job, progress: Progress | None = None) -> Answer:
    """Every combination of side and corners, planned in full and ranked; alike ones stand together."""
    group = combined(job, ("sides", "corners"))
    found: list[tuple[Row, bool]] = []
    for variant in group.variants:
        if progress is not None:
            progress(f"best side and corners: {variant.name}")
        found.append(_planned(variant))
    ranked = sorted(found, key=lambda f: _rank(f[0]))
    classes = [[row for row, _ in some] for _, some in groupby(ranked, key=lambda f: _rank(f[0]))]
    units = job.units
    rows = tuple(_row(number, rows, units) for number, rows in enumerate(classes, 1))
    more = list(_behind(classes, units))
    if group.left_out:
        more.append(f"{group.left_out} combinations beyond the work limit were not planned.")
    proven = all(sure for _, sure in found) and not group.left_out
    return Answer("best", _sentence(classes, units), tuple(more), rows, proven, len(found))


def _planned(variant: Variant) -> tuple[Row, bool]:
    """Row of a variant, and whether its plan, or that there is none, is proven."""
    if variant.job is None:
        return Row(variant.name, why=f"cannot be: {variant.why}"), True
    assert isinstance(variant.job, Job)
    try:
        result = plan(variant.job)
    except GeometryError as error:
        return Row(variant.name, why=f"cannot be: {error}"), True
    except CheckError as error:
        return Row(variant.name, why=str(error)), False
    made = result.cut_plan
    ranked = [stage for stage in made.stages if stage.name != "largest remnant"]
    proven = made.shortage.proven if made.shortage else all(stage.proven for stage in ranked)
    return row_of(result, variant.name, as_written=variant.as_written), proven


def _rank(row: Row) -> tuple[int, ...]:
    return tuple(criterion.value(row) for criterion in _CRITERIA)


def _names(rows: Sequence[Row]) -> str:
    names = [row.name for row in rows]
    shown = "; ".join(names[:_MOST_NAMES])
    return shown + (f"; and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else "")


def _sentence(classes: list[list[Row]], units: Units) -> str:
    first = classes[0]
    if not first[0].has_plan:
        why = first[0].why.removeprefix("no plan: ").rstrip(".")
        return f"No side and no corners make a plan possible. Nearest: {_names(first)}: {why}."
    stop = "" if first[0].ready else f"; but {first[0].why}"
    written = any(row.as_written for row in first)
    lead = "Nothing is better than the job as written" if written else f"Best: {_names(first)}"
    return f"{lead}: {_told(first[0], units)}{stop}."


def _told(row: Row, units: Units) -> str:
    told = [c.words.format(c.figure(row, units)) for c in _CRITERIA[_COST:]]
    return ", ".join(told if row.cost_cents else ["nothing to buy", *told[1:]])


def _behind(classes: list[list[Row]], units: Units) -> list[str]:
    """Why the first wins over the second, and over the job as written where that stands further down."""
    first = classes[0]
    said = []
    if len(first) > 1 and first[0].has_plan:
        said.append(f"Alike in all that is weighed: {_names(first)}. {_base(first, units)}")
    elif first[0].has_plan:
        said.append(_base(first, units))
    if len(classes) > 1 and first[0].has_plan:
        written = next((rows for rows in classes[1:] if any(row.as_written for row in rows)), None)
        said.append(_against(first[0], classes[1], "Second", units))
        if written is not None and written is not classes[1]:
            said.append(_against(first[0], [row for row in written if row.as_written], "Behind", units))
    return said


def _against(first: Row, others: list[Row], lead: str, units: Units) -> str:
    decides = next(c for c in _CRITERIA if c.value(first) != c.value(others[0]))
    figures = f"{decides.figure(others[0], units)} against {decides.figure(first, units)}"
    return f"{lead}: {_names(others)}. Decided by {decides.name}: {figures}."


def _base(rows: Sequence[Row], units: Units) -> str:
    """Where the base then stands, which is not weighed but must be said."""
    ways = dict.fromkeys(base_way(row.base_offset_mm, units) for row in rows if row.base_offset_mm)
    if set(ways) == {"0"}:
        return "The base stays centred."
    return f"The base then stands off centre: {' or '.join('centred' if w == '0' else w for w in ways)}."


def _row(number: int, rows: list[Row], units: Units) -> AnswerRow:
    first = rows[0]
    words = f"{_told(first, units)}{'' if first.ready else f'; {first.why}'}" if first.has_plan else first.why
    return AnswerRow(
        f"{number}.",
        f"{'; '.join(row.name for row in rows)}: {words}",
        (
            ("rank", number),
            ("names", "; ".join(row.name for row in rows)),
            ("ready", first.ready),
            ("cost_cents", first.cost_cents),
            ("splices", first.splices),
            ("strip_width_ticks", first.strip_width_ticks),
            ("sticks", first.sticks),
            ("strips", first.strips),
            ("short_ticks", first.short_ticks),
        ),
    )
