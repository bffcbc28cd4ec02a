"""Options of every command that writes DXF drawings."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal, TypeVar

import click

__all__ = ["Dialect", "FileUnits", "dxf_options"]

# spelled out so that a command's help loads no drawing code
Dialect = Literal["R2000", "R12"]
FileUnits = Literal["in", "mm"]

_Command = TypeVar("_Command", bound=Callable[..., Any])


def dxf_options(command: _Command) -> _Command:
    """Give a command the options ``--dxf`` and ``--dxf-units``, its arguments ``dialect`` and ``dxf_units``."""
    units = click.option(
        "--dxf-units",
        type=click.Choice(["in", "mm"]),
        help="What one unit of the DXF drawings is; without it the unit of the job.",
    )
    dialect = click.option(
        "--dxf",
        "dialect",
        type=click.Choice(["R2000", "R12"], case_sensitive=False),
        default="R2000",
        show_default=True,
        help="DXF version; R12 has lines and arcs only, for old controllers.",
    )
    return dialect(units(command))
