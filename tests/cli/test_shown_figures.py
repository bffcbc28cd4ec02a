"""What is printed adds up: the very words of sheets, lists and files are read back and added, for jobs of odd figures.

Read are, of a rectangle: the packet's list of cuts, its note on the guide, its sizes, crosscuts, rests and labels; the
words on the trim sheets, the strip sheets and in the summary; ``cuts.csv`` and ``pieces.csv``. Of a top with an
outline: the lists of lanes, rests and cuts along the guide, ``cuts.csv`` and ``pieces.csv``.
"""

import csv
import functools
import io
import re
from collections import Counter
from itertools import pairwise

import pytest
from odd_jobs import odd_job, odd_new_top, odd_stock_job

from edgewright.cli.any_output import any_summary
from edgewright.cli.packet_data import packet_data
from edgewright.cli.plan_tables import plan_tables
from edgewright.cli.plan_views import sheet_views
from edgewright.cli.shaped_stock_rows import lane_rows, rack_rows
from edgewright.cli.sheet_rows import guide_rows
from edgewright.cli.table_csv import table_csv
from edgewright.compass import OPPOSITE, is_lengthwise
from edgewright.cutlist.any_plan import plan_any
from edgewright.display import show_ticks
from edgewright.drawing.view import Note
from edgewright.jobfile import parse_any_job
from edgewright.units import read_length

#: A length as it is printed.
LENGTH = r"~?-?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?) (?:in|mm)"
SEEDS = range(40)


@functools.cache
def made(kind, seed):
    """Plan of a job, None where it is not ready."""
    plan = plan_any(parse_any_job(kind(seed)))
    return plan if plan.ready else None


def ready(kind, seeds):
    return [plan for plan in (made(kind, seed) for seed in seeds) if plan is not None]


def mm(text):
    return read_length(text.strip().removeprefix("~")).exact_mm


def lengths(text):
    return [mm(found) for found in re.findall(LENGTH, text)]


@functools.cache
def packet(seed):
    plan = made(odd_job, seed)
    return packet_data(plan, "a4")


@functools.cache
def views(plan):
    return sheet_views(plan)


def texts(sheets):
    return [shape.text for view in sheets for _, shape in view.shapes if isinstance(shape, Note)]


def tables(plan):
    return {
        one.name: list(csv.DictReader(io.StringIO(table_csv(one), newline=""))) for one in plan_tables(plan)
    }


def rectangles(test):
    """Run a test for each rectangle that is ready; `test_the_jobs_are_of_all_kinds` counts them."""

    @pytest.mark.property
    @pytest.mark.parametrize("seed", SEEDS)
    @functools.wraps(test)
    def run(seed):
        if made(odd_job, seed) is not None:
            test(seed)

    return run


def guide_figures(data):
    """Kerf and guide offset as the note beside the cuts says them."""
    kerf, offset = re.match(rf"Kerf ({LENGTH}).*?, guide offset ({LENGTH})", data["guide-note"]).groups()
    return mm(kerf), mm(offset)


def test_the_jobs_are_of_all_kinds():
    found = Counter()
    for plan in ready(odd_job, SEEDS):
        cut_plan, data = plan.cut_plan, packet(next(s for s in SEEDS if made(odd_job, s) is plan))
        found[plan.job.units] += 1
        found[cut_plan.rules.guide_side] += 1
        found["spliced"] += any(piece.side_start_ticks for piece in cut_plan.pieces)
        found["boards"] += any(stick.source != "offcut" for stick in cut_plan.sticks if stick.lanes)
        found["rounded"] += any("~" in cell for row in data["cuts"] for cell in row)
        found["rounded lanes"] += any("~" in cell for row in data["crosscuts"] for cell in row)
        found["kerfs said"] += any("Kerfs read" in text for text in texts(views(plan).stock))
    assert min(found[key] for key in ("in", "mm", "keep", "waste", "spliced", "boards", "rounded")) >= 3, (
        found
    )
    assert min(found[key] for key in ("rounded lanes", "kerfs said")) >= 2, found


