"""Which strip is the widest that own wood gives, as the job is written and with one choice changed at a time."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.asking.model import Answer, AnswerRow, Progress
from edgewright.cutlist.asking.own_wood import OwnWidest, own_widest, refusal_words
from edgewright.cutlist.variant_choices import given, with_edge, with_tables
from edgewright.cutlist.variants import Variant, one_at_a_time
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.errors import GeometryError
from edgewright.job import Job
from edgewright.job_fields import say

__all__ = ["widest_answer"]


def widest_answer(job: Job, progress: Progress | None = None) -> Answer:
    """Widest strip for each way to share out the trim, each kind of corner, with splices and without.

    Boards for sale are left out: what they give depends on what one buys.
    """
    wide = with_edge(job, strip_width="widest")
    found: list[tuple[Variant, Design | None, OwnWidest | None]] = []
    for variant in _variants(wide):
        if progress is not None:
            progress(f"widest strip: {variant.name}")
        design, why = _design_of(variant)
        if design is None:
            found.append((Variant(variant.name, None, why=why), None, None))
        else:
            found.append((variant, design, own_widest(design)))
    ranked = sorted(found, key=lambda f: -_width(f[2]))  # of equal ones the job as written stands first
    rows = tuple(_row(*entry) for entry in ranked)
    written, design, own = found[0]
    sentence, more = _sentences(job, written, design, own, [f for f in ranked if f[0] is not written])
    looked = [own for _, _, own in found if own is not None]
    return Answer("widest", sentence, more, rows, all(o.proven for o in looked), sum(o.tried for o in looked))


def _variants(job: Job) -> Iterator[Variant]:
    yield Variant("as written", job, as_written=True)
    for group in one_at_a_time(job, ("sides", "corners")):
        yield from (variant for variant in group.variants if not variant.as_written)
    allowed = not job.splice.allowed
    # where none are allowed, a number of them would contradict it
    rules = {key: value for key, value in given(job.splice).items() if allowed or key != "max_per_side"}
    splice = type(job.splice).model_validate(rules | {"allowed": allowed})
    yield Variant("splices allowed" if allowed else "no splices", with_tables(job, splice=splice))


def _design_of(variant: Variant) -> tuple[Design | None, str]:
    if variant.job is None:
        return None, variant.why
    assert isinstance(variant.job, Job)
    try:
        return build_design(variant.job), ""
    except GeometryError as error:
        return None, str(error)


def _width(own: OwnWidest | None) -> int:
    return -1 if own is None else own.width or 0


def _row(variant: Variant, design: Design | None, own: OwnWidest | None) -> AnswerRow:
    if design is None or own is None:
        return AnswerRow(variant.name, f"cannot be: {variant.why}", (("strip_width_ticks", None),))
    stop = refusal_words(design, own)
    if own.width is None:
        words = f"no strip that pins hold; {stop}"
    else:
        units, floor = design.job.units, design.limits.floor
        below = f", but {show_ticks(floor, units)} is the least that pins hold" * (own.width < floor)
        words = f"{show_ticks(own.width, units)}{below}; {stop}"
    if not own.proven:
        words += " (not proven for every wider one)"
    return AnswerRow(
        variant.name,
        words,
        (
            ("strip_width_ticks", own.width),
            ("next_wider_ticks", own.stop.strip_width_ticks if own.stop else None),
            ("next_wider_need_ticks", own.stop.need_ticks if own.stop else None),
            ("next_wider_have_ticks", own.stop.have_ticks if own.stop else None),
            ("floor_ticks", design.limits.floor),
            ("proven", own.proven),
        ),
    )


def _sentences(
    job: Job,
    written: Variant,
    design: Design | None,
    own: OwnWidest | None,
    others: list[tuple[Variant, Design | None, OwnWidest | None]],
) -> tuple[str, tuple[str, ...]]:
    units = job.units
    if design is None or own is None:
        sentence = f"As written there is no such top: {written.why}."
    elif own.width is None:
        sentence = f"As written no strip comes out of own wood that pins hold: {refusal_words(design, own)}."
    else:
        sentence = f"As written strips up to {show_ticks(own.width, units)} wide come out of own wood."
        if own.width < design.limits.floor:
            sentence += f" Pins need {show_ticks(design.limits.floor, units)}: {design.limits.floor_reason}."
    more = []
    best = max((_width(o) for _, _, o in others), default=-1)
    if best > max(_width(own), 0):
        names = [v.name for v, _, o in others if _width(o) == best]
        more.append(f"Wider with one change: {show_ticks(best, units)} with {' or '.join(names)}.")
    elif any(o is not None for _, _, o in others):
        less = [v.name for v, _, o in others if o is not None and _width(o) < _width(own)]
        more.append(
            "No single change of side, corners or splices gives more"
            + (f"; less comes out with {', '.join(less)}." if less else ".")
        )
    if job.edge.strip_width != "widest":
        more.append(
            f"The job asks for strips {say(job.edge.strip_width)} wide; here the widest is looked for."
        )
    return sentence, tuple(more)
