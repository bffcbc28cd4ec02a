"""Which variants of a job there are, and that each changes what its name says and nothing else."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.questions import QUESTIONS
from edgewright.cutlist.variants import MOST_COMBINED, combined, one_at_a_time
from edgewright.job import given_and_used, job_digest
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
north = 6
[edge]
corner_radius = 2
"""
INCH = Fraction(254, 10)


def group(job, question, number=0):
    return one_at_a_time(job, [question])[number]


def by_name(variants):
    return {variant.name: variant.job for variant in variants}


def changed_keys(job, other):
    """Return keys whose used value differs; a finished size counts as the amounts it stands for."""
    mine, theirs = ({row.key: row.used for row in given_and_used(j)} for j in (job, other))
    return {key for key in mine | theirs if mine.get(key) != theirs.get(key)}


@pytest.mark.example
def test_the_sides_share_what_comes_off():
    sides = group(parse_job(JOB), "sides")
    amounts = {name: job.amounts for name, job in by_name(sides.variants).items()}
    assert {name: (a.north / INCH, a.south / INCH) for name, a in amounts.items()} == {
        "all off north": (6, 0),
        "all off south": (0, 6),
        "half off each side": (3, 3),
    }
    assert "6 in of the width" in sides.heading


@pytest.mark.example
def test_each_axis_that_is_trimmed_is_a_group_of_its_own():
    job = parse_job(
        JOB.replace("north = 6", 'north = 3\nsouth = 1\nfinished_length = 68\nlength_from = "west"')
    )
    width, length = one_at_a_time(job, ["sides"])
    # 4 in off each axis; what is off the other axis stays as written
    assert width.variants[0].name == "3 in north, 1 in south"
    assert {v.job.amounts.west for v in width.variants} == {4 * INCH}
    assert [v.name for v in length.variants] == ["all off west", "all off east", "half off each end"]
    assert {(v.job.amounts.north, v.job.amounts.south) for v in length.variants} == {(3 * INCH, INCH)}


@pytest.mark.example
def test_without_a_trim_no_side_can_be_chosen():
    assert one_at_a_time(parse_job(JOB.replace("north = 6", "")), ["sides"]) == ()


@pytest.mark.example
def test_ways_to_meet_at_a_corner():
    jobs = by_name(group(parse_job(JOB), "corners").variants)
    assert {(name, job.edge.corners, job.edge.through) for name, job in jobs.items()} == {
        ("butt long through", "butt", "long"),
        ("butt short through", "butt", "short"),
        ("pinwheel", "pinwheel", "long"),
        ("mitre", "mitre", "long"),
    }


@pytest.mark.example
def test_layers_that_the_job_alone_has_are_named_too():
    names = [v.name for v in group(parse_job(JOB + "layers = 4\n"), "layers").variants]
    assert names == ["4 layers", "1 layer", "2 layers", "3 layers"]


@pytest.mark.example
@pytest.mark.parametrize(
    ("keys", "written"),
    [
        ("", "3/8 in round-overs"),
        ('bottom_round_over = "1/4"', "3/8 in above, 1/4 in below"),
        ("bullnose = true", "edge forms as written"),
        ('bottom_form = {form = "chamfer", size = "1/4"}', "edge forms as written"),
    ],
)
def test_round_overs_take_the_place_of_any_form(keys, written):
    first, *others = group(parse_job(f"{JOB}{keys}\n"), "radii").variants
    assert first.name == written
    for variant in others:
        edge = variant.job.edge
        assert edge.top_round_over == edge.bottom_round_over
        assert (edge.bullnose, edge.top_form, edge.bottom_form) == (False, None, None)
        assert variant.name.startswith(edge.top_round_over.given)


@pytest.mark.example
def test_a_radius_that_does_not_fit_is_a_sentence():
    # 6 in are left of the width: a corner of 4 in exceeds half of that, one of 2 in does not
    job = parse_job(JOB.replace("north = 6", "north = 36"))
    variants = {variant.name: variant for variant in group(job, "radii", 1).variants}
    assert variants["4 in corners"].job is None
    assert variants["4 in corners"].why == (
        "4 in does not fit the finished top: at most half its shorter side, 3 in, is allowed"
    )
    assert variants["1 in corners"].job is not None


@pytest.mark.example
def test_metric_jobs_get_metric_bits():
    job = parse_job(
        JOB.replace('units = "in"', 'units = "mm"')
        .replace("72", "1830")
        .replace("42", "1070")
        .replace('"23/32"', "18")
        .replace("north = 6", "north = 150")
        .replace("= 2", "= 50")
    )
    names = [variant.name for group in one_at_a_time(job, ["radii"]) for variant in group.variants]
    assert {"6 mm round-overs", "25 mm corners"} <= set(names)
    assert not [name for name in names if " in " in name and "mm" not in name]


@pytest.mark.example
def test_combinations_change_as_little_as_they_can():
    job = parse_job(JOB)
    # factors beside the job as written: 2 sides, 3 corners, 2 layers, 3 round-overs, 3 corner radii
    everything = 3 * 4 * 3 * 4 * 4
    some = combined(job, QUESTIONS)
    assert (len(some.variants), some.left_out) == (MOST_COMBINED, everything - MOST_COMBINED)
    changes = [variant.name.count(",") for variant in some.variants[1:]]
    assert changes == sorted(changes)
    two = combined(job, ["sides", "layers"])
    assert (len(two.variants), two.left_out) == (9, 0)
    assert "half off each side, 3 layers" in by_name(two.variants)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(
    amounts=st.tuples(*[st.integers(0, 24)] * 4),
    corners=st.sampled_from(["butt", "pinwheel", "mitre"]),
    layers=st.integers(1, 4),
    radius=st.sampled_from(["0", "1/4", "1/2", "0.3"]),
)
def test_each_variant_changes_its_own_thing_only(amounts, corners, layers, radius):
    trims = "\n".join(
        f"{side} = {n / 4}" for side, n in zip(("north", "east", "south", "west"), amounts, strict=True)
    )
    job = parse_job(
        JOB.replace("north = 6", trims)
        + f'corners = "{corners}"\nlayers = {layers}\ntop_round_over = "{radius}"\n'
    )
    may = {"sides": "trim.", "corners": ("edge.corners", "edge.through"), "layers": "edge.layers"}
    may["radii"] = ("edge.top_round_over", "edge.bottom_round_over", "edge.corner_radius")
    for found in one_at_a_time(job, QUESTIONS):
        first, *others = found.variants
        assert first.as_written
        assert first.job is job
        assert len({job_digest(v.job) for v in found.variants}) == len(found.variants)
        for variant in others:
            assert not variant.as_written
            assert all(key.startswith(may[found.question]) for key in changed_keys(job, variant.job))
            assert variant.job.finished_width == job.finished_width
            assert variant.job.finished_length == job.finished_length


@pytest.mark.property
def test_asked_twice_the_answer_is_the_same():
    def plain():
        return [(v.name, job_digest(v.job)) for v in combined(parse_job(JOB), QUESTIONS).variants]

    assert plain() == plain()
