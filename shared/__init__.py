"""This folder is the package ``edgewright``: the words, units and files that every room shares.

The rooms and what each may import::

    shared/   edgewright           units, errors, job file, trade defaults, drawing
    design/   edgewright.design    geometry of the top, the ring, the edge     <- shared
    cutlist/  edgewright.cutlist   strips, saw cuts, checker, take-off         <- shared, design
    cli/      edgewright.cli       commands and terminal text                  <- all of them

``edgewright.plan("job.toml")`` does the whole job from a script; it is looked up on first use so that
``import edgewright`` loads neither the solver nor a geometry library.
"""

from __future__ import annotations

from typing import Any

__version__ = "0.1.0"

__all__ = ["__version__", "plan"]


def __getattr__(name: str) -> Any:
    """Look up ``plan`` on first use (the one import that points up the house)."""
    if name == "plan":
        from edgewright.cutlist.any_plan import plan_any

        return plan_any
    raise AttributeError(f"module 'edgewright' has no attribute {name!r}")
