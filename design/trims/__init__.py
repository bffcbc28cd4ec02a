"""Trims of any top: saw cuts and their offcuts, true rectangles, trammel settings, orders of cuts compared."""
