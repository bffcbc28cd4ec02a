"""Variants planned side by side, against what a bench works out by hand."""

from fractions import Fraction

import pytest

from edgewright.cutlist import compare as module
from edgewright.cutlist.compare import compare
from edgewright.cutlist.compare_words import base_way
from edgewright.cutlist.plan import plan
from edgewright.errors import CheckError, GeometryError
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "Reading table"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[trim]
north = {north}
[splice]
allowed = false
[edge]
max_strip_width = 4
bottom_round_over = "1/8"
"""


def table(north=6, **keys):
    return parse_job(JOB.format(north=north) + "".join(f"{key} = {value}\n" for key, value in keys.items()))


def rows_of(job, question, number=0):
    group = compare(job, [question]).groups[number]
    return {row.name: row for row in group.rows}, " ".join(group.decides)


def inches(ticks):
    return None if ticks is None else Fraction(ticks, 8128)


@pytest.mark.example
@pytest.mark.parametrize(
    ("north", "one_side", "both_sides"),
    [
        # widest strip from one offcut 72 in long, kerf 1/8 in, butt corners, no splice, worked out by hand:
        # one side gives three strips (two sides long, two short ones from the third), half each four
        (4, "1 3/16", "7/8"),
        (5, "1 17/32", "1 1/8"),
        (6, "1 7/8", "1 3/8"),
        (8, "2 17/32", "1 7/8"),
        (10, "3 3/16", "2 3/8"),
        (12, "3 7/8", "2 7/8"),
    ],
)
def test_widest_strip_from_one_side_and_from_both(north, one_side, both_sides):
    rows, _ = rows_of(table(north), "sides")
    widths = {name: inches(row.strip_width_ticks) for name, row in rows.items()}
    one, both = (sum(map(Fraction, text.split())) for text in (one_side, both_sides))
    assert widths == {"all off north": one, "all off south": one, "half off each side": both}


@pytest.mark.example
def test_a_trim_of_3_in_yields_no_strip_that_pins_hold():
    # 5/8 in is the widest, 13/16 in the least: rb 1/8 + flush trim 1/16 + wander 1/4 + 3/8 to the inner edge
    rows, decides = rows_of(table(3), "sides")
    assert not any(row.ready or row.has_plan for row in rows.values())
    assert decides.startswith("None of them is ready.")
    # 72 + 72 + 2 x (39 - 2 x 13/16) = 218 3/4 in; strips 13/16 in wide with their kerfs: 3 from 3 in, 2 from twice
    # 1 1/2 in; the four sides need 2 joints of 1/8 in where there are but 2 strips
    one, both = rows["all off north"], rows["half off each side"]
    assert inches(one.short_ticks) == Fraction(2, 1) + Fraction(3, 4)
    assert "short by 2 3/4 in of strip 13/16 in wide. Buy or find one more strip" in one.why
    assert inches(both.short_ticks) == Fraction("74.75")


@pytest.mark.example
def test_what_the_side_costs_is_said():
    rows, decides = rows_of(table(), "sides")
    assert decides.startswith(
        "Strip width: all off north and all off south 1 7/8 in; half off each side 1 3/8 in: 1/2 in less strip."
    )
    assert [base_way(row.base_offset_mm, "in") for row in rows.values()] == ["3 in north", "3 in south", "0"]
    assert "Base off centre: half off each side 0 in; all off north and all off south 3 in." in decides


@pytest.mark.example
@pytest.mark.parametrize(("nested", "width"), [("true", Fraction(15, 8)), ("false", Fraction(11, 8))])
def test_mitres_cost_strip_only_where_they_may_not_be_nested(nested, width):
    # end for end two mitred ends need 36 + 36 - w + k sqrt 2 = 70.30 in of 72, else 36 + 36 + k: a strip more
    rows, decides = rows_of(table(nest_mitres=nested), "corners")
    assert inches(rows["mitre"].strip_width_ticks) == width
    others = {
        inches(row.strip_width_ticks)
        for name, row in rows.items()
        if name in ("butt long through", "pinwheel")
    }
    assert others == {Fraction(15, 8)}
    wide = "butt long through, pinwheel and mitre" if nested == "true" else "butt long through and pinwheel"
    assert decides.startswith(f"Strip width: {wide} 1 7/8 in; ")


@pytest.mark.example
def test_rows_are_what_the_plans_say():
    job = table(top_round_over='"3/8"')
    rows, _ = rows_of(job, "sides")
    half = plan(parse_job(JOB.format(north=3).replace("[splice]", "south = 3\n[splice]")))
    row = rows["half off each side"]
    values = {stage.name: stage.value for stage in half.cut_plan.stages}
    assert (row.splices, row.sticks, row.strips) == (
        values["splices"],
        values["sticks touched"],
        values["strips ripped"],
    )
    assert row.edge_area_mm2 == half.design.metrics.edge_mm2
    assert row.findings == half.findings
    assert row.ready == half.ready
    assert rows["all off north"].plan_code == plan(job).code


@pytest.mark.example
def test_layers_thicken_the_edge_and_boards_are_counted():
    board = '[[stock]]\nname = "board"\nlength = 96\nwidth = 12\nthickness = "23/32"\nprice = 20.5\n'
    rows, decides = rows_of(parse_job(JOB.format(north=6) + board), "layers")
    # 1, 2 and 3 strips of 23/32 in under a top of 23/32 in
    thick = [row.edge_thickness_mm / 25.4 for row in rows.values()]
    assert thick == pytest.approx([46 / 32, 69 / 32, 92 / 32])
    # the offcut gives three strips: one layer needs no board, three layers need 9 strips at this width
    assert rows["1 layer"].boards_to_buy == 0
    assert rows["3 layers"].boards_to_buy > 0
    for row in rows.values():
        assert row.cost_cents == 2050 * row.boards_to_buy
        assert [board.name for board in row.boards] == ["board"] * (row.boards_to_buy > 0)
    assert "Boards to buy: 1 layer" in decides


@pytest.mark.example
def test_edge_of_round_overs_against_a_strip_of_paper():
    # square corners, so the edge is a perimeter times its profile, less what the corners take: bounds on both sides
    rows, _ = rows_of(table(top_round_over='"1/8"'), "radii")
    profile = {r: 46 / 32 - 2 * r + 3.14159265 * r for r in (0.25, 0.375, 0.5)}
    for radius, name in (
        (0.25, "1/4 in round-overs"),
        (0.375, "3/8 in round-overs"),
        (0.5, "1/2 in round-overs"),
    ):
        area = rows[name].edge_area_mm2 / 645.16
        assert (216 - 8 * 2 * radius) * profile[radius] < area < 216 * profile[radius]


@pytest.mark.example
def test_round_overs_that_do_not_fit_have_a_reason():
    # edge of 2 x 1/2 in: 2 x 5/8 in does not exist; 2 x 1/2 in leaves no flat for a bearing of 3/16 in
    job = parse_job(JOB.format(north=6).replace('"23/32"', '"1/2"'))
    rows, decides = rows_of(job, "radii")
    assert rows["5/8 in round-overs"].why.startswith("cannot be: no such profile")
    assert rows["5/8 in round-overs"].edge_area_mm2 is None
    assert rows["1/2 in round-overs"].why.startswith("open stop 202")
    assert "not ready: " in decides


@pytest.mark.example
@pytest.mark.parametrize(
    ("error", "why"),
    [
        (
            GeometryError("the ring is 9 mm; at most 8 mm: take less"),
            "cannot be: the ring is 9 mm; at most 8 mm: take less",
        ),
        (CheckError("the checker refused the plan"), "the checker refused the plan"),
    ],
)
def test_a_variant_that_cannot_be_planned_is_a_row_like_others(monkeypatch, error, why):
    def refuses(job):
        if job.edge.layers == 3:
            raise error
        return plan(job)

    monkeypatch.setattr(module, "plan", refuses)
    rows, decides = rows_of(table(), "layers")
    assert rows["3 layers"].why == why
    assert not rows["3 layers"].ready
    assert rows["1 layer"].ready
    assert "not ready: 3 layers." in decides


@pytest.mark.example
def test_the_job_as_written_stands_first_and_is_planned_once(monkeypatch):
    planned = []
    monkeypatch.setattr(module, "plan", lambda job: planned.append(job) or plan(job))
    said = []
    job = table()
    comparison = compare(job, ["sides", "corners"], progress=said.append)
    for group in comparison.groups:
        assert [row.as_written for row in group.rows] == [True] + [False] * (len(group.rows) - 1)
        assert group.rows[0].plan_code == plan(job).code
    # itself, two other sides, three other ways to meet
    assert len(planned) == len(said) == 1 + 2 + 3
    assert [words.partition(":")[0] for words in said] == [f"planning variant {n} of 6" for n in range(1, 7)]


@pytest.mark.example
def test_combinations_stand_best_first():
    (group,) = compare(table(), ["sides", "corners"], combine=True).groups
    assert len(group.rows) == 3 * 4
    assert group.rows[0].as_written
    ready = [row for row in group.rows[1:] if row.ready]
    assert list(group.rows[1 : 1 + len(ready)]) == ready
    widths = [row.strip_width_ticks for row in ready]
    assert widths == sorted(widths, reverse=True)


@pytest.mark.property
def test_compared_twice_nothing_differs():
    assert compare(table()) == compare(table())
