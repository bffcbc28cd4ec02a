"""``edgewright audit``: whether a DXF file can be given to a saw or a router."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from edgewright.dxf_audit.audit import FileAudit

__all__ = ["audit_command"]


@click.command("audit")
@click.argument("file")
@click.option(
    "--cut",
    metavar="LAYER",
    multiple=True,
    help="A layer that the tool follows, once for each; else all but notes.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def audit_command(file: str, cut: tuple[str, ...], as_json: bool) -> int:
    """Audit the drawing FILE.dxf, whoever made it: units, closed outlines, doubles, crossings, text among the lines.

    Exit code 0: sound; 1: it has faults; 2: it cannot be read.
    """
    import os

    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.dxf_audit.audit import UnreadableError, audit_dxf
    from edgewright.dxf_audit.file_bytes import file_bytes

    try:
        found = audit_dxf(file_bytes(file), os.path.basename(file), cut or None)
    except UnreadableError as error:
        if not as_json:
            raise
        say(
            json_text(
                _result(
                    file, "unreadable", faults=[{"kind": "unreadable", "layer": "", "message": str(error)}]
                )
            )
        )
        return 2
    say(json_text(_json(file, found)) if as_json else _text(found))
    return 1 if found.faults else 0


def _result(file: str, status: str, **more: Any) -> dict[str, Any]:
    empty: dict[str, Any] = {"faults": [], "layers": [], "notes": [], "units": {}, "dxf_version": ""}
    return {"format": "edgewright audit", "version": 1, "file": file, "status": status} | empty | more


def _json(file: str, found: FileAudit) -> dict[str, Any]:
    from dataclasses import asdict

    return _result(
        file,
        "faults" if found.faults else "sound",
        dxf_version=found.version,
        units={"unit": found.units.unit, "said_by": [list(one) for one in found.units.said]},
        layers=[
            {
                "name": layer.name,
                "cut": layer.cut,
                "closed": layer.closed,
                "open": layer.open,
                "box_mm": list(layer.box),
                "length_mm": layer.length,
                "area_mm2": layer.area,
            }
            for layer in found.layers
        ],
        faults=[asdict(fault) for fault in found.faults],
        notes=list(found.notes),
    )


def _text(found: FileAudit) -> str:
    from edgewright.cli.text import paragraph, screen_width
    from edgewright.dxf_audit.words import audit_lines

    width = screen_width()
    return "\n".join(
        line for text, indent in audit_lines(found) for line in paragraph(text, width, indent, indent + 4)
    )
