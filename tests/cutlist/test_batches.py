"""Batches add up in whole marks, hold what the bill asks, and agree with common practice on the reference job."""

from functools import cache

import pytest
from handmade_plans import narrowed
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.convert import convert
from edgewright.cutlist.batches import (
    coat_mixes,
    filler_batch,
    filler_passes,
    filler_reach,
    hardener_grams,
    split_steps,
)
from edgewright.cutlist.mixing import largest_batch, mixed_density, resin_measure
from edgewright.cutlist.takeoff import bill, take_off
from edgewright.cutlist.takeoff_figures import rectangle_figures
from edgewright.cutlist.takeoff_text import shown_total
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job

INCH = 25.4
JOB = """
[job]
title = "72 x 42 to 72 x 36"
units = "{units}"
[top]
length = "{length} in"
width = "{width} in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "6 in"
[edge]
corner_radius = "2 in"
strip_width = "1 7/8 in"
top_round_over = "3/8 in"
bottom_round_over = "3/8 in"
[coating]
{coating}
"""


@cache
def billed(coating="", units="in", length=72, width=42):
    """Job and bill; the strips are those of the reference job, which only glue and weight depend on."""
    design = build_design(parse_job(JOB.format(units=units, length=length, width=width, coating=coating)))
    return design.job, bill(rectangle_figures(design, design.metrics, narrowed(), ()))


def ounces(mm3):
    return convert(mm3, "mm**3", "fl_oz")


# ---- the reference job ----


@pytest.mark.reference
def test_filler_of_the_reference_job():
    """Common practice, computed: 2 fl oz reach 62 in of 1 7/16 in edge, four batches, 6.9 fl oz a full skim."""
    job, takeoff = billed()
    first, second = filler_passes(takeoff, job)

    assert ounces(filler_batch(job)) == pytest.approx(2.0)
    # 2 fl oz = 3.609 in3; a skim of 1/32 in on 1 7/16 in, 30 % lost, takes 0.0584 in2
    assert filler_reach(1.4375 * INCH, filler_batch(job)) / INCH == pytest.approx(62, abs=0.5)
    assert len(first.batches) == 4
    assert max(first.batches) * first.measure.mark == 2
    # the glue seam beside the skim: 0.2 fl oz
    assert ounces(first.quantity.expected) == pytest.approx(6.9 + 0.23, abs=0.05)
    assert sum(first.batches) * first.measure.mark == 7.25
    assert sum(second.batches) * second.measure.mark == 3.5


@pytest.mark.reference
def test_resin_of_the_reference_job():
    """Common practice, computed: one trowel coat takes 57 to 73 fl oz; 65 are expected, 8 more held ready."""
    job, takeoff = billed()
    seal, first, second = coat_mixes(takeoff, job)

    assert [mix.group for mix in (seal, first, second)] == ["seal coat", "resin coat 1", "resin coat 2"]
    assert (first.measure.unit, first.measure.mark) == ("fl oz", 1)
    assert (first.batches, first.reserve) == ((33,), (4,))  # 33 + 33 = 66, 4 + 4 = 8, 74 in all
    assert ounces(first.limit_mm3) == pytest.approx(96)
    assert (seal.batches, seal.measure.mark, seal.reserve) == ((11,), 0.5, ())  # 5 1/2 + 5 1/2


@pytest.mark.reference
def test_hardener_is_one_to_three_percent_by_weight():
    """A coatings formulator's published answer: 1 to 3 % of a 50 % paste; 500 g of filler take 10 g at 2 %."""
    # 500 g at the default 1.5 g/ml fill 333.3 ml
    grams = hardener_grams(500 / 1.5 * 1000)

    assert (grams.low, grams.expected, grams.high) == pytest.approx((5, 10, 15))


@pytest.mark.example
def test_pot_life_bounds_a_batch():
    # 6 min less 4 to mix are 120 s, at 15 s/ft2 8 ft2; 37.5 mil are 37.5/12.53 = 2.99 fl oz/ft2, 23.9 in all:
    # 11 + 11 in whole ounces
    coating = billed('pot_life = "6 min"')[0].coating
    limit, why = largest_batch(coating, "in", 0.0375 * INCH)

    assert ounces(limit) == pytest.approx(22)
    assert why == "the pot life"


@pytest.mark.example
def test_density_of_the_mixture():
    parts = 'density_a = "1.2 g/ml"\ndensity_b = "1.0 g/ml"\n'
    by_volume = billed(parts + 'mix_ratio = "2:1 by volume"')[0].coating
    by_weight = billed(parts + 'mix_ratio = "2:1 by weight"')[0].coating

    # 2 ml weigh 2.4 g and 1 ml weighs 1.0 g: 3.4 g in 3 ml; 2 g fill 1.667 ml and 1 g fills 1 ml
    assert mixed_density(by_volume)[0].expected == pytest.approx(3.4 / 3)
    assert mixed_density(by_weight)[0].expected == pytest.approx(3 / (2 / 1.2 + 1 / 1.0))
    assert mixed_density(billed()[0].coating)[1] is False


