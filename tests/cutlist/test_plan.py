"""The whole job in one call: examples, reference jobs, stops and overrides, same bytes everywhere."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import edgewright
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import plan
from edgewright.findings import open_stops
from edgewright.jobfile import parse_job
from edgewright.starter import starter_job
from edgewright.ticks import TICKS_PER_INCH

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
SHORT = ROOT / "examples" / "short_of_offcut.toml"

#: 72 x 42 x 23/32 in to 72 x 36 in. Figures: computed; common practice, no source.
J1 = """
[job]
title = "J1"
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


def numbers(result, severity="stop"):
    return [f.number for f in result.findings if f.severity == severity and f.overridden is None]


@pytest.mark.example
@pytest.mark.parametrize("path", [p for p in EXAMPLES if p != SHORT], ids=lambda path: path.stem)
def test_every_example_is_ready_and_proven(path):
    result = plan(path)

    assert result.ready
    assert all(stage.proven for stage in result.cut_plan.stages)


@pytest.mark.reference
def test_the_example_that_is_short_of_offcut():
    """42 to 39 in, bottom radius 1/8: 216 in against 218 3/4 in at the floor of 13/16 in (computed)."""
    result = plan(SHORT)
    shortage = result.cut_plan.shortage

    assert not result.ready
    assert "need 218 3/4 in" in shortage.sentence
    assert "give 216 in" in shortage.sentence
    assert shortage.by_length
    assert shortage.proven
    assert "one more strip" in shortage.buy_sentence


@pytest.mark.example
def test_the_starter_job_is_ready():
    assert plan(parse_job(starter_job())).ready


@pytest.mark.example
def test_package_root_finds_plan_on_first_use():
    assert edgewright.plan is plan_any
    assert edgewright.plan(parse_job(J1)) == plan(parse_job(J1))


@pytest.mark.reference
def test_edge_figures_of_the_reference_job():
    metrics = plan(parse_job(J1)).design.metrics
    square_inch = 25.4**2

    assert metrics.edge_mm2 / square_inch == pytest.approx(395.55, abs=0.005)
    assert metrics.flat_top_mm2 / square_inch == pytest.approx(2509.30, abs=0.005)
    assert metrics.profile_length_mm / 25.4 == pytest.approx(1.8656, abs=5e-5)


@pytest.mark.reference
def test_bearing_has_no_flat_for_two_large_round_overs():
    """T 1 7/16 in allows rt + rb up to 1 1/4 in: 3/4 + 3/4 fails, 5/8 + 5/8 passes (common practice, no source)."""
    large = J1 + 'top_round_over = "3/4"\nbottom_round_over = "3/4"\n'
    fits = J1 + 'top_round_over = "5/8"\nbottom_round_over = "5/8"\n'

    assert 202 in numbers(plan(parse_job(large)))
    assert 202 not in numbers(plan(parse_job(fits)))


@pytest.mark.reference
def test_a_profile_deeper_than_the_edge_is_refused():
    """T 23/32 in with 3/8 + 3/8 is deeper by 1/32 in (T made of two halves here, for a job has at least one layer)."""
    thin = J1.replace('"23/32"', '"23/64"') + 'strip_thickness = "23/64"\n'
    result = plan(parse_job(thin))

    assert 201 in numbers(result)
    assert result.design.metrics is None
    assert result.takeoff is None
    assert not result.ready


@pytest.mark.example
def test_an_override_must_repeat_the_figures_and_lapses_when_they_change():
    job = J1 + 'top_round_over = "5/8"\nbottom_round_over = "11/16"\n'
    stop = next(f for f in plan(parse_job(job)).findings if f.number == 202)
    override = (
        f'[[override]]\nfinding = 202\nfigures = "{stop.figures}"\nreason = "fence instead of bearing"\n'
    )

    assert open_stops(plan(parse_job(job)).findings)
    assert 202 not in numbers(plan(parse_job(job + override)))
    changed = plan(parse_job((job + override).replace("11/16", "23/32")))
    assert 202 in numbers(changed)
    assert 901 in [f.number for f in changed.findings]


@pytest.mark.example
def test_keep_lines_of_the_reference_job():
    cuts = plan(parse_job(J1)).cut_plan.cuts

    assert [cut.keep_ticks / TICKS_PER_INCH for cut in cuts] == [40, 38, 36]
    assert cuts[0].kerf_end_ticks / TICKS_PER_INCH == 40.125
    assert {cut.datum for cut in cuts} == {"south"}


@pytest.mark.example
def test_a_narrow_panel_stops_a_hand_held_cut():
    job = J1.replace("width = 42", "width = 12").replace("north = 6", "north = 5")
    job = job.replace("corner_radius = 2", "corner_radius = 0")

    assert 501 in numbers(plan(parse_job(job)))


@pytest.mark.property
def test_same_job_gives_the_same_plan_whatever_the_surroundings(tmp_path):
    code = (
        "import hashlib, json, sys\n"
        "from edgewright.cutlist.plan import plan\n"
        "from edgewright.cutlist.stages import plain_plan\n"
        "p = plan(sys.argv[1])\n"
        "print(p.code, hashlib.sha256(json.dumps(plain_plan(p.cut_plan)).encode()).hexdigest(), p.takeoff.totals)\n"
    )
    printed = set()
    for seed, zone, folder in (
        ("0", "UTC", ROOT),
        ("1", "Asia/Tokyo", tmp_path),
        ("4711", "America/Lima", tmp_path),
    ):
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C"}
        words = [sys.executable, "-c", code, str(EXAMPLES[0])]
        printed.add(subprocess.run(words, cwd=folder, env=env, check=True, capture_output=True).stdout)

    assert len(printed) == 1
