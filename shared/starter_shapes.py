"""Starter job files for tops of other outlines: for each shape its measurements, ready to be planned as they are.

Everything but the outline and the trim is the same for all; lines with one # in front of a key show a default or an
example, as in the starter of a rectangular top.
"""

from __future__ import annotations

from typing import Final

from edgewright.errors import InputError
from edgewright.job_fields import brief
from edgewright.starter_outlines import STARTS

__all__ = ["SHAPES", "shaped_starter"]


SHAPES: Final = tuple(STARTS)
"""Names of the shapes, as [top.outline] takes them."""

_HEAD: Final = """\
# A job file: what was measured and what is decided. Lengths carry their unit: "41 5/8 in", "3 ft 6 in",
# '29"', "1057 mm". Whatever is left out has a default, and the summary shows it with its origin.
# Lines with one # in front of a key show a default or an example: take the # away to use it.
{note}
[job]
title = "{title}"
# units = "in"                  # lets you write bare numbers: length = 72
# bench_grid = "1/32 in"        # chosen sizes are snapped to this
# date = "2 May"
# revision = "A"
# shop = "North Yard Workshop"   # for the title block, as are drawn_by and approved_by

# The old top, face up. Chalk N, E, S and W on it: the length runs east to west, the width north to south.
[top]
thickness = {thickness}   # caliper, in several places
material = "{material}"{pad}# plywood, mdf, particleboard, solid wood, laminate
# grain = "length"              # solid wood: length or width; left out, it runs along the longer of the two
# seams = [{{across = "length", at = "24 in"}}]   # a panel seam 24 in from the west side of the box round the top
# finished_edge = {{depth = "1/2 in", arris_radius = "1/8 in"}}   # old tape, varnish or profile, all round

[top.outline]
shape = "{shape}"
{outline}
# What comes off; one of these ways, or nothing.
[trim]
{trim}
# What is glued under the edge, and the profile routed on it.
[edge]
{edge}"""

_FLAT: Final = """\
build_up = "flat"               # flat strips; skirt_under or skirt_on_edge with skirt_drop; or none
layers = 1                      # a double edge
strip_width = "2 in"            # of the strips, which are bought; left out: 2 in, or what pins need
"""
_BARE: Final = """\
build_up = "none"               # flat strips; skirt_under or skirt_on_edge with skirt_drop; or none
"""
_PROFILE: Final = """\
top_round_over = "3/8 in"
bottom_round_over = "3/8 in"
# top_form = {form = "chamfer", size = "1/4 in"}   # instead of top_round_over: chamfer, bevel, cove, ogee or none
corner_radius = "0 in"          # of sharp outside corners, seen from above
# inside_radius = "1/2 in"      # of inside corners that a trim makes; those of the old top stay as they are
# joint_clear = "6 in"          # least distance of a joint of the build-up from a panel seam
# proud = "1/16 in"             # strips stand out until flush-trimmed

# Holes, placed from the south-west corner of the box round the top; centres.
# [[cut_out]]
# name = "cables"
# kind = "round"
# x = "20 in"
# y = "12 in"
# diameter = "2 in"

# Both by a test cut, not by a ruler on the tooth.
[saw]
kerf = "1/8 in"
guide_offset_wide = "4 1/2 in"  # guide to the near side of the kerf
# shoe_side = "wide"            # wide (motor side) or narrow

# [router]
# bearing_diameter = "1/2 in"   # decides what is reached at inside corners
# cutter = "1/2 in"             # the straight cutter on a trammel or along a guide

# [base]
# overhang = "9 in"             # from the old edge to the apron

# [seating]
# table_height = "29 1/2 in"
# arm_height = "26 in"

[coating]
resin_coats = 2
flood_film = ["35 mil", "40 mil"]   # what the trowel lays down in one coat, least and most
"""


def shaped_starter(shape: str) -> str:
    """Write the starter of a top of one shape; one with a drawing waits for its file, every other can be planned.

    Parameters
    ----------
    shape
        One of `SHAPES`.

    Raises
    ------
    InputError
        If there is no such shape.
    """
    if shape not in STARTS:
        raise InputError(f"{brief(shape)} is no shape that is known here: choose from {', '.join(SHAPES)}")
    start, slab = STARTS[shape], shape == "stations"
    material = "solid wood" if slab else "plywood"
    return _HEAD.format(
        note="# Bring the drawing before you plan: until its file is there, the job cannot be read.\n"
        * (shape == "drawing"),
        title=start.title,
        thickness='["1 3/4 in", "1 25/32 in"]' if slab else '["23/32 in", "0.72 in"]',
        material=material,
        pad=" " * (19 - len(material)),
        shape=shape,
        outline=start.outline,
        trim=start.trim,
        edge=(_BARE if slab else _FLAT) + start.edge + _PROFILE,
    )
