"""The table [coating] of a job file: filler, base colour and resin, and what the products' data sheets say."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Final

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.amounts import Density, Duration, MixRatio, Volume, read_ratio
from edgewright.job_amounts import Ratio, density_between, duration_between, volume_between
from edgewright.job_fields import AsTuple, JobFaultsError, Section
from edgewright.job_top import default, optional
from edgewright.job_values import FilmBetween, TempBetween, Text
from edgewright.trade import COMMON
from edgewright.units import Coverage, Temperature

__all__ = ["Coating"]

_FLUID_OUNCE: Final = float(Fraction(231, 128) * Fraction(254, 10) ** 3)
_DAY: Final = 24 * 60.0

Film = Annotated[Coverage, FilmBetween(0.025, 6.35, "1 mil to 250 mil")]
BatchSize = Annotated[
    Volume, volume_between(8 * _FLUID_OUNCE, 96 * _FLUID_OUNCE, "8 fl oz to 3/4 gal", "64 fl oz")
]
PotLife = Annotated[Duration, duration_between(5, 180, "5 min to 3 h", "20 min")]
WorkTime = Annotated[Duration, duration_between(3, 60, "3 min to 60 min", "10 min")]
Wait = Annotated[Duration, duration_between(30, 30 * _DAY, "30 min to 30 days", "6 h")]
PartDensity = Annotated[Density, density_between(0.7, 2.5, "0.7 g/ml to 2.5 g/ml", "1.1 g/ml")]


# what is spelled out below keeps a job that gives none of it from loading the unit library
def _film(mil: int) -> Coverage:
    return Coverage(f"{mil} mil", float(Fraction(254, 10_000) * mil))


FLOOD: Final = (_film(trade.FLOOD_FILM_MIL.value[0]), _film(trade.FLOOD_FILM_MIL.value[1]))
LARGEST: Final = Volume(trade.LARGEST_BATCH.value, 96 * _FLUID_OUNCE)


def _minutes(minutes: int) -> Duration:
    return Duration(f"{minutes} min", float(minutes))


class Coating(Section):
    """[coating]: resin and what goes under it."""

    resin_coats: Annotated[int, Field(ge=1, le=4)] = default(trade.RESIN_COATS, "flood coats of resin")
    seal_coat: bool = default(True, "whether a thin seal coat goes first", COMMON)
    base_coats: Annotated[int, Field(ge=1, le=4)] = default(trade.BASE_COATS, "coats of base colour")
    flood_film: Annotated[
        tuple[Film, ...], AsTuple(1, 2, "a coverage or a pair from low to high", single=True)
    ] = default(
        FLOOD, "what the trowel lays down in one coat: a coverage or a pair", trade.FLOOD_FILM_MIL.origin
    )
    colour: Annotated[str, Text(100)] | None = optional("colour, as it shall be printed")
    room_temperature: Annotated[Temperature, TempBetween(0, 50, "32 degF to 122 degF")] | None = optional(
        "temperature of the room at the pour"
    )
    filler_work_time: WorkTime = default(
        _minutes(trade.FILLER_WORK_TIME.value), "how long mixed filler spreads", trade.FILLER_WORK_TIME.origin
    )
    mix_ratio: Annotated[MixRatio, Ratio()] = default(
        read_ratio(trade.MIX_RATIO.value),
        "resin to hardener, by volume or by weight as the data sheet says",
        trade.MIX_RATIO.origin,
    )
    pot_life: PotLife = default(
        _minutes(trade.POT_LIFE.value), "how long mixed resin may stay in the bucket", trade.POT_LIFE.origin
    )
    largest_batch: BatchSize = default(
        LARGEST, "most resin that is mixed in one bucket", trade.LARGEST_BATCH.origin
    )
    density_a: PartDensity | None = optional("density of the resin, part A")
    density_b: PartDensity | None = optional("density of the hardener, part B")
    tint_percent: Annotated[float, Field(ge=0, le=5, allow_inf_nan=False)] | None = optional(
        "colour paste in the flood coats, percent of the mixed resin by weight"
    )
    recoat_from: Wait | None = optional("earliest next coat after a pour")
    recoat_until: Wait | None = optional("latest next coat that needs no scuffing")

    @model_validator(mode="after")
    def _low_to_high(self) -> Coating:
        low, high = self.film_range
        if low.film_mm > high.film_mm:
            message = f"{low.given} is a thicker film than {high.given}: write the thinner film first"
            raise JobFaultsError([(("flood_film",), message)])
        return self

    @model_validator(mode="after")
    def _both_or_none(self) -> Coating:
        for one, other in (
            ("density_a", "density_b"),
            ("density_b", "density_a"),
            ("recoat_until", "recoat_from"),
        ):
            given = getattr(self, one)
            if given is not None and getattr(self, other) is None:
                message = f"{given.given} is given without {other}: give both, or neither"
                raise JobFaultsError([((one,), message)])
        first, last = self.recoat_from, self.recoat_until
        if first is not None and last is not None and last.minutes <= first.minutes:
            message = f"{last.given} is not after recoat_from = {first.given}: write the earlier time first"
            raise JobFaultsError([(("recoat_until",), message)])
        return self

    @property
    def film_range(self) -> tuple[Coverage, Coverage]:
        """Least and most film of one coat."""
        return self.flood_film[0], self.flood_film[-1]