@pytest.mark.example
def test_each_batch_of_the_bill_has_a_bucket():
    """A smaller bucket means more of them, and each keeps some resin on its wall."""
    job, takeoff = billed('largest_batch = "40 fl oz"')
    bucket = next(line for line in takeoff.in_group("resin coat 1") if line.name == "bucket")

    # 68.4 fl oz leave cups of at most 40 - 3.2: two of 2 1/2 quarts, 3.2 fl oz on each wall
    assert ounces(bucket.quantity.high) == pytest.approx(6.4)
    assert len(coat_mixes(takeoff, job)[1].batches) == 2


# ---- for every job ----


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.integers(0, 5000), st.integers(1, 400))
def test_steps_are_divided_without_loss(steps, most):
    batches = split_steps(steps, most)

    assert sum(batches) == steps
    assert all(0 < one <= most for one in batches)
    assert len(batches) == -(-steps // most)
    assert len(set(batches[:-1])) <= 1
    assert not batches or batches[-1] <= batches[0]


ratios = st.sampled_from(
    ["1:1", "2:1", "3:1", "4:1", "5:1", "3:2", "5:2", "2.2:1", "1:1.5", "10:1", "1:4", "17:13"]
)
weights = st.sampled_from(["1:1", "2:1", "100:45", "100:83", "100:30", "4.3:1", "1:20", "999:1000"])


@st.composite
def coatings(draw):
    by = draw(st.sampled_from(["volume", "weight"]))
    ratio = draw(ratios if by == "volume" else weights.filter(lambda r: r != "999:1000"))
    low, high = sorted(draw(st.tuples(st.integers(2, 120), st.integers(2, 120))))
    keys = [
        f'mix_ratio = "{ratio} by {by}"',
        f'pot_life = "{draw(st.integers(5, 180))} min"',
        f'largest_batch = "{draw(st.integers(8, 96))} fl oz"',
        f'flood_film = ["{low} mil", "{high} mil"]',
        f"seal_coat = {draw(st.sampled_from(['true', 'false']))}",
        f'filler_work_time = "{draw(st.integers(3, 60))} min"',
    ]
    if draw(st.booleans()):
        a, b = draw(st.tuples(st.floats(0.7, 2.5), st.floats(0.7, 2.5)))
        keys += [f'density_a = "{a:.3f} g/ml"', f'density_b = "{b:.3f} g/ml"']
    return "\n".join(keys)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(coatings(), st.sampled_from(["in", "mm"]), st.integers(20, 230), st.integers(20, 110))
def test_batches_hold_what_the_bill_asks_in_the_mix_ratio(coating, units, length, width):
    job, takeoff = billed(coating, units, length, width)
    ratio = job.coating.mix_ratio
    for mix in coat_mixes(takeoff, job):
        measure, total = mix.measure, takeoff.total(mix.group)
        step = measure.step_mm3
        mixed, ready = sum(mix.batches) * step, (sum(mix.batches) + sum(mix.reserve)) * step

        assert mixed >= total.expected * (1 - 1e-9)
        assert ready >= total.high * (1 - 1e-9)
        # as shown: the reader may add up the lines
        shown = shown_total(takeoff, mix.group, units)
        unit = "fl_oz" if units == "in" else "mL"
        assert convert(mixed, "mm**3", unit) >= float(shown.expected) * (1 - 1e-9)
        # not more than a step too much
        assert ready <= max(total.high, convert(float(shown.high), unit, "mm**3")) + 2 * step
        # whole marks of both parts in the ratio
        assert measure.a * ratio.b == measure.b * ratio.a
        for steps in (*mix.batches, *mix.reserve):
            assert steps * step <= mix.limit_mm3 * (1 + 1e-9)
        least = convert(8, "fl_oz", "mm**3")
        assert mix.limit_mm3 <= max(least, job.coating.largest_batch.mm3) * (1 + 1e-9)
        assert (measure.unit == "g") == (ratio.by == "weight")


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.integers(3, 60), st.sampled_from(["in", "mm"]), st.integers(20, 230))
def test_passes_of_filler_hold_what_the_bill_asks(minutes, units, length):
    job, takeoff = billed(f'filler_work_time = "{minutes} min"', units, length)
    passes = filler_passes(takeoff, job)
    step = passes[0].measure.step_mm3

    assert sum(one.quantity.expected for one in passes) >= takeoff.total("filler").expected * (1 - 1e-9)
    for one in passes:
        need = one.quantity.expected
        assert need * (1 - 1e-9) <= sum(one.batches) * step < need + step * (1 + 1e-6)
        assert max(one.batches) * step <= max(filler_batch(job), step) * (1 + 1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(1e3, 1e8), ratios, st.sampled_from(["in", "mm"]))
def test_a_coarser_mark_is_a_whole_number_of_the_finer_ones(need, ratio, units):
    coating = billed(f'mix_ratio = "{ratio} by volume"')[0].coating
    coarse, fine = resin_measure(coating, units, 1e12), resin_measure(coating, units, need)

    assert (coarse.mark / fine.mark).denominator == 1
    assert fine.mark <= coarse.mark
    assert fine.steps_up(need) * fine.step_mm3 >= need * (1 - 1e-9)


@pytest.mark.example
def test_the_bill_with_a_real_plan_gives_the_same_batches():
    job, takeoff = billed()
    design = build_design(parse_job(JOB.format(units="in", length=72, width=42, coating="")))

    assert coat_mixes(take_off(design, narrowed()), design.job) == coat_mixes(takeoff, job)
