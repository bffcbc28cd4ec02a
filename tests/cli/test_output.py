"""Folders and files are written whole or not at all, and nothing of anybody else is ever removed."""

import errno
import json
import os
import socket
import stat
from pathlib import Path

import pytest
from cli_jobs import files_below

from edgewright.cli import output
from edgewright.cli.output import check_file, check_folder, write_file, write_folder
from edgewright.errors import OutputError

OLD = {
    "cuts.csv": b"old",
    "plan.json": json.dumps({"format": "edgewright plan", "files": ["cuts.csv"]}).encode(),
}
NEW = {
    "cuts.csv": b"new",
    "plan.json": json.dumps({"format": "edgewright plan", "files": ["cuts.csv"]}).encode(),
}

#: A batch: the files of a job lie in its folder, those of one kind in a folder of that.
DEEP = {
    "batch.json": json.dumps(
        {"format": "edgewright batch", "files": ["strips.csv", "1_bench/dxf/top.dxf", "1_bench/plan.json"]}
    ).encode(),
    "strips.csv": b"strips",
    "1_bench/plan.json": b"{}",
    "1_bench/dxf/top.dxf": b"top",
}


def below(folder: Path) -> list[str]:
    return sorted(os.listdir(folder))


def test_new_folder_holds_exactly_the_files(tmp_path):
    write_folder(tmp_path / "out", NEW)
    assert files_below(tmp_path) == {f"out/{name}": content for name, content in NEW.items()}


def test_new_folder_has_the_usual_permissions(tmp_path):
    write_folder(tmp_path / "out", NEW)
    (tmp_path / "made").mkdir()
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "made").stat().st_mode


def test_a_link_to_a_folder_is_followed(tmp_path):
    write_folder(tmp_path / "real", OLD)
    (tmp_path / "link").symlink_to(tmp_path / "real")
    write_folder(tmp_path / "link", NEW, force=True)
    assert (tmp_path / "link").is_symlink()
    assert files_below(tmp_path / "real") == NEW


def test_existing_folder_is_replaced_only_with_force(tmp_path):
    write_folder(tmp_path / "out", OLD)
    with pytest.raises(OutputError, match=r"is there already: .* --force"):
        write_folder(tmp_path / "out", NEW)
    assert files_below(tmp_path / "out") == OLD
    write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path / "out") == NEW
    assert below(tmp_path) == ["out"]


def test_an_empty_folder_may_be_replaced(tmp_path):
    (tmp_path / "out").mkdir()
    with pytest.raises(OutputError, match="is there already"):
        write_folder(tmp_path / "out", NEW)
    write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path / "out") == NEW


@pytest.mark.parametrize(
    ("files", "sentence"),
    [
        ({"notes.txt": b"mine"}, "no plan.json of this program"),
        ({"plan.json": b"{}"}, "no plan.json of this program"),
        ({"plan.json": b"not json"}, "no plan.json of this program"),
        ({"plan.json": b"[" * 100_000}, "no plan.json of this program"),
        ({"plan.json": b"\xff\xfe"}, "no plan.json of this program"),
        ({"plan.json": b'["edgewright plan"]'}, "no plan.json of this program"),
        ({"plan.json": b'{"format": "edgewright plan", "files": 3}', "cuts.csv": b"?"}, "holds cuts.csv"),
        (OLD | {"notes.txt": b"mine"}, "holds notes.txt, which this program did not write"),
        (OLD | {".hidden": b"mine"}, "holds .hidden"),
        (OLD | {"deep/notes.txt": b"mine"}, "holds deep"),
        (DEEP | {"1_bench/notes.txt": b"mine"}, "holds 1_bench/notes.txt"),
        (DEEP | {"1_bench/dxf/notes.txt": b"mine"}, "holds 1_bench/dxf/notes.txt"),
        (DEEP | {"1_bench/dxf/old/top.dxf": b"mine"}, "holds 1_bench/dxf/old"),
        (DEEP | {"1_bench/dxf/old/older/oldest/top.dxf": b"mine"}, "holds 1_bench/dxf/old"),
    ],
)
def test_a_folder_with_anything_else_in_it_is_refused(tmp_path, files, sentence):
    for name, content in files.items():
        (tmp_path / "out" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "out" / name).write_bytes(content)
    with pytest.raises(OutputError, match=sentence):
        write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path / "out") == files
    assert below(tmp_path) == ["out"]


