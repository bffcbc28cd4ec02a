from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.mip import IntegerProgram, Outcome


@pytest.mark.example
def test_an_empty_program_has_the_empty_answer() -> None:
    assert IntegerProgram().minimise({}) == Outcome((), True)
    met, missed = IntegerProgram(), IntegerProgram()
    met.row({}, 0, 3)
    missed.row({}, 1)
    assert met.minimise({}) == Outcome((), True)
    assert missed.minimise({}) == Outcome(None, True)


@pytest.mark.example
def test_no_answer_is_proven() -> None:
    program = IntegerProgram()
    x, y = program.variable(0, 3), program.variable(0, 3)
    program.row({x: 2, y: 2}, 5, 5)  # even is never odd, though the relaxation has answers
    assert program.minimise({x: 1}) == Outcome(None, True)


@pytest.mark.example
def test_nothing_is_unbounded_for_every_variable_has_bounds() -> None:
    program = IntegerProgram()
    x = program.variable(-7, 9)
    assert program.minimise({x: 1}) == Outcome((-7,), True)
    assert program.minimise({x: -1}) == Outcome((9,), True)


@pytest.mark.example
def test_whole_numbers_of_real_size_stay_exact() -> None:
    """Ticks of a 20 ft side (1.95 million): one tick decides."""
    program = IntegerProgram()
    x = program.variable(0, 2_000_000)
    program.row({x: 1}, 1_950_719)
    assert program.minimise({x: 1}) == Outcome((1_950_719,), True)
    program.row({x: 1}, None, 1_950_718)
    assert program.minimise({x: 1}).values is None


@pytest.mark.example
def test_stages_add_rows_to_one_program() -> None:
    program = IntegerProgram()
    x, y = program.variable(0, 5), program.variable(0, 5)
    program.row({x: 1, y: 1}, 4)
    first = program.minimise({x: 1}).values
    assert first is not None
    assert first[0] == 0
    program.row({x: 1}, None, 0)
    assert program.minimise({y: 1}) == Outcome((0, 4), True)


@st.composite
def programs(draw: st.DrawFn) -> tuple[IntegerProgram, dict[int, int]]:
    program = IntegerProgram()
    count = draw(st.integers(1, 4))
    for _ in range(count):
        low = draw(st.integers(-3, 2))
        program.variable(low, low + draw(st.integers(0, 4)))
    coefficient = st.integers(-5, 5)
    for _ in range(draw(st.integers(0, 4))):
        terms = {i: draw(coefficient) for i in range(count)}
        low = draw(st.one_of(st.none(), st.integers(-8, 8)))
        high = draw(st.one_of(st.none(), st.integers(-8, 8)))
        if low is not None and high is not None and low > high:
            low, high = high, low
        program.row(terms, low, high)
    return program, {i: draw(coefficient) for i in range(count)}


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(programs())
def test_as_by_trying_every_point_and_twice_the_same(case: tuple[IntegerProgram, dict[int, int]]) -> None:
    program, objective = case

    def holds(point: tuple[int, ...]) -> bool:
        sums = ((sum(c * point[i] for i, c in terms.items()), lo, hi) for terms, lo, hi in program.rows)
        return all((lo is None or total >= lo) and (hi is None or total <= hi) for total, lo, hi in sums)

    def cost(point: tuple[int, ...]) -> int:
        return sum(c * point[i] for i, c in objective.items())

    points = product(*(range(lo, hi + 1) for lo, hi in zip(program.lower, program.upper, strict=True)))
    best = min((cost(point) for point in points if holds(point)), default=None)
    outcome = program.minimise(objective)
    assert outcome.proven
    assert (None if outcome.values is None else cost(outcome.values)) == best
    assert program.minimise(objective) == outcome
