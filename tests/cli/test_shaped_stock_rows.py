"""What the summary, the packet and the files say of the stock of a build-up."""

from __future__ import annotations

import csv
import io
import json

import pytest
from shaped_jobs import shaped_plan
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cli.pieces_table import shaped_pieces_table
from edgewright.cli.plan_json import json_text
from edgewright.cli.shaped_json import shaped_dict
from edgewright.cli.shaped_packet import shaped_packet_data
from edgewright.cli.shaped_ring_rows import blank_rows
from edgewright.cli.shaped_stock_rows import (
    board_rows,
    held_rows,
    lane_rows,
    proof_rows,
    rack_rows,
    rip_rows,
    segment_words,
    stick_rows,
)
from edgewright.cli.shaped_summary import shaped_summary
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.check_guillotine import check_guillotine

BOUGHT = STRAIGHT + board("rack", "61 in", "4 1/8 in") + board("stick", "54 in", "3 in", "5")


@pytest.mark.example
def test_sticks_lanes_stops_and_rests_of_a_small_job():
    plan = shaped_plan(BOUGHT)
    assert stick_rows(plan) == [
        ["rack", "61 in x 4 1/8 in", "on hand"], ["stick 1", "54 in x 3 in", "for sale"]
    ]  # fmt: skip
    assert board_rows(plan) == [["1 x stick", "54 in x 3 in", "5.00 each"], ["in all", "", "5.00"]]
    # 2 + 1/8 + 2 in are all of the rack's board: its second lane is what the first rip leaves
    assert [row[:2] for row in rip_rows(plan)] == [["2 in", "rack lane 1, stick 1 lane 1"]]
    assert lane_rows(plan) == [
        ["rack lane 1", "2 in", "61 in", "1.1 60 in, ends at 60 in; rest 7/8 in"],
        ["rack lane 2", "2 in", "61 in", "1.3 60 in, ends at 60 in; rest 7/8 in"],
        # 26 + 1/8 + 26 + 1/8 + 1 3/4 = 54
        ["stick 1 lane 1", "2 in", "54 in", "1.2 26 in, ends at 26 in; 1.4 26 in, ends at 52 1/8 in; rest 1 3/4 in"],
    ]  # fmt: skip
    assert [row[:2] for row in held_rows(plan)] == [["60 in", "1.1, 1.3"], ["26 in", "1.2, 1.4"]]
    # beside the lane 3 - 2 - 1/8 in; the ends of the rack's lanes are longer than 3/4 in
    assert sorted(rack_rows(plan)) == [
        ["2 x rest of rack", "7/8 in", "2 in"],
        ["rest of stick 1", "1 3/4 in", "2 in"],
        ["rest of stick 1", "54 in", "7/8 in"],
    ]
    assert proof_rows(plan)[0][:2] == ["new material cost", "5.00"]
    assert proof_rows(plan)[0][2].startswith("proven, ")
    assert blank_rows(plan) == []


@pytest.mark.example
def test_what_is_cut_and_what_is_bought_stand_apart():
    plan = shaped_plan(ROUND_48)
    text = shaped_summary(plan, 80)
    cut, bought = text.index("BUILD-UP, CUT FROM"), text.index("BUILD-UP, TO BE BOUGHT OR FOUND")
    assert cut < bought < text.index("ROUTER PASSES")
    assert "8 segments 9 9/16 in x 1 15/16 in" in text[bought:]
    (row,) = [row for row in proof_rows(plan) if row[0] == "blanks from the stock"]
    assert row[1] == "8 of 16"
    assert " ticks" not in text
    (words,) = segment_words(plan)
    assert "16 (taken): 8 of 16 pieces from 4 sticks" in words
    assert "8: 0 of 8 pieces" in words


@pytest.mark.example
def test_without_stock_there_is_only_the_list_of_what_to_buy():
    plan = shaped_plan(STRAIGHT)
    text = shaped_summary(plan, 80)
    assert "BUILD-UP, CUT FROM" not in text
    assert "WHY THIS PLAN" not in text
    assert [row[0] for row in blank_rows(plan)] == ["2", "2"]
    assert "layout" not in [chapter["kind"] for chapter in shaped_packet_data(plan, "a4")["chapters"]]


@pytest.mark.example
def test_the_packet_has_the_cut_list_and_labels_say_where_from():
    data = shaped_packet_data(shaped_plan(BOUGHT), "a4")
    (chapter,) = [chapter for chapter in data["chapters"] if chapter["kind"] == "layout"]
    assert [table["title"] for table in chapter["tables"]] == [
        "Sticks", "Boards to buy", "Strips to rip, fence by fence", "Strips and their blanks",
        "Crosscuts, stop by stop", "Back to the rack", "Why this plan is the best",
    ]  # fmt: skip
    assert data["labels"][0]["lines"][0] == "south, layer 1"
    assert data["labels"][0]["lines"][3] == "from rack lane 1"


@pytest.mark.example
def test_the_csv_says_where_each_piece_comes_from():
    rows = list(csv.DictReader(io.StringIO(table_csv(shaped_pieces_table(shaped_plan(BOUGHT))), newline="")))
    last = rows[3]
    assert [last[key] for key in ("piece", "cut_from", "lane", "lane_width_mm", "starts_at_mm", "lies")] == [
        "1.4", "stick 1", "1", "50.8", "663.575", "along the lane"
    ]  # fmt: skip
    # 26 1/8 in are 663.575 mm
    bare = next(
        csv.DictReader(io.StringIO(table_csv(shaped_pieces_table(shaped_plan(STRAIGHT))), newline=""))
    )
    assert (bare["cut_from"], bare["lies"]) == ("", "")


@pytest.mark.example
def test_the_plan_in_the_file_can_be_checked_from_itself_alone():
    content = json.loads(json_text(shaped_dict(shaped_plan(BOUGHT))))["build_up"]
    assert check_guillotine(content["laid_out"]) == ()
    assert [one["piece_id"] for one in content["cut"]] == ["1.1", "1.2", "1.3", "1.4"]
    assert content["to_buy"] == []
    corners = json.loads(json_text(shaped_dict(shaped_plan(ROUND_48))))["build_up"]
    assert [len(stick["places_mm"]) for stick in corners["sticks"]] == [4]
    assert [one["taken"] for one in corners["segments"]].count(True) == 1
    assert corners["shortage"]["sentence"]


def test_two_tops_that_differ_in_their_stock_only_have_two_codes():
    other = STRAIGHT + board("rack", "62 in", "4 1/8 in") + board("stick", "54 in", "3 in", "5")
    assert shaped_plan(BOUGHT).code != shaped_plan(other).code