def test_a_folder_with_folders_in_it_is_replaced_whole(tmp_path):
    write_folder(tmp_path / "out", DEEP)
    assert files_below(tmp_path / "out") == DEEP
    write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path) == {f"out/{name}": content for name, content in NEW.items()}
    assert below(tmp_path / "out") == sorted(NEW)


def test_a_listed_name_that_is_a_link_is_refused(tmp_path):
    write_folder(tmp_path / "out", OLD)
    (tmp_path / "out" / "cuts.csv").unlink()
    (tmp_path / "out" / "cuts.csv").symlink_to(tmp_path)
    with pytest.raises(OutputError, match=r"holds cuts\.csv"):
        write_folder(tmp_path / "out", NEW, force=True)


@pytest.mark.parametrize("force", [False, True])
@pytest.mark.parametrize(
    ("out", "sentence"),
    [
        ("file", "is a file: give the name of a folder"),
        ("file/out", "file is not a folder"),
        ("missing/out", "missing does not exist: make that folder first"),
        (".", "the folder you work in"),
        ("..", "the folder you work in"),
        ("/", "the folder you work in"),
        ("/proc/out", "could not be written"),
        ("x" * 300, "could not be written"),
        ("a\0b", "cannot be used as a name"),
    ],
)
def test_a_place_where_no_folder_can_be(tmp_path, monkeypatch, out, sentence, force):
    here = tmp_path / "here"
    here.mkdir()
    (here / "file").write_bytes(b"mine")
    monkeypatch.chdir(here)
    with pytest.raises(OutputError, match=sentence):
        write_folder(out, NEW, force=force)
    assert files_below(tmp_path) == {"here/file": b"mine"}
    assert below(here) == ["file"]


def failing(nth: int, real, error: BaseException):
    """Stand in for a function whose nth call fails."""
    count = iter(range(1, 1000))

    def call(*args, **more):
        if next(count) == nth:
            raise error
        return real(*args, **more)

    return call


FULL = OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("error", [FULL, KeyboardInterrupt(), MemoryError()])
@pytest.mark.parametrize("nth", [1, 2])
@pytest.mark.parametrize("before", [None, OLD])
@pytest.mark.parametrize("place", ["write", "rename"])
def test_whatever_fails_nothing_changes(tmp_path, monkeypatch, error, nth, before, place):
    if before:
        write_folder(tmp_path / "out", before)
    elif place == "rename" and nth == 2:
        before = None  # without an old folder there is one rename only, so this one succeeds
    target, real = (Path, Path.write_bytes) if place == "write" else (os, os.rename)
    monkeypatch.setattr(target, "write_bytes" if place == "write" else "rename", failing(nth, real, error))
    if place == "rename" and nth == 2 and not before:
        write_folder(tmp_path / "out", NEW)
        assert files_below(tmp_path / "out") == NEW
        return
    expected = OutputError if isinstance(error, OSError) else type(error)
    with pytest.raises(expected) as caught:
        write_folder(tmp_path / "out", NEW, force=True)
    if expected is OutputError:
        assert "no space left on device" in str(caught.value)
    monkeypatch.undo()
    assert below(tmp_path) == (["out"] if before else [])
    if before:
        assert files_below(tmp_path / "out") == before


def test_a_file_that_came_in_at_the_last_moment_is_kept(tmp_path, monkeypatch):
    write_folder(tmp_path / "out", OLD)
    real = os.rename

    def late(source, target):
        (tmp_path / "out" / "notes.txt").write_bytes(b"mine")
        monkeypatch.setattr(os, "rename", real)
        real(source, target)

    monkeypatch.setattr(os, "rename", late)
    with pytest.raises(OutputError, match=r"holds notes\.txt"):
        write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path) == {f"out/{n}": c for n, c in (OLD | {"notes.txt": b"mine"}).items()}


