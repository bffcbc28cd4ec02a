"""Questions beyond one plan, without the start-up."""

from pathlib import Path

import pytest

from edgewright.cutlist.asking.ask import ASKED, ask
from edgewright.jobfile import read_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("question", list(ASKED))
@pytest.mark.parametrize("name", ["narrow_one_side", "short_of_offcut"])
def test_question(benchmark, question, name):
    """One question about an example with a plan, and about one without."""
    job = read_job(EXAMPLES / f"{name}.toml")
    assert benchmark.pedantic(ask, (job, (question,)), rounds=3, warmup_rounds=1).answers