@rectangles
def test_cuts_add_up_in_every_list(seed):
    plan, data = made(odd_job, seed), packet(seed)
    kerf, offset = guide_figures(data)
    sizes = {name: lengths(words) for name, words in data["sizes"]}
    extent = {"north": sizes["old top"][1], "east": sizes["old top"][0]}
    extent |= {"south": extent["north"], "west": extent["east"]}
    saw = " ".join(texts(views(plan).saw))
    summary = " ".join(any_summary(plan, 400).split())
    csv_cuts = [row for row in tables(plan)["cuts"] if row["operation"].endswith("the panel")]
    for (name, _, *figures, off), row in zip(data["cuts"], csv_cuts, strict=True):
        side = name.rsplit(" ", 1)[1]
        # the unit stands over the column
        keep, end, place = (f"{figure} {plan.job.units}" for figure in figures)
        assert mm(keep) + kerf == mm(end)
        assert mm(place) == (mm(keep) - offset if row["guide_side"] == "keep" else mm(end) + offset)
        before = extent[side]
        width = re.match(rf"({LENGTH}) x ({LENGTH})", off)
        if width:
            assert mm(width[1]) == before - mm(end)
            shown = f"{width[1].rsplit(' ', 1)[0]} × {width[2]}"
            assert shown in saw
            assert f"offcut {width[1]} x {width[2]}" in summary
            assert (row["width"], row["length"]) == width.groups()
        else:
            assert off.startswith("dust")
        extent[side] = extent[OPPOSITE[side]] = mm(keep)
        assert (row["keep_line"], row["kerf_from"], row["kerf_to"]) == (keep, keep, end)
        assert row["guide_at"] == place
        assert figures[0] in saw
        assert figures[2] in saw
        assert f"keep line {keep}" in summary
        assert re.search(rf"kerf {LENGTH}, from {re.escape(keep)} to {re.escape(end)}", summary)
        assert f"guide at {place}" in summary
    # the last cuts leave the finished top
    finished = sizes["finished"]
    for side in ("north", "east"):
        assert extent[side] == finished[0 if not is_lengthwise(side) else 1]


def bars(plan):
    """Words of each strip on the strip sheets, by lane."""
    lanes = {lane.id for stick in plan.cut_plan.sticks for lane in stick.lanes}
    found, here = {}, None
    for text in texts(views(plan).stock):
        lane = next(
            (name for name in sorted(lanes, key=len, reverse=True) if text.startswith(f"{name}:")), here
        )
        if lane is not None:
            here = lane
            found.setdefault(lane, []).append(text)
    return {lane: " ".join(words) for lane, words in found.items()}


def pieces_of(plan):
    """Pieces of each lane in order, lanes where pieces nest left out."""
    lanes = {}
    for piece in sorted(plan.cut_plan.pieces, key=lambda p: p.lane_start_ticks):
        lanes.setdefault(piece.lane_id, []).append(piece)
    return {
        lane: here
        for lane, here in lanes.items()
        if all(b.lane_start_ticks >= a.lane_start_ticks + a.length_ticks for a, b in pairwise(here))
    }


def kerfs_said(words, kerf, count):
    """Kerfs of a strip: as its own words say them, else as the plan's kerf reads."""
    said = re.search(rf"[Kk]erfs read ((?:{LENGTH}(?:, )?)+)", words)
    return [mm(text) for text in re.findall(LENGTH, said[1])] if said else [kerf] * count


@rectangles
def test_pieces_kerfs_and_rest_of_each_strip_are_the_strip(seed):
    plan, data = made(odd_job, seed), packet(seed)
    kerf, _ = guide_figures(data)
    words, rests = bars(plan), {row[0]: row for row in data["remnants"]}
    unit = f" {plan.job.units}"
    labels = {label["id"]: label["size"].split(" x ")[0] + unit for label in data["labels"]}
    csv_pieces = {row["piece"]: row for row in tables(plan)["pieces"]}
    stops = {(row[0], row[1]): row for row in data["crosscuts"] if not row[4].startswith("mitre the start")}
    for lane, pieces in pieces_of(plan).items():
        said = words[lane]
        long = mm(re.search(rf"× ({LENGTH})", said)[1])
        sizes = [re.search(rf"\b{re.escape(piece.id)} ({LENGTH})", said) for piece in pieces]
        rest = re.search(rf"\brest ({LENGTH})", said)
        if any(size is None for size in sizes):
            # no room for lengths: names alone stand in the bar
            continue
        gaps = kerfs_said(said, kerf, len(pieces))
        at = 0
        for number, (piece, size) in enumerate(zip(pieces, sizes, strict=True)):
            row = csv_pieces[piece.id]
            assert labels[piece.id] == row["length"] == size[1]
            assert mm(row["from"]) == at
            at += mm(size[1])
            assert mm(row["to"]) == at
            stop = stops.get((lane, piece.id))
            if stop is not None:
                assert (mm(stop[2] + unit), stop[3] + unit) == (at, size[1])
                assert at in lengths(said)
            if number < len(pieces) - 1:
                at += gaps[number]
        if rest:
            at += gaps[len(pieces) - 1] + mm(rest[1])
            assert at == long
            back = rests.get(f"rest of {lane}")
            assert back is None or back[2] == rest[1]
        else:
            # dust: less than a kerf
            assert 0 <= long - at <= kerf + mm("1/64 in")


