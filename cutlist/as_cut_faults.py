"""Faults in [as_cut] that only the plan shows that was being cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from edgewright.compass import OPPOSITE, Side, is_lengthwise
from edgewright.cutlist.as_cut import AXES, PieceOff, pieces_off
from edgewright.cutlist.model import CutPlan, SawCut
from edgewright.design.model import TrimSizes
from edgewright.display import show_ticks
from edgewright.job import AsCut, Job
from edgewright.job_fields import say
from edgewright.ticks import part_ticks
from edgewright.trade import inch
from edgewright.units import Length

__all__ = ["as_cut_faults"]

Fault = tuple[tuple[str | int, ...], str]

#: Two tapes may differ by so much though nothing was cut: each is good to 1/16 in. Common practice, no source.
_TWO_TAPES = part_ticks(inch("1/8"))


def as_cut_faults(job: Job, planned: CutPlan, sizes: TrimSizes) -> tuple[Fault, ...]:
    """Every fault, as place in the job file and sentence.

    Parameters
    ----------
    job
        The job with its [as_cut].
    planned, sizes
        The plan of the job without it, and its sizes.
    """
    as_cut = job.as_cut
    assert as_cut is not None
    if planned.status != "ready" and as_cut.cuts:
        message = (
            f"{as_cut.cuts} cannot be made: without [as_cut] this job has no plan; leave all other tables as they "
            "were when it was planned"
        )
        return ((("as_cut", "cuts"), message),)
    if as_cut.cuts > len(planned.cuts):
        most = len(planned.cuts)
        message = (
            f"{as_cut.cuts} is more than the plan has: 0 to {most} is allowed, for without [as_cut] this job is "
            f"cut in {most}; leave all other tables as they were when it was planned"
        )
        return ((("as_cut", "cuts"), message),)
    made = planned.cuts[: as_cut.cuts]
    return (*_panel_faults(job, as_cut, made, sizes), *_piece_faults(as_cut, made))


def _panel_faults(job: Job, as_cut: AsCut, made: Sequence[SawCut], sizes: TrimSizes) -> Iterator[Fault]:
    units = job.units
    for high in AXES:
        cuts = [cut for cut in made if cut.side in (high, OPPOSITE[high])]
        key, panel = as_cut.measured(high)
        old = sizes.old[1 if is_lengthwise(high) else 0]
        if panel is None:
            if cuts:
                yield (
                    ("as_cut", key),
                    f"is missing: cut {cuts[-1].number} changed the {key}, so measure the panel and write {key} "
                    f"under [as_cut]; the plan expects {show_ticks(cuts[-1].keep_ticks, units)}",
                )
        elif not cuts:
            if old - panel.ticks() > _TWO_TAPES:
                yield (
                    ("as_cut", key),
                    f"{say(panel)} is less than the old top's {show_ticks(old, units)}, though none of the "
                    f"{as_cut.cuts} cuts made changes the {key}: at least {show_ticks(old - _TWO_TAPES, units)} is "
                    "allowed, for tapes differ; measure again, or count the cuts made",
                )
        else:
            yield from _too_narrow(job, key, panel, cuts[-1])


def _too_narrow(job: Job, key: str, panel: Length, last: SawCut) -> Iterator[Fault]:
    """A panel smaller than even a guide clamped on the wrong side of the line leaves it."""
    saw, as_cut = job.saw, job.as_cut
    given = () if as_cut is None else (as_cut.guide_offset, as_cut.kerf)
    offsets = [saw.guide_offset_wide, saw.guide_offset_narrow, *given[:1]]
    kerfs = [saw.kerf, *given[1:]]
    offset = max(length.ticks_up() for length in offsets if length is not None)
    kerf = max(length.ticks_up() for length in kerfs if length is not None)
    least = last.keep_ticks - 2 * offset - kerf
    if panel.ticks() < least:
        yield (
            ("as_cut", key),
            f"{say(panel)} is narrower than cut {last.number} could make it: its keep line is at "
            f"{show_ticks(last.keep_ticks, job.units)}, and even a guide on the wrong side of the line leaves "
            f"{show_ticks(least, job.units)}; measure again, or count the cuts made",
        )


def _piece_faults(as_cut: AsCut, made: Sequence[SawCut]) -> Iterator[Fault]:
    for off in pieces_off(as_cut, made):
        if isinstance(off, PieceOff):
            continue
        piece = as_cut.pieces[off]
        key = "side" if piece.cut is None else "cut"
        yield ("as_cut", "piece", off, key), _no_such_cut(piece.side, piece.cut, made)


def _no_such_cut(side: Side, number: int | None, made: Sequence[SawCut]) -> str:
    if number is not None:
        cut = made[number - 1]
        if cut.side != side:
            return f"{number} is a cut on the {cut.side} side, not on the {side} side: put one of them right"
        return f"{number} takes off dust only, so no piece came off it: leave this piece out"
    freed = [str(cut.number) for cut in made if cut.side == side and cut.offcut_width_ticks]
    if not freed:
        return f'"{side}" is wrong: none of the {len(made)} cuts made frees a piece of the {side} side'
    return (
        f'"{side}" has more pieces than cuts: of those made only cut{"s" * (len(freed) > 1)} {" and ".join(freed)} '
        f"free{'s' * (len(freed) == 1)} a piece there; leave this piece out, or count the cuts made"
    )
