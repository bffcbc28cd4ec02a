"""What summary, packet, cut list and plan.json say of a job whose cutting has begun."""

import csv
import io
from functools import cache
from pathlib import Path

import pytest
from cli_jobs import READY, run

from edgewright.cli.as_cut_rows import as_cut_rows
from edgewright.cli.cuts_table import cuts_table
from edgewright.cli.packet_data import packet_data
from edgewright.cli.plan_json import plan_dict
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.cut_view import cut_view
from edgewright.cutlist.plan import Plan, plan
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.drawing.paper import PANEL, THIN
from edgewright.drawing.view import Loop, Note, Segment
from edgewright.jobfile import parse_job

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "rescue_after_cut_1.toml"
#: Cut 1 went 1/2 in too deep, so what came off must be ripped to the width of the others.
WIDE = READY.replace("[trim]", 'corner_radius = "1 in"\n[trim]') + (
    '[as_cut]\ncuts = 1\nwidth = "39 1/2 in"\n'
    '[[as_cut.piece]]\nside = "north"\nlength = "72 in"\nwidth = "2 3/8 in"\n'
)


@cache
def example() -> Plan:
    return plan(EXAMPLE)


@cache
def wide() -> Plan:
    return plan(parse_job(WIDE))


def words(views) -> list[str]:
    return [shape.text for view in views for _, shape in view.shapes if isinstance(shape, Note)]


@pytest.mark.example
def test_the_summary_tells_what_is_made_and_what_is_there():
    assert as_cut_rows(example()) == [
        ("made so far", "cut 1"),
        ("panel now", "72 in x 40 1/32 in"),
        ("still off", "4 1/32 in north (kerf included)"),
        ("on the bench", "offcut of cut 1, 1 13/16 in x 72 in"),
    ]
    assert as_cut_rows(plan(parse_job(READY))) == []
    result = run("plan", EXAMPLE)
    assert result.exit_code == 0
    text = " ".join(result.stdout.split())
    assert "panel now 72 in x 40 1/32 in" in text
    assert "2. rip, north side, measured from the old south edge" in text
    assert "1. rip" not in text
    assert "521 measured otherwise than planned, kerf: planned 1/8 in, measured 5/32 in" in text


@pytest.mark.example
def test_the_cut_list_is_numbered_on_and_rips_the_loose_strip():
    rows = list(csv.DictReader(io.StringIO(table_csv(cuts_table(wide())))))

    assert [row["step"] for row in rows] == [str(n) for n in range(2, 2 + len(rows))]
    assert [row["operation"] for row in rows[:2]] == ["rip the panel"] * 2
    assert rows[2]["side_or_strip"] == "offcut of cut 1"
    assert rows[2]["gives"] == "strip of cut 1"
    # before the first cut the steps begin with 1
    assert next(csv.DictReader(io.StringIO(table_csv(cuts_table(plan(parse_job(READY)))))))["step"] == "1"


@pytest.mark.example
def test_the_packet_asks_before_cut_2_and_shows_the_panel():
    data = packet_data(plan(parse_job(READY)), "a4")
    assert "Before cut 2 write down the kerf, measured ____" in data["guide-note"]
    assert "and the guide offset, measured ____" in data["guide-note"]
    assert "1/64 in (0.4 mm)" in data["guide-note"]
    begun = packet_data(example(), "a4")
    assert ["panel now", "72 in x 40 1/32 in"] in begun["sizes"]
    assert begun["guide-note"].startswith("Kerf 5/32 in, guide offset 4 17/32 in")
    assert "Before cut" not in begun["guide-note"]
    assert [row[0] for row in begun["cuts"]] == ["2 rip north", "3 rip north", "4 rip north"]


def _lines(view):
    return [(s.x0, s.y0, s.x1, s.y1) for s in view.on(THIN.name) if isinstance(s, Segment)]


@pytest.mark.example
def test_the_trim_sheet_has_boxes_for_the_test_cut_before_cut_2():
    views = trim_figures(plan(parse_job(READY)))
    told = words(views)
    assert "TEST CUT before cut 2: kerf 1/8 in, measured" in told
    assert "guide offset 4 1/2 in, measured" in told
    assert any("1/64 in" in text for text in told)
    assert not any("TEST CUT before" in text for text in words(trim_figures(example())))
    # one box to tick for each cut, one to write in for each figure
    heights = [abs(y1 - y0) for x0, y0, x1, y1 in _lines(views[0]) if x0 == x1]
    assert [heights.count(pytest.approx(mm)) for mm in (6.0, 8.0)] == [2 * 3, 2 * 2]


@pytest.mark.example
def test_the_trim_sheet_shows_the_panel_as_it_is_now():
    (view,) = trim_figures(example())
    panel = next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))
    across = [max(v[i] for v in panel.vertices) - min(v[i] for v in panel.vertices) for i in (0, 1)]
    assert across[0] / across[1] == pytest.approx(72 / (40 + 1 / 32))
    assert {"2", "3", "4"} <= set(words([view]))
    assert "1" not in words([view])


@pytest.mark.example
def test_drawings_name_the_loose_strip():
    view = cut_view(wide().design, wide().cut_plan, wide().code)
    ids = ", ".join(p.id for p in wide().cut_plan.pieces if p.lane_id == "strip of cut 1")
    assert f"not drawn here, cut from the offcut of cut 1: {ids}" in words([view])
    assert len(list(view.on("STRIPS"))) == len(wide().cut_plan.pieces) - len(ids.split(", "))
    assert dict(view.nominal)["OLD_OUTLINE"] == pytest.approx((0, 0, 72 * 25.4, 39.5 * 25.4))
    (wood,) = view.on("OLD_OUTLINE")
    # the old corners of 1 in are gone at the north, where cut 1 went
    assert [v[2] != 0 for v in wood.vertices].count(True) == 2
    told = " ".join(words(stick_figures(wide(), (180.0, 205.0))))
    assert "rip from the offcut of cut 1 with the fence at 1 5/8 in" in told


@pytest.mark.example
def test_plan_json_holds_the_panel_and_what_came_off():
    begun = plan_dict(wide())["cut_plan"]["as_cut"]

    assert (begun["cuts_made"], begun["fresh"]) == (1, ["north"])
    assert begun["north_ticks"] == 39.5 * 8128
    (strip,) = begun["loose"]
    assert (strip["cut"], strip["width_ticks"], strip["lanes"]) == (1, 2.375 * 8128, ["strip of cut 1"])
    assert plan_dict(plan(parse_job(READY)))["cut_plan"]["as_cut"] is None


@pytest.mark.example
def test_faults_are_told_with_their_line(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY + "[as_cut]\ncuts = 9\n", encoding="utf-8")
    result = run("check", path)
    assert result.exit_code == 2
    assert f"{path}:{READY.count(chr(10)) + 2}: as_cut.cuts: 9 is more than the plan has" in result.stderr
