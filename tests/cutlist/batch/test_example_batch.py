"""The example batch: three tables of which two lack strips alone, and buy nothing together."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewright.cutlist.batch.batch import plan_batch
from edgewright.cutlist.plan import plan

FOLDER = Path(__file__).resolve().parents[3] / "examples" / "batch"
JOBS = [FOLDER / f"{name}_table.toml" for name in ("long", "window", "serving")]


@pytest.mark.example
def test_alone_two_tables_lack_strips_and_together_nothing_is_bought() -> None:
    assert [plan(path).ready for path in JOBS] == [True, False, False]
    batch = plan_batch(JOBS, FOLDER / "wood.toml")
    assert batch.ready
    stages = {stage.name: stage for stage in batch.stages}
    assert (stages["new material cost"].value, stages["new material cost"].proven) == (0, True)
    assert (stages["splices"].value, stages["splices"].proven) == (0, True)
