"""Batches worked by hand, compared with jobs planned one by one, and turned about."""

import pytest
from batch_jobs import SALE, job_text, random_tables, table
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.batch.batch import plan_jobs
from edgewright.cutlist.batch.jobs import read_batch
from edgewright.cutlist.batch.layout import BATCH_LIMITS
from edgewright.cutlist.check_batch import BATCH_STAGES
from edgewright.cutlist.column_generation.generate import Limits
from edgewright.cutlist.plan import plan
from edgewright.errors import InputError


def values(batch):
    return tuple(stage.value for stage in batch.stages)


@pytest.mark.example
def test_the_offcut_of_one_job_serves_another():
    # A: 72 x 42, 10 off the north: floor((10) / (2 + 1/8)) = 4 strips of 72. Its ring: 2 x 72 and 2 x (32 - 4) = 28.
    #    72, 72, and 28 + 1/8 + 28 = 56 1/8 in a third: one strip of 72 is left.
    # B: 66 x 40, 5 off: 2 strips of 66. Its ring: 2 x 66 and 2 x (35 - 4) = 31: 62 1/8 from a strip of 72.
    # So nothing is bought together: 4 sides + 4 sides, no splice, 2 offcuts, 6 strips. B alone lacks 62 in.
    a = table(72, 42, 10, title="A", boards=SALE)
    b = table(66, 40, 5, title="B", boards=SALE)
    together = plan_jobs([a, b])
    assert values(together) == (0, 0, 2, 6)
    assert all(stage.proven for stage in together.stages)
    alone = plan(b[1]).cut_plan.stages
    assert alone[0].value > 0
    # the strip is named in the sheets of both jobs
    given_away = [cut.yields for cut in together.plans[0].cut_plan.cuts if "for 2 B" in str(cut.yields)]
    assert len(given_away) == 1
    assert "of 1 A" in "".join(stick.id for stick in together.plans[1].cut_plan.sticks)


@pytest.mark.example
def test_a_strip_is_shared_by_two_jobs():
    # Two tops 40 x 30 with 5 off the north: 2 strips of 40 each, floor(5 / (2 1/8)). Each ring: 2 x 40, 2 x 21.
    # All four strips go into the long sides; the four of 21 come from one rack strip of 87: 4 x 21 + 3 x 1/8 = 84 3/8.
    rack = (("rack", 87, 2, None),)
    batch = plan_jobs([table(40, 30, 5, title=title, boards=rack) for title in ("A", "B")])
    assert values(batch) == (0, 0, 3, 5)
    assert {run.job for run in batch.layout.runs if run.lane.length_ticks == 87 * 8128} == {1, 2}
    # the second job's part begins a kerf behind the two pieces of the first: 21 + 1/8 + 21 + 1/8 = 42 1/4
    stick = next(s for s in batch.plans[1].cut_plan.sticks if s.id == "from rack lane 1")
    assert stick.lanes[0].trim_start_ticks == 42.25 * 8128


@pytest.mark.example
def test_two_widths_are_ripped_from_one_board():
    # No trim gives a strip. Ring A, strips 2 wide: 40, 40, 25, 25; ring B, strips 1 wide: 40, 40, 27, 27.
    # One board 96 x 6 5/8: strips 2 + 1/8 + 2 + 1/8 + 1 + 1/8 + 1 = 6 3/8 wide, two of each width, 96 long each:
    # 40 + 25 + 25 + 2/8 and 40 alone; so one board holds both rings.
    board = (("board", 96, "'6 5/8'", 20),)
    jobs = [table(40, 30, 1, "2", title="A", boards=board), table(40, 30, 1, "1", title="B", boards=board)]
    batch = plan_jobs(jobs)
    assert values(batch) == (2000, 0, 1, 4)
    widths = {strip.width for one in batch.layout.cut for strip in one.strips}
    assert widths == {2 * 8128, 8128}
    # apart each buys a board of its own
    assert sum(plan(job).cut_plan.stages[0].value for _, job in jobs) == 4000


@pytest.mark.property
@settings(max_examples=6, deadline=None, derandomize=True)
@given(seed=st.integers(0, 10_000))
def test_a_batch_costs_no_more_than_its_jobs_one_by_one(seed):
    # wood for sale has no end, so plans made one by one can be carried out together
    jobs = random_tables(3, seed, ("1 1/2", "2"))
    batch = plan_jobs(jobs)
    apart = [plan(job).cut_plan for _, job in jobs]
    assert batch.layout is not None
    assert all(cut_plan.status == "ready" for cut_plan in apart)
    # by cost; later stages are only compared where the cost is the same
    one_by_one = tuple(sum(cut_plan.stages[n].value for cut_plan in apart) for n in range(2))
    assert values(batch)[:2] <= one_by_one
    for stage in batch.stages:
        assert stage.bound is None or stage.bound <= stage.value


