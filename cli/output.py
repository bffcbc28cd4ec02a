"""Write files whole or not at all: built beside their place, then renamed into it.

A folder is replaced only where everything in it was written by this tool: its ``plan.json`` says so and lists
the files. Whatever goes wrong, what was there before is there again and nothing half-written remains.
"""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from edgewright.cli.guard import reason_of
from edgewright.errors import OutputError

__all__ = ["FORMAT", "MARKER", "check_folder", "write_file", "write_folder"]

FORMAT: Final = "edgewright plan"
"""What ``plan.json`` holds under ``format``."""
MARKER: Final = "plan.json"
_LARGEST_MARKER: Final = 1 << 28


def write_folder(folder: str | os.PathLike[str], files: Mapping[str, bytes], *, force: bool = False) -> None:
    """Write a folder of files.

    Parameters
    ----------
    folder
        Must not exist, unless ``force`` is set and all in it was written by this tool.
    files
        Plain names and contents.

    Raises
    ------
    OutputError
        The folder cannot be written; it is then as it was before.
    """
    check_folder(folder, force=force)
    target = _real(folder)
    built = _beside(target)
    try:
        built.mkdir()
    except OSError as error:
        raise _failed(folder, error) from None
    try:
        for name, content in files.items():
            (built / name).write_bytes(content)
        _put_in_place(built, target, folder)
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
    target = _real(folder)
    try:
        _check(folder, target, force)
    except OSError as error:
        raise error if isinstance(error, OutputError) else _failed(folder, error) from None


def write_file(path: str | os.PathLike[str], content: bytes, *, force: bool = False) -> None:
    """Write one file whole; an existing one is replaced only with ``force``.

    Raises
    ------
    OutputError
        It cannot be written; what was there is still there.
    """
    target = _real(path)
    if target.is_dir():
        raise OutputError(f"{path} is a folder: give the name of a file in it, like job.toml")
    built = _beside(target)
    try:
        if not force and target.exists():
            raise OutputError(f"{path} is there already: choose another name, or overwrite it with --force")
        with open(built, "xb") as file:
            file.write(content)
        os.replace(built, target)
    except OSError as error:
        _unlink(built)
        raise error if isinstance(error, OutputError) else _failed(path, error) from None
    except BaseException:
        _unlink(built)
        raise


def _real(path: str | os.PathLike[str]) -> Path:
    try:
        return Path(os.path.realpath(path))
    except (OSError, ValueError) as error:
        raise OutputError(f"{os.fspath(path)!r} cannot be used as a name ({error}): choose another") from None


def _beside(target: Path) -> Path:
    """Find a free name in the same folder, hence on the same disk: a rename then puts it in place at once."""
    number = 0
    while (path := target.parent / f".edgewright-{os.getpid()}-{number}").exists():
        number += 1
    return path


def _check(folder: str | os.PathLike[str], target: Path, force: bool) -> None:
    parent = target.parent
    if not parent.is_dir():
        what = "is not a folder" if parent.exists() else "does not exist"
        raise OutputError(f"{folder} cannot be made, for {parent} {what}: make that folder first")
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
    entries = sorted(os.scandir(target), key=lambda entry: entry.name)
    if not entries:
        return None
    own = _listed(target / MARKER)
    if own is None:
        return f"holds files but no {MARKER} of this program"
    for entry in entries:
        if entry.name not in own or not entry.is_file(follow_symlinks=False):
            return f"holds {entry.name}, which this program did not write"
    return None


def _listed(marker: Path) -> set[str] | None:
    """Names of the files that a plan.json says were written with it; None when it is none of ours."""
    try:
        with open(marker, "rb") as file:
            plan = json.loads(file.read(_LARGEST_MARKER))
    except (OSError, ValueError, RecursionError):
        return None
    if not isinstance(plan, dict) or plan.get("format") != FORMAT:
        return None
    files = plan.get("files")
    return (
        {MARKER, *(name for name in files if isinstance(name, str))} if isinstance(files, list) else {MARKER}
    )


def _put_in_place(built: Path, target: Path, folder: str | os.PathLike[str]) -> None:
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
        raise OutputError(f"{folder} was written, but the old one could not be removed and lies in {old}")


def _remove(folder: Path) -> bool:
    """Remove a folder of plain files; never goes into folders inside it."""
    try:
        for entry in list(os.scandir(folder)):
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
        f"{os.fspath(path)} could not be written ({reason_of(error)}): nothing was left behind"
    )
