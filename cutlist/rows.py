"""One row of a comparison: what is weighed of one variant."""

from __future__ import annotations

from dataclasses import dataclass, replace

from edgewright.findings import Finding

__all__ = ["BoughtBoard", "Row"]


@dataclass(frozen=True, slots=True)
class BoughtBoard:
    """Boards of one kind that must be bought; the price is that of one."""

    count: int
    name: str
    width_ticks: int
    length_ticks: int
    price_cents: int


@dataclass(frozen=True, slots=True)
class Row:
    """What is compared of one variant.

    Attributes
    ----------
    ready
        Whether one may cut by its plan; else ``why`` says why not.
    strip_width_ticks, splices, sticks, strips
        None where there is no layout of the strips; sticks are those touched, strips those ripped.
    short_ticks
        Length of strip that is missing, where length alone decides that there is no plan.
    boards, cost_cents
        What must be bought, and what that costs in all.
    edge_area_mm2
        Surface of the routed edge; None where no such profile exists.
    base_offset_mm
        Base centre from the finished top's centre: to the east, to the north.
    """

    name: str
    as_written: bool = False
    ready: bool = False
    why: str = ""
    plan_code: str = ""
    strip_width_ticks: int | None = None
    short_ticks: int | None = None
    boards: tuple[BoughtBoard, ...] = ()
    cost_cents: int = 0
    splices: int | None = None
    sticks: int | None = None
    strips: int | None = None
    edge_area_mm2: float | None = None
    edge_thickness_mm: float | None = None
    base_offset_mm: tuple[float, float] | None = None
    findings: tuple[Finding, ...] = ()

    def named(self, name: str) -> Row:
        """The same row under another name."""
        return replace(self, name=name)

    @property
    def has_plan(self) -> bool:
        """Whether there is a layout of the strips, ready or not."""
        return self.strip_width_ticks is not None

    @property
    def boards_to_buy(self) -> int:
        """Boards to buy in all."""
        return sum(board.count for board in self.boards)

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
