from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.checker import check_plan, recompute_bounds
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.stages import plain_plan
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job


@st.composite
def jobs(draw: st.DrawFn) -> str:
    """A job as a person might write it: any units, trims, corners, old finish, seams, rules, saw and boards."""
    metric = draw(st.booleans())

    def length(low: float, high: float, parts: int = 8) -> str:
        inches = draw(st.integers(int(low * parts), int(high * parts))) / parts
        return f'"{inches * 25.4:.1f} mm"' if metric else f'"{inches} in"'

    sides = ("north", "east", "south", "west")
    rows = ["[job]", 'title = "any"', f'units = "{"mm" if metric else "in"}"', "[top]"]
    rows += [
        f"length = {length(36, 110)}",
        f"width = {length(28, 56)}",
        'thickness = "23/32 in"',
        'material = "mdf"',
    ]
    if draw(st.booleans()):
        rows.append(f"corner_radius = {length(0.5, 6)}")
    if draw(st.booleans()):
        rows.append(f'seams = [{{across = "length", at = {length(12, 28)}}}]')
    finished = [side for side in sides if draw(st.integers(0, 3)) == 0]
    if finished:
        rows.append("[top.finished_edge]")
        rows += [f"{side} = {{depth = {length(0.125, 0.75)}}}" for side in finished]
    rows.append("[trim]")
    rows += [f"{side} = {length(0.25, 8)}" for side in sides if draw(st.booleans())]
    rows += ["[edge]", f"layers = {draw(st.sampled_from([1, 1, 1, 2]))}"]
    rows.append(f'corners = "{draw(st.sampled_from(["butt", "pinwheel", "mitre"]))}"')
    rows.append(f'through = "{draw(st.sampled_from(["long", "short"]))}"')
    rows.append(f"nest_mitres = {draw(st.sampled_from(['true', 'false']))}")
    rows.append(f'proud = "{draw(st.sampled_from(["0 in", "1/16 in"]))}"')
    if draw(st.booleans()):
        rows.append(f"strip_width = {length(0.75, 2.5)}")
    rows += ["[splice]", f"allowed = {draw(st.sampled_from(['true', 'true', 'false']))}"]
    rows += ["[saw]", f'kerf = "{draw(st.sampled_from(["1/8 in", "3/32 in", "2.2 mm", "0.07 in"]))}"']
    rows.append(f'guide_side = "{draw(st.sampled_from(["keep", "waste"]))}"')
    for number in range(draw(st.integers(0, 2))):
        rows += ["[[stock]]", f'name = "b{number}"', f"length = {length(20, 96)}", f"width = {length(1, 7)}"]
        rows.append('thickness = "23/32 in"')
        if draw(st.booleans()):
            rows.append(f"price = {draw(st.integers(1, 40))}")
        if draw(st.booleans()):
            rows.append(f"count = {draw(st.integers(1, 3))}")
    return "\n".join(rows)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(jobs())
def test_the_independent_checker_accepts_every_plan(text: str) -> None:
    plan = make_cut_plan(build_design(parse_job(text)))
    plain = plain_plan(plan)
    assert check_plan(plain) == ()
    if plan.status == "impossible":
        assert plan.shortage is not None
        assert not plan.pieces
        return
    bounds = recompute_bounds(plain)
    for stage in plan.stages:
        bound, _ = bounds[stage.name]
        assert stage.bound == bound
        assert stage.proven == (bound == stage.value)
    area = sum(p.length_ticks for p in plan.pieces)
    assert area == sum(side.length_ticks for side in plan.sides)
