"""The packet: read by independent readers, true to size, marked where one may not cut, whatever a title holds."""

import io
import os
import subprocess
import sys

import pdfplumber
import pikepdf
import pytest
from fontTools.ttLib import TTFont

from edgewright.cli import packet
from edgewright.cli.packet import packet_pdf, paper_named
from edgewright.cli.printable import NOT_SHOWN, printable
from edgewright.cutlist.plan import plan
from edgewright.errors import InputError
from edgewright.jobfile import parse_job
from edgewright.starter_text import STARTER

POINTS_PER_MM = 72 / 25.4
#: 42 to 39 in with a small bottom round-over: the offcuts are too short.
IMPOSSIBLE = (
    STARTER.replace('north = "6 in"', 'north = "3 in"')
    .replace('bottom_round_over = "1/4 in"', 'bottom_round_over = "1/8 in"')
    .replace('corner_radius = "2 in"', 'corner_radius = "0 in"')
)
STOPPED = STARTER.replace('overhang = "9 in"', 'overhang = "7 in"')
SPLICED = STARTER.replace("# proud", "proud")
METRIC = """
[job]
title = "Werkbank"
units = "mm"
[top]
length = 1830
width = 1060
thickness = 18
material = "mdf"
[trim]
south = 150
east = 60
[edge]
layers = 1
corners = "mitre"
"""
JOBS = {"ready": STARTER, "spliced": SPLICED, "metric": METRIC, "impossible": IMPOSSIBLE, "stopped": STOPPED}


def made(text, paper="a4"):
    return packet_pdf(plan(parse_job(text)), paper)


@pytest.fixture(scope="module")
def packets():
    return {name: made(text) for name, text in JOBS.items()}


@pytest.fixture(scope="module")
def texts(packets):
    """Return the text of each page of each packet."""
    found = {}
    for name, content in packets.items():
        with pdfplumber.open(io.BytesIO(content)) as document:
            found[name] = [page.extract_text() for page in document.pages]
    return found


def letter_size(char):
    """Height of a character's own box, points, upright or turned by a quarter."""
    turned = abs(char["matrix"][1]) > abs(char["matrix"][0])
    return char["x1"] - char["x0"] if turned else char["bottom"] - char["top"]


@pytest.mark.reference
@pytest.mark.parametrize("name", JOBS)
def test_syntax_is_sound(packets, name):
    """The library behind the usual command-line checker of PDF syntax (ISO 32000)."""
    with pikepdf.open(io.BytesIO(packets[name])) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.parametrize("name", JOBS)
def test_nothing_lies_outside_the_page_and_lettering_is_large_enough(packets, name):
    with pdfplumber.open(io.BytesIO(packets[name])) as document:
        for page in document.pages:
            margin = 9.9 * POINTS_PER_MM
            for char in page.chars:
                assert char["x0"] >= margin
                # a space at the end of a line leaves no ink
                assert char["x1"] <= page.width - margin or char["text"] == " "
                assert 0 < char["top"] < char["bottom"] < page.height
                assert letter_size(char) >= 8.99
            for shape in [*page.lines, *page.rects, *page.curves]:
                assert shape["x0"] >= margin - 1
                assert shape["x1"] <= page.width - margin + 1


@pytest.mark.parametrize("name", JOBS)
def test_code_and_page_number_stand_on_every_page(texts, name):
    code = plan(parse_job(JOBS[name])).code
    for number, text in enumerate(texts[name], 1):
        assert code in text
        assert f"{number} of {len(texts[name])}" in text


@pytest.mark.parametrize("name", JOBS)
def test_a_plan_that_is_not_ready_is_marked_and_has_nothing_to_cut_by(texts, name):
    ready = name not in ("impossible", "stopped")
    assert plan(parse_job(JOBS[name])).ready == ready
    assert all(("NOT FOR CUTTING" in text) != ready for text in texts[name])
    whole = "\n".join(texts[name])
    for words in ("Cut list", "guide at", "Labels", "Crosscut to length"):
        assert (words in whole) == ready


