"""Certificates of the stages of a plan whose columns were generated: the duals, by sides and sticks of the plan."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.column_generation.generate import Settled
from edgewright.cutlist.column_generation.relaxation import Proof
from edgewright.cutlist.components import Pool
from edgewright.cutlist.model import Certificate, DualPrice, RingSide, Stick

__all__ = ["certificates"]


def certificates(
    stages: Sequence[Settled], pool: Pool, sides: Sequence[RingSide], sticks: Sequence[Stick]
) -> dict[str, Certificate]:
    """Certificate of each stage that has a proof, by its name."""
    return {
        stage.name: _certificate(stage.proof, pool, sides, sticks)
        for stage in stages
        if stage.proof is not None
    }


def _certificate(proof: Proof, pool: Pool, sides: Sequence[RingSide], sticks: Sequence[Stick]) -> Certificate:
    return Certificate(
        scale=proof.scale,
        sides=tuple(
            DualPrice(tuple(sides[member].id for member in kind.members), kind.length, worth)
            for kind, worth in zip(pool.sides, proof.sides, strict=True)
            if worth
        ),
        lanes=tuple(
            DualPrice((sticks[pool.sticks[kind.stick_class].members[0]].id,), kind.length, cost)
            for kind, cost in zip(pool.lanes, proof.lanes, strict=True)
            if cost
        ),
        budgets=proof.budgets,
        most_lanes=proof.most_lanes,
    )
