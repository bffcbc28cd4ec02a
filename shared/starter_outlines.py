"""What differs in the starters of tops with an outline: for each shape its measurements, a trim, keys of its edge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

__all__ = ["STARTS", "Start"]


@dataclass(frozen=True, slots=True)
class Start:
    """What differs from shape to shape: a word for the top, the lines of its outline, of its trim, and of its edge."""

    title: str
    outline: str
    trim: str
    edge: str = ""


_ALL_ROUND: Final = """\
# all_round = "1 in"            # off every edge, kerf included
# largest_rectangle = true      # or: keep the largest true rectangle
# to = {shape = "round", diameters = "30 in", offset = ["0 in", "1/2 in"], turn = 0}   # or: cut another outline out
"""
_ANGLES: Final = """\
corners = "butt"                # butt, pinwheel or mitre; blunt corners are mitred anyway
# through = "long"              # at butt corners: long or short
"""
_CURVES: Final = """\
segments = 12                   # pieces in a full circle; left out: as few as the blanks give
"""

#: A starter for each shape, in the order in which they are listed.
STARTS: Final[dict[str, Start]] = {
    "rectangle": Start(
        "Passage table",
        """\
length = "66 in"                # east to west
width = "34 in"                 # north to south
clipped = {along = "3 in", across = "3 in"}   # cut-back of all corners; or {south_west = {along = ..., across = ...}}
# corner_radius = "2 in"        # instead: round corners; or {south_west = "2 in"}
""",
        """\
edges = {north = "4 in"}        # amounts by edge, in the order of the cuts
# cut_order = ["north"]         # another order
"""
        + _ALL_ROUND,
        _ANGLES,
    ),
    "racetrack": Start(
        "Meeting table",
        """\
length = "84 in"                # over the half-round ends, the longer figure
width = "40 in"
""",
        'all_round = "1 in"              # off every edge, kerf included\n',
        _CURVES,
    ),
    "round": Start(
        "Kitchen round",
        """\
diameters = ["48 in", "48 in"]    # taken in different directions
# wrap = "12 ft 7 in"           # instead: a tape laid round the rim
# tape_thickness = "1/64 in"    # with wrap: thickness of that tape
""",
        'all_round = "1/2 in"            # off every edge, kerf included\n',
        _CURVES,
    ),
    "ellipse": Start(
        "Garden-room table",
        """\
length = "72 in"                # the longer axis, east to west
width = "36 in"
# quarter_width = "31 3/16 in"  # as a check: full width at a quarter of the length; an ellipse has 0.866 of its width
""",
        'all_round = "1/2 in"            # off every edge, kerf included\n',
        _CURVES,
    ),
    "oval": Start(
        "Music-school table",
        """\
length = "78 in"                # the longer figure, east to west
width = "44 in"
end_radius = "14 in"            # from a card fitted to the ends; left out: the classical oval of four arcs
# quarter_width = "38 in"       # instead: full width at a quarter of the length
""",
        '# all_round = "1/2 in"          # off every edge, kerf included\n',
        _CURVES,
    ),
    "boat": Start(
        "Council table",
        """\
length = "96 in"                # end to end
end_width = "36 in"             # width of both ends; 0 for pointed ends
middle_width = "48 in"          # width in the middle
""",
        """\
edges = {"east end" = "2 in", "west end" = "2 in"}   # amounts by edge, in the order of the cuts
# cut_order = ["west end", "east end"]   # another order
# all_round = "1 in"            # instead: off every edge
""",
        _CURVES,
    ),
    "d_end": Start(
        "Desk with a bowed end",
        """\
length = "64 in"                # over the bows, east to west
width = "32 in"
ends = "east"                   # east, west or both
depth = "10 in"                 # how far the bow stands out over its chord; left out: half its chord
# chord = "28 in"               # of a bow that leaves shoulders at the corners; left out: the width
""",
        '# edges = {west = "1 in"}       # amounts by edge, in the order of the cuts\n',
        _CURVES,
    ),
    "regular_polygon": Start(
        "Games table",
        """\
sides = 8
across_flats = "44 in"          # from a side to the one opposite
# across_corners = "47 5/8 in"  # instead: from corner to corner
# side = "18 1/4 in"            # instead: one side, the only way for an odd number of sides
""",
        '# all_round = "1/2 in"          # off every edge, kerf included\n',
        'corners = "mitre"               # how the pieces meet\n',
    ),
    "polygon": Start(
        "Corner desk",
        """\
