"""The examples of new tops: planned, written and read back; what the other commands say of such a job."""

from __future__ import annotations

import csv
import functools
import io
import json
from pathlib import Path

import ezdxf
import pikepdf
import pytest
from cli_jobs import run
from ezdxf import bbox
from new_top_jobs import new_top, planned

from edgewright.cli.any_output import any_dict, any_summary
from edgewright.cli.packet import packet_pdf
from edgewright.cli.plan_json import json_text
from edgewright.cli.shaped_json import SHAPED_KEYS
from edgewright.cli.shaped_packet import shaped_packet_data
from edgewright.cli.sheet_cuts_table import sheet_cuts_table
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.check_guillotine import check_guillotine
from edgewright.cutlist.check_sheets import check_sheets
from edgewright.cutlist.layout_views import layout_views
from edgewright.drawing.audit import audit_view
from edgewright.drawing.dxf import dxf_text
from edgewright.ticks import ticks_to_mm

FOLDER = Path(__file__).resolve().parents[2] / "examples" / "new_tops"
FILES = {path.stem: path for path in sorted(FOLDER.glob("*.toml"))}
EACH = pytest.mark.parametrize("name", FILES)
UNIT = {"in": 25.4, "mm": 1.0}


@functools.cache
def example(name):
    return plan_any(FILES[name])


@EACH
def test_every_example_is_ready_and_needs_nothing_besides(name):
    plan = example(name)
    assert [f for f in plan.findings if f.severity == "stop"] == []
    assert plan.ready
    assert plan.build_up.to_buy == ()
    assert all(stage.proven for stage in plan.build_up.layout.plan.stages)


@EACH
def test_the_summary_says_sheet_top_and_proof_and_nothing_of_an_old_top(name):
    text = any_summary(example(name), 100)
    assert "TOP AND BUILD-UP, CUT FROM" in text
    assert "TOP SAWN FREE ALONG THE GUIDE" in text
    assert "1 x" in text
    assert "new material cost" in text
    assert "old top" not in text
    assert "old edge" not in text


@EACH
@pytest.mark.parametrize("dialect", ["R2000", "R12"])
def test_the_drawing_of_the_sheets_has_one_closed_loop_for_each_part(name, dialect):
    plan = example(name)
    [view] = layout_views(plan)
    assert audit_view(view) == ()
    drawing = ezdxf.read(io.StringIO(dxf_text(view, plan.job.units, dialect)))
    assert not drawing.audit().has_errors
    parts = list(drawing.modelspace().query('*[layer=="PARTS"]'))
    sheets = list(drawing.modelspace().query('*[layer=="STOCK_EDGES"]'))
    if dialect == "R2000":
        assert len(sheets) == len(plan.build_up.layout.plan.layouts)
        assert len(parts) == 1 + len(plan.design.pieces)
        assert all(loop.closed for loop in parts)
        unit = UNIT[plan.job.units]
        boxes = [bbox.extents([loop]).size for loop in parts]
        found = sorted((round(box.x * unit, 3), round(box.y * unit, 3)) for box in boxes)
        wanted = sorted(
            (round(ticks_to_mm(one.length), 3), round(ticks_to_mm(one.width), 3)) for one in plan.build_up.cut
        )
        assert found == [pytest.approx(pair, abs=0.002) for pair in wanted]
    else:
        assert {entity.dxftype() for entity in parts} == {"LINE"}
        assert len(parts) == 4 * (1 + len(plan.design.pieces))


@EACH
def test_the_cut_list_holds_every_part_once_and_its_kerfs(name):
    plan = example(name)
    rows = list(csv.DictReader(io.StringIO(table_csv(sheet_cuts_table(plan)), newline="")))
    assert [row["step"] for row in rows] == [str(n) for n in range(1, len(rows) + 1)]
    assert {row["plan_code"] for row in rows} == {plan.code}
    crosscut = [row["gives"] for row in rows if row["operation"].startswith("crosscut")]
    assert sorted(crosscut) == sorted(["top", *(piece.id for piece in plan.design.pieces)])
    for row in rows:
        if row["kerf_from_mm"]:
            assert float(row["kerf_to_mm"]) - float(row["kerf_from_mm"]) == pytest.approx(
                plan.job.saw.kerf.mm
            )
    assert [row["guide_side"] for row in rows if "guide" in row["operation"]] == ["keep", "keep"]


