"""Cutting stock for whole pieces: which sticks to cut, and into what, when no piece may be spliced.

``edgewright.cutlist.whole.solve.solve_whole`` does it. The words are explained in ``edgewright.cutlist.whole.model``.
"""