sides = ["48 in", "20 in", "39 19/32 in", "20 in", "48 in"]   # counter-clockwise, the south side first
diagonals = ["52 in", "52 in"]  # from the first corner to the third, to the fourth, and so on
# angles = [90, 90, 135, 135, 90]   # inside angles at the corners in degrees, as a check
""",
        """\
edges = {"edge 3" = "2 in"}     # amounts by edge, numbered as the sides are listed
""",
        _ANGLES + 'unrouted = ["edge 1", "edge 5"]   # edges that get no profile, like those at a wall\n',
    ),
    "tapered": Start(
        "Teacher's desk",
        """\
length = "58 in"                # square to the ends
west_width = "30 in"
east_width = "28 1/2 in"
square_side = "south"           # the side square to both ends: south or north; "centre" if both taper alike
""",
        """\
parallel = {edge = "north", to = "south", distance = "28 1/4 in"}   # one cut; distance is what is left between them
# largest_rectangle = true      # instead: keep the largest true rectangle
# edges = {west = "1 in"}       # instead: amounts by edge
""",
        _ANGLES,
    ),
    "quad": Start(
        "Packing bench",
        """\
south = "60 in"
east = "29 3/4 in"
north = "60 1/2 in"
west = "30 in"
diagonals = ["67 1/4 in", "67 1/4 in"]   # south-west to north-east, then south-east to north-west
""",
        """\
largest_rectangle = true        # keep the largest true rectangle
# parallel = {edge = "north", to = "south", distance = "29 1/2 in"}   # instead: make one edge parallel to another
# edges = {south = "1 in"}      # instead: amounts by edge
""",
        _ANGLES,
    ),
    "l_counter": Start(
        "Hall kitchen counter",
        """\
long_leg = "96 in"              # along its wall, from the wall corner
short_leg = "66 in"
long_depth = "25 in"            # square to the wall
short_depth = "25 in"
inside_diagonal = {legs = "48 in", across = "67 7/8 in"}   # marks 48 in off the wall corner, from mark to mark
# inside_angle = 90             # or the angle between the walls in degrees
inside_radius = "1 in"          # of the front's inside corner; 0 for a sharp one
hand = "left"                   # where the short leg lies when one faces the wall of the long leg
""",
        'edges = {"long leg end" = "1/2 in"}   # amounts by edge, in the order of the cuts\n',
        'unrouted = ["long leg back", "short leg back"]   # edges that get no profile, like those at a wall\n',
    ),
    "u_counter": Start(
        "Canteen bay",
        """\
back_length = "102 in"          # along the back wall
left_leg = "60 in"              # from the back wall; left is west when one faces the back
right_leg = "48 in"
back_depth = "24 in"            # square to the walls
left_depth = "24 in"
right_depth = "24 in"
inside_radius = "1 in"          # of both inside corners of the front
""",
        '# edges = {"left leg end" = "1 in"}   # amounts by edge, in the order of the cuts\n',
        'unrouted = ["left leg back", "back leg back", "right leg back"]   # edges that get no profile\n',
    ),
    "stations": Start(
        "Hallway slab",
        """\
straight = "south"              # the edge that is the snapped line; left out: offsets of both edges are given
at = ["0 in", "12 in", "24 in", "36 in", "48 in", "60 in"]   # along the line, from the west
north = ["17 in", "18 1/8 in", "17 1/2 in", "17 3/4 in", "18 7/8 in", "17 7/8 in"]   # square to it, at each station
# south = ["2 in", "2 in", "1 3/4 in", "2 in", "2 in", "2 in"]   # the same to the other edge, without straight
""",
        'edges = {south = "1 in"}        # amounts by edge; a live edge is not cut\n',
    ),
    "drawing": Start(
        "Reception desk",
        """\
file = "outline.dxf"            # the DXF file with the closed outline, beside this job file: bring it first
# layer = "OUTLINE"             # left out: the only layer with closed outlines
# units = "in"                  # left out: what the drawing says
""",
        '# all_round = "1/2 in"          # off every edge, kerf included\n',
        _ANGLES,
    ),
}
