"""All findings of a design together, and the life of an override."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.build import build_design
from edgewright.design.checks import DESIGN_NUMBERS, apply_overrides, design_findings, job_pin_choice
from edgewright.findings import Finding, open_stops
from edgewright.job import Job, Override

TOP = {"length": 72, "width": 42, "thickness": "23/32 in", "material": "plywood"}


def job(top=None, units="in", **tables):
    given_tables = {"job": {"title": "kitchen table", "units": units}, "top": TOP | (top or {})} | tables
    return Job.model_validate(given_tables, context={"unit": units})


def found(top=None, **tables):
    return {finding.number: finding for finding in design_findings(build_design(job(top, **tables)))}


@pytest.mark.example
def test_a_sound_job_has_the_pin_row_and_nothing_else():
    assert set(found(trim={"north": 3, "south": 3})) == {304}


@pytest.mark.example
def test_a_one_sided_trim_is_warned_about_until_the_base_moves():
    assert set(found(trim={"north": 6})) == {304, 401}
    assert set(found(trim={"north": 6}, base={"moved": True})) == {304}
    assert found(trim={"north": 6})[401].figures.startswith("if the base stays where it is: ")
    assert found(trim={"north": 6}, base={"overhang": 9})[401].figures.startswith("base centre 3 in")


@pytest.mark.example
def test_a_counter_nobody_sits_at_needs_no_room_for_dishes():
    assert 408 not in found(trim={"finished_width": 30})
    assert 408 in found(trim={"finished_width": 30}, seating={"seats": 6})


@pytest.mark.example
def test_arms_meet_the_apron_of_the_base():
    seated = {"seating": {"table_height": 29, "arm_height": 26}}
    assert 403 not in found(**seated)
    apron = found(base={"apron_depth": 4, "overhang": 6}, **seated)[403]
    assert apron.figures.endswith("arms go under by 6 in (north, east, south, west)")


@pytest.mark.example
@pytest.mark.parametrize(
    ("number", "top", "tables"),
    [
        (101, {"glue_face_bare": False}, {}),
        (102, {"material": "particleboard"}, {}),
        (104, {"material": "mdf"}, {}),
        (105, {"diagonals": ["83 3/8 in", "83 1/4 in"]}, {}),
        (106, {"thickness": ["23/32 in", "25/32 in"]}, {}),
        (107, {"material": "laminate"}, {}),
        (108, {"diagonals": ["84 3/8 in", "84 3/8 in"]}, {}),
        (201, {}, {"edge": {"top_round_over": "3/4 in", "bottom_round_over": "3/4 in"}}),
        (202, {}, {"router": {"bearing_height": "3/4 in"}}),
        (203, {}, {"edge": {"bottom_round_over": "5/8 in"}}),
        (204, {}, {"edge": {"corner_radius": {"north_east": "1/4 in"}}}),
        (205, {"corner_radius": 2}, {}),
        (206, {"finished_edge": {"west": {"arris_radius": "1/4 in"}}}, {}),
        (303, {"thickness": "5/8 in"}, {}),
        (304, {}, {}),
        (307, {}, {"base": {"screw_length": 2, "base_thickness": 1}}),
        (401, {}, {"base": {"overhang": {"north": 2, "south": 4, "east": 2, "west": 2}}}),
        (402, {}, {"base": {"overhang": 2}, "trim": {"east": 3, "west": 3}}),
        (403, {}, {"seating": {"table_height": 29, "arm_height": 28}}),
        (404, {}, {"seating": {"table_height": 25, "seat_height": 17}}),
        (405, {}, {"seating": {"table_height": 28, "accessible": True}}),
        (406, {}, {"base": {"apron_depth": 3}}),
        (407, {}, {"seating": {"seats": 6}}),
        (408, {}, {"trim": {"finished_width": 30}, "seating": {"table_height": 29}}),
    ],
)
def test_each_finding_comes_from_its_keys_of_the_job(number, top, tables):
    assert number in DESIGN_NUMBERS
    assert number in found(top, **tables)
    # and from nothing else: the plain job has the pin row alone
    assert number == 304 or number not in found()


@pytest.mark.example
def test_every_number_the_design_may_give_is_tried_above():
    (mark,) = [
        mark
        for mark in test_each_finding_comes_from_its_keys_of_the_job.pytestmark
        if mark.name == "parametrize"
    ]
    assert {case[0] for case in mark.args[1]} == DESIGN_NUMBERS


@pytest.mark.example
def test_findings_are_sorted_by_number_and_place():
    findings = design_findings(
        build_design(
            job({"corner_radius": 2, "glue_face_bare": False}, base={"overhang": 2}, trim={"north": 6})
        )
    )
    keys = [(finding.number, finding.place) for finding in findings]
    assert keys == sorted(keys)
    assert [place for number, place in keys if number == 205] == ["south_east", "south_west"]


@pytest.mark.example
def test_the_base_s_apron_counts_in_thigh_room():
    # 29 - 23/32 - 4 - 18 = 6-9/32 in to the apron, where the edge of 1-7/16 alone would leave 9-9/16
    seated = {"seating": {"table_height": 29, "seat_height": 18}}
    assert 404 not in found(**seated)
    assert "6 9/32 in" in found(base={"apron_depth": 4}, **seated)[404].figures


@pytest.mark.example
def test_metric_jobs_are_offered_metric_pins():
    metric = {"length": "1830 mm", "width": "1060 mm", "thickness": "18 mm"}
    assert job_pin_choice(job(metric, units="mm")).length == 30 * 320
    # what the shop lists is what it has
    assert job_pin_choice(job(metric, units="mm", pins={"lengths": ["32 mm"]})).length is None


@pytest.mark.example
def test_a_layer_that_no_pin_holds_is_told_from_one_that_is_pinned():
    # 1/2 in on 1/2 in is too thin; the next layer has 1 in to go into and takes 1-1/4
    thin = found({"thickness": "1/2 in"}, edge={"layers": 2, "bottom_round_over": "1/4 in"})
    assert thin[303].figures.startswith("layer 1:")
    assert thin[304].figures.startswith("layer 2: pins 1 1/4 in long")


@pytest.mark.example
def test_pins_follow_the_thinnest_reading():
    # 11/16 + 45/64 (mean strip) - 3/16 = 1-13/64: the 1-1/4 in pin of two 23/32 layers is too long
    assert job_pin_choice(job()).length == 8128 * 5 // 4
    assert job_pin_choice(job({"thickness": ["23/32 in", "11/16 in"]})).length is None


@pytest.mark.example
def test_figures_between_two_ticks_round_to_the_safe_side():
    # 0.1 mm is 32 ticks; a thousandth of a millimetre more is no whole tick
    metric = {"length": "1830 mm", "width": "1060 mm", "thickness": "18 mm"}
    even = job(metric, units="mm", edge={"bottom_round_over": "9.5 mm", "proud": "2 mm"})
    radius = job(metric, units="mm", edge={"bottom_round_over": "9.501 mm", "proud": "2 mm"})
    proud = job(metric, units="mm", edge={"bottom_round_over": "9.5 mm", "proud": "2.001 mm"})
    row = job_pin_choice(even).row_from_edge
    assert row == 9.5 * 320 + 2 * 320 + 8128 / 4
    assert job_pin_choice(radius).row_from_edge == job_pin_choice(proud).row_from_edge == row + 1
    # 31.001 mm is longer than the 31 mm that two layers of 18 mm allow
    assert job_pin_choice(job(metric, units="mm", pins={"lengths": ["31 mm"]})).length == 31 * 320
    assert job_pin_choice(job(metric, units="mm", pins={"lengths": ["31.001 mm"]})).length is None


STOP = Finding(
    402, "stop", "base reaches past the top", "north", "north: trim 6 in, overhang left -1 in", "less"
)
OTHER = Finding(
    402, "stop", "base reaches past the top", "east", "east: trim 2 in, overhang left -1 in", "less"
)
NEVER = Finding(201, "stop", "no such profile", "edge", "round-overs 2 in", "less", overridable=False)


def override(number, figures, reason="base is rebuilt"):
    return Override(finding=number, figures=figures, reason=reason)


@pytest.mark.example
def test_override_with_the_same_figures_applies():
    after = apply_overrides((STOP, OTHER), [override(402, STOP.figures)])
    assert {finding.place: finding.overridden for finding in after} == {
        "north": "base is rebuilt",
        "east": None,
    }
    assert [finding.place for finding in open_stops(after)] == ["east"]


@pytest.mark.example
def test_white_space_does_not_count_but_a_figure_does():
    spaced = "  north:trim 6in,\u00a0overhang   left - 1 in"
    assert open_stops(apply_overrides((STOP,), [override(402, spaced)])) == ()
    after = apply_overrides((STOP,), [override(402, STOP.figures.replace("-1", "-2"))])
    assert open_stops(after) == (STOP,)


@pytest.mark.example
def test_override_with_other_figures_has_lapsed_and_shows_both():
    old = "north: trim 5 in, overhang left -1/2 in"
    *_, lapsed = apply_overrides((STOP, OTHER), [override(402, old)])
    assert (lapsed.number, lapsed.severity, lapsed.place) == (901, "warn", "override 402")
    assert old in lapsed.figures
    assert STOP.figures in lapsed.figures
    assert OTHER.figures in lapsed.figures


@pytest.mark.example
def test_override_of_nothing_or_of_what_cannot_be_is_noted():
    after = apply_overrides((NEVER,), [override(201, NEVER.figures), override(205, "x")])
    assert [(f.number, f.severity, f.place) for f in after[1:]] == [
        (902, "note", "override 201"),
        (902, "note", "override 205"),
    ]
    assert after[0].overridden is None
    assert "cannot be overridden" in after[1].figures
    assert "not found" in after[2].figures


@pytest.mark.example
def test_an_override_in_the_job_reaches_the_design():
    # 6 in off the north: of the old 2 in corners only the southern two are still in the way
    plain = design_findings(build_design(job({"corner_radius": 2}, trim={"north": 6})))
    east, west = open_stops(plain)
    seen = {"finding": 205, "figures": west.figures, "reason": "a block is glued on"}
    after = design_findings(build_design(job({"corner_radius": 2}, trim={"north": 6}, override=[seen])))
    assert open_stops(after) == (east,)
    assert [finding.overridden for finding in after if finding.place == "south_west"] == [
        "a block is glued on"
    ]


@pytest.mark.example
def test_overrides_of_what_a_plan_decides_wait_for_the_plan():
    waiting = {"finding": 301, "figures": "strip 5/8 in, at least 1 1/16 in", "reason": "glue only"}
    assert {finding.number for finding in design_findings(build_design(job(override=[waiting])))} == {304}


finding_lists = st.lists(st.sampled_from([STOP, OTHER, NEVER]), unique=True)
override_lists = st.lists(
    st.builds(
        override,
        st.sampled_from([201, 402, 205]),
        st.sampled_from([STOP.figures, OTHER.figures, NEVER.figures, "something else"]),
    ),
    max_size=4,
)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(findings=finding_lists, overrides=override_lists)
def test_overrides_lose_no_finding_and_may_be_applied_again(findings, overrides):
    once = apply_overrides(findings, overrides)
    assert apply_overrides(once, overrides) == once
    assert len([f for f in once if f.number < 900]) == len(findings)
    assert all(f.overridden is None for f in once if not f.overridable)
    # every override is either applied or reported
    applied = [o for o in overrides if any(f.number == o.finding and f.overridden for f in once)]
    reported = [f for f in once if f.number > 900]
    assert len(reported) >= len(overrides) - len(applied)