@EACH
def test_plan_json_has_the_keys_that_are_documented_and_can_be_checked_anew(name):
    plan = example(name)
    content = json.loads(json_text(any_dict(plan, ["packet.pdf"])))
    assert {key for key in SHAPED_KEYS if "." not in key} == set(content)
    for key in SHAPED_KEYS:
        if "." in key:
            table, inner = key.split(".")
            assert inner in content[table]
    assert content["top"]["new"] is True
    build_up = content["build_up"]
    assert not check_guillotine(build_up["laid_out"])
    assert not check_sheets(build_up | {"to_buy": sum(row["count"] for row in build_up["to_buy"])})
    assert build_up["parts"][0]["id"] == "top"
    assert [cut["way"] for cut in content["sheet_cuts"]] == ["rip", "crosscut"]


@EACH
def test_the_packet_shows_the_sheets_first_and_has_a_label_for_the_top(name):
    plan = example(name)
    data = shaped_packet_data(plan, "a4")
    kinds = [chapter["kind"] for chapter in data["chapters"] if chapter["kind"] != "summary"]
    assert kinds[0] == "layout"
    assert [label["id"] for label in data["labels"]] == ["top", *(piece.id for piece in plan.design.pieces)]
    with pikepdf.open(io.BytesIO(packet_pdf(plan, "a4"))) as packet:
        assert len(packet.pages) >= 6


def test_the_command_writes_the_sheets_and_their_cuts(tmp_path):
    result = run("plan", FILES["card_room_table"], "--out", tmp_path / "out", "--no-solid")
    assert (result.exit_code, result.stderr) == (0, "")
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == [
        *("customer.pdf", "cuts.csv", "dxf", "packet.pdf", "pieces.csv", "plan.json", "quantities.csv"),
        *("svg", "tables.xlsx"),
    ]
    drawings = sorted(path.name.partition("_")[0] for path in (tmp_path / "out" / "dxf").iterdir())
    assert drawings == ["audit.txt", "stick", "template", "top", "underside"]


def test_nothing_to_cut_by_is_written_where_no_sheet_holds_the_top(tmp_path):
    job = tmp_path / "job.toml"
    job.write_text(new_top(100, 30), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "customer.pdf",
        "packet.pdf",
        "plan.json",
        "quantities.csv",
        "tables.xlsx",
    ]
    words = " ".join(result.stdout.split())
    assert "the largest sheet is 96 in × 48 in, the top needs 100 in × 30 in" in words
    plan = planned(new_top(100, 30))
    with pytest.raises(ValueError, match="NOT FOR CUTTING"):
        sheet_cuts_table(plan)
    with pytest.raises(ValueError, match="NOT FOR CUTTING"):
        layout_views(plan)
    assert "sheet_cuts" not in any_dict(plan)


def test_what_other_commands_say_of_a_new_top():
    asked = run("ask", FILES["card_room_table"], "--question", "widest")
    assert asked.exit_code == 0
    assert "asked of an old top that is trimmed" in " ".join(asked.stdout.split())
    proven = run("prove", FILES["card_room_table"])
    assert proven.exit_code == 0
    assert "accepts the plan: 5 of 5 blanks cut from 1 stick" in " ".join(proven.stdout.split())
    compared = run("compare", FILES["card_room_table"], "--vary", "corners,sides")
    assert compared.exit_code == 0
    assert "HOW THE STRIPS MEET AT THE CORNERS" in compared.stdout
    assert "WHERE" not in compared.stdout
