"""The packet of a batch: every piece once in the order of the saw, the sheets of each job, all labels."""

import csv
import io
import re

import pdfplumber
import pikepdf
import pytest
from batch_jobs import SALE, job_text, table

from edgewright.cli.batch_files import strips_table
from edgewright.cli.batch_packet import batch_packet_data, batch_packet_pdf
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.batch.batch import plan_jobs
from edgewright.jobfile import parse_job

POINTS_PER_MM = 72 / 25.4
TITLES = ("Long table", "Window <table> #panic(1) & *more*", "W" * 200)


@pytest.fixture(scope="module")
def batch():
    sizes = ((72, 42, 10), (66, 40, 5), (60, 36, 4))
    return plan_jobs(
        [table(*size, title=title, boards=SALE) for size, title in zip(sizes, TITLES, strict=True)]
    )


@pytest.fixture(scope="module")
def pages(batch):
    found = {}
    for paper in ("a4", "us-letter"):
        with pdfplumber.open(io.BytesIO(batch_packet_pdf(batch, paper))) as document:
            found[paper] = [page.extract_text() for page in document.pages]
    return found


def rows_of(batch):
    return list(csv.DictReader(io.StringIO(table_csv(strips_table(batch)))))


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_jobs_then_pieces_then_sheets_then_labels(batch, pages, paper):
    first = pages[paper][0]
    for plan in batch.plans:
        assert plan.code in first
        assert any(plan.code in page for page in pages[paper][1:])
    assert "#panic(1) & *more*" in first
    assert "Strips and pieces of all jobs" in pages[paper][1]
    for page in (*pages[paper][:2], pages[paper][-1]):
        assert batch.code in page.splitlines()[0]
    assert len([page for page in pages[paper] if "Cautions" in page.splitlines()]) == 1


def test_pieces_and_labels_stand_in_the_order_of_the_saw(batch, pages):
    """The list of strips, written apart as CSV, is the witness."""
    wanted = [f"{row['job']}.{row['piece']}" for row in rows_of(batch)]
    assert len(wanted) == len(set(wanted)) == sum(len(plan.cut_plan.pieces) for plan in batch.plans)
    data = batch_packet_data(batch, "a4")
    assert [label["id"] for label in data["labels"]] == wanted
    assert [row[2] for stick in data["sticks"] for row in stick["rows"]] == wanted
    assert [row[3] for stick in data["sticks"] for row in stick["rows"]] == [
        row["stop"] for row in rows_of(batch)
    ]
    listed = " ".join(pages["a4"][1:3])
    assert [name for name in re.findall(r"\b\d\.[NESW]\d[a-z]?\b", listed) if name != "2.N1"] == [
        name for name in wanted if name != "2.N1"
    ]


def test_the_same_batch_gives_the_same_sound_pdf(batch):
    made = batch_packet_pdf(batch)
    assert made == batch_packet_pdf(batch)
    with pikepdf.open(io.BytesIO(made)) as document:
        assert document.check_pdf_syntax() == []


def test_nothing_lies_outside_the_page_and_lettering_is_large_enough(batch):
    with pdfplumber.open(io.BytesIO(batch_packet_pdf(batch))) as document:
        for page in document.pages:
            assert min(char["x0"] for char in page.chars) >= 9.9 * POINTS_PER_MM
            assert (
                max(char["x1"] for char in page.chars if char["text"].strip())
                <= page.width - 9.9 * POINTS_PER_MM
            )
            assert min(char["size"] for char in page.chars if not char["matrix"][1]) >= 8.99


TOO_DEEP = job_text(66, 40, 5).replace('round_over = "1/4"', 'round_over = "3/4"')


@pytest.mark.parametrize(
    ("texts", "why"),
    [
        ([job_text(72, 42, 1)] * 2, "No plan: strips 2 in wide for 1 Table, 2 Table"),
        ([job_text(72, 42, 10), TOO_DEEP], "Open stop 202 in 2 Table"),
    ],
    ids=["no wood", "open stop"],
)
def test_what_is_not_ready_says_so_on_every_page_and_lists_nothing_to_cut(texts, why):
    made = plan_jobs([("job.toml", parse_job(text)) for text in texts])
    assert not made.ready
    with pdfplumber.open(io.BytesIO(batch_packet_pdf(made))) as document:
        pages = [page.extract_text() for page in document.pages]
    assert why in " ".join(pages[0].split())
    assert all("NOT FOR CUTTING" in text for text in pages)
    assert not any(words in text for text in pages for words in ("stop at", "Labels", "Boards to buy"))
