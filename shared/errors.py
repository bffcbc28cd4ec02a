"""Every error of the package, drawn as a tree.

::

    EdgewrightError
      InputError (ValueError)      what a person typed                         exit code 2
        UnitError                  a number, a unit or a fraction is not understood
        JobError                   one or more faults in a job file
      GeometryError (ValueError)   a shape that cannot exist
      CheckError (RuntimeError)    the independent checker refused a plan      exit code 1
      OutputError (OSError)        a file that could not be written            exit code 3
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

__all__ = [
    "CheckError",
    "EdgewrightError",
    "Fault",
    "GeometryError",
    "InputError",
    "JobError",
    "OutputError",
    "UnitError",
    "blaming",
]


class EdgewrightError(Exception):
    """Root of all errors raised on purpose."""


class InputError(EdgewrightError, ValueError):
    """What a person typed cannot be used."""


class UnitError(InputError):
    """A number, a fraction or a unit is not understood or is of the wrong kind."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault in a job file.

    Attributes
    ----------
    key
        Dotted place in the file, like ``top.thickness``.
    line
        Line number from 1, or None when the key is absent.
    message
        One sentence: the value got, what is allowed and a hint.
    """

    key: str
    line: int | None
    message: str


class JobError(InputError):
    """A job file with one or more faults; all of them are kept in ``faults``."""

    def __init__(self, path: str, faults: tuple[Fault, ...]) -> None:
        self.path = path
        self.faults = faults
        super().__init__(path, faults)

    def __str__(self) -> str:
        lines = []
        for fault in self.faults:
            place = f"{self.path}:{fault.line}" if fault.line else self.path
            key = f"{fault.key}: " if fault.key else ""
            lines.append(f"{place}: {key}{fault.message}")
        return "\n".join(lines)


class GeometryError(EdgewrightError, ValueError):
    """A shape that cannot exist with the figures given.

    Attributes
    ----------
    place
        Keys of the job file whose figures these are, from the top table down; empty where that is not plain.
    """

    place: tuple[str | int, ...] = ()


@contextmanager
def blaming(*place: str | int) -> Iterator[None]:
    """Say of a GeometryError that is raised within which place of the job file it comes from.

    The innermost place counts.
    """
    try:
        yield
    except GeometryError as error:
        error.place = error.place or place
        raise


class CheckError(EdgewrightError, RuntimeError):
    """The independent checker refused a plan: a defect of this program, never of the job."""


class OutputError(EdgewrightError, OSError):
    """A file or folder could not be written; nothing half-written remains."""
