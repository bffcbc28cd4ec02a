"""Sentences of the customer's page about the edge, what comes off and what stays, what to expect and when to use it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from edgewright import trade
from edgewright.compass import CORNERS, SIDES
from edgewright.cutlist.plan import Plan
from edgewright.design.form_words import form_text
from edgewright.design.forms import Form
from edgewright.design.model import BaseFit
from edgewright.design.outline import Arc
from edgewright.display import show_mm, show_ticks
from edgewright.trade import Default
from edgewright.units import Units

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["care_words", "corner_words", "edge_words", "joint_words", "off_words", "stay_words"]

#: More edges than this are not listed on a page of one sheet.
_LISTED: Final = 4
#: Less than this off the middle is not seen, mm.
_SEEN_MM: Final = 1.0


def edge_words(plan: Plan | ShapedPlan) -> str:
    """Form of the edge above and below."""
    profile, units = plan.design.profile, plan.job.units
    if profile is None:
        return "not settled"
    if plan.job.edge.bullnose:
        return "half round"
    above, below = (_form(form, units) for form in (profile.top, profile.bottom))
    return f"{above} above and below" if above == below else f"{above} above, {below} below"


def _form(form: Form, units: Units) -> str:
    if not form.parts:
        return "square"
    return f"rounded to {show_mm(form.reach, units)}" if form.is_round_over else form_text(form, units)


def corner_words(plan: Plan | ShapedPlan) -> str:
    """Corners seen from above."""
    units = plan.job.units
    if isinstance(plan, Plan):
        radii = plan.design.corner_radii_mm
        if len(set(radii)) == 1:
            return _corner(radii[0], units)
        named = zip(CORNERS, radii, strict=True)
        return ", ".join(f"{corner.replace('_', '-')} {_corner(radius, units)}" for corner, radius in named)
    edge, segments = plan.job.edge, plan.design.finished.outline.segments
    said = [_corner(edge.outside_radius.mm, units)] if edge.outside_radius.exact_mm else ["as drawn"]
    inside = edge.inside_radius.mm
    if inside and any(
        isinstance(one, Arc) and one.sweep < 0 and abs(one.radius - inside) < 1e-6 for one in segments
    ):
        said.append(f"inside corners {_corner(inside, units)}")
    return ", ".join(said)


def _corner(radius: float, units: Units) -> str:
    return f"rounded to {show_mm(radius, units)}" if radius else "square"


def off_words(plan: Plan | ShapedPlan) -> str:
    """How much comes off, and from which side."""
    units = plan.job.units
    if isinstance(plan, Plan):
        amounts = plan.design.sizes.amounts
        return _listed([(show_ticks(amounts[side], units), side) for side in SIDES if amounts[side]])
    trim = plan.job.trim
    match trim.way:
        case "all_round" if trim.all_round is not None:
            return f"{show_mm(trim.all_round.mm, units)} all round"
        case "edges":
            return _listed(
                [(show_mm(one.length.mm, units), one.name) for one in trim.cuts if one.length.exact_mm]
            )
        case "parallel" if trim.parallel is not None:
            way = trim.parallel
            return f"{way.edge} becomes parallel to {way.to}, {show_mm(way.distance.mm, units)} from it"
        case "largest_rectangle":
            return "what keeps the top from being square"
        case "to":
            return "what lies outside the new shape"
    return "nothing"


def _listed(off: list[tuple[str, str]]) -> str:
    said = [
        f"{amount} off the {name} side" if name in SIDES else f"{amount} off {name}" for amount, name in off
    ]
    more = [f"and {len(said) - _LISTED} more sides"] if len(said) > _LISTED else []
    return ", ".join([*said[:_LISTED], *more]) or "nothing"


def stay_words(plan: Plan | ShapedPlan) -> str:
    """What becomes of the base and of the underside."""
    if isinstance(plan, Plan):
        fit, new, built = plan.design.base, False, True
    else:
        from edgewright.design.anytop.base_fit import shaped_base_fit

        design, new = plan.design, plan.job.top.new
        fit = shaped_base_fit(plan.job, design.before, design.finished)
        built = plan.job.edge.build_up != "none"
    said = []
    if plan.job.base.model_fields_set:
        said.append(_base(fit, plan.job.units, moved=plan.job.base.moved))
    said.append("The upper face is new." if new else "The top itself stays and is coated anew.")
    if built:
        said.append("Below, the edge is thicker than the middle; one can see and feel that from underneath.")
    return " ".join(said)


def _base(fit: BaseFit, units: Units, *, moved: bool) -> str:
    if moved:
        return "The base is moved to the middle of the finished top."
    east, north = fit.offset
    ways = (
        (north, "north" if north > 0 else "south"),
        (east, "east" if east > 0 else "west"),
    )
    off = [f"{show_mm(abs(mm), units)} {way}" for mm, way in ways if abs(mm) >= _SEEN_MM]
    if not off:
        return "The base stays where it is, in the middle of the finished top."
    return (
        f"The base stays where it is; it then stands {' and '.join(off)} of the middle of the finished top."
    )


def joint_words(plan: Plan | ShapedPlan) -> str:
    """What to expect of joints."""
    if not isinstance(plan, Plan) and plan.job.edge.build_up == "none":
        return "The edge is the wood of the top itself: no joint is added to it."
    return (
        "The edge is built up from strips of wood that are glued on. Wood moves with the seasons: in time a joint may "
        "show through the finish as a hairline, most of all in low light from the side. That is no fault of the work "
        "and no loss of strength."
    )


def care_words(coats: int) -> str:
    """When the table may be used, counted from the last coat, and what to mind until then."""
    last = "the coat" if coats == 1 else f"the last of {coats} coats"
    return (
        f"Light use {_days(trade.LIGHT_USE_AFTER, hours=24)} after {last} of resin, full use after "
        f"{_days(trade.FULL_CURE_AFTER)}; some resins need {trade.FULL_USE_LONGEST.value} days until they are fully "
        "hard. Until full use: nothing hot, no cloth, wrapping or wet thing left lying on it. The resin's own data "
        "sheet has the last word."
    )


def _days(span: Default[tuple[int, int]], hours: int = 1) -> str:
    """A span in days, of a default in units of so many to a day."""
    low, high = (time // hours for time in span.value)
    return f"{low} to {high} days"
