"""The bytes of a file that a person names, or one sentence why there are none."""

from __future__ import annotations

import os
import stat

from edgewright.dxf_audit.tags import LARGEST, UnreadableError
from edgewright.unit_words import printable

__all__ = ["file_bytes"]


def file_bytes(path: str) -> bytes:
    """Read a plain file of at most `LARGEST` bytes.

    Raises
    ------
    UnreadableError
        If it is not there, is no plain file, is too large or cannot be read.
    """
    shown = printable(path)[:200]
    try:
        status = os.stat(path)
        # a pipe would never end, so it is not even opened
        if not stat.S_ISREG(status.st_mode):
            raise UnreadableError(f"{shown} is no plain file: give the name of a DXF file")
        if status.st_size > LARGEST:
            raise UnreadableError(
                f"{shown} is larger than {LARGEST >> 20} MiB, the most that is read: divide it"
            )
        with open(path, "rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        raise UnreadableError(f"{shown} is not there: give the name of a DXF file") from None
    except (OSError, ValueError) as error:
        if isinstance(error, UnreadableError):
            raise
        reason = (getattr(error, "strerror", None) or "the name cannot be used").lower()
        raise UnreadableError(f"{shown} cannot be read ({reason}): check the file") from None
