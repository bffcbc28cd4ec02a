"""What `audit` prints, its exit codes, and what it says of files that are none."""

import json
import os

import pytest
from cli_jobs import program, run
from dxf_files_of import FAULTS, file_of, groups_of, one_file


def file_in(folder, fault=None):
    name, data = one_file("narrow_one_side", "in", "R12", "top")
    groups = groups_of(data)
    if fault:
        FAULTS[fault](groups, "FINISHED_OUTLINE", 25.4)
    (folder / name).write_bytes(file_of(groups))
    return folder / name


def test_a_sound_file(tmp_path):
    result = run("audit", file_in(tmp_path))
    assert (result.exit_code, result.stderr) == (0, "")
    assert "FINISHED_OUTLINE: 1 of 1 outline closed; 72 x 36 in" in result.stdout
    assert "KEEP_LINES: 3 straight saw lines" in result.stdout
    assert "REFERENCE:" not in result.stdout
    assert result.stdout.endswith("Sound: nothing was found that a saw or router could trip over.\n")


def test_each_fault_has_its_line(tmp_path):
    result = run("audit", file_in(tmp_path, "open"), env={"COLUMNS": "100"})
    assert (result.exit_code, result.stderr) == (1, "")
    lines = result.stdout.splitlines()
    [start] = [n for n, line in enumerate(lines) if line.endswith(" faults:")]
    told = [line for line in lines[start + 1 :] if line.startswith("  ") and not line.startswith("   ")]
    assert len(told) == int(lines[start].split()[0])
    assert "is open by 0.01181 drawing units (0.3 mm)" in " ".join(result.stdout.split())


def test_json_holds_the_same(tmp_path):
    path = file_in(tmp_path, "double")
    done = program("audit", path, "--json")
    assert (done.returncode, done.stderr) == (1, b"")
    content = json.loads(done.stdout)
    assert (content["format"], content["version"], content["status"]) == ("edgewright audit", 1, "faults")
    assert "double" in {fault["kind"] for fault in content["faults"]}
    assert content["units"]["unit"] == "in"
    [outline] = [layer for layer in content["layers"] if layer["name"] == "FINISHED_OUTLINE"]
    assert outline["box_mm"] == pytest.approx([0, 0, 1828.8, 914.4], abs=1e-9)
    sound = json.loads(run("audit", file_in(tmp_path), "--json").stdout)
    assert (sound["status"], sound["faults"]) == ("sound", [])
    (tmp_path / "a.dxf").write_bytes(b"no")
    unread = run("audit", tmp_path / "a.dxf", "--json")
    assert unread.exit_code == 2
    assert json.loads(unread.stdout)["status"] == "unreadable"
    assert set(json.loads(unread.stdout)) == set(sound)


def test_what_cannot_be_read_is_one_sentence(tmp_path):
    os.mkfifo(tmp_path / "pipe.dxf")
    (tmp_path / "locked.dxf").mkdir()
    (tmp_path / "words.dxf").write_text("Dear customer,\nhere is the file.\n")
    path = file_in(tmp_path)
    (tmp_path / "half.dxf").write_bytes(path.read_bytes()[:9000])
    for name in ("none.dxf", "pipe.dxf", "locked.dxf", "words.dxf", "half.dxf", "a\0b", ""):
        result = run("audit", tmp_path / name if "\0" not in name else name)
        assert (result.exit_code, result.stdout) == (2, ""), name
        assert len(result.stderr.splitlines()) == 1, name
        assert "defect" not in result.stderr


def test_only_the_layers_named_are_cut(tmp_path):
    path = file_in(tmp_path, "open")
    assert (
        run("audit", path, "--cut", "STRIPS").exit_code == 1
    )  # the check figures of the outline still differ
    missing = run("audit", path, "--cut", "NO_SUCH")
    assert "layer NO_SUCH holds no line or arc" in " ".join(missing.stdout.split())
