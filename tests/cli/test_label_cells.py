"""Labels of the pieces: every code is read back from the page by a general reader, whatever the label's size."""

import io

import pdfplumber
import pytest
import zxingcpp
from PIL import Image
from shaped_jobs import FOLDER, shaped_plan

from edgewright.cli import packet
from edgewright.cli.label_cells import MODULE_MM, from_words, label_cell, size_words
from edgewright.cli.packet import packet_pages, packet_pdf
from edgewright.cli.packet_data import packet_data
from edgewright.cli.shaped_packet import shaped_packet_data
from edgewright.cli.shaped_ring_rows import angle_text
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import Plan, plan
from edgewright.cutlist.shaped_plan import plan_shaped
from edgewright.errors import JobError
from edgewright.jobfile import parse_any_job, parse_job
from edgewright.starter_text import STARTER

EXAMPLES = (
    "examples/narrow_both_sides.toml",
    "examples/knots_and_screws.toml",
    "examples/shapes/round_from_square.toml",
    "examples/new_tops/card_room_table.toml",
)
DOTS_PER_INCH = 200


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
    text = " ".join(page for page in pages if "Cut along the lines" in page or "sawn edge" in page)
    flat = " ".join(text.split())
    for label in labels:
        assert label["id"] in flat
        assert label["size"] in flat
    assert flat.count("this face away") == len(labels)


LONGEST = "~120 31/64 x ~11 61/64 x ~1 23/32 in"
PLACE = "inside corner of the short leg front and the long leg front, layer 10"


def odd_labels(made):
    """The longest names, sizes, places and titles that there are."""
    job = made.job
    for title in ("閲" * 200, "🪚" * 200, "W" * 200, "x"):
        titled = job.model_copy(update={"info": job.info.model_copy(update={"title": title})})
        for name in ("N1", "100.N10b", "20.12.34"):
            yield label_cell(
                titled,
                made.code,
                name=name,
                size=LONGEST,
                face="this face away from the top",
                lines=[PLACE, "spliced at its west and its east end", from_words("W" * 80 + " lane 3")],
                out="outer, sawn edge",
                ends=("south", "north"),
            )


@pytest.mark.parametrize("odd", [False, True])
@pytest.mark.parametrize(("width", "height"), [(58, 40), (60, 45)])
def test_no_letter_runs_into_a_code_or_another_or_out_of_its_label(odd, width, height):
    made = sized(f"{width} mm", f"{height} mm")
    data = packet_data(made, "a4")
    if odd:
        data["labels"] = list(odd_labels(made))
    wanted = sorted(label["qr-text"] for label in data["labels"])
    assert sorted(code.text for code in codes_on(packet.typeset(data, "png", DOTS_PER_INCH))) == wanted
    found = 0
    with pdfplumber.open(io.BytesIO(packet.typeset(data, "pdf")[0])) as document:
        for page in document.pages:
            boxes = [
                r
                for r in page.rects
                if abs(r["width"] - width * 72 / 25.4) < 1 and abs(r["height"] - height * 72 / 25.4) < 1
            ]
            found += len(boxes)
            for box in boxes:
                lines, chars = (
                    [
                        one
                        for one in objects
                        if box["x0"] < (one["x0"] + one["x1"]) / 2 < box["x1"]
                        and box["top"] < (one["top"] + one["bottom"]) / 2 < box["bottom"]
                    ]
                    for objects in (page.lines, [char for char in page.chars if char["text"].strip()])
                )
                assert len(lines) > 100
                left, top = (min(line[key] for line in lines) for key in ("x0", "top"))
                for n, char in enumerate(chars):
                    assert char["x1"] < left or char["bottom"] < top, char["text"]
                    assert box["x0"] < char["x0"] < char["x1"] < box["x1"]
                    assert box["top"] < char["top"] < char["bottom"] < box["bottom"]
                    # letters sit on lines: half of a letter's height and width is its own
                    assert not [
                        other["text"]
                        for other in chars[:n]
                        if abs(other["x0"] + other["x1"] - char["x0"] - char["x1"])
                        < (char["width"] + other["width"]) / 2
                        and abs(other["top"] + other["bottom"] - char["top"] - char["bottom"])
                        < (char["height"] + other["height"]) / 2
                    ], char["text"]
    assert found == len(data["labels"])


@pytest.mark.parametrize(("height", "told"), [("40 mm", True), ("120 mm", False)])
def test_what_has_no_room_is_told(height, told):
    made = sized("58 mm", height)
    data = packet_data(made, "a4") | {"labels": list(odd_labels(made))}
    with pdfplumber.open(io.BytesIO(packet.typeset(data, "pdf")[0])) as document:
        pages = [page.extract_text() for page in document.pages]
    (text,) = (page for page in pages if "Cut along the lines" in page)
    assert ("What has no room on a label" in " ".join(text.split())) == told


