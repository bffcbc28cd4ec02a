"""The packet of a shaped top: sound, legible, complete, and nothing to cut by while a stop is open."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import cache

import pdfplumber
import pikepdf
import pytest
from shaped_jobs import SHAPES, SHARP, STOPPED, shaped_plan

from edgewright.cli.packet import packet_pdf
from edgewright.cli.shaped_packet import shaped_packet_data

MM = 72 / 25.4
PAPERS = ("a4", "us-letter")
#: Saw cuts, an outline with cut-outs, tips, a template, a skirt, and one that is not ready.
PACKETS = [
    ("boat", "a4"), ("l_counter", "us-letter"), (SHARP, "a4"), ("ellipse", "us-letter"), ("round_wrap", "a4"),
    (STOPPED, "a4"), (STOPPED, "us-letter"),
]  # fmt: skip
EVERY = pytest.mark.parametrize(
    ("name", "paper"), PACKETS, ids=lambda word: word.strip().split("\n")[-1][:20]
)


@dataclass(frozen=True)
class Page:
    """What an independent reader finds on a page: its text, sizes of lettering, extents of all that is drawn (mm)."""

    text: str
    smallest: float
    left: float
    right: float
    top: float
    bottom: float
    size: tuple[float, float]
    filled: float


@cache
def packet(name: str, paper: str) -> bytes:
    return packet_pdf(shaped_plan(name), paper)


@cache
def pages(name: str, paper: str) -> tuple[Page, ...]:
    with pdfplumber.open(io.BytesIO(packet(name, paper))) as document:
        return tuple(_read(page) for page in document.pages)


def _read(page) -> Page:
    chars, drawn = page.chars, [*page.lines, *page.rects, *page.curves]
    return Page(
        text=page.extract_text(),
        smallest=min(c["bottom"] - c["top"] for c in chars),
        left=min(s["x0"] for s in (*chars, *drawn)) / MM,
        right=max(s["x1"] for s in (*chars, *drawn)) / MM,
        top=min(c["top"] for c in chars) / MM,
        bottom=max(c["bottom"] for c in chars) / MM,
        size=(page.width / MM, page.height / MM),
        filled=max(c["bottom"] for c in chars if c["bottom"] < page.height - 20 * MM) / page.height,
    )


@pytest.mark.reference
@EVERY
def test_syntax_is_sound(name: str, paper: str):
    with pikepdf.open(io.BytesIO(packet(name, paper))) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.example
@EVERY
def test_nothing_lies_outside_the_page_and_lettering_is_large_enough(name: str, paper: str):
    for page in pages(name, paper):
        assert page.smallest >= 8.99
        assert page.left >= 9.0
        assert page.right <= page.size[0] - 9.0
        assert 0 < page.top < page.bottom < page.size[1]


@pytest.mark.example
@EVERY
def test_code_and_page_number_stand_on_every_page_and_none_is_nearly_empty(name: str, paper: str):
    found = pages(name, paper)
    for number, page in enumerate(found, 1):
        assert shaped_plan(name).code in page.text
        assert f"{number} of {len(found)}" in page.text
        assert page.filled > 0.2


@pytest.mark.example
@pytest.mark.parametrize(("name", "paper"), [one for one in PACKETS if one[0] != STOPPED])
def test_every_piece_cut_and_cut_out_of_the_plan_appears(name: str, paper: str):
    plan = shaped_plan(name)
    text = "\n".join(page.text for page in pages(name, paper))
    words = text.replace(",", " ").split()
    for piece in plan.design.pieces:
        # in the list of pieces, in the drawing and on its label
        assert words.count(piece.id) >= 3
    for number, sawn in enumerate(plan.design.trims.cuts, 1):
        assert f"{number} {sawn.cut.name}" in text
    for hole in plan.design.cut_outs:
        assert text.count(hole.name) >= 3


@pytest.mark.example
@pytest.mark.parametrize("paper", PAPERS)
def test_a_plan_that_is_not_ready_has_nothing_to_cut_by(paper: str):
    assert not shaped_plan(STOPPED).ready
    found = [page.text for page in pages(STOPPED, paper)]
    assert all("NOT FOR CUTTING" in text for text in found)
    whole = "\n".join(found)
    for words in (
        "Saw cuts",
        "keep line",
        "trammel",
        "guide at",
        "Labels",
        "CUT SHEET",
        "UNDERSIDE",
        "begins",
        "Blanks",
        "Stations",
        "Router passes",
    ):
        assert words not in whole
    assert "What the measurements say" in whole
    ready = "\n".join(page.text for page in pages("boat", "a4"))
    assert "NOT FOR CUTTING" not in ready
    for words in (
        "Saw cuts",
        "keep line",
        "Labels",
        "CUT SHEET",
        "TEST CUT",
        "UNDERSIDE",
        "begins",
        "Blanks",
    ):
        assert words in ready


@pytest.mark.property
def test_same_plan_gives_the_same_bytes():
    assert packet_pdf(shaped_plan("l_counter"), "us-letter") == packet("l_counter", "us-letter")


@pytest.mark.example
@pytest.mark.parametrize("name", SHAPES[::2])
def test_no_cell_of_a_table_is_squeezed_or_has_a_figure_in_powers_of_ten(name: str):
    data = shaped_packet_data(shaped_plan(name), "a4")
    for chapter in data["chapters"]:
        for table in chapter["tables"]:
            assert len(table["header"]) == len(table["widths"])
            for row in table["rows"]:
                assert len(row) == len(table["header"])
                assert not any("e-" in cell or "e+" in cell or "-0.0" in cell for cell in row)


@pytest.mark.example
def test_a_live_edge_is_one_row():
    data = shaped_packet_data(shaped_plan("live_edge"), "a4")
    (edges,) = (t for c in data["chapters"] for t in c["tables"] if t["title"].startswith("Edges"))
    assert sorted(row[0] for row in edges["rows"]) == ["east end", "north", "south", "west end"]
