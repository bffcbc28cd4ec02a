"""Whatever a person types as a name: set as text, never executed, and file names stay safe on every system."""

import csv
import io
import json
import re
import unicodedata
from xml.etree import ElementTree

import ezdxf
import pdfplumber
import pikepdf
import pytest
from batch_jobs import job_text
from cli_jobs import files_below, run
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cli.packet_data import packet_data
from edgewright.cli.printable import NOT_SHOWN, printable
from edgewright.cutlist.plan import plan
from edgewright.jobfile import parse_job
from edgewright.text_direction import keep_order

#: Texts that take the most room: every page is looked at.
SPREADING = {"long", "wide", "long words"}
TEXTS = {
    "long": "x" * 200,
    "wide": "W" * 200,
    "long words": "Long table for the reading room " * 6,
    "quotes": "'one' \"two\" `three` “four” ''' \"\"\"",
    "typst": '#panic("no") $x^2$ *b* _i_ [c] \\u{41} <a> @b // /* */ #import "x" = h',
    "typst calls": '#(1/0) #read("/etc/passwd") #pagebreak() #while true {}',
    "markup": "</text><script>alert(1)</script>]]><!-- &amp; &#x41; <?x?> <![CDATA[",
    "attribute": '" onload="alert(1)" x="',
    "paths": "../../etc/passwd C:\\x\\..\\y /abs",
    "reserved": "CON",
    "reserved with ending": "nul.txt",
    "dots": "...hidden.",
    "formula": '=HYPERLINK("http://x","y")+cmd|\' /C calc\'!A0',
    "dxf codes": "%%c %%u ^J \\P {\\fArial;x} 0 EOF",
    "braces": "{0} %s {job} ${HOME} $(id)",
    "arabic": "قاعة القراءة الطويلة",
    "hebrew and figures": "שולחן 12 בית",
    "chinese": "閲覧室の長い机",
    "emoji": "🪚 table 👩‍🔧🏳️‍🌈",
    "marks": "e" + "\u0301\u0316" * 60,
    "turned": "\u202egnol 27\u202c \u2067table",
    "no width": "a\u200bb\u200dc\ufeffd\u2060",
    "astral": "𝕿able \U000e0041 \ufffd \ue000",
}
LATIN = {"typst", "typst calls", "markup", "attribute", "paths", "formula", "braces", "quotes"}
#: Device names of Windows, and what no file name may hold there (its own documentation, from memory).
RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}


#: What turns the text behind it (UAX 9, 2).
TURNING = set("\u061c\u200f\u202a\u202b\u202d\u202e\u2066\u2067\u2068")


def quoted(text, longest):
    cut = text[:longest].strip() or "x"
    return json.dumps(cut, ensure_ascii=False).replace("\x7f", "\\u007f")


def job_of(text):
    """A job that has the text wherever one may stand, with all its strips from a board of that name."""
    info = "".join(
        f"{key} = {quoted(text, longest)}\n"
        for key, longest in (
            ("title", 200),
            ("shop", 30),
            ("drawn_by", 20),
            ("approved_by", 20),
            ("revision", 12),
            ("date", 20),
        )
    )
    job = job_text(
        60, 36, 1, boards=(("board", 96, 9, 20),), more=f"[coating]\ncolour = {quoted(text, 100)}\n"
    )
    return job.replace('title = "Table"\n', info).replace('name = "board"', f"name = {quoted(text, 80)}")


def assert_safe_names(names):
    folded = [unicodedata.normalize("NFC", name).casefold() for name in names]
    assert len(set(folded)) == len(folded)
    for name in names:
        for part in name.split("/"):
            assert re.fullmatch(r"[a-z0-9][a-z0-9_.-]{0,63}", part), name
            assert not part.endswith(".")
            assert part.split(".")[0] not in RESERVED


def assert_pdf_is_inert(content):
    """No script, no link, no file: nothing that a reader of PDF would run (ISO 32000, actions)."""
    with pikepdf.open(io.BytesIO(content)) as document:
        assert document.check_pdf_syntax() == []
        keys = {
            str(key)
            for item in document.objects
            if isinstance(item, pikepdf.Dictionary)
            for key in item.keys()  # noqa: SIM118
        }
        assert not keys & {"/JS", "/JavaScript", "/Launch", "/OpenAction", "/AA", "/URI", "/EmbeddedFiles"}


def assert_on_the_page(content, pages=None):
    """No letter stands outside the margins, on so many of the first pages; gives the text of the first."""
    with pdfplumber.open(io.BytesIO(content)) as document:
        for page in document.pages[:pages]:
            seen = [char for char in page.chars if char["text"].strip("\u200b\u200e ")]
            assert min(char["x0"] for char in seen) >= 28
            assert max(char["x1"] for char in seen) <= page.width - 28, page.page_number
        return document.pages[0].extract_text()


def assert_csv_reads_back(content):
    rows = list(csv.reader(io.StringIO(content.decode("utf-8"), newline=""), strict=True))
    assert len({len(row) for row in rows}) == 1
    cells = [cell for row in rows for cell in row]
    assert not [cell for cell in cells if re.match(r"\s*[=@]|[+-](?!\d)", cell)]
    return cells


