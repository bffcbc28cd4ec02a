"""The cards of the packet: a page each, figures large, sums that add up, and nothing that the plan does not allow."""

import io
import re
from decimal import Decimal
from fractions import Fraction

import pdfplumber
import pytest

from edgewright.cli.cards import NO_CARDS, cards
from edgewright.cli.packet import packet_pdf
from edgewright.cutlist.any_plan import plan_any
from edgewright.jobfile import parse_any_job
from edgewright.starter_shapes import shaped_starter
from edgewright.starter_text import STARTER

LARGE = 27.0
#: Least size of the large figures where many rows share the page, points.
LEAST_LARGE = 15.0
CROWDED = """
resin_coats = 4
base_coats = 4
mix_ratio = "100:45 by weight"
pot_life = "6 min"
room_temperature = "50 degF"
recoat_from = "4 h"
recoat_until = "18 h"
tint_percent = 2.5
"""
WEIGHED = """
resin_coats = 1
seal_coat = false
mix_ratio = "2.2:1 by volume"
density_a = "1.15 g/ml"
density_b = "0.98 g/ml"
largest_batch = "20 fl oz"
tint_percent = 0
"""


def job(keys="", text=STARTER):
    if keys:
        text = re.sub(r"^(resin_coats|flood_film).*\n", "", text, flags=re.MULTILINE)
    return parse_any_job(text.replace("[coating]\n", f"[coating]\n{keys}\n"))


def pages(made, paper="a4"):
    with pdfplumber.open(io.BytesIO(packet_pdf(made, paper))) as document:
        return [(page.extract_text(), page.chars, page.height) for page in document.pages]


@pytest.fixture(scope="module")
def plans():
    huge = re.sub("^diagonals.*\n", "", STARTER, flags=re.MULTILINE)
    for old, new in (('length = "72 in"', 'length = "230 in"'), ('width = "42 in"', 'width = "110 in"')):
        assert old in huge
        huge = huge.replace(old, new)
    metric = STARTER.replace('units = "in"', 'units = "mm"')
    assert metric != STARTER
    made = {
        "plain": plan_any(job()),
        "metric": plan_any(job(text=metric)),
        "crowded": plan_any(job(CROWDED)),
        "weighed": plan_any(job(WEIGHED)),
        "huge": plan_any(job(CROWDED, huge)),
    }
    return made | {"shaped": plan_any(parse_any_job(shaped_starter("racetrack")))}


NAMES = ("plain", "metric", "crowded", "weighed", "huge", "shaped")


@pytest.mark.property
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", NAMES)
def test_each_card_is_one_page_with_large_figures(plans, name, paper):
    found = pages(plans[name], paper)
    fill = [n for n, (text, _, _) in enumerate(found) if "Fill and sand card" in text]
    pour = [n for n, (text, _, _) in enumerate(found) if "Pour card" in text]

    assert len(fill) == len(pour) == 1
    assert pour[0] == fill[0] + 1
    assert "Cautions" in found[pour[0] + 1][0].splitlines()[1:3]
    for number in (*fill, *pour):
        text, chars, height = found[number]
        assert "Caution." in text
        large = {round(c["size"], 1) for c in chars if c["text"].isdigit() and c["size"] > 14.9}
        assert max(large) >= LEAST_LARGE
        if name in ("plain", "metric", "shaped"):
            assert max(large) == LARGE
        assert min(c["size"] for c in chars) >= 9 - 1e-6
        # the whole page is used: the caution stands at its foot
        assert max(c["bottom"] for c in chars if c["bottom"] < height - 50) > 0.9 * (height - 50)


