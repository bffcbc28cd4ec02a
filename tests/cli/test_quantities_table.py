"""The bill as a file: readable by any CSV reader, figures that add up as printed."""

import csv
import io
from decimal import Decimal

import pytest
from handmade_plans import narrowed

from edgewright.cli.quantities_table import QUANTITY_COLUMNS, bill_rows
from edgewright.cli.table import table
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.takeoff import RESIN, take_off
from edgewright.cutlist.takeoff_text import shown_rows
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "Table"
[top]
length = "72 in"
width = "42 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "6 in"
[edge]
corner_radius = "2 in"
strip_width = "1 7/8 in"
"""
TAKEOFF = take_off(build_design(parse_job(JOB)), narrowed())


COLUMNS = [column.key for group in QUANTITY_COLUMNS for column in group]


def quantities_csv(takeoff, units):
    return table_csv(table("quantities", QUANTITY_COLUMNS, bill_rows(takeoff, units)))


def rows(units):
    return list(csv.DictReader(io.StringIO(quantities_csv(TAKEOFF, units), newline="")))


@pytest.mark.reference
def test_lines_end_and_quote_as_rfc_4180_says():
    text = quantities_csv(TAKEOFF, "in")

    assert text.startswith("group,item,expected,low,high,likely_low,likely_high,unit,reason\r\n")
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")
    # a comma inside a field makes it quoted
    assert 'filler,"edge, first pass",' in text
    parsed = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert {len(row) for row in parsed} == {len(COLUMNS)}


@pytest.mark.example
def test_it_says_what_adds_up():
    notes = [row["item"] for row in rows("in") if row["group"] == "note"]

    assert "Lines add up by expected, low and high." in notes[0]
    assert "Likely is a 90 % band of the whole group and does not add up by line" in notes[0]


@pytest.mark.property
@pytest.mark.parametrize("units", ["in", "mm"])
def test_printed_lines_add_up_to_printed_totals(units):
    found = [row for row in rows(units) if row["group"] not in ("note", "factor")]
    for total in (row for row in found if row["item"] == "total"):
        group = total["group"]
        parts = [row for row in found if row["group"] == group and row["item"] != "total"]
        if group == RESIN:
            parts = [row for row in found if row["group"].startswith(("seal coat", "resin coat"))]
            parts = [row for row in parts if row["item"] != "total"]
        assert parts
        for column in ("expected", "low", "high"):
            assert sum(Decimal(row[column]) for row in parts) == Decimal(total[column]), (group, column)
        low, likely_low, likely_high, high = (
            Decimal(total[column]) for column in ("low", "likely_low", "likely_high", "high")
        )
        assert low <= likely_low <= Decimal(total["expected"]) <= likely_high <= high
        assert all(row["likely_low"] == row["likely_high"] == "" for row in parts)
        assert {row["unit"] for row in parts} == {total["unit"]}


@pytest.mark.property
def test_sheets_with_fewer_places_add_up_too():
    for units in ("in", "mm"):
        shown = shown_rows(TAKEOFF, units)
        for total in (row for row in shown if row.item == "total" and row.group != RESIN):
            parts = [row for row in shown if row.group == total.group and row.item != "total"]
            assert sum(row.high for row in parts) == total.high


@pytest.mark.example
def test_figures_are_plain_decimals_in_the_unit_beside_them():
    inch = {(row["group"], row["item"]): row for row in rows("in")}
    metric = {(row["group"], row["item"]): row for row in rows("mm")}
    drips = "resin coat 1", "drips"

    # 17.714 ft × 0.5 fl oz = 8.857 fl oz = 261.9 ml
    assert (inch[drips]["high"], inch[drips]["unit"]) == ("8.86", "fl oz")
    assert (metric[drips]["high"], metric[drips]["unit"]) == ("261.9", "ml")
    # 54 along the strips, of which four on the long sides are nearer than 3 in to a corner of radius 2 in
    assert inch["pins", "total"]["expected"] == metric["pins", "total"]["expected"] == "50"
    assert (inch["weight", "top"]["unit"], metric["weight", "top"]["unit"]) == ("lb", "kg")
    for row in rows("in") + rows("mm"):
        for column in COLUMNS[2:7]:
            assert not row[column] or (Decimal(row[column]).is_finite() and "E" not in row[column])


@pytest.mark.example
def test_factors_come_last_each_with_its_origin():
    found = rows("in")
    first = next(number for number, row in enumerate(found) if row["group"] == "factor")

    assert all(row["group"] == "factor" and row["reason"] for row in found[first:])
    assert len(found) - first == sum(len(line.factors) for line in TAKEOFF.lines)
    film = next(row for row in found if row["item"] == "resin coat 1 / flat: flood film")
    assert (film["low"], film["high"], film["unit"]) == ("35.000", "40.000", "mil")
    assert film["reason"] == "common practice, no source"