def test_an_old_folder_that_cannot_be_removed_is_named(tmp_path, monkeypatch):
    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(output, "_remove", lambda folder: False)
    with pytest.raises(OutputError, match="was written, but the old one could not be removed and lies in "):
        write_folder(tmp_path / "out", NEW, force=True)
    assert files_below(tmp_path / "out") == NEW


def test_write_file(tmp_path):
    path = tmp_path / "job.toml"
    write_file(path, b"one")
    with pytest.raises(OutputError, match="is there already"):
        write_file(path, b"two")
    assert path.read_bytes() == b"one"
    write_file(path, b"two", force=True)
    assert files_below(tmp_path) == {"job.toml": b"two"}


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("folder", "is a folder"),
        ("missing/job.toml", "missing does not exist: make that folder first"),
        ("/proc/job.toml", "could not be"),
    ],
)
def test_write_file_where_none_can_be(tmp_path, name, sentence):
    (tmp_path / "folder").mkdir()
    with pytest.raises(OutputError, match=sentence):
        write_file(tmp_path / name, b"one", force=True)
    assert below(tmp_path) == ["folder"]


@pytest.mark.parametrize("error", [FULL, KeyboardInterrupt()])
def test_write_file_on_a_full_disk_keeps_the_old(tmp_path, monkeypatch, error):
    path = tmp_path / "job.toml"
    write_file(path, b"one")
    monkeypatch.setattr(os, "replace", failing(1, os.replace, error))
    with pytest.raises(OutputError if isinstance(error, OSError) else KeyboardInterrupt):
        write_file(path, b"two", force=True)
    assert files_below(tmp_path) == {"job.toml": b"one"}


@pytest.mark.parametrize("make", [os.mkfifo, lambda path: _bind(path)], ids=["fifo", "socket"])
@pytest.mark.parametrize("force", [False, True])
def test_only_a_regular_file_is_replaced(tmp_path, make, force):
    path = tmp_path / "job.toml"
    make(path)
    kind = stat.S_IFMT(path.lstat().st_mode)
    with pytest.raises(OutputError, match="is no regular file"):
        write_file(path, b"one", force=force)
    with pytest.raises(OutputError, match="is no regular file"):
        check_file(path, force=force)
    assert stat.S_IFMT(path.lstat().st_mode) == kind
    assert below(tmp_path) == ["job.toml"]


def _bind(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as end:
        end.bind(str(path))


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o755])
def test_a_replaced_file_keeps_its_mode(tmp_path, mode):
    path = tmp_path / "job.toml"
    path.write_bytes(b"one")
    path.chmod(mode)
    write_file(path, b"two", force=True)
    assert (path.read_bytes(), stat.S_IMODE(path.stat().st_mode)) == (b"two", mode)


def test_a_folder_that_may_not_be_written_is_told_before_the_work(tmp_path, monkeypatch):
    real = os.access
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != tmp_path and real(path, mode))
    for refused in (lambda: check_file(tmp_path / "job.toml"), lambda: check_folder(tmp_path / "out")):
        with pytest.raises(OutputError, match="permission denied"):
            refused()


def test_a_folder_that_may_not_be_entered(tmp_path, monkeypatch):
    def refuse(self, **_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "stat", refuse)
    for refused in (
        lambda: check_file(tmp_path / "job.toml"),
        lambda: write_file(tmp_path / "job.toml", b"one"),
        lambda: check_folder(tmp_path / "out"),
    ):
        with pytest.raises(OutputError, match="permission denied"):
            refused()


def test_an_empty_name_is_told_so():
    with pytest.raises(OutputError, match=r"^the name of the file is empty: give one, like job\.toml$"):
        check_file("")
    with pytest.raises(OutputError, match=r"^the name of the folder is empty: give one, like plan$"):
        check_folder("")


def test_names_cannot_steer_the_terminal(tmp_path):
    for refused in (
        lambda: check_file(tmp_path / "a\n\x1bb" / "job.toml"),
        lambda: check_folder(tmp_path / "a\n\x1bb" / "out"),
        lambda: write_folder(tmp_path / ("\n\x1b" + "x" * 300), NEW),
    ):
        with pytest.raises(OutputError, match=r"\\n\\x1b") as caught:
            refused()
        assert str(caught.value).isprintable()
