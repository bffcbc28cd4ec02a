"""Read a job file (TOML): a `Job`, or one `JobError` that lists every fault with its line."""

from __future__ import annotations

import contextlib
import os
import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any, Final

from pydantic import ValidationError

from edgewright.errors import Fault, JobError
from edgewright.job import Job, part_faults, read_parts
from edgewright.job_fields import JobFaultsError, Section, shorten
from edgewright.job_lines import Place, key_lines, line_of
from edgewright.job_sentences import place_of, sentence, toml_sentence
from edgewright.unit_words import printable
from edgewright.units import Units

if TYPE_CHECKING:
    from edgewright.job_shaped import ShapedJob

__all__ = [
    "LARGEST_FILE",
    "document_of",
    "fault_at",
    "faults_of",
    "key_of",
    "parse_any_job",
    "parse_job",
    "read_any_job",
    "read_job",
    "text_of",
]

LARGEST_FILE: Final = 1 << 20
"""Bytes; a job file is a few thousand."""
MOST_FAULTS: Final = 100
"""Faults that are told; whoever makes more of them mends these first."""


def read_job(path: str | os.PathLike[str]) -> Job:
    """Read a job file of a top given by length and width.

    Raises
    ------
    JobError
        As `read_any_job`; also when the top has an outline.
    """
    return _plain(read_any_job(path), os.fspath(path))


def parse_job(text: str, path: str = "job.toml") -> Job:
    """Read the text of a job file of a top given by length and width; see `parse_any_job`.

    Raises
    ------
    JobError
        As `parse_any_job`; also when the top has an outline.
    """
    return _plain(parse_any_job(text, path), path)


def read_any_job(path: str | os.PathLike[str]) -> Job | ShapedJob:
    """Read a job file of any top: a `ShapedJob` when it has a table [top.outline] or is cut new.

    Raises
    ------
    JobError
        With every fault of the file, or the one reason why it cannot be read at all.
    """
    name = os.fspath(path)
    return parse_any_job(text_of(name), name)


def text_of(name: str) -> str:
    """Read the text of a file of a person's.

    Raises
    ------
    JobError
        With the one reason why it cannot be read.
    """
    if not name:
        raise _whole("edgewright", "the name of the job file is empty: give one, like job.toml")
    try:
        with open(name, "rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except IsADirectoryError:
        raise _whole(name, "is a folder: give the job file in it, like job.toml") from None
    except FileNotFoundError:
        raise _whole(name, "there is no such file: check the name and the folder") from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or "the name cannot be used").lower()
        raise _whole(name, f"cannot be read ({reason}): check the file and its permissions") from None
    if len(data) > LARGEST_FILE:
        raise _whole(name, "is larger than 1 MiB, the most that is read: a job file is a short text")
    if _utf_16(data):
        raise _whole(name, "is UTF-16, not UTF-8 text: save it as UTF-8 with a text editor")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _whole(name, "is not UTF-8 text: save it as UTF-8 with a text editor", line) from None


