"""Tables as CSV: read back by the standard reader, safe in a spreadsheet."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cli.table import length, lengths, measured, numbers, table, texts
from edgewright.cli.table_csv import table_csv


def read(text):
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def one(cells, *groups, banner=""):
    return table_csv(table("t", groups, [cells], banner))


@pytest.mark.reference
def test_lines_end_and_quote_as_rfc_4180_says():
    text = one(
        {"what": 'board, "old"\nЖ漢', "count": 3}, texts("what"), numbers("count"), banner="NO, NOT YET"
    )
    assert text == '"NO, NOT YET",\r\nwhat,count\r\n"board, ""old""\nЖ漢",3\r\n'
    assert read(text) == [["NO, NOT YET", ""], ["what", "count"], ['board, "old"\nЖ漢', "3"]]


@pytest.mark.example
def test_a_length_reads_as_on_the_tape_and_as_numbers():
    # 40 1/8 in = 40.125 in = 1019.175 mm
    columns = lengths("in", "keep_line")
    assert [(c.key, c.label) for c in columns] == [
        ("keep_line", "keep line (fraction)"),
        ("keep_line_in", "keep line (in)"),
        ("keep_line_mm", "keep line (mm)"),
    ]
    assert read(one(length("keep_line", 40 * 8128 + 1016, "in"), columns))[1] == [
        "40 1/8 in",
        "40.125",
        "1019.175",
    ]
    metric = lengths("mm", "keep_line")
    assert [c.label for c in metric] == ["keep line (bench)", "keep line (mm)"]
    assert read(one(length("keep_line", 320, "mm"), metric))[1] == ["1 mm", "1"]
    # 25.4 / 3 = 8.4667 mm = 0.3333 in, nearest 21/64 in
    assert read(one(measured("wide", 25.4 / 3, "in"), lengths("in", "wide")))[1] == [
        "21/64 in",
        "0.3333",
        "8.47",
    ]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_what_a_person_typed_never_begins_like_a_formula(words):
    (_, (cell,)) = read(one({"what": words}, texts("what")))
    assert cell.removeprefix("'") == words.removeprefix("'")
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


def test_numbers_and_lengths_below_zero_are_left_as_they_are():
    cells = {"at": "-3 1/2 in", "at_in": Decimal("-3.5"), "at_mm": Decimal("-88.9"), "n": -4}
    assert read(one(cells, lengths("in", "at"), numbers("n")))[1] == ["-3 1/2 in", "-3.5", "-88.9", "-4"]
    assert read(one({"n": Decimal("1E+3")}, numbers("n")))[1] == ["1000"]
