"""From errors to one sentence and an exit code; from any text to what the terminal can show.

0 done; 1 a stop is open, no plan, or the checker refused one; 2 wrong usage or job file; 3 a file could not
be written; 70 a defect of this program or no memory; 130 stopped by the person (129 and 143: by a hang-up or by
the system); 141 the reader of the output went away.
"""

from __future__ import annotations

import codecs
import contextlib
import io
import os
import sys
import traceback

import click

from edgewright.cli import stopping
from edgewright.errors import CheckError, EdgewrightError, JobError, OutputError
from edgewright.text_direction import unturned
from edgewright.unit_words import printable

__all__ = [
    "DEFECT",
    "PipeClosedError",
    "exit_code_of",
    "plain_streams",
    "quiet_stdout",
    "reason_of",
    "say",
]

DEFECT = 70
_STOPPED = 130
_PIPE_CLOSED = 141


class PipeClosedError(Exception):
    """The reader of standard output went away."""


def exit_code_of(error: BaseException) -> int:
    """Tell an error on standard error, and say with which code to exit."""
    if isinstance(error, PipeClosedError | BrokenPipeError):
        return _PIPE_CLOSED
    # after a signal the error is what the interrupted code made of it
    stopped = stopping.exit_code()
    if stopped or isinstance(error, click.Abort | KeyboardInterrupt):
        _tell("stopped")
        return stopped or _STOPPED
    if isinstance(error, click.ClickException):
        usage = io.StringIO()
        error.show(usage)
        _tell(usage.getvalue().rstrip("\n"), prefix="")
        return error.exit_code
    if isinstance(error, JobError):
        _tell(str(error), prefix="")
        return 2
    if isinstance(error, EdgewrightError):
        _tell(str(error))
        return 3 if isinstance(error, OutputError) else 1 if isinstance(error, CheckError) else 2
    if isinstance(error, MemoryError):
        _tell("there is not enough memory for this job")
        return DEFECT
    if os.environ.get("EDGEWRIGHT_DEBUG") == "1":
        traceback.print_exception(error)
    if isinstance(error, OSError):
        place = f"{printable(str(error.filename))}: " if error.filename else ""
        _tell(f"{place}the output could not be written ({reason_of(error)}): make room, or write elsewhere")
        return 3
    _tell(
        f"this is a defect of the program, please report it ({type(error).__name__}: {error}); "
        "EDGEWRIGHT_DEBUG=1 shows where"
    )
    return DEFECT


def reason_of(error: OSError) -> str:
    """Reason of the system in lower case, like ``no space left on device``."""
    return (error.strerror or str(error) or type(error).__name__).lower()


def plain_streams() -> None:
    """Let standard output and error spell out what their encoding lacks, instead of failing.

    In place of a closed stream one to nowhere is opened; else the next file that is opened would get its number.
    """
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            number = os.open(os.devnull, os.O_RDWR)
            setattr(sys, name, open(number, mode, encoding="utf-8", closefd=False))  # noqa: SIM115
    codecs.register_error("edgewright.plain", _spelled)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="edgewright.plain")


def quiet_stdout() -> None:
    """Send what cannot be written nowhere, so that the interpreter does not complain on its way out."""
    try:
        sys.stdout.flush()
    except (OSError, ValueError):
        with contextlib.suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, sys.stdout.fileno())
            os.close(nowhere)


def say(text: str, *, err: bool = False) -> None:
    """Print to standard output (or error) in its own encoding; click would write UTF-8 to an ASCII terminal."""
    (sys.stderr if err else sys.stdout).write(unturned(text) + "\n")


def _spelled(error: UnicodeError) -> tuple[str, int]:
    from edgewright.drawing.plain_ascii import plain_ascii

    if not isinstance(error, UnicodeEncodeError):
        raise error
    return plain_ascii(error.object[error.start : error.end]), error.end


def _tell(message: str, prefix: str = "edgewright: ") -> None:
    """Print to standard error, of which nothing is expected: the terminal may be gone."""
    shown = "\n".join(printable(line) for line in message.split("\n"))
    with contextlib.suppress(OSError, ValueError):
        sys.stderr.write(f"{prefix}{shown}\n")