@rectangles
def test_the_summary_adds_up_for_every_strip(seed):
    plan = made(odd_job, seed)
    block = any_summary(plan, 100).split("STRIPS AND THEIR PIECES")[1].split("CROSSCUTS")[0]
    checked = 0
    for strip in re.split(r"\n  (?=\S[^\n]* wide, )", block)[1:]:
        _, *lines = strip.strip().splitlines()
        if "along the long edge" in strip:
            continue
        total = mm(re.search(rf"wide, ({LENGTH}) long", " ".join(strip.split()))[1])
        rows = [line for line in lines if re.match(rf"\s+\S+\s+{LENGTH}", line)]
        assert sum(lengths(line)[0] for line in rows) == total
        ends = [lengths(row) for row in rows]
        at = 0
        for size, *end in ends:
            at += size
            assert not end or end[-1] == at
        checked += 1
    assert checked or plan.cut_plan.corners == "mitre"


@rectangles
def test_strips_of_a_board_and_what_is_left_are_the_board(seed):
    plan, data = made(odd_job, seed), packet(seed)
    kerf, _ = guide_figures(data)
    rests = {row[0]: row for row in data["remnants"]}
    stock = {row["what"]: row for row in tables(plan)["stock"]}
    used = {piece.lane_id for piece in plan.cut_plan.pieces}
    for stick in plan.cut_plan.sticks:
        back = rests.get(f"rest of {stick.id}")
        count = sum(lane.id in used for lane in stick.lanes)
        if stick.source == "offcut" or back is None:
            continue
        (fence,) = {row[0] for row in data["rips"] if row[0]}
        left = mm(stock[stick.name]["width"]) - count * mm(fence) - mm(back[1])
        # each kerf may read a step otherwise, where it took up the rounding
        step = mm("1/64 in") if plan.job.units == "in" else mm("0.1 mm")
        assert abs(left - count * kerf) <= (
            count * step if "~" in str((fence, back, data["guide-note"])) else 0
        )


@pytest.mark.property
@pytest.mark.parametrize("kind", [odd_stock_job, odd_new_top])
@pytest.mark.parametrize("seed", range(6))
def test_lanes_of_a_build_up_add_up(kind, seed):
    plan = made(kind, seed)
    if plan is None:
        assert kind is odd_new_top
        return
    kerf = mm(packet_kerf(plan))
    rows = tables(plan)
    pieces = {row["piece"]: row for row in rows["pieces"] if row["cut_from"]}
    back = [row[1] for row in rack_rows(plan)]
    for name, _, long, run in lane_rows(plan):
        parts = re.findall(
            rf"([\w.]+)(?: across)? ({LENGTH})(?:, ends at ({LENGTH}))?", run.split("; kerfs")[0]
        )
        gaps = kerfs_said(run, kerf, len(parts))
        at = 0
        for number, (piece, size, end) in enumerate(parts):
            at += mm(size) + (gaps[number - 1] if number else 0)
            if piece == "rest":
                assert size in back or len(back) < 3
                assert at == mm(long), name
            else:
                assert mm(end) == at
                if piece in pieces:
                    row = pieces[piece]
                    assert row["blank"] == size
                    assert mm(row["starts_at"]) + mm(size) == at
        if not parts or parts[-1][0] != "rest":
            assert 0 <= mm(long) - at <= kerf + mm("1/64 in")
    for row in rows.get("cuts", ()):
        if row["operation"] == "crosscut":
            assert pieces[row["gives"]]["blank"] == row["setting"]


def packet_kerf(plan):
    return show_ticks(plan.job.saw.kerf.ticks_up(), plan.job.units)


@pytest.mark.property
@pytest.mark.parametrize("seed", range(6))
def test_cuts_that_free_a_new_top_add_up(seed):
    plan = made(odd_new_top, seed)
    if plan is None:
        return
    kerf = mm(packet_kerf(plan))
    saw, cuts = plan.job.saw, tables(plan)["cuts"]
    offset = mm(show_ticks(saw.guide_offset.ticks(), plan.job.units))
    guides = [row for row in cuts if row["operation"].endswith("guide")]
    for (what, keep, span, guide, _), row in zip(guide_rows(plan), guides, strict=True):
        first, last = lengths(span)
        assert lengths(keep)[0] == first == mm(row["setting"])
        assert last == mm(row["kerf_to"])
        assert last - first == kerf or last == lengths(what)[0]
        side = 1 if row["guide_side"] == "waste" else -1
        assert lengths(guide)[0] == mm(row["guide_at"]) == (last if side > 0 else first) + side * offset
