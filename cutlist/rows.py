"""One row of a comparison: what is weighed of one variant, of any top and of a rectangular one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from edgewright.findings import Finding

__all__ = ["AnyRow", "BoughtBoard", "Row"]

R = TypeVar("R", bound="AnyRow")


@dataclass(frozen=True, slots=True)
class AnyRow:
    """What is compared of one variant of any top.

    Attributes
    ----------
    ready
        Whether one may cut by its plan; else ``why`` says why not.
    edge_area_mm2
        Surface of the routed edge; None where no such profile exists.
    edge_thickness_mm
        None where there is no such job.
    """

    name: str
    as_written: bool = False
    ready: bool = False
    why: str = ""
    plan_code: str = ""
    edge_area_mm2: float | None = None
    edge_thickness_mm: float | None = None
    findings: tuple[Finding, ...] = ()

    def named(self: R, name: str) -> R:
        """The same row under another name."""
        return replace(self, name=name)

    @property
    def has_plan(self) -> bool:
        """Whether there is a plan, ready or not."""
        return bool(self.plan_code)

    @property
    def stops(self) -> tuple[int, ...]:
        """Numbers of the open stops, each once, ascending."""
        return self._numbers("stop")

    @property
    def warnings(self) -> tuple[int, ...]:
        """Numbers of the warnings, each once, ascending."""
        return self._numbers("warn")

    def _numbers(self, severity: str) -> tuple[int, ...]:
        found = (f.number for f in self.findings if f.severity == severity and f.overridden is None)
        return tuple(sorted(set(found)))


@dataclass(frozen=True, slots=True)
class BoughtBoard:
    """Boards of one kind that must be bought; the price is that of one."""

    count: int
    name: str
    width_ticks: int
    length_ticks: int
    price_cents: int


@dataclass(frozen=True, slots=True)
class Row(AnyRow):
    """What is compared of one variant of a rectangular top.

    Attributes
    ----------
    strip_width_ticks, splices, sticks, strips
        None where there is no layout of the strips; sticks are those touched, strips those ripped.
    short_ticks
        Length of strip that is missing, where length alone decides that there is no plan.
    boards, cost_cents
        What must be bought, and what that costs in all.
    base_offset_mm
        Base centre from the finished top's centre: to the east, to the north.
    """

    strip_width_ticks: int | None = None
    short_ticks: int | None = None
    boards: tuple[BoughtBoard, ...] = ()
    cost_cents: int = 0
    splices: int | None = None
    sticks: int | None = None
    strips: int | None = None
    base_offset_mm: tuple[float, float] | None = None

    @property
    def has_plan(self) -> bool:
        """Whether there is a layout of the strips, ready or not."""
        return self.strip_width_ticks is not None

    @property
    def boards_to_buy(self) -> int:
        """Boards to buy in all."""
        return sum(board.count for board in self.boards)
