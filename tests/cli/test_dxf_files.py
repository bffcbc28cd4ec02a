"""The DXF files of real plans, measured by two readers from outside the project, in both dialects and units.

Sizes, areas and lengths are those of the design, which its own tests hold against closed forms and the kernel; what a
reader says is compared with them. Readers: GDAL (PyPI pyogrio), dxf-parser (npm), the latter run by node.
"""

import csv
import io
import json
import re
import shutil
import subprocess
from pathlib import Path

import pyogrio
import pytest
import shapely
from cli_jobs import READY, files_below, run
from dxf_files_of import EXAMPLES, MM, NAMES, drawings, one_file, planned
from hypothesis import given, settings
from hypothesis import strategies as st
from strip_jobs import random_job

from edgewright.cli.dxf_files import dxf_files
from edgewright.cli.pieces_table import shaped_pieces_table
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import Plan, plan
from edgewright.dxf_audit.audit import audit_dxf
from edgewright.jobfile import parse_job

#: All examples but the lists of wood of a batch.
EVERY = sorted(path for path in EXAMPLES.rglob("*.toml") if path.stem != "wood")
READER = Path(__file__).resolve().parent.parent / "readers"
EACH = pytest.mark.parametrize("name", NAMES)
UNITS = pytest.mark.parametrize("units", ["in", "mm"])
DIALECTS = pytest.mark.parametrize("dialect", ["R2000", "R12"])
#: Windows refuses these as names, whatever follows the dot.
RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\.|$)")


def measured(folder: Path, files: dict[str, bytes]) -> dict[str, dict]:
    """What dxf-parser reads in each file."""
    node = shutil.which("node")
    assert node, "node is missing: install nodejs and npm, then run make test"
    assert (READER / "node_modules" / "dxf-parser").is_dir(), (
        "dxf-parser is missing: npm install in tests/readers"
    )
    for path, data in files.items():
        (folder / path).write_bytes(data)
    done = subprocess.run(
        [node, str(READER / "measure.cjs"), *(str(folder / path) for path in files)],
        capture_output=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr.decode()
    return dict(zip(files, json.loads(done.stdout), strict=True))


def loops_of(design) -> tuple:
    """Finished outline and cut-outs of any design."""
    region = getattr(design, "region", None)
    return (design.finished_outline,) if region is None else region.loops


@EACH
@UNITS
@DIALECTS
def test_dxf_parser_measures_every_file(name, units, dialect, tmp_path):
    design, mm = planned(name).design, MM[units]
    outer, *holes = loops_of(design)
    found = measured(tmp_path, drawings(name, units, dialect))
    for path, one in found.items():
        assert (one["insunits"], one["measurement"]) == {"in": (1, 0), "mm": (4, 1)}[units]
        kinds = {kind for layer in one["layers"].values() for kind in layer["kinds"]}
        assert kinds <= {"TEXT", "LINE"} | ({"ARC"} if dialect == "R12" else {"LWPOLYLINE"}), path
        for layer, figures in one["layers"].items():
            if layer != "REFERENCE":
                assert "TEXT" not in figures["kinds"]
                assert figures["open"] == (figures["kinds"].get("LINE", 0) if layer == "KEEP_LINES" else 0)
    for part, edge, openings in (
        ("top", "FINISHED_OUTLINE", "CUT_OUTS"),
        ("template", "TEMPLATE_EDGE", "TEMPLATE_OPENINGS"),
    ):
        layers = next(one for path, one in found.items() if path.startswith(part))["layers"]
        assert layers[edge]["loops"] == 1
        assert layers[edge]["area"][0] * mm**2 == pytest.approx(outer.area, rel=1e-9)
        assert layers[edge]["length"][0] * mm == pytest.approx(outer.length, rel=1e-9)
        assert [side * mm for side in layers[edge]["box"]] == pytest.approx(outer.bounds, abs=1e-6)
        arcs = sum(abs(bulge) > 1e-9 for *_, bulge in outer.bulge_vertices())
        if dialect == "R12":
            assert layers[edge]["kinds"].get("ARC", 0) == arcs > 0
        if holes:
            areas = sorted(area * mm**2 for area in layers[openings]["area"])
            assert areas == pytest.approx(sorted(abs(hole.area) for hole in holes), rel=1e-9)


@EACH
@UNITS
@DIALECTS
def test_gdal_measures_the_top(name, units, dialect, tmp_path):
    # arcs come as chords of 0.05 degrees: sagitta r (1 - cos 0.025 deg), below 1e-7 r
    outer, mm = loops_of(planned(name).design)[0], MM[units]
    path, data = one_file(name, units, dialect, "template")
    (tmp_path / path).write_bytes(data)
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.05"})
    try:
        meta, _, geometry, fields = pyogrio.raw.read(str(tmp_path / path))
    finally:
        pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})
    layers = fields[list(meta["fields"]).index("Layer")]
    shapes = [
        s for layer, s in zip(layers, shapely.from_wkb(geometry), strict=True) if layer == "TEMPLATE_EDGE"
    ]
    lines = [s.exterior if s.geom_type == "Polygon" else s for s in shapes]
    if dialect == "R12":
        assert len(lines) == len(outer.bulge_vertices())
    # ends that miss by rounding are laid on one raster
    [polygon] = shapely.polygonize(list(shapely.set_precision(lines, 1e-6 / mm))).geoms
    assert polygon.area * mm**2 == pytest.approx(outer.area, rel=1e-6)
    assert sum(line.length for line in lines) * mm == pytest.approx(outer.length, rel=1e-6)
    assert [side * mm for side in polygon.bounds] == pytest.approx(outer.bounds, abs=1e-3)


