"""How forms are named to people."""

from __future__ import annotations

from edgewright.design.forms import Form
from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["arris_name", "bit_name", "form_text"]


def form_text(form: Form, units: Units) -> str:
    """Name and sizes of a form, like ``chamfer 1/4 in`` or ``ogee 1/8 in, step 1/16 in``; ``sharp`` for none."""
    if not form.parts:
        return "sharp"
    (_, first), *more = form.sizes
    text = f"{form.name} {show_mm(first, units)}"
    if form.name == "bevel":
        return " x ".join([text, *(show_mm(mm, units) for _, mm in more)])
    return ", ".join([text, *(f"{name} {show_mm(mm, units)}" for name, mm in more if mm)])


def arris_name(form: Form) -> str:
    """What an arris is called in a list of zones: its form, or ``round-over`` where a round-over could be."""
    return form.name if form.parts else "round-over"


def bit_name(where: str, form: Form) -> str:
    """What the bit of one arris is called: ``bottom bit`` for a round-over, else with the form's name."""
    return f"{where} bit" if form.is_round_over else f"{where} {form.name} bit"
