"""Progress on standard error: only on a terminal, and only once the work has lasted over a second."""

from __future__ import annotations

import sys
import time
from types import TracebackType

from edgewright.cli.text import screen_width

__all__ = ["Progress"]

PATIENCE_S = 1.0


class Progress:
    """One line that is written over; call it with a few words, leave the block to clear it."""

    def __init__(self) -> None:
        self._begun = time.monotonic()
        self._shown = 0

    def __call__(self, words: str) -> None:
        """Show what is being done now."""
        if not sys.stderr.isatty() or time.monotonic() - self._begun < PATIENCE_S:
            return
        line = words[: screen_width() - 1]
        self._write("\r" + line.ljust(self._shown))
        self._shown = len(line)

    @staticmethod
    def _write(text: str) -> None:
        sys.stderr.write(text)
        sys.stderr.flush()

    def __enter__(self) -> Progress:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._shown:
            self._write("\r" + " " * self._shown + "\r")
