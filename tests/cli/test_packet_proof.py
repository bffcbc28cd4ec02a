"""Proofs and labels on paper say what the plan and its lists say."""

from __future__ import annotations

import io
import math
import re
from pathlib import Path

import pdfplumber
import pytest
from cli_jobs import BOARDS, IMPOSSIBLE, READY
from shaped_jobs import shaped_plan
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cli.label_cells import size_words
from edgewright.cli.packet import packet_pdf
from edgewright.cli.packet_data import packet_data
from edgewright.cli.shaped_packet import shaped_packet_data
from edgewright.cli.shaped_stock_rows import lane_rows, proof_rows
from edgewright.cutlist import solve
from edgewright.cutlist.plan import plan
from edgewright.display import show_mm, show_ticks
from edgewright.jobfile import parse_any_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BOUGHT = STRAIGHT + board("rack", "61 in", "4 1/8 in") + board("stick", "54 in", "3 in", "5")
SUM = re.compile(
    r"all sides are worth ([\d.]+); less ([\d.]+) for the stages before and ([\d.]+) for the sticks: (-?[\d.]+), so "
    r"at least (\d+)"
)


@pytest.mark.parametrize("job", [READY, BOARDS], ids=["offcuts", "boards"])
def test_prices_add_up_on_paper_to_the_bound(monkeypatch, job):
    monkeypatch.setattr(solve, "_MOST_LISTED", 0)  # so that the bounds come from prices
    made = plan(parse_any_job(job))
    found = 0
    for stage, (name, _, proof) in zip(made.cut_plan.stages, packet_data(made, "a4")["proofs"], strict=True):
        assert stage.name == name
        shown = SUM.search(proof)
        if shown is None:
            continue
        found += 1
        worth, settled, sticks, left = map(float, shown.groups()[:4])
        assert left == pytest.approx(worth - settled - sticks, abs=2e-4)
        assert max(0, math.ceil(left - 1e-3)) >= int(shown[5]) == stage.bound
        assert proof.startswith("proven") == (stage.value == stage.bound)
    assert found


@pytest.mark.example
def test_the_note_says_where_the_whole_proof_is_and_an_impossible_plan_shows_its_inequality():
    data = packet_data(plan(parse_any_job(READY)), "a4")
    assert "edgewright prove plan.json" in data["proof-note"]
    made = plan(parse_any_job(IMPOSSIBLE))
    with pdfplumber.open(io.BytesIO(packet_pdf(made))) as document:
        first = document.pages[0].extract_text()
    assert "NOT FOR CUTTING" in first
    assert made.cut_plan.shortage is not None
    assert f"No plan: {made.cut_plan.shortage.sentence}." in " ".join(first.split())


@pytest.mark.example
def test_points_stand_beside_the_stage_that_they_settle():
    # 60 x 2 in twice and 26 x 2 in twice are 344 in²; the rack's board holds the two long ones, 240 in²
    (touched,) = [row for row in proof_rows(shaped_plan(BOUGHT)) if row[0] == "sticks touched"]
    assert touched[2].endswith("by area, the blanks need 344.00 in², no one stick holds more than 240.00 in²")
    # each corner of the square gives two segments
    (corners,) = [row for row in proof_rows(shaped_plan(ROUND_48)) if row[0] == "sticks touched"]
    assert "the blanks need" in corners[2]
    assert "any 3 sticks hold" in corners[2]


@pytest.mark.example
@pytest.mark.parametrize("name", ["narrow_one_side", "knots_and_screws", "rescue_after_cut_1"])
def test_labels_of_a_rectangle_are_its_pieces(name):
    made = plan(EXAMPLES / f"{name}.toml")
    labels = packet_data(made, "a4")["labels"]
    width = show_ticks(made.cut_plan.strip_width_ticks, made.job.units)
    thick = show_mm(made.job.strip_thickness.mm, made.job.units)
    assert [(label["id"], label["size"]) for label in labels] == [
        (piece.id, size_words([show_ticks(piece.length_ticks, made.job.units), width, thick]))
        for piece in made.cut_plan.pieces
    ]
    for label, piece in zip(labels, made.cut_plan.pieces, strict=True):
        assert f"from {piece.lane_id}" in label["lines"]


@pytest.mark.example
@pytest.mark.parametrize("text", [BOUGHT, ROUND_48, "l_counter"], ids=["boards", "corners", "blocks"])
def test_labels_of_another_outline_are_the_blanks_of_the_lists(text):
    made = shaped_plan(text)
    labels = {label["id"]: label for label in shaped_packet_data(made, "a4")["labels"]}
    assert list(labels) == [piece.id for piece in made.design.pieces]
    wanted = {name: one.blank.id.partition(",")[0] for one in made.build_up.blanks for name in one.piece_ids}
    for name, label in labels.items():
        assert f"{label['size'].rpartition(' x ')[0]} in" == wanted[name]
    runs = {row[0]: row[3] for row in lane_rows(made)}
    cut = {one.piece_id for one in made.build_up.cut}
    for name, label in labels.items():
        source = next(line for line in label["lines"] if line.startswith(("from ", "bought"))).removeprefix(
            "from "
        )
        if name in cut:
            assert f"{name} " in runs[source.partition(", lying")[0]]
        else:
            assert source == "bought or found"
