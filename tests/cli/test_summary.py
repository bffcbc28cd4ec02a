"""The summary says what the bench needs, in the order of work, and its figures add up."""

import re
from functools import cache

import pytest
from cli_jobs import BOARDS, IMPOSSIBLE, NO_PROFILE, READY

from edgewright.cli.summary import summary
from edgewright.cutlist.plan import Plan, plan
from edgewright.jobfile import parse_job
from edgewright.units import read_length

MIXED = """
[job]
title = "mixed"
[top]
length = "1830 mm"
width = "42 in"
thickness = ["18.1 mm", "18.3 mm"]
material = "mdf"
finished_edge.west = {depth = "5 mm"}
[trim]
north = "6.01 in"
south = "3 in"
[edge]
layers = 2
[saw]
kerf = "2.2 mm"
[[stock]]
name = "board"
length = "96 in"
width = "4 in"
thickness = "18.2 mm"
price = 12.5
"""


@cache
def planned(job: str) -> Plan:
    return plan(parse_job(job))


def text(job: str, width: int = 80) -> str:
    return summary(planned(job), width)


def flat(job: str) -> str:
    return " ".join(text(job).split())


@pytest.mark.example
def test_a_small_job():
    words = flat(READY)
    assert "old 72 in x 42 in, 23/32 in thick" in words
    assert "comes off 6 in north (kerf included)" in words
    assert "finished 72 in x 36 in, edge 1 7/16 in thick" in words
    assert (
        "3. rip, north side, measured from the old south edge keep line 36 in kerf 1/8 in, from 36 in to 36 1/8 in "
        "guide at 31 1/2 in, on the keep side (offset 4 1/2 in, wide side of the shoe) "
        "offcut 1 7/8 in x 72 in, gives offcut north 1"
    ) in words
    # 72 - 32 1/4 - 1/8 - 32 1/4 - 1/8 = 7 1/4
    assert (
        "E1 32 1/4 in, ends at 32 1/4 in kerf 1/8 in W1 32 1/4 in, ends at 64 5/8 in kerf 1/8 in rest 7 1/4 in"
        in words
    )
    assert "3 in, 1 strip to be had: need 204 in, have 72 in" in words
    assert "1 7/8 in, 3 strips to be had: fits" in words
    assert "splices 0: proven" in words
    assert "resin in all" in words
    assert "edge in all" in words


def test_sections_in_the_order_of_work():
    headings = [line for line in text(READY).splitlines() if re.fullmatch(r"[A-Z][A-Z ,:;()-]+", line)]
    first = [heading.split(",")[0].split(":")[0] for heading in headings]
    assert [
        h for h in first if h.startswith(("SIZES", "SAW", "STRIPS", "CROSSCUTS", "WHY", "EDGE", "QUANT"))
    ] == [
        "SIZES",
        "SAW CUTS THROUGH THE PANEL",
        "STRIPS AND THEIR PIECES",
        "CROSSCUTS",
        "WHY THIS PLAN IS THE BEST",
        "EDGE",
        "QUANTITIES",
    ]


def test_no_ticks_are_shown_to_people():
    for job in (READY, MIXED, IMPOSSIBLE, NO_PROFILE):
        assert not re.search(r"\d ticks", text(job))


def test_the_datum_hands_over_once():
    words = flat(MIXED)
    assert words.count("From here measure from the fresh north edge: the old one is cut off.") == 1
    before, after = words.split("From here measure")
    assert "south side, measured from" not in before
    assert "north side, measured from" not in after


def test_given_and_used_are_both_shown_where_they_differ():
    words = flat(MIXED)
    assert "trim.north given 6.01 in, used 6 in (bench grid)" in words
    # 1830 mm = 72.0472 in, nearest 72 3/64 in; the mean of the readings is 18.2 mm = 0.7165 in, nearest 23/32 in
    assert "top.length given 1830 mm, shown as ~72 3/64 in" in words
    assert "top.thickness given [18.1 mm, 18.3 mm], used 23/32 in, their mean" in words
    assert "GIVEN AND USED" not in flat(READY)


def test_every_strip_adds_up_as_printed():
    for job in (READY, MIXED):
        block = text(job, 100).split("STRIPS AND THEIR PIECES")[1].split("CROSSCUTS")[0]
        strips = re.split(r"\n  (?=\S[^\n]* wide, )", block)[1:]
        assert strips
        for strip in strips:
            head, *lines = strip.strip().splitlines()
            total = read_length(re.search(r"wide, ~?(.*?) long", head)[1]).exact_mm
            parts = [re.match(r"\s+\S+\s+~?(\d[^,]*)", line) for line in lines if "first" not in line]
            assert sum(read_length(part[1].strip()).exact_mm for part in parts) == total


def test_bought_boards_are_listed_with_their_price():
    words = flat(BOARDS)
    # a board of 12 in holds floor((12 + 1/8) / (2 + 1/8)) = 5 strips, one more than there are sides
    assert "BOARDS TO BUY 1 x board 12 in x 96 in, 20.50 each in all 20.50" in words
    assert "STRIPS TO RIP FROM BOARDS: 1 FENCE SETTING fence at 2 in board 1 (96 in long): gives" in words


@pytest.mark.parametrize("job", [IMPOSSIBLE, NO_PROFILE])
def test_while_not_ready_no_cut_is_shown(job):
    words = flat(job)
    assert words.rstrip().endswith("NOT FOR CUTTING")
    assert not re.search("guide at|keep line|ends at|gives|fence at", words)


@pytest.mark.parametrize("width", [40, 60, 100])
@pytest.mark.parametrize("job", [READY, MIXED, IMPOSSIBLE])
def test_lines_fit_the_screen(job, width):
    assert max(map(len, text(job, width).splitlines())) <= width


def test_another_form_is_named_wherever_a_round_over_would_be():
    forms = 'top_form = {form = "ogee", radius = "1/8 in"}\nbottom_form = {form = "chamfer", size = "1/4 in"}'
    made = planned(READY.replace('bottom_round_over = "1/4 in"', forms))
    said = summary(made, 100)
    assert made.ready
    assert re.search(r"top ogee +[0-9]", said)
    assert re.search(r"bottom chamfer +[0-9]", said)
    assert "round-over" not in said
    names = {factor.name for line in made.takeoff.lines for factor in line.factors}
    assert "edge with its routed forms" in names
    # 1/4 in of reach, 1/16 to flush-trim, 1/4 of wander: the row is where a round-over of 1/4 in would put it
    assert made.design.limits == planned(READY).design.limits
