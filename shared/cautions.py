"""Cautions for the sheets, in plain words.

A caution names a danger and what is usually done; it never replaces local codes, the maker's data sheet or a
licensed trade.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

__all__ = ["CAUTIONS", "Caution", "cautions_for"]

Topic = Literal["saw", "router", "dust", "styrene", "peroxide hardener", "resin", "flame", "lifting"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution; ``defer`` names what has the last word, ``short`` is what stands on the card of the work itself."""

    topic: Topic
    text: str
    defer: str
    short: str

    def __str__(self) -> str:
        return f"{self.text} {self.defer}"


CAUTIONS: Final = (
    Caution(
        "saw",
        "Unplug before changing the blade. Keep guard and riving knife on, support both sides of the cut, "
        "clamp the guide and the work, look for nails and screws first, and use a push stick on narrow work.",
        "The saw's manual and local safety codes come first.",
        "Unplug to change the blade; guard and riving knife stay on; clamp guide and work.",
    ),
    Caution(
        "router",
        "Seat the bit fully, feed against its turning, take deep profiles in several passes, and wear eye "
        "and ear protection. Keep the cutter clear of pins.",
        "The router's manual, the bit's speed limit and local safety codes come first.",
        "Feed against the turning of the bit, in several passes; eye and ear protection; keep off pins.",
    ),
    Caution(
        "dust",
        "Dust of wood, board and filler harms the lungs and can burn. Draw it off at the tool and wear a "
        "dust mask that fits; empty the bag before any flame is lit.",
        "Local limits for wood dust and the board's data sheet come first.",
        "Draw dust off at the tool and wear a dust mask that fits; no flame while it is about.",
    ),
    Caution(
        "styrene",
        "Polyester filler gives off styrene, which is harmful to breathe and catches fire near room "
        "temperature. Open the room, keep sparks away and wear the mask that the data sheet names.",
        "The filler's data sheet and local exposure limits come first.",
        "Polyester filler gives off styrene: open the room, no sparks, the mask its data sheet names.",
    ),
    Caution(
        "peroxide hardener",
        "The filler's hardener is an organic peroxide: keep it cool and clean, off skin and eyes, and never "
        "mix it with anything but its filler. Too much is no help; weigh it.",
        "The hardener's data sheet and local rules for storing it come first.",
        "Hardener is an organic peroxide: off skin and eyes, cool and clean, weighed, never over 3 %.",
    ),
    Caution(
        "resin",
        "Liquid resin and hardener can make the skin allergic for good. Wear gloves that the data sheet "
        "names, cover the arms, air the room, never clean skin with solvent, and sand no half-hard resin. "
        "Mixed resin left standing in a bucket grows hot; do not leave it there.",
        "The resin's data sheet has the last word on mixing, temperature, waiting and cure.",
        "Resin and hardener can make the skin allergic for good: gloves, sleeves, fresh air, no solvent on skin. "
        "Never leave a full bucket standing: it grows hot.",
    ),
    Caution(
        "flame",
        "Keep a flame or heat gun moving, well away from solvent, styrene, plastic sheet and dust, and have "
        "an extinguisher at hand. No flame while anything flammable is open in the room.",
        "Local fire codes and the resin's data sheet come first.",
        "Flame only when solvent, sheet and dust are away from it; keep it moving; extinguisher at hand.",
    ),
    Caution(
        "lifting",
        "Lift by the high figure of the weight, not the expected one: two people or more, gripping wood and "
        "not the fresh edge. Changes to wiring, gas, water or a wall belong to the licensed trade.",
        "Local rules on lifting and licensed practice come first.",
        "Lift by the high figure of the weight, two people or more.",
    ),
)


def cautions_for(*topics: Topic) -> tuple[Caution, ...]:
    """Cautions of these topics, in the order of work."""
    return tuple(caution for caution in CAUTIONS if caution.topic in topics)
