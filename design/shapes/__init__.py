"""From what a tape, a rule or a drawing says about a top to its exact outline.

Each function takes the figures one measures for one kind of top (mm) and gives a `Shape`: the loop, a name for
each of its edges, and what the redundant measurements say about the others. Figures that cannot be a top are
refused with the edge named; a measurement that looks misread is named, never changed.
"""
