"""Drawings for the shop wall: trims, strip map, sticks; each a view in paper millimetres.

A plan that is not ready (impossible, or stopped) has none of them: every function here returns no view then,
for nobody must cut by it.
"""
