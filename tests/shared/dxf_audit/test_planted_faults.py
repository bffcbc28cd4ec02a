"""Faults planted in files of our own, of both dialects, both units and several shapes: each is caught, and no other."""

import pytest
from dxf_files_of import (
    FAULTS,
    MM,
    NAMES,
    drawings,
    file_of,
    groups_of,
    one_file,
    without_check_figures,
)

from edgewright.dxf_audit.audit import UnreadableError, audit_dxf

EACH = pytest.mark.parametrize("name", NAMES)
UNITS = pytest.mark.parametrize("units", ["in", "mm"])
DIALECTS = pytest.mark.parametrize("dialect", ["R2000", "R12"])
PARTS = {"top": "FINISHED_OUTLINE", "template": "TEMPLATE_EDGE"}


@EACH
@UNITS
@DIALECTS
def test_the_sound_files_pass(name, units, dialect):
    for path, data in drawings(name, units, dialect).items():
        assert audit_dxf(data, path).faults == (), path
        plain = file_of(groups_of(data))
        assert audit_dxf(plain, path).faults == ()


@EACH
@UNITS
@DIALECTS
@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("part", PARTS)
def test_a_planted_fault_is_caught(name, units, dialect, fault, part):
    path, data = one_file(name, units, dialect, part)
    groups = groups_of(data)
    FAULTS[fault](groups, PARTS[part], MM[units])
    found = audit_dxf(file_of(groups), path).faults
    kinds = {one.kind for one in found}
    # a flipped arc shows in the area at least, whatever the shape
    wanted = {"check figures"} if fault == "flipped" else {fault.partition(",")[0]}
    assert wanted <= kinds, [one.message for one in found]
    if fault == "open":
        gap = next(one.message for one in found if one.kind == "open")
        assert "0.3 mm" in gap.replace("(", "").replace(")", "")


@EACH
@UNITS
@DIALECTS
@pytest.mark.parametrize("fault", [fault for fault in FAULTS if fault != "flipped"])
def test_it_is_caught_without_the_check_figures_too(name, units, dialect, fault):
    path, data = one_file(name, units, dialect, "top")
    groups = without_check_figures(groups_of(data))
    sound = audit_dxf(file_of(groups), path).faults
    assert sound == ()
    FAULTS[fault](groups, "FINISHED_OUTLINE", MM[units])
    kinds = {one.kind for one in audit_dxf(file_of(groups), path).faults}
    assert fault.partition(",")[0] in kinds


@pytest.mark.parametrize(
    "name", ["narrow_one_side", "shapes/l_counter", "shapes/ellipse", "shapes/racetrack"]
)
@DIALECTS
def test_an_arc_that_bends_against_its_neighbours_is_named(name, dialect):
    # the arcs of these run on into their neighbours: only turned over do they make corners
    path, data = one_file(name, "mm", dialect, "template")
    groups = without_check_figures(groups_of(data))
    FAULTS["flipped"](groups, "TEMPLATE_EDGE", 1.0)
    kinds = {one.kind for one in audit_dxf(file_of(groups), path).faults}
    assert kinds & {"flipped arc", "crossing", "double"}
    if name == "narrow_one_side":
        assert "flipped arc" in kinds


@DIALECTS
@pytest.mark.parametrize("name", ["narrow_one_side", "shapes/boat"])
def test_a_file_cut_off_anywhere_is_refused_with_one_sentence(name, dialect):
    path, data = one_file(name, "in", dialect, "top")
    # the last line may lack its end, nothing else
    for size in [
        *range(0, len(data) - 4, max(1, len(data) // 300)),
        len(data) - 5,
        len(data) - 4,
        len(data) - 3,
    ]:
        with pytest.raises(UnreadableError) as told:
            audit_dxf(data[:size], path)
        assert "\n" not in str(told.value)
        assert len(str(told.value)) < 200
    assert audit_dxf(data.rstrip(), path).faults == ()


def test_a_keep_line_that_got_lost_shows_in_the_check_figures():
    path, data = one_file("narrow_one_side", "in", "R2000", "top")
    groups = groups_of(data)
    FAULTS["open, a line dropped"](groups, "KEEP_LINES", 25.4)
    [fault] = audit_dxf(file_of(groups), path).faults
    assert "KEEP_LINES should hold 0 closed and 3 open" in fault.message
    assert "holds 0 closed and 2 open" in fault.message


@pytest.mark.parametrize(
    ("name", "says"), [("top_in.dxf", "in"), ("TOP_1_MM.DXF", "mm"), ("oak in room.dxf", "")]
)
def test_the_file_name_may_contradict_the_header(name, says):
    _, data = one_file("narrow_one_side", "in", "R2000", "top")
    faults = [one.message for one in audit_dxf(data, name).faults]
    assert faults == (["the file name says mm, $INSUNITS 1 says in"] if says == "mm" else [])