@pytest.mark.reference
@pytest.mark.parametrize("wide", [False, True])
def test_the_title_block_carries_what_the_job_gives(wide):
    """The fields of ISO 7200 (from memory): owner, creator, approval, revision, date, document type, sheet number."""
    given = {
        "shop": "North Yard Workshop for Tables",
        "drawn_by": "a finisher",
        "approved_by": "the finisher",
        "revision": "C",
        "date": "Monday, 2 May, noon",
    }
    if wide:
        given = dict(zip(given, ("N" * 30, "N" * 20, "N" * 20, "N" * 12, "N" * 20), strict=True))
    keys = "".join(f'{key} = "{text}"\n' for key, text in given.items())
    with pdfplumber.open(io.BytesIO(made(STARTER.replace("[job]\n", f"[job]\n{keys}", 1)))) as document:
        for page in document.pages:
            block = page.crop((0, page.height - 24 * POINTS_PER_MM, page.width, page.height))
            found = block.extract_text().replace("\n", " ")
            if wide:
                assert found.count("N") == sum(map(len, given.values()))
            else:
                assert {word for text in given.values() for word in text.split()} <= set(found.split())
            assert max(char["bottom"] for char in block.chars) < page.height - 5 * POINTS_PER_MM
            assert max(char["x1"] for char in block.chars) < page.width - 9.9 * POINTS_PER_MM


def test_what_a_job_does_not_give_stays_blank_to_be_written_in(packets):
    with pdfplumber.open(io.BytesIO(packets["ready"])) as document:
        page = document.pages[0]
        block = page.crop((0, page.height - 24 * POINTS_PER_MM, page.width, page.height))
        lines = block.extract_text().splitlines()
    assert lines[0].split() == [
        "owner",
        "document",
        "drawn",
        "by",
        "approved",
        "by",
        "revision",
        "date",
        "sheet",
    ]
    assert lines[1].startswith("Edgewright plan summary 1 of")


def test_fonts_are_embedded(packets):
    with pikepdf.open(io.BytesIO(packets["ready"])) as document:
        fonts = [
            obj for obj in document.objects
            if isinstance(obj, pikepdf.Dictionary) and obj.get("/Type") == "/FontDescriptor"
        ]  # fmt: skip
        assert fonts
        assert all("/FontFile2" in font or "/FontFile3" in font for font in fonts)


def test_the_section_of_the_edge_is_true_to_size(packets):
    """T = 2 x 23/32 in, within 0.1 mm on paper."""
    thickness = 25.4 * (0.719375 + 0.719375)
    heights = []
    with pdfplumber.open(io.BytesIO(packets["ready"])) as document:
        for page in document.pages:
            if "full size" in page.extract_text():
                heights += [(c["bottom"] - c["top"]) / POINTS_PER_MM for c in page.curves]
    assert min(abs(height - thickness) for height in heights) < 0.1


@pytest.mark.parametrize(("paper", "size"), [("a4", (210, 297)), ("us-letter", (215.9, 279.4))])
def test_paper(paper, size):
    with pdfplumber.open(io.BytesIO(made(STARTER, paper))) as document:
        page = document.pages[0]
        assert page.width / POINTS_PER_MM == pytest.approx(size[0], abs=0.01)
        assert page.height / POINTS_PER_MM == pytest.approx(size[1], abs=0.01)


def test_unknown_paper_is_refused_with_what_is_allowed():
    assert paper_named(" Letter ") == "us-letter"
    with pytest.raises(InputError, match="paper 'a5' is not known: it must be one of a4, letter"):
        paper_named("a5")


@pytest.mark.parametrize(
    "title",
    [
        "x" * 200,
        "A very long title with many words " * 5,
        'quotes " and \' and `code` $math$ #import "x" *bold* _it_ <label> @ref // no /* comment */ \\ {} []',
        "</text><svg onload='x'>&amp;&#65;]]>",
        "../../etc/CON:nul.txt?*|",
        "Стол для чтения · Τραπέζι · Tavolo è · Ŵ",
        "閲覧室の机 🪚",
        "قاعة القراءة",
    ],
)
def test_any_title_is_set_as_text(title):
    quoted = title.replace("\\", "\\\\").replace('"', '\\"')[:199]
    text = STARTER.replace('title = "Reading-room table"', f'title = "{quoted}"')
    with pdfplumber.open(io.BytesIO(made(text))) as document:
        for page in (document.pages[0], document.pages[-1]):
            assert max(char["x1"] for char in page.chars) <= page.width - 9.9 * POINTS_PER_MM
        first = document.pages[0].extract_text()
    if title.startswith("quotes"):
        assert '#import "x"' in first.replace("\n", " ")
    if title.startswith("閲覧室"):
        assert NOT_SHOWN in first


def test_letters_the_font_lacks_become_squares():
    assert printable("Tisch \n 机 é") == f"Tisch {NOT_SHOWN} é"


