"""The workbook, read by openpyxl: numbers are numbers, words are words, ready to print, the same bytes each time."""

import csv
import functools
import io
import subprocess
import sys
import zipfile
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from cli_jobs import BOARDS, NO_PROFILE, READY

from edgewright.cli.plan_tables import plan_tables
from edgewright.cli.table import lengths, numbers, table, texts
from edgewright.cli.table_csv import table_csv
from edgewright.cli.table_xlsx import tables_xlsx
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import plan
from edgewright.jobfile import parse_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = [
    "narrow_one_side",
    "knots_and_screws",
    "shapes/l_counter",
    "shapes/round_diameters",
    "new_tops/racetrack_from_sheet",
]
EACH = pytest.mark.parametrize("name", [*NAMES, "ready", "boards", "metric", "stopped"])
TEXTS = {
    "ready": READY,
    "boards": BOARDS,
    "metric": READY.replace("[job]", '[job]\nunits = "mm"'),
    "stopped": NO_PROFILE,
}


@functools.cache
def made(name):
    return plan(parse_job(TEXTS[name])) if name in TEXTS else plan_any(EXAMPLES / f"{name}.toml")


def written(tables, **more):
    said = {"title": "t", "code": "AB", "status": "ready", "paper": "a4"}
    return tables_xlsx(tables, **(said | more))


@functools.cache
def book(name):
    found = made(name)
    status = "ready" if found.ready else "NOT FOR CUTTING"
    content = written(plan_tables(found), title=found.job.info.title, code=found.code, status=status)
    return openpyxl.load_workbook(io.BytesIO(content))


def rows_of(sheet):
    """Rows as dicts by header; the banner is left out."""
    lines = list(sheet.iter_rows(values_only=True))
    at = next(n for n, line in enumerate(lines) if line[1] is not None)
    return [dict(zip(lines[at], line, strict=True)) for line in lines[at + 1 :]]


@EACH
def test_numbers_are_numbers_and_units_stand_in_the_header(name):
    for one, sheet in zip(plan_tables(made(name)), book(name), strict=True):
        assert sheet.title == one.name
        by_label = {column.label: column for column in one.columns}
        rows = rows_of(sheet)
        assert len(rows) == len(one.rows)
        for row in rows:
            assert set(row) == set(by_label)
            for label, cell in row.items():
                if cell is not None:
                    assert isinstance(cell, (int, float) if by_label[label].kind == "number" else str), label
        for column in one.columns:
            unit = column.key.rpartition("_")[2]
            if unit in ("mm", "in") and column.kind == "number":
                assert column.label.endswith(f"({unit})")
    assert all(cell.data_type != "f" for sheet in book(name) for line in sheet.iter_rows() for cell in line)


@EACH
def test_the_workbook_has_what_the_csv_has(name):
    for one, sheet in zip(plan_tables(made(name)), book(name), strict=True):
        lines = list(csv.DictReader(io.StringIO(table_csv(one), newline="")))
        if one.banner:
            lines = list(csv.DictReader(io.StringIO(table_csv(one).split("\r\n", 1)[1], newline="")))
        for line, row in zip(lines, rows_of(sheet), strict=True):
            for column in one.columns:
                text, cell = line[column.key], row[column.label]
                if column.kind == "number":
                    assert (cell is None) == (text == "")
                    assert cell is None or float(text) == cell
                else:
                    assert text.removeprefix("'") == (cell or "").removeprefix("'")


@pytest.mark.parametrize("name", [*NAMES, "ready", "boards", "metric"])
def test_sums_of_the_bill_are_those_of_its_totals(name):
    groups = {}
    for row in rows_of(book(name)["quantities"]):
        if row["group"] not in ("note", "factor", "resin in all"):
            groups.setdefault(row["group"], {}).setdefault(row["item"] == "total", []).append(row)
    assert groups
    for group in groups.values():
        (total,) = group[True]
        for key in ("expected", "low", "high"):
            parts = sum(Decimal(str(row[key])) for row in group[False])
            assert parts == Decimal(str(total[key]))


