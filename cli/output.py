"""Write files whole or not at all: built beside their place, then renamed into it.

A folder is replaced only where everything in it was written by this tool: its ``plan.json`` or ``batch.json`` says so
and lists the files. Some lie in folders, like ``dxf/audit.txt`` or, in a batch, ``2_table/dxf/audit.txt``. Whatever
goes wrong, what was there before is there again and nothing half-written remains.
"""

from __future__ import annotations

import contextlib
import errno
import json
import os
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import Final

from edgewright.cli.guard import reason_of
from edgewright.cli.stopping import held, pause
from edgewright.errors import OutputError
from edgewright.unit_words import printable

__all__ = [
    "BATCH_FORMAT",
    "BATCH_MARKER",
    "FORMAT",
    "MARKER",
    "check_file",
    "check_folder",
    "write_file",
    "write_folder",
]

FORMAT: Final = "edgewright plan"
"""What ``plan.json`` holds under ``format``."""
MARKER: Final = "plan.json"
BATCH_FORMAT: Final = "edgewright batch"
BATCH_MARKER: Final = "batch.json"
_LARGEST_MARKER: Final = 1 << 28
#: Folders that may stand in front of a file: that of a job in a batch, and that of a kind of file.
_DEEPEST: Final = 2


def write_folder(folder: str | os.PathLike[str], files: Mapping[str, bytes], *, force: bool = False) -> None:
    """Write a folder of files.

    Parameters
    ----------
    folder
        Must not exist, unless ``force`` is set and all in it was written by this tool.
    files
        Names, with two folders in front at most, and contents.

    Raises
    ------
    OutputError
        The folder cannot be written; it is then as it was before.
    """
    check_folder(folder, force=force)
    target = _real(folder)
    with held():
        built = _beside(target)
        try:
            built.mkdir()
        except OSError as error:
            raise _failed(folder, error) from None
        try:
            for name, content in files.items():
                pause()
                (built / name).parent.mkdir(parents=True, exist_ok=True)
                (built / name).write_bytes(content)
            pause()
            _put_in_place(built, target, printable(os.fspath(folder)))
        except OSError as error:
            _remove(built)
            raise error if isinstance(error, OutputError) else _failed(folder, error) from None
        except BaseException:
            _remove(built)
            raise


def check_folder(folder: str | os.PathLike[str], *, force: bool = False) -> None:
    """Refuse at once, before any work, a folder that could not be written.

    Raises
    ------
    OutputError
        It exists and must not be replaced, it is no folder, or its parent is missing.
    """
    target = _real(folder, "folder", "plan")
    try:
        _check(printable(os.fspath(folder)), target, force)
    except OSError as error:
        raise error if isinstance(error, OutputError) else _failed(folder, error) from None


def write_file(path: str | os.PathLike[str], content: bytes, *, force: bool = False) -> None:
    """Write one file whole; an existing one is replaced only with ``force``.

    Raises
    ------
    OutputError
        It cannot be written; what was there is still there.
    """
    check_file(path, force=force)
    target = _real(path)
    with held():
        built = _beside(target)
        try:
            with open(built, "xb") as file:
                file.write(content)
            if target.exists():
                built.chmod(stat.S_IMODE(target.stat().st_mode))
            pause()
            os.replace(built, target)
        except OSError as error:
            _unlink(built)
            raise error if isinstance(error, OutputError) else _failed(path, error) from None
        except BaseException:
            _unlink(built)
            raise


def check_file(path: str | os.PathLike[str], *, force: bool = False) -> None:
    """Refuse at once, before any question, a file that could not be written.

    Raises
    ------
    OutputError
        It is there and must not be replaced, it is no regular file, or its folder is missing.
    """
    target = _real(path)
    shown = printable(os.fspath(path))
    try:
        _check_parent(shown, target)
        if target.is_dir():
            raise OutputError(f"{shown} is a folder: give the name of a file in it, like job.toml")
        if not target.exists():
            return
        if not target.is_file():
            # a device or a pipe would be replaced, not written to
            raise OutputError(f"{shown} is no regular file: choose another name, like job.toml")
        if not force:
            raise OutputError(f"{shown} is there already: choose another name, or overwrite it with --force")
    except OSError as error:
        raise error if isinstance(error, OutputError) else _failed(path, error) from None