def assert_dxf_is_plain(content):
    document = ezdxf.read(io.StringIO(content.decode("ascii")))
    for note in document.modelspace().query("TEXT"):
        assert not re.search(r"%%|\^|\\", note.dxf.text)
    assert not document.audit().errors


@pytest.mark.parametrize("name", TEXTS)
def test_any_text_is_written_as_text_and_nothing_else(tmp_path, name):
    text = TEXTS[name]
    path = tmp_path / "job.toml"
    path.write_text(job_of(text), encoding="utf-8")
    result = run("plan", path, "--out", tmp_path / "out", "--no-solid")
    assert (result.exit_code, result.stderr) == (0, "")
    assert not TURNING & set(result.stdout)
    files = files_below(tmp_path / "out")
    assert_safe_names(files)
    told = json.loads(files["plan.json"])
    assert told["job"]["title"] == text[:200].strip()
    for file, content in files.items():
        if file.endswith(".csv"):
            assert_csv_reads_back(content)
        elif file.endswith(".dxf"):
            assert_dxf_is_plain(content)
        elif file.endswith(".pdf"):
            assert_pdf_is_inert(content)
            first = re.sub(r"[\s\u200b]", "", assert_on_the_page(content, None if name in SPREADING else 1))
            assert name not in LATIN or re.sub(r"\s", "", text) in first
    assert any(text[:80].strip() in cell for cell in assert_csv_reads_back(files["cuts.csv"]))


def svgs(item):
    if isinstance(item, dict):
        if isinstance(item.get("svg"), str):
            yield item["svg"]
        item = list(item.values())
    if isinstance(item, list):
        for one in item:
            yield from svgs(one)


@pytest.mark.parametrize("name", TEXTS)
def test_drawings_hold_nothing_but_shapes_and_text(name):
    drawn = list(svgs(packet_data(plan(parse_job(job_of(TEXTS[name]))), "a4")))
    assert drawn
    for svg in drawn:
        for element in ElementTree.fromstring(svg).iter():
            assert element.tag.rpartition("}")[2] in {
                *(
                    "svg",
                    "title",
                    "desc",
                    "g",
                    "path",
                    "circle",
                    "text",
                    "line",
                    "rect",
                    "polyline",
                    "polygon",
                    "tspan",
                )
            }
            assert not [key for key in element.attrib if key.startswith("on") or "href" in key]


def test_folders_of_a_batch_are_safe_and_differ(tmp_path):
    """All texts as titles of one batch, some twice in other letters."""
    from edgewright.cli.batch_files import folder_name
    from edgewright.cutlist.batch.batch import plan_jobs

    titles = [*TEXTS.values(), "nul.txt", "NUL.TXT", "Con", "con"]
    batch = plan_jobs(
        [
            ("job.toml", parse_job(job_text(60, 36, 1).replace('"Table"', quoted(title, 200))))
            for title in titles
        ]
    )
    assert_safe_names([folder_name(job) for job in batch.jobs])


def test_a_batch_of_odd_titles_is_written(tmp_path):
    paths = []
    for n, name in enumerate(("markup", "turned", "formula")):
        paths.append(tmp_path / f"{n}.toml")
        text = job_text(60, 36, 9).replace('"Table"', quoted(TEXTS[name], 200))
        paths[-1].write_text(text, encoding="utf-8")
    result = run("batch", *paths, "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    files = files_below(tmp_path / "out")
    assert_safe_names(files)
    assert f"'{TEXTS['formula']}" in assert_csv_reads_back(files["strips.csv"])
    assert_pdf_is_inert(files["packet.pdf"])
    assert "<script>alert(1)" in assert_on_the_page(files["packet.pdf"])


@pytest.mark.property
@settings(max_examples=5, deadline=None, derandomize=True)
@given(text=st.text(st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"]), min_size=1, max_size=200))
def test_random_text_is_planned_and_set(text):
    from edgewright.cli.packet import packet_pdf

    assert_on_the_page(packet_pdf(plan(parse_job(job_of(text)))))


@pytest.mark.property
@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.text(max_size=60))
def test_figures_behind_any_text_keep_their_order(text):
    """No sign that turns text is left, and a run from right to left ends in a mark (UAX 9)."""
    kept = keep_order(f"{text}, 2 1/2 in")
    assert not set(kept) & TURNING
    backwards = [n for n, char in enumerate(kept) if unicodedata.bidirectional(char) in ("R", "AL", "AN")]
    if backwards:
        assert "\u200e" in kept[: backwards[0]]
        assert "\u200e" in kept[backwards[-1] :]
    assert kept.replace("\u200e", "").endswith(", 2 1/2 in")


@pytest.mark.example
def test_marks_pile_up_to_three():
    assert printable("e" + "\u0316" * 9) == "e" + "\u0316" * 3 + NOT_SHOWN
    assert keep_order("קר אב 12") == "\u200eקר אב\u200e 12"
