"""The customer's page: one page for any job, read by an independent reader, without a word of the shop."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path

import pdfplumber
import pikepdf
import pytest
from cli_jobs import IMPOSSIBLE, NO_PROFILE, READY

from edgewright import trade
from edgewright.cli.customer_page import customer_data
from edgewright.cli.packet import customer_pdf, packet_pdf
from edgewright.cutlist.any_plan import plan_any
from edgewright.jobfile import parse_any_job

MM = 72 / 25.4
EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
JOBS = sorted(
    path.relative_to(EXAMPLES).with_suffix("").as_posix()
    for folder in (".", "shapes", "new_tops")
    for path in (EXAMPLES / folder).glob("*.toml")
)
#: All that makes the texts long: title, customer, colour, corners, walls, chairs that do not fit, an apron.
LONG = """
[job]
title = "{title}"
customer = "The reading circle of the old mill, Upper Street, second one"
[top]
length = "72 in"
width = "42 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "2 1/64 in"
south = "2 1/64 in"
east = "2 1/64 in"
west = "2 1/64 in"
[edge]
corner_radius = {{south_west = "2 in", south_east = "1 1/64 in", north_east = "3/4 in", north_west = "1 1/2 in"}}
{edge}
[base]
overhang = {{north = "8 in", east = "9 in", south = "6 in", west = "9 in"}}
apron_depth = "3 in"
[seating]
table_height = "29 in"
arm_height = "27 in"
seat_height = "18 in"
seats = 99
wall = {{north = "21 1/64 in", east = "31 1/64 in", south = "41 1/64 in", west = "51 1/64 in"}}
[coating]
colour = "{colour}"
"""
TITLES = {
    "words": ("a long title of many words " * 8)[:200],
    "one word": "W" * 200,
    "markup": ('#set text(red) $x$ <b>"\\\\" & ' * 8)[:180],
    "script": "\N{CJK UNIFIED IDEOGRAPH-4E00}" * 200,
}


def long_job(title: str, edge: str = "") -> str:
    return LONG.format(
        title=TITLES[title].replace('"', "'").replace("\\", ""), colour="green " * 16, edge=edge
    )


@cache
def planned(text: str):
    return plan_any(parse_any_job(text)) if "\n" in text else plan_any(str(EXAMPLES / f"{text}.toml"))


@cache
def page(text: str, paper: str = "a4"):
    """Text, sizes of lettering, extents (mm) and outlines of the one page."""
    with pdfplumber.open(io.BytesIO(customer_pdf(planned(text), paper))) as document:
        (only,) = document.pages
        drawn = [*only.lines, *only.rects, *only.curves]
        return {
            "text": only.extract_text(),
            "flat": " ".join(only.extract_text().split()),
            "chars": only.chars,
            "words": only.extract_words(),
            "box": (
                min(s["x0"] for s in (*only.chars, *drawn)) / MM,
                min(s["top"] for s in (*only.chars, *drawn)) / MM,
                max(s["x1"] for s in (*only.chars, *drawn)) / MM,
                max(s["bottom"] for s in (*only.chars, *drawn)) / MM,
            ),
            "size": (only.width / MM, only.height / MM),
            "boxes": [
                tuple(s[key] / MM for key in ("x0", "top", "x1", "bottom"))
                for s in (*only.rects, *only.curves)
            ],
        }


def holds(found) -> None:
    """One page (`page` takes no other), nothing off it, nothing on its title block, the signature last of all."""
    x0, y0, x1, y1 = found["box"]
    wide, high = found["size"]
    assert x0 > 10
    assert x1 < wide - 8
    assert y0 > 0
    assert y1 < high - 4
    signed = next(word for word in found["words"] if word["text"] == "shop" and word["x0"] / MM > 90)
    owner = next(word for word in found["words"] if word["text"] == "owner")
    assert signed["bottom"] < owner["top"] - 1
    # header and title block are the shop's; all between is for the customer
    body = [c for c in found["chars"] if 20 * MM < c["top"] < owner["top"] - 2 * MM]
    assert min(c["size"] for c in body if c["text"].strip()) >= 9.99


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("title", TITLES)
@pytest.mark.parametrize("edge", ["", 'top_round_over = "1 in"'], ids=["ready", "refused"])
def test_it_is_one_page_however_long_its_texts(title, edge, paper):
    found = page(long_job(title, edge), paper)
    holds(found)
    assert "99 were" in found["flat"]
    assert ("NOT FOR CUTTING" in found["flat"]) == (not planned(long_job(title, edge)).ready)


@pytest.mark.parametrize("job", JOBS)
def test_every_example_has_it(job):
    for paper in ("a4", "us-letter"):
        holds(page(job, paper))


@pytest.mark.parametrize("job", JOBS)
def test_it_speaks_no_word_of_the_shop(job):
    text = page(job)["flat"].lower()
    for word in (
        "kerf",
        "tolerance",
        "datum",
        "offcut",
        "bearing",
        "glue seam",
        "splice",
        "stick",
        "0 1/320",
    ):
        assert word not in text


def test_both_tops_are_drawn_at_one_scale_on_the_page():
    """72 x 42 in trimmed to 72 x 36 in: measured in the PDF, both by the scale that is written below them."""
    found = page(READY)
    scale = float(re.search(r"Scale 1:(\d+)", found["flat"])[1])
    length, old, new = (inches * 25.4 / scale for inches in (72, 42, 36))
    sizes = [(x1 - x0, y1 - y0) for x0, y0, x1, y1 in found["boxes"]]
    before = [size for size in sizes if size == pytest.approx((length, old), abs=0.05)]
    after = [size for size in sizes if size == pytest.approx((length, new), abs=0.05)]
    # before, its dashed ghost after, and the finished top
    assert (len(before), len(after)) == (2, 1)


def test_the_section_is_full_size():
    found = page(READY)
    assert "in section, full size" in found["flat"]
    thick = 2 * 23 / 32 * 25.4
    assert any(y1 - y0 == pytest.approx(thick, abs=0.1) for _, y0, _, y1 in found["boxes"])


@pytest.mark.example
def test_what_the_page_says_of_a_table():
    """Edge 1 7/16 in at 29 in: arms of 27 in have 9/16 in; apron to 3 23/32 in: 29 - 3 23/32 - 18 = 7 9/32 in."""
    job = READY + (
        '[base]\noverhang = "9 in"\napron_depth = "3 in"\n[seating]\ntable_height = "29 in"\narm_height = "27 in"\n'
        'seat_height = "18 in"\nwall = {north = "32 in"}\n'
    )
    said = page(job)["flat"]
    for words in (
        "Before: 72 x 42 in",
        "After: 72 x 36 in",
        "72 x 36 in, edge 1 7/16 in thick",
        "6 in off the north side",
        "7 9/32 in from the seat to the lowest part",
    ):
        assert words in said, words
    data = customer_data(planned(job), "a4")
    assert dict(data["room"]) == {
        "Chair arms under the edge": "arms 27 in high go under the edge, 9/16 in of air, but not under the frame of "
        "the base",
        "Knees under the table": "7 9/32 in from the seat to the lowest part (7 in is the least that is usual)",
        "From the edge to a wall": "north 38 in (before 32 in); behind chairs 36 in is the least that is usual",
    }
    assert data["stays"].startswith(
        "The base stays where it is; it then stands 3 in north of the middle of the finished top."
    )
    assert "in time a joint may show through the finish as a hairline" in data["joints"]
    assert data["care"].startswith(
        "Light use 2 to 3 days after the last of 2 coats of resin, full use after 5 to 7 days;"
    )
    assert dict(data["sizes"]) == {
        "Finished size": "72 x 36 in, edge 1 7/16 in thick",
        "Edge": "rounded to 3/8 in above, rounded to 1/4 in below",
        "Corners": "rounded to 2 in",
        "Comes off": "6 in off the north side",
        "Places": "6 in comfort (30 in of edge each), 8 close together (24 in each); before 6 and 8. Table legs are "
        "not counted.",
    }
    assert "not measured" not in said
    assert page(READY)["text"].count("not measured:") == 3


@pytest.mark.example
def test_arms_that_do_not_go_under_are_said_to():
    job = READY + '[seating]\ntable_height = "28 in"\narm_height = "27 in"\n'
    assert "arms 27 in high do not go under the edge" in page(job)["flat"]
    close = READY + '[seating]\ntable_height = "28 3/4 in"\narm_height = "27 in"\n'
    assert "5/16 in of air (1/2 in is usual)" in page(close)["flat"]


def test_the_days_are_those_of_the_trade():
    assert (trade.LIGHT_USE_AFTER.value, trade.LIGHT_USE_AFTER.unit) == ((48, 72), "h")
    assert (trade.FULL_CURE_AFTER.value, trade.FULL_CURE_AFTER.unit) == ((5, 7), "days")
    assert "Light use 2 to 3 days after the last of 2 coats" in page(READY)["flat"]
    assert trade.LIGHT_USE_AFTER.origin == trade.COMMON


@pytest.mark.parametrize("text", [IMPOSSIBLE, NO_PROFILE], ids=["impossible", "no profile"])
def test_an_offer_that_is_not_settled_says_so(text):
    found = page(text)["flat"]
    assert "NOT FOR CUTTING. The sizes on this page are not settled yet." in found
    assert ("it has to be chosen anew" in found) == (text == NO_PROFILE)
    assert ("in section" in found) == (text == IMPOSSIBLE)


def test_a_new_top_has_no_before():
    found = page("new_tops/card_room_table")["flat"]
    assert "New top: 60 x 30 in" in found
    assert "Before" not in found
    assert "before" not in found.split("Care")[0]


def test_no_chair_stands_at_a_wall_or_a_narrow_top():
    """The backs of an L counter are not routed; a top of 23 x 20 in seats nobody."""
    data = customer_data(planned("shapes/l_counter"), "a4")
    assert dict(data["sizes"])["Places"].startswith("1 in comfort (30 in of edge each), 4 close together")
    tiny = READY.replace('"72 in"', '"23 in"').replace('"42 in"', '"26 in"')
    assert "No side is long enough for a chair" in page(tiny)["flat"]


@pytest.mark.parametrize("job", ["narrow_one_side", "shapes/boat"])
def test_the_packet_holds_the_same_page_before_its_labels(job):
    plan = planned(job)
    with pdfplumber.open(io.BytesIO(packet_pdf(plan))) as document:
        texts = [page.extract_text() for page in document.pages]
    (at,) = [n for n, text in enumerate(texts) if "agree to what stands on this page" in text]

    def told(text):
        return text.partition("owner")[0]

    assert told(texts[at]) == told(page(job)["text"])
    labels = [n for n, text in enumerate(texts) if "Labels" in text]
    assert labels[:1] in ([], [at + 1])


def test_it_is_sound_and_the_same_each_time():
    plan = planned(READY)
    first = customer_pdf(plan, "us-letter")
    assert first == customer_pdf(plan, "us-letter")
    with pikepdf.open(io.BytesIO(first)) as document:
        assert document.check_pdf_syntax() == []