@EACH
def test_stick_files_hold_the_pieces_of_the_cut_list(name, tmp_path):
    result = planned(name)
    found = measured(tmp_path, drawings(name, "mm", "R2000"))
    sticks = [one["layers"]["PARTS"] for path, one in found.items() if path.startswith("stick")]
    areas = sorted(area for layer in sticks for area in layer["area"])
    if isinstance(result, Plan):
        # butt corners: each piece is a rectangle
        wide = result.cut_plan.strip_width_ticks / 320
        wanted = sorted(piece.length_ticks / 320 * wide for piece in result.cut_plan.pieces)
        assert result.cut_plan.corners == "butt"
    else:
        wanted = sorted(one.length / 320 * one.width / 320 for one in result.build_up.cut)
        listed = [
            row
            for row in csv.DictReader(io.StringIO(table_csv(shaped_pieces_table(result)), newline=""))
            if row["cut_from"]
        ]
        new = result.job.top.new
        assert len(wanted) == len(listed) + new
    assert areas == pytest.approx(wanted, rel=1e-9)
    underside = [one["layers"]["STRIP_PLACES"] for path, one in found.items() if path.startswith("underside")]
    pieces = result.cut_plan.pieces if isinstance(result, Plan) else result.design.pieces
    assert sum(layer["loops"] for layer in underside) == len(pieces)


def test_the_underside_is_mirrored_and_no_tool_follows_it(tmp_path):
    # an L lies the other way round from below: same area, and each x is the sum of both ends less what it was
    design = planned("shapes/l_counter").design
    path, data = one_file("shapes/l_counter", "mm", "R2000", "underside")
    outline = measured(tmp_path, {path: data})[path]["layers"]["UNDERSIDE_OUTLINE"]
    hole = max(design.region.holes, key=lambda hole: abs(hole.area))
    x0, _, x1, _ = design.region.bounds
    boxes = shapely.box(x0 + x1 - hole.bounds[2], hole.bounds[1], x0 + x1 - hole.bounds[0], hole.bounds[3])
    assert outline["loops"] == 3
    assert shapely.box(*outline["box"]).contains(boxes)
    found = audit_dxf(data, path)
    assert not any(layer.cut for layer in found.layers)
    assert any("UNDERSIDE view, mirrored" in words for words in found.words)


