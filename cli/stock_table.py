"""``stock``: what the pieces are cut from, and what must be bought: one row for each kind and size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from edgewright.cli.table import Column, Row, Table, length, lengths, measured, numbers, table, texts
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.units import Units

__all__ = ["stock_columns", "stock_table"]


def stock_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns; prices in the currency of the job file, of one and of all."""
    return (
        numbers("count"),
        texts("what", "source"),
        lengths(units, "length", "width", "thickness"),
        numbers("price_each", "price_in_all"),
        texts("pieces", "plan_code"),
    )


def stock_table(plan: Plan | ShapedPlan) -> Table:
    """Offcuts, boards and sheets that are sawn, and blanks that must still be bought or found.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING uses no stock")
    rows = _of_rectangle(plan) if isinstance(plan, Plan) else _of_outline(plan)
    return table("stock", stock_columns(plan.job.units), ({**row, "plan_code": plan.code} for row in rows))


def _price(cents: int, count: int) -> Row:
    """Price of one and of all; nothing for what is not bought."""
    return {"price_each": Decimal(cents) / 100, "price_in_all": Decimal(cents * count) / 100}


def _of_rectangle(plan: Plan) -> Iterator[Row]:
    units, lanes = plan.job.units, dict[str, list[str]]()
    for piece in plan.cut_plan.pieces:
        lanes.setdefault(piece.lane_id, []).append(piece.id)
    alike: dict[tuple[str, str, int, int, int], list[list[str]]] = {}
    for stick in plan.cut_plan.sticks:
        ids = [name for lane in stick.lanes for name in lanes.get(lane.id, ())]
        if ids:
            key = (stick.name, stick.source, stick.length_ticks, stick.width_ticks, stick.price_cents)
            alike.setdefault(key, []).append(ids)
    for (name, source, long, wide, cents), groups in alike.items():
        yield {
            "count": len(groups),
            "what": name,
            "source": source,
            **length("length", long, units),
            **length("width", wide, units),
            **measured("thickness", plan.design.strip_thickness_mm, units),
            **(_price(cents, len(groups)) if source == "for sale" else {}),
            "pieces": "; ".join(", ".join(ids) for ids in groups),
        }


def _of_outline(plan: ShapedPlan) -> Iterator[Row]:
    units, found = plan.job.units, plan.build_up
    sticks = {stick.stock.id: stick for stick in found.stock}
    layouts = () if found.layout is None else found.layout.plan.layouts
    counts = Counter(layout.stock_id for layout in layouts)
    for stock_id, count in counts.items():
        stock = sticks[stock_id].stock
        yield {
            "count": count,
            "what": stock.name,
            "source": stock.source,
            **length("length", stock.length, units),
            **length("width", stock.width, units),
            **measured("thickness", plan.design.strip_thickness_mm, units),
            **(_price(stock.price_cents, count) if stock.source == "for sale" else {}),
            "pieces": ", ".join(one.piece_id for one in found.cut if one.stock_id == stock_id),
        }
    for row in found.to_buy:
        yield {
            "count": row.count,
            "what": row.kind,
            "source": "to be bought or found",
            **measured("length", row.length, units),
            **measured("width", row.width, units),
            **measured("thickness", row.thickness, units),
            "pieces": ", ".join(row.piece_ids),
        }
