"""Progress on standard error: only on a terminal, and only once the work has lasted over a second."""

from __future__ import annotations

import sys
import threading
from types import TracebackType

from edgewright.cli.text import screen_width

__all__ = ["Progress"]

PATIENCE_S = 1.0


class Progress:
    """One line that is written over; call it with a few words, leave the block to clear it."""

    def __init__(self) -> None:
        self._shown = 0
        self._words = ""
        self._lock = threading.Lock()
        self._timer = threading.Timer(PATIENCE_S, self._show)
        self._timer.daemon = True

    def __call__(self, words: str) -> None:
        """Say what is being done now; shown at once when the work already lasts."""
        self._words = words
        if not self._timer.is_alive():
            self._show()

    def _show(self) -> None:
        with self._lock:
            if not self._words or not sys.stderr.isatty():
                return
            line = self._words[: screen_width() - 1]
            self._write("\r" + line.ljust(self._shown))
            self._shown = max(self._shown, len(line))

    @staticmethod
    def _write(text: str) -> None:
        sys.stderr.write(text)
        sys.stderr.flush()

    def __enter__(self) -> Progress:
        self._timer.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._timer.cancel()
        self._words = ""
        with self._lock:
            if self._shown:
                self._write("\r" + " " * self._shown + "\r")
