"""A comparison on the terminal: for each question a table of what differs, and a sentence that says what decides.

What is the same in all rows is said once above the table, so that the columns show differences only and fit 80
columns. Where they do not fit even so, each row becomes a paragraph.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.cli.compare_columns import COLUMNS, Column
from edgewright.cli.text import heading, paragraph
from edgewright.cutlist.compare import Comparison, ComparisonGroup
from edgewright.cutlist.rows import AnyRow, BoughtBoard, Row
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["comparison_lines"]

_MARK: Final = "* "
#: Units in the heads of columns: of edges, of boards and faces, of weights.
_HEADS: Final[dict[Units, dict[str, str]]] = {
    "in": {"area": "in²", "big": "in²", "mass": "lb"},
    "mm": {"area": "cm²", "big": "m²", "mass": "kg"},
}
_NONE: Final = "-"
_GAPS: Final = (2, 1)
_NARROWEST_NAMES: Final = 20


def comparison_lines(comparison: Comparison, width: int) -> list[str]:
    """Write the whole comparison, wrapped to ``width`` columns."""
    units = comparison.job.units
    lines = paragraph(f"{comparison.job.info.title}: variants side by side", width)
    lines += paragraph("* the job as written; the other rows of a table change one thing of it.", width)
    if any(group.question == "all" for group in comparison.groups):
        lines[-1:] = paragraph("* the job as written; the other rows change one thing of it or more.", width)
    for group in comparison.groups:
        over = [
            line for part in heading(group.heading) for line in (paragraph(part, width) if part else [""])
        ]
        lines += [*over, *_group_lines(group, units, width)]
    if not comparison.groups:
        sides = comparison.questions == ("sides",)
        why = "nothing comes off any side" if sides else "what is asked does not arise for this top"
        lines += ["", f"There is nothing to choose: {why}."]
    return lines + _legend(comparison, width)


def _group_lines(group: ComparisonGroup, units: Units, width: int) -> Iterator[str]:
    shown, alike = _columns(group.rows, group.question, units)
    told = {_needs(row, units) for row in group.rows if not _is_out(row)}
    if len(told) == 1:
        alike += [words for words in told if words]
    if len(group.rows) > 1 and alike:
        which = "the others" if any(map(_is_out, group.rows)) else "all"
        yield from paragraph(f"same in {which}: {', '.join(alike)}", width, 2, 4)
    yield from _table(group.rows, shown, units, width)
    for sentence in group.decides:
        yield from paragraph(sentence, width, 2, 4)
    if group.left_out:
        words = (
            f"Work limit: {len(group.rows)} of {len(group.rows) + group.left_out} combinations were planned, those "
            "that change the least of the job; ask for fewer questions with --vary to see the rest."
        )
        yield from paragraph(words, width, 2, 4)


def _columns(rows: Sequence[AnyRow], question: str, units: Units) -> tuple[list[Column], list[str]]:
    """Columns in which rows differ, and words for those in which they do not."""
    shown, alike = [], []
    there = [row for row in rows if not _is_out(row)]
    for column in _all_columns(rows, question):
        texts = {column.cell(row, units) for row in there}
        if len(texts) > 1 or (len(rows) == 1 and any(texts)):
            shown.append(column)
        elif any(texts) and (words := column.alike(there[0], units)):
            alike.append(words)
    return shown, alike


def _all_columns(rows: Sequence[AnyRow], question: str) -> tuple[Column, ...]:
    if isinstance(rows[0], Row):
        return COLUMNS
    from edgewright.cli.compare_shaped_columns import shaped_columns

    return shaped_columns(question)


def _needs(row: AnyRow, units: Units) -> str:
    """Words for the pieces that must be bought or found for a top with an outline."""
    if isinstance(row, Row):
        return ""
    from edgewright.cli.compare_shaped_columns import blank_words
    from edgewright.cutlist.shaped_row import ShapedRow

    assert isinstance(row, ShapedRow)
    return blank_words(row, units)


def _is_out(row: AnyRow) -> bool:
    """Whether there is no such job at all."""
    return row.edge_thickness_mm is None


def _table(rows: Sequence[AnyRow], columns: Sequence[Column], units: Units, width: int) -> Iterator[str]:
    said = _HEADS[units]
    heads = [column.head.format(unit=units, **said) for column in columns]
    cells = [["" if _is_out(row) else column.cell(row, units) or _NONE for column in columns] for row in rows]
    sizes = [
        max(len(text) for text in (*head.split("\n"), *(line[at] for line in cells)))
        for at, head in enumerate(heads)
    ]
    names = max(len(row.name) for row in rows)
    for gap in _GAPS:
        left = width - 2 - len(_MARK) - sum(size + gap for size in sizes)
        if left >= min(names, _NARROWEST_NAMES):
            break
    else:
        yield from _listed(rows, columns, units, width)
        return
    names = min(names, left)
    if heads:
        high = max(head.count("\n") for head in heads) + 1
        parted = [["", *head.split("\n")][-high:] for head in heads]
        for line in range(high):
            yield _line(" " * (len(_MARK) + names), [head[line] for head in parted], sizes, gap)
    for row, texts in zip(rows, cells, strict=True):
        first, *more = paragraph(row.name, names)
        mark = _MARK if row.as_written else " " * len(_MARK)
        yield _line(mark + first.ljust(names), texts, sizes, gap)
        for rest in more:
            yield f"    {rest}"
        yield from _notes(row, rows, units, width)


def _line(name: str, texts: Sequence[str], sizes: Sequence[int], gap: int) -> str:
    cells = (" " * gap + text.ljust(size) for text, size in zip(texts, sizes, strict=True))
    return f"  {name}{''.join(cells)}".rstrip()


def _listed(rows: Sequence[AnyRow], columns: Sequence[Column], units: Units, width: int) -> Iterator[str]:
    """Write rows as paragraphs, for a screen that the table does not fit."""
    for row in rows:
        words = [c.alike(row, units) for c in columns if not _is_out(row) and c.cell(row, units)]
        mark = _MARK if row.as_written else ""
        yield from paragraph(f"{mark}{row.name}: {', '.join(filter(None, words))}".rstrip(": "), width, 2, 6)
        yield from _notes(row, rows, units, width)


def _notes(row: AnyRow, rows: Sequence[AnyRow], units: Units, width: int) -> Iterator[str]:
    """What does not fit a cell: what to buy, and why a row is not ready; the same reason is told once."""
    if isinstance(row, Row) and row.boards:
        yield from paragraph(f"buy {_buy_words(row, units)}", width, 6, 8)
    needs = "" if _is_out(row) else _needs(row, units)
    if needs and any(not _is_out(other) and _needs(other, units) != needs for other in rows):
        first = next(other for other in rows if not _is_out(other) and _needs(other, units) == needs)
        words = needs if first is row else f"as for {first.name}"
        yield from paragraph(f"blanks: {words}", width, 6, 8)
    if row.why:
        first = next(other for other in rows if other.why == row.why)
        words = row.why if first is row else f"not ready for the same reason as {first.name}"
        yield from paragraph(f"{words}.", width, 6, 8)


def _buy_words(row: Row, units: Units) -> str:
    return (
        f"{', '.join(_board_words(board, units) for board in row.boards)}: {row.cost_cents / 100:.2f} in all"
    )


def _board_words(board: BoughtBoard, units: Units) -> str:
    size = f"{show_ticks(board.width_ticks, units)} x {show_ticks(board.length_ticks, units)}"
    return f"{board.count} x {board.name} ({size})"


def _legend(comparison: Comparison, width: int) -> list[str]:
    """Say what the numbers of stops and warnings mean."""
    found = {
        finding.number: finding.title
        for group in comparison.groups
        for row in group.rows
        for finding in row.findings
        if finding.number in (*row.stops, *row.warnings)
    }
    lines = heading("stops and warnings by number") if found else []
    for number, title in sorted(found.items()):
        lines += paragraph(f"{number} {title}", width, 2, 6)
    return lines
