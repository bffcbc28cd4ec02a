"""How much work is left: counts, never seconds, so that the same problem always gives the same result."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Work", "WorkDone"]


class WorkDone(Exception):  # noqa: N818 - not an error: the limits of the caller are reached
    """No more work is allowed, or the caller asked to stop."""


@dataclass(slots=True)
class Work:
    """What is left of the limits."""

    nodes: int
    columns: int
    rounds: int
    should_stop: Callable[[], bool] | None = None

    def round(self) -> None:
        """Count one relaxation."""
        self.rounds -= 1
        if self.rounds < 0 or self.columns < 0 or (self.should_stop is not None and self.should_stop()):
            raise WorkDone

    def node(self) -> bool:
        """Count one box; False when no more is allowed."""
        self.nodes -= 1
        return self.nodes >= 0
