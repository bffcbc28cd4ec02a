"""Groups of a DXF file, code and value, from its bytes: ASCII of any version, or binary.

References
----------
DXF Reference (group codes in numerical order; binary DXF files)
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.errors import InputError

__all__ = ["LARGEST", "Group", "UnreadableError", "groups_of"]

#: Code and value.
Group = tuple[int, str]

LARGEST: Final = 64 << 20
"""Bytes of the largest file that is read."""
_BINARY: Final = b"AutoCAD Binary DXF\r\n\x1a\x00"
_COMMENT: Final = 999


class UnreadableError(InputError):
    """A file that is no DXF file, or only a part of one: one sentence."""


def groups_of(data: bytes, name: str) -> Iterator[Group]:
    """Groups up to and with the end mark.

    Parameters
    ----------
    data
        The whole file.
    name
        Name of the file, as messages show it.

    Raises
    ------
    UnreadableError
        While the groups are taken: it is another kind of file, is damaged, or ends before its end mark.
    """
    if len(data) > LARGEST:
        raise UnreadableError(f"{name} is larger than {LARGEST >> 20} MiB, the most that is read: divide it")
    if data.startswith(b"AC10"):
        raise UnreadableError(f"{name} is a DWG file: save it as DXF")
    binary = data.startswith(_BINARY[:18])
    first, ended = True, False
    for code, value in _binary(data, name) if binary else _ascii(data, name):
        if code == _COMMENT:
            continue
        if first and (code, value) != (0, "SECTION"):
            raise UnreadableError(_other_kind(name))
        first = False
        yield code, value
        if (code, value) == (0, "EOF"):
            ended = True
            break
    if first:
        raise UnreadableError(_other_kind(name))
    if not ended:
        raise UnreadableError(
            f"{name} is cut off: it ends without its end mark (EOF); get the whole file again"
        )


def _other_kind(name: str) -> str:
    return f"{name} is no DXF file: it does not begin with a section; save the drawing as DXF"


def _ascii(data: bytes, name: str) -> Iterator[Group]:
    if b"\n" not in data:
        data = data.replace(b"\r", b"\n")
    at, number, size = 3 if data.startswith(b"\xef\xbb\xbf") else 0, 0, len(data)
    while at < size:
        pair: list[bytes] = []
        for _ in range(2):
            stop = data.find(b"\n", at)
            if stop < 0:
                stop = size
            if at > size or (at == size and len(pair) == 1):
                raise UnreadableError(f"{name} is cut off after line {number}: get the whole file again")
            pair.append(data[at:stop])
            at = stop + 1
            number += 1
        head = pair[0].strip()
        if not head and at >= size:
            return
        try:
            code = int(head)
        except ValueError:
            if number == 2:
                raise UnreadableError(_other_kind(name)) from None
            raise UnreadableError(
                f"{name} is damaged at line {number - 1}: a group code should stand there; get the file again"
            ) from None
        text = pair[1].rstrip(b"\r").decode("utf-8", "replace")
        # only text may begin or end with blanks
        yield code, text if code in (1, 3) else text.strip()


def _binary(data: bytes, name: str) -> Iterator[Group]:
    """Groups of a binary file, taken apart by the DXF library, which raises whatever comes up where it is damaged."""
    from ezdxf.lldxf.tagger import binary_tags_loader

    try:
        for tag in binary_tags_loader(data, errors="ignore"):
            value = tag.value
            yield int(tag.code), value.decode("utf-8", "replace") if isinstance(value, bytes) else str(value)
    except Exception:
        raise UnreadableError(
            f"{name} is a damaged binary DXF file: get it again, or save it as ASCII DXF"
        ) from None
