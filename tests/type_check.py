"""Run the strict type check on the package laid out as it is installed.

Type checkers do not follow the folder map of pyproject.toml, so the four folders are copied to one package first.
"""

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def main() -> int:
    """Copy, check, and return the checker's exit code."""
    with tempfile.TemporaryDirectory() as folder:
        package = Path(folder) / "edgewright"
        shutil.copytree(ROOT / "shared", package)
        for room in ("design", "cutlist", "cli"):
            shutil.copytree(ROOT / room, package / room)
        command = [
            sys.executable,
            "-m",
            "mypy",
            "--config-file",
            str(ROOT / "pyproject.toml"),
            "-p",
            "edgewright",
        ]
        return subprocess.run(command, cwd=folder, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
