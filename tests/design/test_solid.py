"""The kernel's solid and its STEP file against closed forms, and read by a reader that shares no code with it."""

import re
import sys
from dataclasses import replace
from functools import cache

import pytest
from solid_cases import CASES, SLAB, make, wood_volume

from edgewright.design.solid import build_solid, load_kernel
from edgewright.design.step_file import write_step
from edgewright.errors import GeometryError, OutputError

TIGHT = 1e-9
RINGS = [name for name, case in CASES.items() if case.strips]


@cache
def built(name):
    return build_solid(SLAB if name == "slab" else CASES[name])


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("step")

    @cache
    def write(name):
        path = folder / f"{name}.step"
        write_step(built(name), path, "Bob's top")
        return path

    return write


def reread(path):
    from cadquery import importers

    return importers.importStep(str(path)).solids().vals()


def edge_area(solid):
    upright = (f for f in solid.Faces() if f.geomType() != "PLANE" or abs(f.normalAt().z) < 0.5)
    return sum(face.Area() for face in upright)


@pytest.mark.parametrize("name", CASES)
def test_kernel_agrees_with_the_closed_form_at_every_corner(name):
    report, spec = built(name).report, CASES[name]
    assert report.volume_mm3 == pytest.approx(spec.volume_mm3, rel=TIGHT)
    assert report.edge_area_mm2 == pytest.approx(spec.edge_mm2, rel=TIGHT)
    assert report.exact
    assert "agree with" in report.note


@pytest.mark.parametrize("name", RINGS)
def test_bodies_together_are_the_wood(name):
    proud = 1.5 if name == "round" else 0.0
    total = sum(volume for _, volume in built(name).report.bodies)
    assert total == pytest.approx(wood_volume(CASES[name], proud=proud), rel=TIGHT)


@pytest.mark.parametrize("name", RINGS)
def test_bodies_carry_the_names_of_their_pieces(name):
    names = [name for name, _ in built(name).bodies]
    assert names == ["top", *(strip.name for strip in CASES[name].strips)]


@pytest.mark.parametrize("name", ["mitre", "small radius, mitre"])
def test_opposite_mitred_strips_are_equal(name):
    volumes = dict(built(name).report.bodies)
    assert volumes["N1"] == pytest.approx(volumes["S1"], rel=TIGHT)
    assert volumes["E1"] == pytest.approx(volumes["W1"], rel=TIGHT)


@pytest.mark.parametrize("name", ["round", "mitre"])
def test_step_read_back_has_the_same_bodies(name, written):
    solids = reread(written(name))
    spec = CASES[name]
    assert len(solids) == 1 + len(spec.strips)
    assert all(solid.isValid() for solid in solids)
    volumes = [volume for _, volume in built(name).report.bodies]
    assert [solid.Volume() for solid in solids] == pytest.approx(volumes, rel=TIGHT)
    assert sum(volumes) == pytest.approx(wood_volume(spec, proud=1.5 if name == "round" else 0.0), rel=TIGHT)
    boxes = [solid.BoundingBox() for solid in solids]
    assert min(b.xmin for b in boxes) == pytest.approx(0, abs=1e-6)
    assert min(b.ymin for b in boxes) == pytest.approx(0, abs=1e-6)
    assert min(b.zmin for b in boxes) == pytest.approx(0, abs=1e-6)
    assert max(b.xmax for b in boxes) == pytest.approx(spec.size[0], abs=1e-6)
    assert max(b.ymax for b in boxes) == pytest.approx(spec.size[1], abs=1e-6)
    assert max(b.zmax for b in boxes) == pytest.approx(spec.thickness, abs=1e-6)
    assert boxes[0].zmin == pytest.approx(spec.seam, abs=1e-6)


