"""The packet, once everything is loaded; that of a large batch with the memory it takes."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from edgewright.cli.packet import packet_pdf
from edgewright.cutlist.plan import plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
#: Twenty tables whose edge has three layers; memory is that of this process alone, once the batch is planned and after.
BATCH = """
import json, resource, sys, time
sys.path.insert(0, sys.argv[1])
from batch_jobs import random_tables
from edgewright.cli.batch_packet import batch_packet_data, batch_packet_pdf
from edgewright.cutlist.batch.batch import plan_jobs

batch = plan_jobs(random_tables(20, 0, ("1 1/2",), edge="layers = 3\\n"))
assert batch.ready
peak = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
planned, began = peak(), time.perf_counter()
made = batch_packet_pdf(batch)
took = time.perf_counter() - began
labels = len(batch_packet_data(batch, "a4")["labels"])
print(json.dumps({"seconds": took, "megabytes": peak(), "planned": planned, "labels": labels, "bytes": len(made)}))
"""


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_packet(benchmark, path):
    """All sheets of an example as one PDF."""
    made = plan(path)
    assert benchmark(packet_pdf, made)


def test_packet_of_twenty_tables(benchmark):
    """One packet with several hundred labels, from a planned batch; the process also loads and plans."""
    words = [sys.executable, "-c", BATCH, str(Path(__file__).resolve().parents[1])]

    def run():
        return json.loads(subprocess.run(words, check=True, capture_output=True).stdout)

    found = benchmark.pedantic(run, rounds=1)
    benchmark.extra_info |= found
    assert found["labels"] > 200