def test_prices_add_up():
    (row,) = rows_of(book("boards")["stock"])
    # one board of 12 in gives all strips
    assert (row["count"], row["price each"], row["price in all"]) == (1, 20.5, 20.5)
    assert (row["length (in)"], row["width (fraction)"], row["source"]) == (96, "12 in", "for sale")


@EACH
def test_it_is_ready_to_print(name):
    found = made(name)
    for one, sheet in zip(plan_tables(found), book(name), strict=True):
        top = 2 if one.banner else 1
        assert sheet.freeze_panes == f"A{top + 1}"
        assert sheet.print_title_rows == f"$1:${top}"
        assert sheet.page_setup.orientation == "landscape"
        assert (sheet.page_setup.fitToHeight, sheet.sheet_properties.pageSetUpPr.fitToPage) == (0, True)
        assert int(sheet.page_setup.paperSize) == 9
        assert found.job.info.title in sheet.oddHeader.left.text
        assert found.code in sheet.oddFooter.left.text
        assert (sheet.oddHeader.center.text == "NOT FOR CUTTING") == (not found.ready)
        assert all(sheet.column_dimensions[letter].width > 7 for letter in "AB")
        # exact numbers of lengths stand outside of what is printed, on the right
        last = openpyxl.utils.cell.range_boundaries(sheet.print_area.split("!")[1])[2]
        heads = [cell.value for cell in sheet[top]]
        assert not any(head.endswith(("(in)", "(mm)")) for head in heads[:last])
        assert all(head.endswith(("(in)", "(mm)")) for head in heads[last:])


def test_while_not_for_cutting_there_is_nothing_to_cut_by():
    assert book("stopped").sheetnames == ["quantities", "findings"]
    assert all(sheet["A1"].value == "NOT FOR CUTTING" for sheet in book("stopped"))
    assert book("ready").sheetnames == ["cuts", "pieces", "stock", "quantities", "findings"]
    assert book("ready")["cuts"]["A1"].value == "step"


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1", "@A1", "\t=1", "{=1}", "http://x.y", "'x", "</t>&<"])
def test_words_stay_words(words):
    content = written([table("t", (texts("a", "b"),), [{"a": words, "b": "x"}])], title=words * 90)
    (sheet,) = openpyxl.load_workbook(io.BytesIO(content))
    assert sheet["A2"].data_type == "s"
    assert sheet["A2"].value == words
    assert sheet["A2"].hyperlink is None


def test_codes_of_a_header_are_words():
    content = written([table("t", (texts("a", "b"),), [{"a": "x"}])], title='A & B &P &"Arial"12', code="&D")
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        sheet = parts.read("xl/worksheets/sheet1.xml").decode()
    # in the file & is &amp;, and a sign & of a header is written twice
    header = 'A & B &P &"Arial"12'.replace("&", "&amp;&amp;")
    assert f"<oddHeader>&amp;L{header}&amp;C&amp;Rt</oddHeader>" in sheet
    assert "<oddFooter>&amp;Lplan &amp;&amp;D&amp;Rpage &amp;P of &amp;N</oddFooter>" in sheet


def test_the_same_tables_give_the_same_bytes_without_date_or_host():
    tables = [table("t", (texts("a"), lengths("in", "b"), numbers("n")), [{"a": "x", "n": 1}])]
    content = written(tables)
    assert content == written(tables)
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        assert {part.date_time for part in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = parts.read("docProps/core.xml").decode()
    assert core.count("2000-01-01T00:00:00Z") == 2
    assert "<dc:creator></dc:creator>" in core


def test_help_does_not_load_the_writer():
    code = (
        "import sys\nfrom click.testing import CliRunner\nfrom edgewright.cli.main import main\n"
        "assert CliRunner().invoke(main, ['plan', '--help']).exit_code == 0\n"
        "print('xlsxwriter' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout == "False\n"