@EACH
@UNITS
def test_names_are_safe_everywhere_and_tell_what_the_file_is(name, units):
    for path in drawings(name, units, "R2000"):
        stem, _, end = path.partition(".")
        assert end == "dxf"
        assert re.fullmatch(r"[a-z0-9_-]{1,80}", stem)
        assert not RESERVED.match(path)
        assert stem.endswith(f"_x1_{units}")
        if not stem.startswith("template"):
            assert planned(name).job.top.material.replace(" ", "_") in stem


@EACH
def test_each_file_says_face_tool_side_unit_and_plan(name):
    for path, data in drawings(name, "in", "R12").items():
        words = audit_dxf(data, path).words
        assert f"plan {planned(name).code}" in words
        assert any("face up" in line or "face DOWN" in line for line in words)
        assert any("outside" in line or "no tool follows" in line for line in words)
        assert "1 drawing unit = 1 inch" in words
        oval = [line for line in words if "oval drawn as arcs" in line]
        # 0.05 mm is 0.0020 in
        assert bool(oval) == (name == "shapes/ellipse" and path.startswith(("top", "template")))
        assert all("at most 0.0020 in is allowed" in line for line in oval)


@pytest.mark.parametrize("path", EVERY, ids=lambda path: path.stem)
@DIALECTS
def test_the_drawings_of_every_example_pass_their_audit(path, dialect):
    result = plan_any(str(path), lambda words: None)
    if result.ready:
        assert dxf_files(result, "in", dialect)["dxf/audit.txt"].count(b"Sound:") >= 2


def test_plan_writes_the_folder_in_the_units_asked_for(tmp_path):
    job = tmp_path / "job.toml"
    job.write_text(READY, encoding="utf-8")
    out = tmp_path / "out"
    assert run("plan", job, "--out", out, "--no-solid", "--dxf-units", "mm", "--dxf", "R12").exit_code == 0
    files = files_below(out)
    names = sorted(name for name in files if name.startswith("dxf/"))
    assert names == [
        "dxf/audit.txt",
        "dxf/stick_1_offcut_from_the_north_plywood_0-719in_x1_mm.dxf",
        "dxf/template_x1_mm.dxf",
        "dxf/top_plywood_0-719in_x1_mm.dxf",
        "dxf/underside_plywood_0-719in_x1_mm.dxf",
    ]
    report = files["dxf/audit.txt"].decode("ascii")
    assert report.count("Sound:") == 4
    assert "Pieces cut from sticks: 4 in the drawings, 4 in the cut list." in report
    for name in names[1:]:
        audited = run("audit", out / name)
        assert (audited.exit_code, audited.stderr) == (0, "")
        assert "DXF R12" in audited.stdout
    again = run("plan", job, "--out", out, "--no-solid", "--force")
    assert again.exit_code == 0
    assert not any(name.endswith("_mm.dxf") for name in files_below(out))


def test_nothing_is_written_when_a_file_fails_its_audit(tmp_path, monkeypatch):
    job = tmp_path / "job.toml"
    job.write_text(READY, encoding="utf-8")
    from edgewright.drawing import dxf

    whole = dxf._with_unit_header
    monkeypatch.setattr(dxf, "_with_unit_header", lambda text, code, system: whole(text, code, 1 - system))
    result = run("plan", job, "--out", tmp_path / "out", "--no-solid", "--dxf", "R12")
    assert result.exit_code == 1
    assert "so nothing is written" in result.stderr
    assert "the header contradicts itself" in result.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.integers(0, 10_000), st.sampled_from(["in", "mm"]), st.sampled_from(["in", "mm"]), st.booleans())
def test_the_audit_of_every_drawing_of_a_random_job_is_sound(number, units, drawn, old):
    result = plan(parse_job(random_job(number, units)))
    if result.ready:
        files = dxf_files(result, drawn, "R12" if old else "R2000")
        assert f"Pieces glued on: {len(result.cut_plan.pieces)} in" in files["dxf/audit.txt"].decode()
        for path, data in files.items():
            if path.endswith(".dxf"):
                assert audit_dxf(data, path).faults == ()
