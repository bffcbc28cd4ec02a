"""Cautions and working times for the sheets, in plain words.

A caution names a danger and what is usually done; it never replaces local codes, the maker's data sheet or a
licensed trade. Working times are read from `edgewright.trade`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from edgewright import trade
from edgewright.trade import COMMON
from edgewright.units import Units

__all__ = ["CAUTIONS", "Caution", "WorkingTime", "cautions_for", "working_times"]

Topic = Literal["saw", "router", "dust", "styrene", "peroxide hardener", "resin", "flame", "lifting"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution; ``defer`` names what has the last word."""

    topic: Topic
    text: str
    defer: str

    def __str__(self) -> str:
        return f"{self.text} {self.defer}"


@dataclass(frozen=True, slots=True)
class WorkingTime:
    """When or how to do one step, and where the figure comes from."""

    step: str
    text: str
    origin: str


CAUTIONS: Final = (
    Caution(
        "saw",
        "Unplug before changing the blade. Keep guard and riving knife on, support both sides of the cut, "
        "clamp the guide and the work, look for nails and screws first, and use a push stick on narrow work.",
        "The saw's manual and local safety codes come first.",
    ),
    Caution(
        "router",
        "Seat the bit fully, feed against its turning, take deep profiles in several passes, and wear eye "
        "and ear protection. Keep the cutter clear of pins.",
        "The router's manual, the bit's speed limit and local safety codes come first.",
    ),
    Caution(
        "dust",
        "Dust of wood, board and filler harms the lungs and can burn. Draw it off at the tool and wear a "
        "dust mask that fits; empty the bag before any flame is lit.",
        "Local limits for wood dust and the board's data sheet come first.",
    ),
    Caution(
        "styrene",
        "Polyester filler gives off styrene, which is harmful to breathe and catches fire near room "
        "temperature. Open the room, keep sparks away and wear the mask that the data sheet names.",
        "The filler's data sheet and local exposure limits come first.",
    ),
    Caution(
        "peroxide hardener",
        "The filler's hardener is an organic peroxide: keep it cool and clean, off skin and eyes, and never "
        "mix it with anything but its filler. Too much is no help; weigh it.",
        "The hardener's data sheet and local rules for storing it come first.",
    ),
    Caution(
        "resin",
        "Liquid resin and hardener can make the skin allergic for good. Wear gloves that the data sheet "
        "names, cover the arms, air the room, never clean skin with solvent, and sand no half-hard resin. "
        "Mixed resin left standing in a bucket grows hot; do not leave it there.",
        "The resin's data sheet has the last word on mixing, temperature, waiting and cure.",
    ),
    Caution(
        "flame",
        "Keep a flame or heat gun moving, well away from solvent, styrene, plastic sheet and dust, and have "
        "an extinguisher at hand. No flame while anything flammable is open in the room.",
        "Local fire codes and the resin's data sheet come first.",
    ),
    Caution(
        "lifting",
        "Lift by the high figure of the weight, not the expected one: two people or more, gripping wood and "
        "not the fresh edge. Changes to wiring, gas, water or a wall belong to the licensed trade.",
        "Local rules on lifting and licensed practice come first.",
    ),
)


def cautions_for(*topics: Topic) -> tuple[Caution, ...]:
    """Cautions of these topics, in the order of work."""
    return tuple(caution for caution in CAUTIONS if caution.topic in topics)


def working_times(units: Units) -> tuple[WorkingTime, ...]:
    """List the steps in the order of work; temperatures in °F for inch jobs, in °C for metric ones."""
    raw, between = trade.GRIT_RAW_EDGE, trade.GRIT_BETWEEN_COATS
    filler, pour, recoat = trade.FILLER_SANDABLE, trade.POUR_TEMPERATURE, trade.RECOAT_AFTER
    at_once, again, last = trade.FLAME_AFTER.value
    early, late = trade.SCRAPE_DRIPS_AFTER.value
    flame = (
        f"Pass a flame over the bubbles {'at once' if at_once == 0 else f'after {at_once} minutes'}, "
        f"again after about {again} minutes and once more {last - again} minutes later; then leave it alone."
    )
    days = "the next day" if recoat.value == 1 else f"after {recoat.value} days"
    scrape_at = _temperatures(trade.SCRAPE_DRIPS_AT.value, units)
    return (
        WorkingTime(
            "sand the edge", f"Sand the raw edge with {raw.value} grit, and again after filling.", raw.origin
        ),
        WorkingTime(
            "sand filler",
            f"Polyester filler can be sanded after about {filler.value} minutes.",
            filler.origin,
        ),
        WorkingTime("sand between coats", f"Sand between coats with {between.value} grit.", between.origin),
        WorkingTime(
            "pour", f"Pour when room, resin and wood are at {_temperatures(pour.value, units)}.", pour.origin
        ),
        WorkingTime("flame", flame, trade.FLAME_AFTER.origin),
        WorkingTime(
            "scrape drips",
            f"Scrape the drips {_hours(early)} to {_hours(late)} hours after the pour, at {scrape_at}: they "
            "no longer run and still cut like gel.",
            trade.SCRAPE_DRIPS_AFTER.origin,
        ),
        WorkingTime("recoat", f"Pour the next coat {days}.", recoat.origin),
        WorkingTime(
            "all of these", "Where the product's data sheet says otherwise, the data sheet is right.", COMMON
        ),
    )


def _hours(hours: float) -> str:
    whole, rest = divmod(hours, 1)
    half = " 1/2" if rest == 0.5 else ""
    return f"{int(whole)}{half}" if half or rest == 0 else f"{hours:g}"


def _temperatures(fahrenheit: tuple[int, int], units: Units) -> str:
    low, high = fahrenheit
    if units == "in":
        return f"{low} to {high} °F"
    # whole degrees are near enough; spelled out so that a sheet does not load the unit library
    return f"{(low - 32) * 5 / 9:.0f} to {(high - 32) * 5 / 9:.0f} °C"
