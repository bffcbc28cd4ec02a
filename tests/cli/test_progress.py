"""Progress only on a terminal, only when it takes long, and gone at the end."""

import io
import time

import pytest

from edgewright.cli import progress
from edgewright.cli.progress import Progress


class Terminal(io.StringIO):
    def __init__(self, there: bool):
        super().__init__()
        self.isatty = lambda: there


def wait_for(condition):
    end = time.monotonic() + 5
    while not condition() and time.monotonic() < end:
        time.sleep(0.01)


@pytest.mark.parametrize("there", [True, False])
def test_words_appear_once_the_work_lasts_and_are_wiped(monkeypatch, there):
    screen = Terminal(there)
    monkeypatch.setattr("sys.stderr", screen)
    monkeypatch.setattr(progress, "PATIENCE_S", 0.02)
    with Progress() as tell:
        tell("trying strips 3 in wide")
        wait_for(lambda: "trying strips" in screen.getvalue() or not there)
        before = screen.getvalue()
    assert ("trying strips" in before) == there
    # what was shown is wiped: the last line is blank
    if there:
        assert screen.getvalue().endswith("\r" + " " * len("trying strips 3 in wide") + "\r")


def test_nothing_appears_while_it_is_quick(monkeypatch):
    screen = Terminal(True)
    monkeypatch.setattr("sys.stderr", screen)
    monkeypatch.setattr(progress, "PATIENCE_S", 60.0)
    with Progress() as tell:
        tell("trying strips 3 in wide")
        tell("checking")
    assert screen.getvalue() == ""