def parse_any_job(text: str, path: str = "job.toml") -> Job | ShapedJob:
    """Read the text of a job file; ``path`` is the name that faults are shown with.

    A drawing of the outline is looked for from the folder of ``path``.

    Raises
    ------
    JobError
        With every fault, sorted by line.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if len(text) > LARGEST_FILE:
        raise _whole(path, "is larger than 1 MiB, the most that is read: a job file is a short text")
    if not text.strip():
        raise _whole(path, "is empty: at least the tables [job] and [top] are needed")
    if "\r" in text and "\n" not in text:
        raise _whole(path, "ends its lines with CR alone: save it with LF or CRLF line ends")
    document = document_of(text, path)
    context = {"unit": _units(document), "folder": os.path.dirname(path)}
    shaped = _has_outline(document) or _is_new(document)
    kind = _shaped_kind(document) if shaped else Job
    try:
        return kind.model_validate(document, context=context)
    except ValidationError as error:
        found = faults_of(error, kind)
    except RecursionError:
        raise _whole(path, _TOO_DEEP) from None
    # what lies between sound tables is told too, though a fault elsewhere kept the whole from being checked
    between = _shaped_between(document, context) if shaped else part_faults(read_parts(document, context))
    found |= {place: message for place, message in between if place not in found}
    if any(_spoils_units(place, message) for place, message in found.items()):
        # that bare numbers have no unit is then no fault of theirs
        found = {place: message for place, message in found.items() if "has no unit:" not in message}
    lines = key_lines(text)
    faults = [
        Fault(key_of(place, document), line_of(place, lines), message) for place, message in found.items()
    ]
    faults = _bare_numbers_at_once(faults)
    raise JobError(printable(path), tuple(sorted(faults, key=lambda f: (f.line or 0, f.key))))


def fault_at(path: str | os.PathLike[str] | None, place: Place, message: str) -> Fault:
    """Make the fault of a place in a job file that was read before.

    Parameters
    ----------
    path
        The file; None for a job that comes from none: then no line is told.
    place
        Keys from the top table down, like ``("cut_out", 0)``; empty where none is to blame.
    message
        One sentence.
    """
    document: dict[str, Any] = {}
    lines: dict[Place, int] = {}
    if path is not None and place:
        with contextlib.suppress(OSError, ValueError):  # gone or changed in between: the place has no line
            with open(path, encoding="utf-8-sig") as file:
                text = file.read(LARGEST_FILE)
            document, lines = tomllib.loads(text), key_lines(text)
    whole = document or _nested(place)
    return Fault(key_of(place, whole), line_of(place, lines), message)


def _nested(place: Place) -> Any:
    """The tables and lists that a place runs through, where no document is at hand."""
    if not place:
        return None
    first, inner = place[0], _nested(place[1:])
    return [inner] * (first + 1) if isinstance(first, int) else {first: inner}


def _has_outline(document: Mapping[str, Any]) -> bool:
    top = document.get("top")
    return isinstance(top, dict) and "outline" in top


def _is_new(document: Mapping[str, Any]) -> bool:
    top = document.get("top")
    return isinstance(top, dict) and "new" in top


def _shaped_kind(document: Mapping[str, Any]) -> type[ShapedJob]:
    # loaded when a file asks for it: a plain job needs no shapes
    from edgewright.job_new_top import NewTopJob
    from edgewright.job_shaped import ShapedJob

    return ShapedJob if _has_outline(document) else NewTopJob


def _shaped_between(document: Mapping[str, Any], context: dict[str, Any]) -> Iterator[tuple[Place, str]]:
    from edgewright.job_new_top import NewTop
    from edgewright.job_shaped import ShapedTop, read_shaped_parts
    from edgewright.job_shaped_checks import shaped_faults

    kind = ShapedTop if _has_outline(document) else NewTop
    return shaped_faults(read_shaped_parts(document, context, kind))


def _plain(job: Job | ShapedJob, path: str) -> Job:
    """Refuse a job with an outline where only length and width can be used."""
    if isinstance(job, Job):
        return job
    if job.top.new:
        message = "a top that is cut new cannot be used here: only an old top with length and width can"
        raise JobError(printable(path), (Fault("top.new", None, message),))
    message = f'shape = "{job.top.outline.shape}" cannot be used here: only a top with length and width under [top] can'
    raise JobError(printable(path), (Fault("top.outline", None, message),))


#: What the reader of lengths says of a bare number.
_BARE: Final = "has no unit: write 72 in or 1830 mm"
_TOO_DEEP: Final = "holds tables or lists nested too deeply: a job file has at most 5 levels"
# a chain of this many dotted keys would keep the TOML reader busy for minutes
_LONG_CHAIN: Final = re.compile(
    r"""(?<![A-Za-z0-9_-])(?:(?:[A-Za-z0-9_-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){128}"""
)


def _whole(path: str, message: str, line: int | None = None) -> JobError:
    """Make the error for a file that cannot be used at all."""
    return JobError(printable(path), (Fault("", line, message),))


def document_of(text: str, path: str) -> dict[str, Any]:
    """Parse TOML; every way in which this fails becomes one sentence."""
    if _LONG_CHAIN.search(text):
        raise _whole(path, _TOO_DEEP)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _whole(path, *toml_sentence(str(error), text)) from None
    except RecursionError:
        raise _whole(path, _TOO_DEEP) from None
    except ValueError:  # the interpreter refuses to read thousands of digits
        raise _whole(path, "holds a number with too many digits: a job needs at most 10") from None


def _units(document: Mapping[str, Any]) -> Units | None:
    """Read the unit of bare numbers, wanted before the job itself is read."""
    table = document.get("job")
    units = table.get("units") if isinstance(table, dict) else None
    return units if units in ("in", "mm") else None


def _bare_numbers_at_once(faults: list[Fault]) -> list[Fault]:
    """Tell of all bare numbers at the first of them: one line under [job] mends them all."""
    bare = sorted((f for f in faults if _BARE in f.message), key=lambda f: (f.line or 0, f.key))
    if not bare:
        return faults
    others = ", ".join(f"{f.key}{f' in line {f.line}' if f.line else ''}" for f in bare[1:])
    more = f"; so has {others}" if others else ""
    figure = bare[0].message.partition(_BARE)[0]
    message = (
        f'{figure}has no unit: write it with its unit in quotes, like "72 in" or "1830 mm", or set units = "in" or '
        f'"mm" under [job] for all bare numbers{more}'
    )
    return [*(f for f in faults if f not in bare), Fault(bare[0].key, bare[0].line, message)]


def _spoils_units(place: Place, message: str) -> bool:
    """Whether a fault is why no unit of bare numbers was found."""
    if place == ("job",):
        return "missing" not in message
    return place[-1:] == ("units",) or message.endswith("did you mean units?")


def _utf_16(data: bytes) -> bool:
    """Whether a file is UTF-16: by its mark, or without one as every other byte of plain letters is zero."""
    zeros = sorted((data[::2].count(0), data[1::2].count(0)))
    return data[:2] in (b"\xff\xfe", b"\xfe\xff") or (zeros[0] == 0 and zeros[1] > max(1, len(data) / 4))


def faults_of(error: ValidationError, kind: type[Section]) -> dict[Place, str]:
    """Place and sentence of every fault that was found; the first one of a place counts."""
    found: dict[Place, str] = {}
    details = error.errors(include_url=False)
    for detail in details[:MOST_FAULTS]:
        cause = detail.get("ctx", {}).get("error")
        if isinstance(cause, JobFaultsError):
            for place, message in cause.faults:
                found.setdefault(place_of(detail, kind) + place, message)
        else:
            found.setdefault(place_of(detail, kind), sentence(detail, kind))
    if len(details) > MOST_FAULTS:
        more = len(details) - MOST_FAULTS
        found[()] = f"holds {more} more faults than the {MOST_FAULTS} told here: mend these first"
    return found


def key_of(place: Place, document: Any) -> str:
    """Write a place like ``stock[0].width`` as the file has it: no index where it has no list."""
    key = ""
    for part in place:
        if isinstance(part, int):
            if isinstance(document, list):
                key += f"[{part}]"
                document = document[part]
            continue
        if key and not isinstance(document, dict):
            break  # one value given for all sides or corners
        key += "." * bool(key) + shorten(part)
        document = document.get(part) if isinstance(document, dict) else None
    return key
