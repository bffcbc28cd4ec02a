"""The text of the starter job file: a reading-room table, ready to be planned as it is."""

from __future__ import annotations

from typing import Final

__all__ = ["STARTER"]

STARTER: Final = """\
# A job file: what was measured and what is decided. Lengths carry their unit: "41 5/8 in", "3 ft 6 in",
# '29"', "1057 mm". Whatever is left out has a default, and the summary shows it with its origin.
# Lines with one # in front of a key show a default or an example: take the # away to use it.

[job]
title = "Reading-room table"
# units = "in"                  # lets you write bare numbers: length = 72
# bench_grid = "1/32 in"        # chosen sizes are snapped to this
# date = "2 May"
# revision = "A"
# shop = "North Yard Workshop"   # for the title block, as are drawn_by and approved_by

# The old top, face up. Chalk N, E, S and W on it: the length runs east to west, the width north to south.
[top]
length = "72 in"
width = "42 in"
thickness = ["23/32 in", "0.72 in", "23/32 in", "0.722 in"]   # caliper, four places
material = "plywood"            # plywood, mdf, particleboard, solid wood, laminate
diagonals = ["83 3/8 in", "83 5/16 in"]   # south-west to north-east first
# grain = "length"              # solid wood: length or width; left out, it runs along the longer of the two
# corner_radius = "0 in"        # of the old corners
# seams = [{across = "length", at = "40 in"}]   # a panel seam 40 in from the west edge
# defects = [{name = "screw hole", along = ["12 in", "12 1/4 in"], across = ["40 in", "40 1/4 in"], metal = true}]
#   # a box that no strip may include: along from the west end, across from the south edge
# finished_edge.north = {depth = "1/2 in", arris_radius = "1/8 in"}   # old tape, varnish or profile

# What comes off, kerf included: an amount for a side, or a finished size.
[trim]
north = "6 in"
# finished_width = "36 in"      # instead of north and south
# width_from = "both"           # north, south or both

# Strips glued under the edge, and the profile routed on it.
[edge]
layers = 1                      # a double edge
strip_width = "widest"          # the widest that the offcuts give
corners = "butt"                # butt, pinwheel or mitre
top_round_over = "3/8 in"
bottom_round_over = "1/4 in"
corner_radius = "2 in"          # or {south_west = "2 in", north_west = "0 in"}
# proud = "1/16 in"             # strips stand out until flush-trimmed

# What a good plan is: one thing after another, or material and labour together.
# [planning]
# objective = "cost"
# labour_rate = 45              # an hour

# [splice]
# min_piece = "8 in"
# from_corner = "6 in"

# Both by a test cut, not by a ruler on the tooth.
[saw]
kerf = "1/8 in"
guide_offset_wide = "4 1/2 in"  # guide to the near side of the kerf
# shoe_side = "wide"            # wide (motor side) or narrow
# guide_side = "keep"           # keep or waste

# [pins]
# lengths = ["1 in", "1 1/4 in", "1 1/2 in"]

# Boards on hand, and boards that can be bought (those with a price).
# [[stock]]
# name = "rack 1"
# length = "50 in"
# width = "5 in"
# thickness = "23/32 in"

[base]
overhang = "9 in"               # from the old edge to the apron; or {north = "9 in", east = ...}

[seating]
table_height = "29 1/2 in"
arm_height = "26 in"

[coating]
resin_coats = 2
flood_film = ["35 mil", "40 mil"]   # what the trowel lays down in one coat, least and most

# After a cut that came out otherwise than planned: leave everything above as it is, and the rest is planned again.
# [as_cut]
# cuts = 1                      # how many cuts of the plan are made
# width = "40 1/32 in"          # the panel now, where a cut changed it; or what came off, off = {north = "1 31/32 in"}
# kerf = "5/32 in"              # of the test cut, if it is not that of [saw]
# guide_offset = "4 17/32 in"   # the same
# [[as_cut.piece]]              # what came off, each piece; usable = false for one that was spoiled
# side = "north"
# length = "72 in"
# width = "1 13/16 in"
"""