@pytest.mark.parametrize("path", EXAMPLES[:2])
def test_left_and_right_are_those_of_the_underside_map(path):
    """The map is turned until the outer edge is ahead; its x runs from east to west."""
    made = plan_any(path)
    length, width = made.cut_plan.finished_ticks
    for box in made.cut_plan.strip_map:
        x, y = (box.x0_ticks + box.x1_ticks) / 2 - length / 2, (box.y0_ticks + box.y1_ticks) / 2 - width / 2
        label = next(label for label in labels_of(made) if label["id"] == box.piece_id)
        lies_along = box.x1_ticks - box.x0_ticks > box.y1_ticks - box.y0_ticks
        # outwards, and from there a quarter turn clockwise to the right
        out = (0, 1 if y > 0 else -1) if lies_along else (1 if x > 0 else -1, 0)
        right = out[1], -out[0]
        named = {(1, 0): "west", (-1, 0): "east", (0, 1): "north", (0, -1): "south"}
        assert label["lines"][1] == f"◀ {named[-right[0], -right[1]]} · {named[right]} ▶"
        assert label["lines"][0].startswith(f"{named[out]} side")


@pytest.mark.example
def test_words_of_size_and_origin():
    assert size_words(["72 in", "1 7/8 in", "23/32 in"]) == "72 x 1 7/8 x 23/32 in"
    assert size_words(["1830 mm", "~2 in"]) == "1830 mm x ~2 in"
    assert from_words("offcut north 1") == "from offcut north 1"
    assert from_words("W" * 80 + " lane 3") == f"from {'W' * 19}…{'W' * 13} lane 3"


def test_a_module_is_large_enough_for_a_phone():
    for path in EXAMPLES:
        for label in labels_of(plan_any(path)):
            modules = round(label["qr-size"] / MODULE_MM)
            # 21 modules and 4 more for each version, and a quiet zone of 4 on either side (ISO/IEC 18004)
            assert (modules - 8 - 21) % 4 == 0
            assert label["qr-size"] <= 49 * MODULE_MM


@pytest.mark.parametrize(
    ("key", "value", "bound"),
    [("label_width", "40 mm", "58 mm to 180 mm"), ("label_height", "9 in", "40 mm to 200 mm")],
)
def test_a_label_that_is_too_small_or_too_large_is_refused(key, value, bound):
    with pytest.raises(JobError, match=f"{key}.*{value} is out of range: {bound} is allowed"):
        parse_job(STARTER.replace("[job]\n", f'[job]\n{key} = "{value}"\n', 1))


def test_a_plan_that_is_not_ready_has_no_label():
    assert labels_of(plan(parse_job(STARTER.replace('overhang = "9 in"', 'overhang = "7 in"')))) == []


def spun(origin, ahead, other):
    """Whether ``other`` lies to the left of who stands at ``origin`` and looks to ``ahead``, seen from above."""
    (x, y), (a, b), (c, d) = origin, ahead, other
    return (a - x) * (d - y) - (b - y) * (c - x) > 0


def middle(*points):
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


@pytest.mark.parametrize("name", ["boat", "octagon", "corner_desk_polygon", "oval_four_arcs"])
def test_a_piece_with_its_outer_edge_ahead_has_its_start_on_the_left_seen_from_below(name):
    """From below left and right trade places."""
    made = shaped_plan(name)
    labels = {label["id"]: label for label in labels_of(made)}
    for piece in made.design.pieces:
        start, end = piece.joints
        inside, edge = middle(*piece.plan), middle(*piece.joints)
        assert not spun(inside, edge, start)
        assert spun(inside, edge, end)
        ends = f"◀ {angle_text(piece.start_angle)} · {angle_text(piece.end_angle)} ▶"
        assert labels[piece.id]["lines"][1] == ends
        assert labels[piece.id]["out"] == "outer edge"


def test_a_corner_block_has_its_other_outer_edge_on_the_right_seen_from_below():
    text = (FOLDER / "tapered.toml").read_text(encoding="utf-8")
    made = plan_shaped(parse_any_job(text.replace('corner_radius = "3/4"', "corner_radius = 5")))
    labels = {label["id"]: label for label in labels_of(made)}
    blocks = [piece for piece in made.design.pieces if piece.kind == "corner block"]
    assert blocks
    for piece in blocks:
        first, corner, last = piece.plan[:3]
        assert spun(middle(*piece.plan), middle(first, corner), middle(corner, last))
        assert labels[piece.id]["lines"][1] == "outer edge, too ▶"


def test_an_inside_block_has_no_arrow_and_a_skirt_is_seen_from_within():
    blocks = [label for label in labels_of(shaped_plan("l_counter")) if "inside block" in label["lines"]]
    assert blocks
    assert not [label for label in blocks if label["out"] or "▶" in "".join(label["lines"])]
    (skirt,) = labels_of(shaped_plan("round_wrap"))
    assert (skirt["face"], skirt["out"]) == ("this face inwards", "upper edge")
