"""Progress only on a terminal, only when it takes long, and gone at the end."""

import io

import pytest

from edgewright.cli import progress
from edgewright.cli.progress import Progress


class Terminal(io.StringIO):
    def __init__(self, there: bool):
        super().__init__()
        self.isatty = lambda: there


@pytest.mark.parametrize(
    ("seconds", "there", "shown"), [(0.9, True, False), (1.1, True, True), (1.1, False, False)]
)
def test_when_it_is_shown(monkeypatch, seconds, there, shown):
    screen = Terminal(there)
    times = iter([0.0, seconds, seconds])
    monkeypatch.setattr(progress.time, "monotonic", lambda: next(times))
    monkeypatch.setattr("sys.stderr", screen)
    with Progress() as tell:
        tell("trying strips 3 in wide")
        tell("checking")
    assert ("trying strips" in screen.getvalue()) == shown
    # what was shown is wiped: the last line is blank
    assert not screen.getvalue().split("\r")[-2 if shown else 0].strip()
