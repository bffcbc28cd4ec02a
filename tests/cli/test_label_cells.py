"""Labels of the pieces: every code is read back from the page by a general reader, whatever the label's size."""

import io

import pdfplumber
import pytest
import zxingcpp
from PIL import Image

from edgewright.cli.label_cells import MODULE_MM
from edgewright.cli.packet import packet_pages, packet_pdf
from edgewright.cli.packet_data import packet_data
from edgewright.cli.shaped_packet import shaped_packet_data
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import Plan, plan
from edgewright.errors import JobError
from edgewright.jobfile import parse_job
from edgewright.starter_text import STARTER

EXAMPLES = (
    "examples/narrow_both_sides.toml",
    "examples/shapes/round_from_square.toml",
    "examples/new_tops/card_room_table.toml",
)
DOTS_PER_INCH = 150


def sized(width, height):
    keys = f'label_width = "{width}"\nlabel_height = "{height}"\n'
    return plan(parse_job(STARTER.replace("[job]\n", f"[job]\n{keys}", 1)))


def labels_of(made):
    data = packet_data(made, "a4") if isinstance(made, Plan) else shaped_packet_data(made, "a4")
    return data["labels"]


def codes_on(pages):
    return [code for page in pages for code in zxingcpp.read_barcodes(Image.open(io.BytesIO(page)))]


@pytest.mark.reference
@pytest.mark.parametrize("path", EXAMPLES)
def test_every_code_on_the_page_is_read_back(path):
    """PyPI zxing-cpp, a reader of ISO/IEC 18004 that shares nothing with the writer."""
    made = plan_any(path)
    wanted = [label["qr-text"] for label in labels_of(made)]
    assert wanted
    codes = codes_on(packet_pages(made, ppi=DOTS_PER_INCH))
    assert sorted(code.text for code in codes) == sorted(wanted)
    for code in codes:
        assert code.text.splitlines()[1] == f"plan {made.code}"
        assert str(code.format).rsplit(".", 1)[-1].replace(" ", "").upper().startswith("QRCODE")


@pytest.mark.parametrize(
    ("width", "height", "paper"),
    [("58 mm", "40 mm", "us-letter"), ("180 mm", "200 mm", "a4"), ("3 in", "2 in", "us-letter")],
)
def test_a_label_of_any_allowed_size_has_what_it_must(width, height, paper):
    made = sized(width, height)
    labels = labels_of(made)
    assert len(codes_on(packet_pages(made, paper, ppi=DOTS_PER_INCH))) == len(labels)
    with pdfplumber.open(io.BytesIO(packet_pdf(made, paper))) as document:
        pages = [page.extract_text() for page in document.pages]
    text = " ".join(page for page in pages if "Cut along the lines" in page or "outer edge" in page)
    flat = " ".join(text.split())
    for label in labels:
        assert label["id"] in flat
        assert label["size"] in flat
    assert flat.count("this face away") == len(labels)


def test_no_letter_runs_into_a_code_or_out_of_its_label():
    with pdfplumber.open(io.BytesIO(packet_pdf(sized("58 mm", "40 mm")))) as document:
        page = document.pages[-1]
        boxes = [r for r in page.rects if abs(r["width"] - 58 * 72 / 25.4) < 1 and r["height"] > 100]
        assert len(boxes) == len(labels_of(sized("58 mm", "40 mm")))
        for box in boxes:
            inside = page.crop((box["x0"], box["top"], box["x1"], box["bottom"]), strict=False)
            assert len(inside.lines) > 100
            left, top = (min(line[key] for line in inside.lines) for key in ("x0", "top"))
            for char in inside.chars:
                clear = char["x1"] < left or char["bottom"] < top
                assert clear, char["text"]
                assert box["top"] <= char["top"] < char["bottom"] <= box["bottom"]


def test_a_module_is_large_enough_for_a_phone():
    for path in EXAMPLES:
        for label in labels_of(plan_any(path)):
            modules = round(label["qr-size"] / MODULE_MM)
            # 21 modules and 4 more for each version, and a quiet zone of 4 on either side (ISO/IEC 18004)
            assert (modules - 8 - 21) % 4 == 0
            assert label["qr-size"] < 24


@pytest.mark.parametrize(
    ("key", "value", "bound"),
    [("label_width", "40 mm", "58 mm to 180 mm"), ("label_height", "9 in", "40 mm to 200 mm")],
)
def test_a_label_that_is_too_small_or_too_large_is_refused(key, value, bound):
    with pytest.raises(JobError, match=f"{key}.*{value} is out of range: {bound} is allowed"):
        parse_job(STARTER.replace("[job]\n", f'[job]\n{key} = "{value}"\n', 1))


def test_a_plan_that_is_not_ready_has_no_label():
    assert labels_of(plan(parse_job(STARTER.replace('overhang = "9 in"', 'overhang = "7 in"')))) == []
