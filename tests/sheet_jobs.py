"""Jobs whose sheets are hard to draw, each ready to be cut."""

from __future__ import annotations

import dataclasses
from functools import cache

import edgewright
from edgewright.cutlist.plan import Plan
from edgewright.jobfile import parse_job

STOCK = """
[[stock]]
name = "planed board"
length = "96 in"
width = "8 in"
thickness = "23/32 in"
price = 20
"""


def job_text(
    length: str = "72 in",
    width: str = "42 in",
    trim: str = 'north = "6 in"',
    edge: str = "",
    saw: str = "",
    stock: str = STOCK,
    units: str = "in",
    top: str = "",
) -> str:
    return f"""
[job]
title = "sheet"
units = "{units}"
[top]
length = "{length}"
width = "{width}"
thickness = "23/32 in"
material = "plywood"
{top}
[trim]
{trim}
[edge]
{edge}
[saw]
kerf = "1/8 in"
{saw}
{stock}
"""


METRIC_BOARDS = """
[[stock]]
name = "Brett, gehobelt, aus dem Regal <Nord> & Süd, unterste Lage, Nummer zwölf, 18 mm"
length = "1900 mm"
width = "70 mm"
thickness = "23/32 in"
count = 2
"""
FOUR_SIDES = 'north = "4 in"\nsouth = "3 in"\neast = "3 in"\nwest = "2 in"'
JOBS: dict[str, str] = {
    "one side": job_text(),
    "both sides": job_text(trim='north = "3 in"\nsouth = "3 in"'),
    "four sides, two layers": job_text(
        trim=FOUR_SIDES,
        edge='layers = 2\nstrip_width = "1 1/4 in"\ncorner_radius = "1 in"',
        top='corner_radius = "2 in"',
    ),
    "nested mitres": job_text(edge='corners = "mitre"'),
    "mitres, not nested": job_text(edge='corners = "mitre"\nnest_mitres = false'),
    "pinwheel, proud": job_text(edge='corners = "pinwheel"\nproud = "1/16 in"'),
    "many lanes": job_text(
        width="60 in", trim='north = "12 in"', edge='strip_width = "1 1/4 in"\nlayers = 3'
    ),
    "many lanes on both ends": job_text(
        length="96 in",
        trim='east = "12 in"\nwest = "12 in"',
        edge='strip_width = "1 1/4 in"\nlayers = 2\nmax_strip_width = "3 in"',
    ),
    "small": job_text("20 in", "16 in", 'north = "2 1/2 in"', 'strip_width = "1 1/4 in"', stock=STOCK),
    "small, upright": job_text(
        "16 in", "20 in", 'east = "2 1/2 in"', 'strip_width = "1 1/4 in"', stock=STOCK
    ),
    "20 ft": job_text("20 ft", "42 in", 'north = "6 in"'),
    "20 ft counter": job_text("20 ft", "28 in", 'north = "3 in"\neast = "4 in"'),
    "metric": job_text(
        "1830 mm",
        "1060 mm",
        'finished_width = "900 mm"\neast = "100 mm"',
        'strip_width = "60 mm"\ncorner_radius = "20 mm"',
        stock=METRIC_BOARDS,
        units="mm",
        top='corner_radius = "40 mm"\nseams = [{across = "length", at = "900 mm"}]',
    ),
    "spliced": job_text(
        trim='north = "1/2 in"',
        edge='strip_width = "2 in"\nlayers = 2',
        stock=STOCK.replace("96 in", "50 in").replace("price = 20", "count = 12"),
    ),
    "guide on the waste side": job_text(
        trim=FOUR_SIDES, saw='guide_side = "waste"\nshoe_side = "narrow"', edge='strip_width = "1 1/4 in"'
    ),
}


@cache
def sheet_plan(name: str) -> Plan:
    plan = edgewright.plan(parse_job(JOBS[name], "sheet.toml"))
    assert isinstance(plan, Plan)
    # the findings are not what the sheets are tested for: a guide off the wood is a stop, yet it is drawn
    return dataclasses.replace(plan, findings=())