def figure(text):
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@pytest.mark.property
@pytest.mark.parametrize("name", NAMES)
def test_what_is_shown_adds_up(plans, name):
    made = cards(plans[name])
    fill, pour = made["fill"], made["pour"]

    for column in (2, 3):
        *parts, total = [row[column] for row in fill["where"]]
        assert sum(map(Fraction, filter(lambda t: t.replace(".", "").isdigit(), parts))) == Fraction(total)
    for number in ("pass 1", "pass 2"):
        rows = [row for row in fill["batches"] if row["pass"] == number]
        counted = sum(figure(row["each"]) * _count(row["numbers"]) for row in rows)
        assert counted == figure(rows[-1]["total"].removesuffix(f" {fill['unit']}"))
        assert counted >= Fraction(fill["where"][-1][1 + int(number[-1])])
    for row in pour["batches"]:
        assert figure(row["a"]) + figure(row["b"]) == figure(row["total"])
    base = fill["base"]
    assert base["note"].startswith(f"In all {sum(Decimal(c[1]) for c in base['coats'])} ")


def _count(numbers):
    first, _, last = numbers.partition(" to ")
    return int(last or first) - int(first) + 1


@pytest.mark.example
def test_what_is_a_default_says_so_and_what_is_given_does_not(plans):
    plain, crowded = (cards(plans[name])["pour"] for name in ("plain", "crowded"))

    assert "default, common practice: the data sheet comes first" in plain["mix"]
    assert crowded["mix"] == "Resin A : hardener B = 100:45 by weight, weigh both"
    assert plain["pot-life"] == ["20", "min (default, common practice)"]
    assert crowded["pot-life"] == ["6", "min"]
    assert any("OUTSIDE THAT" in check for check in crowded["checks"])


@pytest.mark.example
def test_a_ratio_by_volume_is_weighed_only_with_densities(plans):
    plain, weighed = (cards(plans[name])["pour"] for name in ("plain", "weighed"))

    assert {row["a-weighed"] for row in plain["batches"]} == {""}
    row = weighed["batches"][0]
    # 11 : 5 parts; 11 fl oz of A are 325.3 ml, at 1.15 g/ml 374 g; 5 of B 147.9 ml, at 0.98 145 g
    assert (row["a"], row["b"], row["total"]) == ("11", "5", "16")
    assert (row["a-weighed"], row["b-weighed"]) == ("374 g", "145 g")
    assert {r["tint"] for r in weighed["batches"]} == {""}


@pytest.mark.example
def test_colour_is_dosed_by_weight(plans):
    by_weight = [
        row for row in cards(plans["crowded"])["pour"]["batches"] if row["coat"] == "each flood coat"
    ]
    plain = [row for row in cards(plans["plain"])["pour"]["batches"] if "flood" in row["coat"]]

    for row in by_weight:
        grams = float(row["tint"].removesuffix(" g"))
        assert 0 <= float(row["total"]) * 0.025 - grams < 0.1
    # none is given: the card shows the cap
    assert all(row["tint"].startswith("≤ ") for row in plain)


@pytest.mark.example
def test_cards_of_a_plan_that_is_not_ready_are_marked():
    stopped = plan_any(parse_any_job(STARTER.replace('overhang = "9 in"', 'overhang = "7 in"')))
    texts = [text for text, _, _ in pages(stopped) if "Pour card" in text or "Fill and sand card" in text]

    assert not stopped.ready
    assert len(texts) == 2
    assert all("NOT FOR CUTTING" in text for text in texts)


@pytest.mark.example
def test_without_an_edge_profile_there_is_a_sentence_instead():
    text = STARTER.replace('bottom_round_over = "1/4 in"', 'bottom_round_over = "1 1/4 in"')
    none = plan_any(parse_any_job(text))
    all_text = " ".join(text for text, _, _ in pages(none)).replace("\n", " ")

    assert none.takeoff is None or not none.takeoff.lines
    assert cards(none) is None
    assert NO_CARDS in all_text
    assert "Pour card" not in all_text


@pytest.mark.example
def test_the_same_plan_gives_the_same_bytes(plans):
    assert packet_pdf(plans["plain"]) == packet_pdf(plan_any(job()))
