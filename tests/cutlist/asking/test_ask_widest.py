"""Widest strip by hand. From one lengthwise cut of n in: n / 3 - 1/8, half on each side n / 4 - 1/8, on the 1/32 grid.

Common practice, computed.
"""

from __future__ import annotations

import pytest
from asking_jobs import INCH, PLANK, figure, job, row, ticks
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.asking.own_wood import own_widest
from edgewright.cutlist.asking.widest import widest_answer
from edgewright.cutlist.widest import try_width
from edgewright.design.build import build_design

WIDTHS = [
    ("4", "1 3/16", "7/8"),
    ("5", "1 17/32", "1 1/8"),
    ("6", "1 7/8", "1 3/8"),
    ("8", "2 17/32", "1 7/8"),
    ("10", "3 3/16", "2 3/8"),
    ("12", "3 7/8", "2 7/8"),
]
WHOLE = "[splice]\nallowed = false"


@pytest.mark.example
@pytest.mark.parametrize(("off", "one", "both"), WIDTHS)
def test_one_side_and_both(off: str, one: str, both: str) -> None:
    half = f'"{float(ticks(off)) / INCH / 2} in"'
    for trim, width in ((f"north = {off}", one), (f"north = {half}\nsouth = {half}", both)):
        asked = job(trim, edge='max_strip_width = 4\nbottom_round_over = "1/8"', rest=WHOLE)
        assert own_widest(build_design(asked)).width == ticks(width)


@pytest.mark.example
def test_best_first() -> None:
    answer = widest_answer(job())
    widths = {r.name: figure(r, "strip_width_ticks") for r in answer.rows}
    assert (widths["as written"], widths["all off south"]) == (ticks("1 7/8"), ticks("1 7/8"))
    assert widths["half off each side"] == ticks("1 3/8")
    assert list(widths.values()) == sorted(widths.values(), reverse=True)
    assert answer.rows[0].name == "as written"


@pytest.mark.example
def test_the_next_wider_strip_has_an_inequality() -> None:
    """1 29/32 in comes twice from 6 in: 144 in, while 2 x 72 + 2 x (36 - 2 x 1 29/32) = 208 3/8 are needed."""
    answer = widest_answer(job())
    assert answer.proven
    assert answer.sentence == "As written strips up to 1 7/8 in wide come out of own wood."
    assert row(answer, "as written").words == "1 7/8 in; 1 29/32 in: need 208 3/8 in, have 144 in"


@pytest.mark.example
@pytest.mark.parametrize(("nested", "width"), [("true", "1 7/8"), ("false", "1 3/8")])
def test_mitres_nested_or_not(nested: str, width: str) -> None:
    """36 + 36 - 1 7/8 + 1/8 x sqrt 2 = 70.30 fit in 72; with 36 + 36 + 1/8 a fourth strip is needed: 6 / 4 - 1/8."""
    answer = widest_answer(job(edge=f"nest_mitres = {nested}"))
    assert figure(row(answer, "mitre"), "strip_width_ticks") == ticks(width)


@pytest.mark.example
def test_three_inches_give_less_than_pins_need() -> None:
    """5/8 in four strips of 3/4; 21/32 three times: 216 in, needed 144 + 2 x (39 - 2 x 21/32) = 219 3/8."""
    answer = widest_answer(job("north = 3", edge='bottom_round_over = "1/8"'))
    assert "5/8 in wide" in answer.sentence
    assert "Pins need 13/16 in" in answer.sentence
    assert row(answer, "as written").words.endswith("21/32 in: need 219 3/8 in, have 216 in")
    assert answer.proven


@pytest.mark.example
def test_the_cap_stops_where_wood_does_not() -> None:
    answer = widest_answer(job("north = 12", edge='max_strip_width = "2 in"'))
    assert row(answer, "as written").words.startswith("2 in; no wider one is looked for: max_strip_width")
    assert figure(row(answer, "as written"), "next_wider_ticks") is None


@pytest.mark.example
def test_what_gives_more_is_named() -> None:
    answer = widest_answer(job("north = 3\nsouth = 3"))
    assert answer.more == ("Wider with one change: 1 7/8 in with all off north or all off south.",)


@pytest.mark.example
def test_a_width_that_the_job_gives_is_said_and_left_aside() -> None:
    answer = widest_answer(job(edge='strip_width = "1 1/2"'))
    assert figure(row(answer, "as written"), "strip_width_ticks") == ticks("1 7/8")
    assert "The job asks for strips 1 1/2 in wide" in answer.more[-1]


@pytest.mark.example
def test_splices_are_turned_round() -> None:
    """Short pair through: 36 + 36 + 1/8 is more than 72, so that whole pieces take four strips, 6 / 4 - 1/8."""
    answer = widest_answer(job(edge='through = "short"'))
    assert figure(row(answer, "as written"), "strip_width_ticks") == ticks("1 7/8")
    assert figure(row(answer, "no splices"), "strip_width_ticks") == ticks("1 3/8")
    whole = widest_answer(job(edge='through = "short"', rest=WHOLE))
    assert figure(row(whole, "splices allowed"), "strip_width_ticks") == ticks("1 7/8")


@pytest.mark.example
def test_boards_for_sale_are_no_own_wood() -> None:
    """On hand the plank gives two strips of (4 + 1/8) / 2 - 1/8 = 1 15/16 in, and the offcut a third."""
    assert widest_answer(job(rest=PLANK)).rows == widest_answer(job()).rows
    own = widest_answer(job("north = 4", rest=PLANK.replace("price = 14", "")))
    assert figure(row(own, "as written"), "strip_width_ticks") == ticks("1 15/16")


@pytest.mark.example
def test_a_width_that_only_the_rules_refuse_is_proven_without_boards_for_sale() -> None:
    """Whole pieces, short pair through: four strips, 6 / 4 - 1/8 = 1 3/8. Pitches lie on a grid of 3/16 in.

    Of pitches 1 11/16 and 1 7/8 in three strips come out, long enough in all; but each end takes one for itself.
    """
    found = own_widest(
        build_design(job(edge='through = "short"', rest=WHOLE + "\n" + PLANK, job='bench_grid = "3/16 in"'))
    )
    assert found.width == ticks("1 3/8")
    assert found.stop is not None
    assert found.stop.strip_width_ticks == ticks("1 9/16")
    assert found.stop.reason == "long enough in all, but no layout was found that keeps every side whole"
    assert found.proven


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=6)
@given(st.integers(4, 32), st.integers(0, 12), st.sampled_from(["butt", "mitre", "pinwheel"]), st.booleans())
def test_every_wider_strip_is_refused(off: int, other: int, corners: str, splices: bool) -> None:
    splice = f"[splice]\nallowed = {str(splices).lower()}"
    design = build_design(
        job(f"north = {off / 4}\nsouth = {other / 4}", edge=f'corners = "{corners}"', rest=splice)
    )
    found, grid = own_widest(design), design.sizes.grid
    if found.width is None:
        assert found.stop is not None
        return
    assert try_width(design, found.width, for_sale=False)[0].fits
    for width in range(found.width + grid, design.limits.cap + 1, grid):
        assert not try_width(design, width, for_sale=False)[0].fits
    if found.stop is not None:
        assert found.stop.strip_width_ticks == found.width + grid