@pytest.mark.property
def test_the_order_of_the_files_changes_no_stage():
    jobs = random_tables(4, 7, ("1 1/2",))
    first = plan_jobs(jobs)
    for turned in (jobs[::-1], jobs[2:] + jobs[:2]):
        other = plan_jobs(turned)
        assert values(other) == values(first)


def test_a_batch_of_one_is_its_own_plan():
    (name, job) = table(72, 42, 10)
    batch = plan_jobs([(name, job)])
    single = {stage.name: stage.value for stage in plan(job).cut_plan.stages}
    assert values(batch)[:4] == tuple(single[name] for name in BATCH_STAGES)


def test_mitred_layers_and_defects_are_planned_together():
    knot = '[[top.defects]]\nname = "knot"\nalong = [30, 33]\nacross = [34, 36]\n'
    jobs = [
        table(60, 40, 8, "1 1/2", title="layers", edge="layers = 2\n", boards=SALE),
        table(60, 40, 8, "1 1/2", title="mitred", edge='corners = "mitre"\n', boards=SALE),
        table(60, 40, 8, "1 1/2", title="knot", more=knot, boards=SALE),
    ]
    batch = plan_jobs(jobs)
    assert batch.layout is not None
    assert [len(p.cut_plan.pieces) >= len(p.cut_plan.sides) for p in batch.plans] == [True] * 3


def test_without_wood_the_sentence_tells_need_and_have():
    # two rings of 2 x 72 + 2 x 37 = 218; a trim of 1 in gives no strip of 2 in at all
    batch = plan_jobs([table(72, 42, 1), table(72, 42, 1)])
    assert batch.layout is None
    assert not batch.ready
    (sentence,) = batch.shortages
    assert "the sides need 436 in" in sentence
    assert "gives 0 strips with 0 in" in sentence


def test_a_limit_of_work_still_gives_a_checked_plan():
    jobs = random_tables(5, 3)
    batch = plan_jobs(jobs, limits=Limits(rounds=4, nodes=1, pricing=4, gap=1))
    assert batch.layout is not None
    # with more than two widths neither search is exact, so they are not held against each other but each to its bounds
    for stage in (*batch.stages, *plan_jobs(jobs, limits=BATCH_LIMITS).stages):
        assert stage.bound is not None
        assert stage.value >= stage.bound


@pytest.mark.parametrize(
    ("board", "words"),
    [
        (("rack", 80, 6, None), "stock rack: length is 96 in in 1 Table and 80 in in 2 Table"),
        (("rack", 96, 6, 5), "stock rack: price is none (on hand) in 1 Table and 5.00 in 2 Table"),
    ],
)
def test_unlike_wood_of_one_name_is_told(board, words):
    jobs = [table(72, 42, 10, boards=(one,)) for one in (("rack", 96, 6, None), board)]
    with pytest.raises(InputError) as caught:
        plan_jobs(jobs)
    assert words in str(caught.value)


def test_unlike_kerfs_are_told(tmp_path):
    paths = [tmp_path / "a.toml", tmp_path / "b.toml"]
    for path, more in zip(paths, ("", '[saw]\nkerf = "3/32"\n'), strict=True):
        path.write_text(job_text(72, 42, 10, more=more))
    with pytest.raises(InputError) as caught:
        read_batch(paths)
    assert f"saw.kerf is 1/8 in in {paths[0]} and 3/32 in in {paths[1]}" in str(caught.value)


def test_solid_wood_is_told_before_anything_is_planned(tmp_path):
    path = tmp_path / "oak.toml"
    path.write_text(job_text(72, 42, 10).replace('material = "plywood"', 'material = "solid wood"'))
    with pytest.raises(InputError) as caught:
        read_batch([path])
    assert "is of solid wood, and a batch does not sort strips by their grain: plan it alone" in str(
        caught.value
    )


@pytest.mark.parametrize("number", [0, 401])
def test_the_number_of_jobs_is_bounded(number):
    with pytest.raises(InputError) as caught:
        read_batch(["a.toml"] * number)
    assert f"a batch of {number} jobs: give 1 to 400 job files" in str(caught.value)


def test_wood_of_one_name_is_counted_once():
    # one rack piece of 87 for both jobs: with two of them all would be as easy as with one each
    rack = (("rack", 87, 2, None),)
    batch = plan_jobs([table(40, 30, 5, boards=rack), table(40, 30, 5, boards=rack)])
    assert sum(stick.name == "rack" for stick in batch.problem.sticks) == 1
