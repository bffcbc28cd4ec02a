"""The solid in a second process: what it makes, that it repeats, and what it says where the kernel fails."""

import json
import os

import pytest
from region_cases import HOLED
from solid_cases import CASES

from edgewright.cli.solid_json import spec_from_plain, spec_to_plain
from edgewright.cli.solid_process import GLB_NAME, STEP_NAME, STL_NAME, start_solid
from edgewright.design.forms import bevel, ogee
from edgewright.design.profile import EdgeProfile
from edgewright.design.solid_figures import region_solid_spec

SPEC = CASES["sharp"]


@pytest.fixture
def fake_kernel(tmp_path, monkeypatch):
    """Put a module in the kernel's place, for the second process only."""
    folder = tmp_path / "modules"
    folder.mkdir()

    def install(code):
        (folder / "cadquery.py").write_text(code, encoding="utf-8")
        monkeypatch.setenv("PYTHONPATH", os.pathsep.join([str(folder), os.environ.get("PYTHONPATH", "")]))
        return start_solid(SPEC, tmp_path).finish()

    return install


def test_same_bytes_whatever_the_hash_seed_and_the_time_zone(tmp_path, monkeypatch):
    handles = []
    for number, (seed, zone) in enumerate([("1", "UTC"), ("77", "Asia/Tokyo")]):
        monkeypatch.setenv("PYTHONHASHSEED", seed)
        monkeypatch.setenv("TZ", zone)
        (tmp_path / str(number)).mkdir()
        handles.append(start_solid(SPEC, tmp_path / str(number), "Küche 1"))
    first, second = (handle.finish() for handle in handles)
    assert first.problem is None
    assert [path.name for path in first.files] == [GLB_NAME, STEP_NAME]
    assert [path.read_bytes() for path in first.files] == [path.read_bytes() for path in second.files]
    assert first.report == second.report
    assert first.report.exact
    assert [name for name, _ in first.report.bodies] == ["top", *(strip.name for strip in SPEC.strips)]


def test_figures_come_through_json_to_the_last_digit():
    profile = EdgeProfile(36.5, ogee(6.1, 1.7), bevel(4.0, 3.3))
    strips = CASES["mitre"].strips
    spec = region_solid_spec(HOLED, profile, 18.25, strips=strips, still=frozenset({1, 3}), holes_below=False)
    assert spec_from_plain(json.loads(json.dumps(spec_to_plain(spec)))) == spec


def test_stl_is_written_where_it_is_asked_for(tmp_path):
    result = start_solid(SPEC, tmp_path, stl=True).finish()
    assert [path.name for path in result.files] == [GLB_NAME, STL_NAME, STEP_NAME]


@pytest.mark.parametrize(("library", "package"), [("libGL.so.1", "libgl1"), ("libX11.so.6", "libx11-6")])
def test_missing_system_library_is_named_with_its_package(library, package, fake_kernel):
    result = fake_kernel(f"raise ImportError('{library}: cannot open shared object file: No such file')")
    assert library in result.problem
    assert f"install the package {package} " in result.problem
    assert "Traceback" not in result.problem
    assert [path.name for path in result.files] == [GLB_NAME]
    assert result.report is None


def test_kernel_that_breaks_is_one_sentence(fake_kernel):
    result = fake_kernel(
        "class Vector:\n    def __init__(self, *a):\n        raise RuntimeError('BRep_API:\\n not done')"
    )
    assert "the geometry kernel could not build the solid (" in result.problem
    assert "\n" not in result.problem
    assert [path.name for path in result.files] == [GLB_NAME]


def test_kernel_that_crashes_takes_nothing_with_it(fake_kernel):
    result = fake_kernel("import os; os.abort()")
    assert "ended early (signal 6" in result.problem
    assert [path.name for path in result.files] == [GLB_NAME]
    assert result.report is None


def test_kernel_that_talks_does_not_spoil_the_answer(fake_kernel):
    result = fake_kernel("print('Statistics on Transfer')\nraise ImportError('no kernel today')")
    assert "the geometry kernel cannot be loaded (no kernel today)" in result.problem


def test_folder_that_is_missing_is_told(tmp_path):
    result = start_solid(SPEC, tmp_path / "missing").finish()
    assert result.files == ()
    assert "cannot be written (No such file or directory)" in result.problem


def test_cancel_ends_the_process(tmp_path):
    handle = start_solid(SPEC, tmp_path)
    handle.cancel()
    assert handle._process.returncode is not None


def test_module_beside_the_job_is_not_imported(tmp_path, monkeypatch):
    (tmp_path / "json.py").write_text("raise SystemExit('wrong json')", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    result = start_solid(SPEC, tmp_path / "missing").finish()
    assert "wrong json" not in result.problem
