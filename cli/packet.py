"""The packet for the shop wall: one PDF of all sheets, set by typst from plain strings and the drawn views."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

from edgewright.cli.packet_data import packet_data, packet_frame
from edgewright.cutlist.plan import Plan
from edgewright.errors import CheckError, InputError

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = [
    "PAPERS",
    "Paper",
    "customer_pdf",
    "packet_files",
    "packet_pages",
    "packet_pdf",
    "paper_named",
    "typeset",
]

Paper = Literal["a4", "us-letter"]
#: What a person may ask for, and the typesetter's word for it.
PAPERS: Final[dict[str, Paper]] = {"a4": "a4", "letter": "us-letter"}
_HERE: Final = Path(__file__).resolve().parent


def paper_named(name: str) -> Paper:
    """Paper of a name, capitals or not.

    Raises
    ------
    InputError
        If there is no such paper.
    """
    paper = PAPERS.get(name.strip().lower())
    if paper is None:
        raise InputError(f"paper {name!r} is not known: it must be one of {', '.join(PAPERS)}")
    return paper


def packet_pdf(plan: Plan | ShapedPlan, paper: Paper = "a4") -> bytes:
    """The packet of a plan as PDF bytes; the same plan and paper give the same bytes.

    Fonts come from the package alone. A plan that is not ready has no cut, rip or crosscut list and no label, and each
    page says NOT FOR CUTTING.

    Raises
    ------
    CheckError
        If the typesetter refuses the sheets or warns: a defect of this program.
    """
    return typeset(_data(plan, paper), "pdf")[0]


def customer_pdf(plan: Plan | ShapedPlan, paper: Paper = "a4") -> bytes:
    """The customer's page of the packet by itself, to hand over, as PDF bytes; see `packet_pdf`."""
    return _customer(packet_frame(plan, paper))


def packet_files(plan: Plan | ShapedPlan, paper: Paper = "a4") -> dict[str, bytes]:
    """Both as files, from data that is made once."""
    data = _data(plan, paper)
    return {"packet.pdf": typeset(data, "pdf")[0], "customer.pdf": _customer(data)}


def _customer(data: Mapping[str, Any]) -> bytes:
    """The customer's page of a packet's data, with what heads and ends a sheet."""
    kept = ("paper", "title", "short-title", "code", "ready", "title-block", "customer")
    return typeset({key: data[key] for key in kept}, "pdf", template="customer_alone.typ")[0]


def packet_pages(plan: Plan | ShapedPlan, paper: Paper = "a4", *, ppi: float = 100.0) -> tuple[bytes, ...]:
    """The pages of the packet as PNG pictures, at so many dots an inch."""
    return typeset(_data(plan, paper), "png", ppi)


def _data(plan: Plan | ShapedPlan, paper: str) -> dict[str, Any]:
    if isinstance(plan, Plan):
        return packet_data(plan, paper)
    from edgewright.cli.shaped_packet import shaped_packet_data

    return shaped_packet_data(plan, paper)


def typeset(
    content: Mapping[str, Any],
    form: Literal["pdf", "png"],
    ppi: float | None = None,
    *,
    template: str = "main.typ",
    tags: bool = True,
) -> tuple[bytes, ...]:
    """A packet as one PDF or as pictures of its pages, from what stands in it: the data of a job or of a batch.

    ``tags`` say in a PDF what is a head, a table or a picture, for those who have it read out; of many pages they make
    the greater part of the file.

    Raises
    ------
    CheckError
        If the typesetter refuses the sheets or warns: a defect of this program.
    """
    import typst

    data = json.dumps(content, ensure_ascii=False)
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[_HERE / "fonts"]
    )
    try:
        compiler = typst.Compiler(
            _HERE / "packet" / template,
            root=_HERE / "packet",
            font_paths=fonts,
            ignore_system_fonts=True,
            sys_inputs={"data": data},
        )
        made, warnings = compiler.compile_with_warnings(format=form, ppi=ppi, timestamp=0, pdf_tags=tags)
    except typst.TypstError as error:
        raise CheckError(f"the packet could not be set, please report this: {error.message}") from error
    if warnings:
        raise CheckError(f"the packet was set with a warning, please report this: {warnings[0].message}")
    if made is None:
        raise CheckError("the packet came out empty, please report this")
    return (made,) if isinstance(made, bytes) else tuple(made)