@pytest.mark.reference
def test_coverage_list_is_what_the_font_files_hold():
    """Read by a general font library."""
    fonts = packet._HERE / "fonts"
    faces = [set(TTFont(fonts / f"DejaVuSansCondensed{style}.ttf").getBestCmap()) for style in ("", "-Bold")]
    both = {code for code in faces[0] & faces[1] if code >= 0x20}
    listed = set()
    for line in (fonts / "coverage.txt").read_text(encoding="ascii").splitlines()[1:]:
        first, _, last = line.partition("-")
        listed |= set(range(int(first, 16), int(last or first, 16) + 1))
    assert listed == both


@pytest.mark.property
def test_same_bytes_in_any_surroundings(tmp_path):
    job = tmp_path / "job.toml"
    job.write_text(STARTER, encoding="utf-8")
    code = (
        "import hashlib, sys\n"
        "from edgewright.cli.packet import packet_pdf\n"
        "from edgewright.cutlist.plan import plan\n"
        "print(hashlib.sha256(packet_pdf(plan(sys.argv[1]))).hexdigest())\n"
    )
    printed = set()
    for seed, zone, folder in (("0", "UTC", "/"), ("7", "Asia/Tokyo", tmp_path)):
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C"}
        words = [sys.executable, "-c", code, str(job)]
        printed.add(subprocess.run(words, cwd=folder, env=env, check=True, capture_output=True).stdout)
    assert len(printed) == 1


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", ["ready", "metric"])
def test_no_page_is_nearly_empty(name, paper):
    with pdfplumber.open(io.BytesIO(made(JOBS[name], paper))) as document:
        for page in document.pages:
            lines = page.extract_text().splitlines()
            assert len(lines) >= 10 or page.curves, f"page {page.page_number}: {lines}"


def overlapping(page):
    """Pairs of upright words on a page that lie on one another by more than half a millimetre both ways."""
    words = page.filter(lambda o: o.get("upright", True)).extract_words(use_text_flow=True)
    least = POINTS_PER_MM / 2
    return [
        (a["text"], b["text"])
        for n, a in enumerate(words)
        for b in words[:n]
        if min(a["x1"], b["x1"]) - max(a["x0"], b["x0"]) > least
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > 0.35 * min(a["height"], b["height"])
    ]


@pytest.mark.parametrize("name", JOBS)
def test_no_word_lies_on_another(packets, name):
    with pdfplumber.open(io.BytesIO(packets[name])) as document:
        for page in document.pages:
            assert overlapping(page) == []


@pytest.mark.parametrize(("name", "position"), [("ready", "40"), ("metric", "1010")])
def test_the_position_of_the_first_keep_line_is_read_from_two_metres(packets, name, position):
    """Measured on the print: ink of a figure is at least 7 mm high, 10 minutes of arc at 2 m are 5.8 (computed)."""
    cut = plan(parse_job(JOBS[name])).cut_plan.cuts[0]
    assert (cut.keep_ticks / 8128 if name == "ready" else cut.keep_ticks / 320) == float(position)
    dots = 200
    with pdfplumber.open(io.BytesIO(packets[name])) as document:
        page = next(page for page in document.pages if "CUT SHEET: FACE DOWN" in page.extract_text())
        words = page.extract_words(return_chars=True)
        large = max((word for word in words if word["text"] == position), key=lambda word: word["height"])
        ink = page.to_image(resolution=dots).original.convert("L")
    for char in large["chars"]:
        box = [round(char[side] * dots / 72) for side in ("x0", "top", "x1", "bottom")]
        dark = ink.crop(box).point(lambda grey: 255 * (grey < 128)).getbbox()
        assert (dark[3] - dark[1]) * 25.4 / dots >= 7.0


@pytest.mark.parametrize("name", ["ready", "spliced", "metric"])
def test_each_sheet_starts_on_its_own_page_and_says_what_it_is(texts, name):
    first = [next((line for line in text.splitlines()[1:] if line.isupper()), "") for text in texts[name]]
    for words in ("CUT SHEET: FACE DOWN", "TEST CUT", "UNDERSIDE", "STRIPS: CROSSCUTS"):
        assert any(line.startswith(words) for line in first)
    for document in ("cut sheet", "cut list", "strip map", "crosscuts", "quantities", "cautions", "labels"):
        # the title block names it below its caption
        assert any(document in text.splitlines()[-1] for text in texts[name])
