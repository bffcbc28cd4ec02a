"""The packet, once everything is loaded."""

from pathlib import Path

import pytest

from edgewright.cli.packet import packet_pdf
from edgewright.cutlist.plan import plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_packet(benchmark, path):
    """All sheets of an example as one PDF."""
    made = plan(path)
    assert benchmark(packet_pdf, made)
