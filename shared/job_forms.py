"""The forms of an arris that a job can ask for besides a round-over: chamfer, bevel, cove, ogee, none."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Final, Literal

from pydantic import model_validator

from edgewright.job_fields import Between, JobFaultsError, Section
from edgewright.job_top import optional, required
from edgewright.units import Length

__all__ = ["EdgeForm", "FormName"]

FormName = Literal["chamfer", "bevel", "cove", "ogee", "none"]
BitSize = Annotated[Length, Between("0 in", "2 in", above=True, hint="it is the size of the router bit")]

#: What each form must say, and what it may say besides.
_SIZES: Final[dict[FormName, tuple[tuple[str, ...], tuple[str, ...]]]] = {
    "chamfer": (("size",), ()),
    "bevel": (("inset", "depth"), ()),
    "cove": (("radius",), ()),
    "ogee": (("radius",), ("step",)),
    "none": ((), ()),
}


class EdgeForm(Section):
    """A form other than a round-over, like ``{form = "chamfer", size = "1/4 in"}``."""

    form: FormName = required("what the bit leaves")
    size: BitSize | None = optional("chamfer: how far in and how far down, at 45 degrees")
    inset: BitSize | None = optional("bevel: how far in from the edge")
    depth: BitSize | None = optional("bevel: how far down the edge")
    radius: BitSize | None = optional("cove: its radius; ogee: the radius of each of its two arcs")
    step: Annotated[Length, Between("0 in", "1 in", hint="1/16 in is usual")] | None = optional(
        "ogee: height and width of the steps at its ends", "no steps"
    )

    @model_validator(mode="after")
    def _sizes_of_this_form(self) -> EdgeForm:
        needed, besides = _SIZES[self.form]
        takes = " and ".join((*needed, *(f"{key} (may be left out)" for key in besides))) or "no size"
        faults: list[tuple[tuple[str | int, ...], str]] = []
        for key in ("size", "inset", "depth", "radius", "step"):
            given = getattr(self, key) is not None
            if given and key not in needed + besides:
                faults.append(((key,), f'says nothing here: form = "{self.form}" takes {takes}'))
            if key in needed and not given:
                faults.append(((), f'{key} is missing: form = "{self.form}" takes {takes}'))
        if faults:
            raise JobFaultsError(faults)
        return self

    @property
    def reach(self) -> Fraction:
        """How far in from the edge the form begins, exact mm."""
        return self._along("inset")

    @property
    def height(self) -> Fraction:
        """How far down the edge the form ends, exact mm."""
        return self._along("depth")

    def _along(self, way: Literal["inset", "depth"]) -> Fraction:
        def exact(key: str) -> Fraction:
            length: Length | None = getattr(self, key)
            return Fraction(0) if length is None else length.exact_mm

        radii = 2 if self.form == "ogee" else 1
        # what the form does not take is not there
        return exact("size") + exact(way) + radii * exact("radius") + exact("step")
