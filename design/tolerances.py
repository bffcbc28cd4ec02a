"""Every tolerance of the outline kernel, in one place, each with the reason for its size (mm, radians).

Wood is measured to a tenth of a millimetre and tops are a few metres long; binary floats at 5000 mm step by
1e-12 mm. All tolerances lie between the two.
"""

from __future__ import annotations

from typing import Final

__all__ = ["EVENT_MM", "KEEP_MM", "LOST_MM", "NODE_MM", "PARALLEL_RAD", "SLIVER_MM", "TOUCH_MM"]

#: Points nearer than this are one point. An outline may have ends that miss by 4e-9 mm; at a joint that is
#: all but smooth a miss grows with inset over radius, for which a factor 25 is allowed.
NODE_MM: Final = 1e-7

#: A line and a circle, or two circles, that miss each other by less than this touch at one point. Rounding of
#: a radius and a centre near 5000 mm, with room for the ends an outline may have.
TOUCH_MM: Final = 1e-8

#: A piece of a moved outline lies on the inner parallel if it is nearer to the outline by less than this.
#: More than `TOUCH_MM` would keep false pieces, less than 1e-10 would lose true ones to rounding.
KEEP_MM: Final = 1e-8

#: A dead end longer than this is not rounding: beyond a crossing at `PARALLEL_RAD` false pieces within
#: `KEEP_MM` are at most 2 × 1e-8 / 1e-6 = 0.02 mm long.
LOST_MM: Final = 0.1

#: Step past an event that rounding cannot tell from the inset asked for: ten times `NODE_MM`.
EVENT_MM: Final = 1e-6

#: Directions that differ by less are one direction: `NODE_MM` seen from a tenth of a millimetre away.
PARALLEL_RAD: Final = 1e-6

#: A loop of mean width below this (2 × area / length) is rounding, not wood.
SLIVER_MM: Final = 2e-7
