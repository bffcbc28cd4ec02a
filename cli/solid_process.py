"""Build the solid in a second process beside the rest: loading the geometry kernel takes longer than a whole plan.

The parent sends the figures as JSON and gets one line of JSON back::

    python -m edgewright.cli.solid_process FOLDER < figures.json

The mesh files (GLB, STL) need no kernel and are written first, so they are there even where it cannot be loaded.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Final

from edgewright.cli.solid_json import spec_from_plain, spec_to_plain
from edgewright.design.glb_file import glb_bytes
from edgewright.design.solid import SolidReport, build_solid
from edgewright.design.solid_figures import SolidSpec
from edgewright.design.step_file import write_step
from edgewright.design.stl_file import stl_bytes
from edgewright.errors import EdgewrightError

__all__ = ["GLB_NAME", "STEP_NAME", "STL_NAME", "SolidHandle", "SolidResult", "start_solid"]

STEP_NAME: Final = "top.step"
GLB_NAME: Final = "top.glb"
STL_NAME: Final = "top.stl"


@dataclass(frozen=True, slots=True)
class SolidResult:
    """What the second process made.

    Attributes
    ----------
    files
        Files that are there and whole.
    report
        What the kernel measured, None where it built nothing.
    problem
        Why a file is missing, one sentence, or None.
    """

    files: tuple[Path, ...]
    report: SolidReport | None
    problem: str | None


class SolidHandle:
    """A solid being built; `finish` waits for it, `cancel` gives it up."""

    def __init__(self, process: subprocess.Popen[str], folder: Path) -> None:
        self._process = process
        self._folder = folder

    def finish(self) -> SolidResult:
        """Wait and return what was made; what went wrong is told in ``problem``, never raised."""
        answer, complaint = self._process.communicate()
        last = answer.strip().rpartition("\n")[2]
        if self._process.returncode != 0 or not last:
            return SolidResult(
                self._whole([GLB_NAME, STL_NAME]), None, _ended(self._process.returncode, complaint)
            )
        data = json.loads(last)
        report = data["report"]
        if report is not None:
            report = SolidReport(
                **{**report, "bodies": tuple((name, volume) for name, volume in report["bodies"])}
            )
        return SolidResult(self._whole(data["files"]), report, data["problem"])

    def cancel(self) -> None:
        """End the process at once; its files are not whole."""
        self._process.kill()
        self._process.communicate()

    def _whole(self, names: list[str]) -> tuple[Path, ...]:
        return tuple(path for path in (self._folder / name for name in names) if path.is_file())


def start_solid(
    spec: SolidSpec, folder: str | os.PathLike[str], title: str = "finished top", *, stl: bool = False
) -> SolidHandle:
    """Start to build ``top.glb``, ``top.step`` and perhaps ``top.stl`` in a folder that exists; returns at once.

    The kernel never runs in this process, so its crash or its absence cannot take the plan with it.
    """
    target = Path(folder).absolute()
    # -P: a file called json.py beside the job must not be imported
    command = [sys.executable, "-P", "-m", "edgewright.cli.solid_process", str(target)]
    pipe = subprocess.PIPE
    process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, text=True, encoding="utf-8")
    stream = process.stdin
    process.stdin = None  # communicate() would write to it again
    if stream is not None:
        try:
            with stream:
                stream.write(json.dumps({"title": title, "stl": stl, "spec": spec_to_plain(spec)}))
        except BrokenPipeError:
            pass  # it ended before it read: finish() tells why
    return SolidHandle(process, target)


def _ended(code: int, complaint: str) -> str:
    why = f"signal {-code}" if code < 0 else f"exit code {code}"
    last = complaint.strip().rpartition("\n")[2]
    more = f", {last}" if last else ""
    return f"the process that builds the solid ended early ({why}{more}); no STEP file is written, all else holds"


def _build(spec: SolidSpec, folder: Path, title: str, stl: bool) -> dict[str, Any]:
    """Write all files; the answer names what is there, what was measured and what went wrong."""
    answer: dict[str, Any] = {"files": [], "report": None, "problem": None}
    try:
        for name, make in ((GLB_NAME, glb_bytes), (STL_NAME, stl_bytes)):
            if name != STL_NAME or stl:
                (folder / name).write_bytes(make(spec, title))
                answer["files"].append(name)
        solid = build_solid(spec)
        answer["report"] = asdict(solid.report)
        write_step(solid, folder / STEP_NAME, title)
        answer["files"].append(STEP_NAME)
    except EdgewrightError as fault:
        answer["problem"] = str(fault)
    except OSError as fault:
        answer["problem"] = f"{folder}: cannot be written ({fault.strerror}); choose another folder"
    return answer


def main() -> int:
    """Read the figures from standard input, write the files, print the answer as one line."""
    stdin = sys.stdin.buffer.read().decode("utf-8")
    data = json.loads(stdin)
    answer = _build(spec_from_plain(data["spec"]), Path(sys.argv[1]), data["title"], data["stl"])
    sys.stdout.buffer.write(b"\n" + json.dumps(answer).encode() + b"\n")
    sys.stdout.flush()
    # the kernel's libraries take a while to unload and have nothing left to save
    os._exit(0)


if __name__ == "__main__":
    sys.exit(main())
