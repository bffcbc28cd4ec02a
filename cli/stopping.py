"""Ctrl-C, SIGTERM and SIGHUP: each raises ``KeyboardInterrupt`` in the main thread, with two things added.

While a folder is being written a signal waits (`held`). And as nothing in Python runs while the solver computes
in C, a second thread ends the process when the main thread does not get to the signal (`computing`).
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import threading
from collections.abc import Iterator
from types import FrameType
from typing import Final

__all__ = ["computing", "exit_code", "held", "pause", "signals_taken"]

GRACE_S = 0.4
"""How long the main thread has to get to a signal by itself."""

_SIGNALS: Final = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]


class _State:
    caught = 0
    """Number of the first signal, 0 before one came."""
    held = 0


_state: Final = _State()


def exit_code() -> int | None:
    """128 and the number of the signal that came, as a shell says it; None when none did."""
    return 128 + _state.caught if _state.caught else None


@contextlib.contextmanager
def signals_taken() -> Iterator[None]:
    """Take the signals over for a block; what the caller ignores, as ``nohup`` does, stays ignored."""
    before = {number: signal.getsignal(number) for number in _SIGNALS}
    unraisable = sys.unraisablehook
    sys.unraisablehook = lambda lost: None if lost.exc_type is KeyboardInterrupt else unraisable(lost)
    try:
        for number, handler in before.items():
            if handler in (signal.SIG_DFL, signal.default_int_handler):
                with contextlib.suppress(ValueError):  # not in the main thread, so the signals are not ours
                    signal.signal(number, _handler)
        yield
    finally:
        for number, handler in before.items():
            if signal.getsignal(number) is _handler:
                signal.signal(number, handler)
        sys.unraisablehook = unraisable
        _state.caught = _state.held = 0


@contextlib.contextmanager
def held() -> Iterator[None]:
    """Let signals wait until the end of the block, or until `pause` in it."""
    _state.held += 1
    try:
        yield
    finally:
        _state.held -= 1
        if not _state.held:
            pause()


def pause() -> None:
    """Let a signal take effect here that had to wait, or whose exception was lost, as it is in ``__del__``."""
    if _state.caught:
        raise KeyboardInterrupt


@contextlib.contextmanager
def computing() -> Iterator[None]:
    """Let a signal end the process even while the main thread is in C; for a block that leaves nothing behind."""
    if signal.getsignal(signal.SIGINT) is not _handler:
        yield  # nobody took the signals over
        return
    read, write = os.pipe()
    os.set_blocking(write, False)
    left = threading.Event()
    watch = threading.Thread(target=_watch, args=(read, left), daemon=True)
    before = signal.set_wakeup_fd(write, warn_on_full_buffer=False)
    try:
        watch.start()
        pause()
        yield
        pause()
    finally:
        left.set()
        signal.set_wakeup_fd(before)
        os.close(write)  # the watch reads the end, and closes its own side


def _handler(number: int, frame: FrameType | None) -> None:
    _state.caught = _state.caught or number
    if not _state.held:
        raise KeyboardInterrupt


def _watch(read: int, left: threading.Event) -> None:
    """Wait for the number of a signal, which the interpreter writes at once wherever the main thread is."""
    with open(read, "rb", buffering=0) as numbers:
        while came := numbers.read(1):
            if came[0] in _SIGNALS and not left.wait(GRACE_S):
                _end(came[0])


def _end(number: int) -> None:
    with contextlib.suppress(Exception):
        sys.stderr.write("\n" * sys.stderr.isatty() + "edgewright: stopped\n")
        sys.stderr.flush()
    os._exit(128 + number)
