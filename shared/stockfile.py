"""Read a file of shared wood: ``[[stock]]`` tables only, for all jobs of a batch."""

from __future__ import annotations

import os
from typing import Annotated

from pydantic import Field, ValidationError

from edgewright.errors import Fault, JobError
from edgewright.job_fields import AsTuple, Section
from edgewright.job_lines import key_lines, line_of
from edgewright.job_shop import Board
from edgewright.jobfile import document_of, faults_of, key_of, text_of
from edgewright.unit_words import printable

__all__ = ["StockFile", "read_stock"]


class StockFile(Section):
    """Shared wood; a bare number has no unit here, as there is no [job] to say it."""

    stock: Annotated[tuple[Board, ...], AsTuple(1, 1000, "boards, each under its own [[stock]]")] = Field(
        description="boards on hand or for sale"
    )


def read_stock(path: str | os.PathLike[str]) -> tuple[Board, ...]:
    """Boards of a file of shared wood.

    Raises
    ------
    JobError
        With every fault of the file, or the one reason why it cannot be read.
    """
    name = os.fspath(path)
    text = text_of(name).replace("\r\n", "\n")
    document = document_of(text, name)
    others = [key for key in document if key != "stock"]
    if others:
        lines = key_lines(text)
        message = "does not belong here: a file of shared wood holds [[stock]] tables only"
        raise JobError(
            printable(name),
            tuple(Fault(key_of((key,), document), line_of((key,), lines), message) for key in others),
        )
    try:
        return StockFile.model_validate(document, context={"unit": None, "folder": ""}).stock
    except ValidationError as error:
        lines = key_lines(text)
        faults = [
            Fault(key_of(place, document), line_of(place, lines), message)
            for place, message in faults_of(error, StockFile).items()
        ]
    raise JobError(printable(name), tuple(sorted(faults, key=lambda f: (f.line or 0, f.key))))
