"""Why a batch cannot be planned: what its sides need against what all wood that serves them could give."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.batch.problem import Problem
from edgewright.display import show_ticks

__all__ = ["shortages"]


def shortages(problem: Problem) -> tuple[str, ...]:
    """A sentence for each strip width whose sides are longer than all strips that could be ripped for them."""
    return tuple(_short(problem))


def _short(problem: Problem) -> Iterator[str]:
    pool = problem.pool
    lanes_of = pool.lanes_of_ways
    for number, family in enumerate(problem.families):
        jobs = [job for job, own in zip(problem.jobs, problem.family_of, strict=True) if own == number]
        need = sum(side.length_ticks for job in jobs for side in job.sides)
        have, strips = 0, 0
        for group, count in zip(pool.ways_of_groups, pool.group_counts, strict=True):
            best = max(
                (
                    (
                        sum(pool.lanes[t].length * pool.lanes[t].per_stick for t in own),
                        sum(pool.lanes[t].per_stick for t in own),
                    )
                    for way in group
                    for own in [[t for t in lanes_of[way] if number in pool.lanes[t].families]]
                ),
                default=(0, 0),
            )
            have += best[0] * count
            strips += best[1] * count
        if family.joint < 0:
            continue  # nested mitres take less than their length
        if need > have:
            units = jobs[0].job.units
            names = ", ".join(job.name for job in jobs[:4]) + (
                f" and {len(jobs) - 4} more" if len(jobs) > 4 else ""
            )
            yield (
                f"strips {show_ticks(family.width, units)} wide for {names}: the sides need {show_ticks(need, units)}, "
                f"and all wood, ripped for them alone, gives {strips} strips with {show_ticks(have, units)}: "
                "impossible even with unlimited splices; find more wood, or list boards under [[stock]]"
            )