def _real(path: str | os.PathLike[str], what: str = "file", like: str = "job.toml") -> Path:
    name = os.fspath(path)
    if not name:
        raise OutputError(f"the name of the {what} is empty: give one, like {like}")
    try:
        return Path(os.path.realpath(name))
    except (OSError, ValueError) as error:
        raise OutputError(f"{printable(name)} cannot be used as a name ({error}): choose another") from None


def _beside(target: Path) -> Path:
    """Find a free name in the same folder, hence on the same disk: a rename then puts it in place at once."""
    number = 0
    while (path := target.parent / f".edgewright-{os.getpid()}-{number}").exists():
        number += 1
    return path


def _check_parent(shown: str, target: Path) -> None:
    parent = target.parent
    if not parent.is_dir():
        what = "is not a folder" if parent.exists() else "does not exist"
        raise OutputError(
            f"{shown} cannot be made, for {printable(str(parent))} {what}: make that folder first"
        )
    if not os.access(parent, os.W_OK | os.X_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def _check(folder: str, target: Path, force: bool) -> None:
    _check_parent(folder, target)
    if not target.exists():
        return
    if not target.is_dir():
        raise OutputError(f"{folder} is a file: give the name of a folder")
    if target in (here := Path.cwd(), *here.parents):
        raise OutputError(f"{folder} is the folder you work in: give the name of a new folder, like plan")
    if not force:
        raise OutputError(f"{folder} is there already: choose another name, or replace it with --force")
    foreign = _foreign(target)
    if foreign is not None:
        raise OutputError(
            f"{folder} {foreign}, so it is not replaced: choose another name, or empty it yourself"
        )


def _foreign(target: Path) -> str | None:
    """Say why a folder is not wholly this tool's work; None when it is, or is empty."""
    if not os.listdir(target):
        return None
    own = _listed(target / MARKER, FORMAT) or _listed(target / BATCH_MARKER, BATCH_FORMAT)
    if own is None:
        return f"holds files but no {MARKER} of this program"
    folders = {str(folder) for name in own for folder in PurePosixPath(name).parents}
    for file in _entries(target):
        name = Path(file.path).relative_to(target).as_posix()
        if file.is_dir(follow_symlinks=False):
            if name in folders:
                continue
        elif name in own and file.is_file(follow_symlinks=False):
            continue
        return f"holds {printable(name)}, which this program did not write"
    return None


def _entries(folder: Path, depth: int = _DEEPEST) -> Iterator[os.DirEntry[str]]:
    """All that lies in a folder and in the folders in it, each folder before what it holds, by name."""
    for entry in sorted(os.scandir(folder), key=lambda entry: entry.name):
        yield entry
        if depth and entry.is_dir(follow_symlinks=False):
            yield from _entries(Path(entry.path), depth - 1)


def _listed(marker: Path, wanted: str) -> set[str] | None:
    """Names of the files that a plan.json says were written with it; None when it is none of ours."""
    try:
        with open(marker, "rb") as file:
            plan = json.loads(file.read(_LARGEST_MARKER))
    except (OSError, ValueError, RecursionError):
        return None
    if not isinstance(plan, dict) or plan.get("format") != wanted:
        return None
    files = plan.get("files")
    return (
        {marker.name, *(name for name in files if isinstance(name, str))}
        if isinstance(files, list)
        else {marker.name}
    )


def _put_in_place(built: Path, target: Path, folder: str) -> None:
    if not target.exists():
        os.rename(built, target)
        return
    old = _beside(target)
    os.rename(target, old)
    try:
        foreign = _foreign(old)  # what came in since the first look
        if foreign is not None:
            raise OutputError(f"{folder} {foreign}, so it is not replaced: choose another name")
        os.rename(built, target)
    except BaseException:
        os.rename(old, target)
        raise
    if not _remove(old):
        raise OutputError(
            f"{folder} was written, but the old one could not be removed and lies in {printable(str(old))}"
        )


def _remove(folder: Path) -> bool:
    """Remove a folder of plain files and of the folders that this tool makes in it; never goes deeper."""
    try:
        for entry in reversed(list(_entries(folder))):
            if entry.is_dir(follow_symlinks=False):
                os.rmdir(entry.path)
            else:
                os.unlink(entry.path)
        os.rmdir(folder)
    except OSError:
        return False
    return True


def _unlink(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink()


def _failed(path: str | os.PathLike[str], error: OSError) -> OutputError:
    return OutputError(
        f"{printable(os.fspath(path))} could not be written ({reason_of(error)}): nothing was left behind"
    )
