"""Gives problems to ``general_solver.py``, which runs as a program of its own."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal


def ask_general_solver(
    kind: Literal["whole", "splices", "sheets"], problems: Sequence[dict[str, Any]], limit: float = 60.0
) -> list[tuple[list[int | None], float]]:
    """Values by stage (None where not proven, none at all where there is no solution) and CPU seconds, for each."""
    command = [sys.executable, str(Path(__file__).with_name("general_solver.py")), kind, str(limit)]
    run = subprocess.run(command, input=json.dumps(problems), capture_output=True, text=True, check=True)
    return [(values, seconds) for values, seconds in json.loads(run.stdout)]