@pytest.mark.reference
def test_reference_slab_read_back(written):
    """Volume by Pappus: A T - [P (1 - π/4) 36 - 2π (5/6 - π/4) 216] with A = 2436558.7816, P = 6619.75927."""
    (solid,) = reread(written("slab"))
    assert solid.Volume() == pytest.approx(73045686.45523556, rel=1e-12)
    assert edge_area(solid) == pytest.approx(SLAB.edge_mm2, rel=TIGHT)
    box = solid.BoundingBox()  # cadquery's is the optimal one
    assert (box.xlen, box.ylen, box.zlen) == pytest.approx((1066.8, 2286, 30), abs=1e-6)


def test_independent_reader_finds_schema_unit_names_and_solids(written):
    from steputils import p21

    step = p21.readfile(str(written("round")))
    (schema,) = step.header["FILE_SCHEMA"].params
    assert schema[0].startswith("AUTOMOTIVE_DESIGN { 1 0 10303 214")
    assert step.header["FILE_NAME"].params[1] == "2000-01-01T00:00:00"
    entities = {}
    for instance in step.data[0].instances.values():
        for entity in instance.entities if hasattr(instance, "entities") else [instance.entity]:
            entities.setdefault(entity.name, []).append(entity.params)
    names = [params[1] for params in entities["PRODUCT"]]
    assert names == ["Bob's top", "top", *(strip.name for strip in CASES["round"].strips)]
    assert len(entities["MANIFOLD_SOLID_BREP"]) == len(names) - 1
    lengths = {tuple(map(str, params[-2:])) for params in entities["SI_UNIT"] if "METRE" in str(params[-1])}
    assert lengths == {(".MILLI.", ".METRE.")}
    assert "CONVERSION_BASED_UNIT" not in entities


def test_second_file_of_a_process_has_the_same_bytes(written, tmp_path):
    for number in range(2):
        write_step(build_solid(CASES["sharp"]), tmp_path / f"{number}.step")
    first, second = ((tmp_path / f"{number}.step").read_bytes() for number in range(2))
    assert first == second
    assert b"Open CASCADE STEP translator" not in first
    assert not re.search(rb"20[2-9]\d-\d\d-\d\d", first)


def test_strip_away_from_the_wood_is_told(tmp_path):
    spec = CASES["sharp"]
    lost = replace(spec.strips[0], name="S1", corners=tuple((x, y - 500) for x, y in spec.strips[0].corners))
    with pytest.raises(GeometryError, match=r"solid S1: .* made 0 bodies; exactly 1"):
        build_solid(replace(spec, strips=(lost,)))


def test_top_thicker_than_its_edge_is_refused():
    with pytest.raises(GeometryError, match=r"top thickness is 40 mm; .* at most the edge's 30 mm"):
        replace(SLAB, top_thickness=40.0)


def test_round_overs_that_do_not_fit_are_refused():
    with pytest.raises(GeometryError, match="round-overs"):
        make((0.0,) * 4, 30.0, 10.0)


def test_folder_that_is_missing_is_told(tmp_path):
    with pytest.raises(OutputError, match="cannot be written"):
        write_step(built("sharp"), tmp_path / "missing" / "top.step")


@pytest.mark.parametrize(
    ("message", "says"),
    [
        (
            "libGL.so.1: cannot open shared object file: No such file or directory",
            r"libGL\.so\.1, .* package libgl1 ",
        ),
        ("libX11.so.6: cannot open shared object file", r"libX11\.so\.6, .* package libx11-6 "),
        ("libfoo.so.3: cannot open shared object file", r"libfoo\.so\.3, .* the package that holds it"),
    ],
)
def test_missing_library_is_one_sentence(message, says, tmp_path, monkeypatch):
    (tmp_path / "cadquery.py").write_text(f"raise ImportError({message!r})\n")
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.delitem(sys.modules, "cadquery", raising=False)
    with pytest.raises(OutputError, match=says):
        load_kernel()


def test_missing_kernel_names_the_extra(monkeypatch):
    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(OutputError, match=r'pip install "edgewright\[solid\]"'):
        load_kernel()
