"""Every example of a shape is planned and its files are written: ready, closed, finite, of its nominal size."""

import csv
import functools
import io
import json
import math
from collections import Counter
from pathlib import Path
from typing import get_args

import ezdxf
import pikepdf
import pytest
from cli_jobs import files_below, run

from edgewright.cli.any_output import any_dict, any_summary
from edgewright.cli.packet import packet_pdf
from edgewright.cli.pieces_table import shaped_pieces_table
from edgewright.cli.plan_json import json_text
from edgewright.cli.quantities_table import quantities_table
from edgewright.cli.shaped_json import SHAPED_KEYS
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.shaped_cut_view import shaped_cut_view
from edgewright.drawing.audit import audit_view
from edgewright.drawing.dxf import dxf_text
from edgewright.job_outline import AnyOutline

SHAPES = Path(__file__).resolve().parents[1] / "examples" / "shapes"
FILES = {path.stem: path for path in sorted(SHAPES.glob("*.toml"))}
EACH = pytest.mark.parametrize("name", FILES)
#: $INSUNITS and millimetres of one drawing unit.
UNIT = {"in": (1, 25.4), "mm": (4, 1.0)}


@functools.cache
def planned(name):
    """Plan of an example; each is planned once."""
    return plan_any(FILES[name])


@EACH
def test_every_example_is_ready(name):
    plan = planned(name)
    assert [f for f in plan.findings if f.severity == "stop"] == []
    assert plan.ready
    assert plan.takeoff is not None
    assert plan.code in any_summary(plan, 80)


def test_every_kind_of_outline_has_an_example():
    known = {
        word
        for table in get_args(get_args(AnyOutline)[0])
        for word in get_args(table.model_fields["shape"].annotation)
    }
    assert {planned(name).job.top.outline.shape for name in FILES} == known


@EACH
def test_measurements_agree_but_where_an_example_shows_what_happens(name):
    told = [finding.number for finding in planned(name).findings]
    assert (109 in told) == (name == "round_diameters")
    # a top that is out of square is no misreading
    assert (105 in told) == (name == "quad_largest_rectangle")


def pieces_of(drawing, layer):
    """Lines and arcs of a layer as the reader takes polylines apart."""
    for entity in drawing.modelspace().query(f'*[layer=="{layer}"]'):
        if entity.dxftype() == "LWPOLYLINE":
            assert entity.closed
            yield from entity.virtual_entities()
        else:
            yield entity


def box_of(pieces, unit):
    """West, south, east and north in mm."""
    points = []
    for piece in pieces:
        if piece.dxftype() == "ARC":
            points += [tuple(p) for p in piece.construction_tool().bounding_box]
        else:
            points += [tuple(piece.dxf.start)[:2], tuple(piece.dxf.end)[:2]]
    xs, ys = zip(*points, strict=True)
    return tuple(v * unit for v in (min(xs), min(ys), max(xs), max(ys)))


def joints(pieces):
    """How many ends lie at each place, to a hundred-thousandth of a unit."""
    ends = []
    for piece in pieces:
        arc = piece.dxftype() == "ARC"
        both = (piece.start_point, piece.end_point) if arc else (piece.dxf.start, piece.dxf.end)
        ends += [(round(p.x, 5) + 0.0, round(p.y, 5) + 0.0) for p in both]
    return Counter(ends)


@EACH
@pytest.mark.parametrize("dialect", ["R2000", "R12"])
def test_the_drawing_is_read_back_closed_and_of_nominal_size(name, dialect):
    plan = planned(name)
    view = shaped_cut_view(plan.design, plan.code)
    assert audit_view(view) == ()
    drawing = ezdxf.read(io.StringIO(dxf_text(view, plan.job.units, dialect)))
    assert not drawing.audit().has_errors
    code, unit = UNIT[plan.job.units]
    if dialect == "R2000":  # R12 knows no units in its header: the notes and the scale bar tell
        assert drawing.header["$INSUNITS"] == code
    else:
        assert {e.dxftype() for e in drawing.modelspace()} <= {"LINE", "ARC", "CIRCLE", "TEXT"}
    design = plan.design
    loops = {"FINISHED_OUTLINE": [design.finished.outline], "OLD_OUTLINE": [design.old.outline]}
    if design.region.holes:
        loops["CUT_OUTS"] = list(design.region.holes)
    for layer, outlines in loops.items():
        found = list(pieces_of(drawing, layer))
        boxes = [outline.bounds for outline in outlines]
        nominal = (
            *map(min, *(b[:2] for b in boxes), boxes[0][:2]),
            *map(max, *(b[2:] for b in boxes), boxes[0][2:]),
        )
        assert box_of(found, unit) == pytest.approx(nominal, abs=0.002)
        if dialect == "R12":
            # every end is met by one other
            assert set(joints(found).values()) == {2}
    assert len(list(drawing.modelspace().query('LINE[layer=="KEEP_LINES"]'))) == len(design.trims.cuts)


@EACH
def test_plan_json_has_the_keys_that_are_documented_and_finite_numbers(name):
    plan = planned(name)
    text = json_text(any_dict(plan, ["packet.pdf"]))
    content = json.loads(text, parse_constant=lambda word: pytest.fail(f"{word} in plan.json"))
    assert {key for key in SHAPED_KEYS if "." not in key} == set(content)
    for key in SHAPED_KEYS:
        if "." in key:
            table, inner = key.split(".")
            assert inner in content[table]
    assert {f"top.{key}" for key in content["top"]} <= set(SHAPED_KEYS)
    # the frame that the keys speak of: the south-west corner of the box around the old top
    assert plan.design.old.outline.bounds[:2] == pytest.approx((0.0, 0.0), abs=1e-6)
    assert math.fsum(edge["length"] for edge in content["edges"]) == pytest.approx(
        plan.design.finished.outline.length
    )
    assert len(content["pieces"]) == len(plan.design.pieces)


@EACH
def test_pieces_and_quantities_are_rectangular(name):
    plan = planned(name)
    rows = list(csv.reader(io.StringIO(table_csv(shaped_pieces_table(plan)), newline="")))
    assert {len(row) for row in rows} == {len(rows[0])}
    assert [row[0] for row in rows[1:]] == [piece.id for piece in plan.design.pieces]
    assert len({row[0] for row in rows}) == len(rows)
    assert {row[-1] for row in rows[1:]} <= {plan.code}
    sizes = [rows[0].index(f"{name}_mm") for name in ("length", "width", "thickness")]
    assert all(float(row[at]) > 0 for row in rows[1:] for at in sizes)
    bill = list(csv.reader(io.StringIO(table_csv(quantities_table(plan)), newline="")))
    assert {len(row) for row in bill} == {len(bill[0])}
    assert bill[1][:2] == ["note", f"plan {plan.code}"]


@EACH
def test_the_packet_has_pages_and_no_warning(name):
    paper = "us-letter" if planned(name).job.units == "in" else "a4"
    with pikepdf.open(io.BytesIO(packet_pdf(planned(name), paper))) as packet:
        width, height = (72 * 8.5, 72 * 11) if paper == "us-letter" else (210 / 25.4 * 72, 297 / 25.4 * 72)
        assert len(packet.pages) >= 3
        for page in packet.pages:
            left, low, right, high = map(float, page.mediabox)
            assert sorted([right - left, high - low]) == pytest.approx([width, height], abs=0.5)


def test_the_command_writes_every_file_of_a_shaped_top(tmp_path):
    result = run("plan", FILES["d_end"], "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    files = files_below(tmp_path / "out")
    parts = ("template", "top_particleboard_18mm", "underside_particleboard_18mm")
    sheets = [
        "customer.pdf",
        "dxf/audit.txt",
        *(f"dxf/{part}_x1_mm.dxf" for part in parts),
        *("packet.pdf", "pieces.csv", "plan.json", "quantities.csv"),
        *(f"svg/{name}.svg" for name in ("edge", "picture", "ring_1", "router", "trim")),
    ]
    assert sorted(files) == [*sheets, "tables.xlsx", "top.glb", "top.step", "top.stl"]
    plan = json.loads(files["plan.json"])
    assert plan["files"] == sorted(set(files) - {"plan.json"})
    code = plan["plan_code"].encode()
    assert all(code in files[name] for name in files if not name.endswith((".pdf", ".xlsx")))
    # binary STL: 84 bytes and 50 for each triangle
    triangles = int.from_bytes(files["top.stl"][80:84], "little")
    assert len(files["top.stl"]) == 84 + 50 * triangles > 84 + 50 * 12
    assert files["top.glb"][:4] == b"glTF"
    assert files["top.step"].startswith(b"ISO-10303-21;")
