"""plan.json is documented, carries its units, and can be checked from itself alone."""

import json

import pytest
from cli_jobs import BOARDS, IMPOSSIBLE, NO_PROFILE, READY

from edgewright.cli.plan_json import PLAN_KEYS, json_text, plan_dict
from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.plan import plan
from edgewright.jobfile import parse_job


def content(job: str) -> dict:
    return json.loads(json_text(plan_dict(plan(parse_job(job)), ["cuts.csv"])))


def keys(data: dict) -> set[str]:
    found = set()
    for key, value in data.items():
        found.add(key)
        if isinstance(value, dict):
            found |= {f"{key}.{inner}" for inner in value}
        elif isinstance(value, list):
            found |= {f"{key}[].{inner}" for entry in value if isinstance(entry, dict) for inner in entry}
    return found


def test_every_key_is_described_and_every_description_has_its_key():
    # boards bought and crosscut, so that every list has an entry
    assert keys(content(BOARDS)) == set(PLAN_KEYS)
    assert all(text.endswith(".") and len(text) > 8 for text in PLAN_KEYS.values())


def test_what_is_withheld_says_so_in_its_description():
    for job in (IMPOSSIBLE, NO_PROFILE):
        missing = {key for key in set(PLAN_KEYS) - keys(content(job)) if "[]" not in key}
        missing = {key for key in missing if not key.startswith(("edge.", "takeoff."))}
        assert missing == {key for key, text in PLAN_KEYS.items() if "withheld" in text}


def test_a_job_without_a_profile_has_null_for_it():
    data = content(NO_PROFILE)
    assert (data["edge"], data["takeoff"]) == (None, None)


def test_the_plan_can_be_checked_from_the_file_alone():
    for job in (READY, BOARDS):
        assert check_plan(content(job)["cut_plan"]) == ()


def test_numbers_carry_their_unit():
    units = ("_mm", "_mm2", "_mm3", "_ticks", "_cents", "_percent")
    plain = {
        "version",
        "ticks_per_mm",
        "line",
        "number",
        "layer",
        "max_splices",
        "mitres",
        "lanes",
        "sides",
        "value",
        "bound",
    }

    def look(data, name):
        if isinstance(data, dict):
            if "unit" in data:
                return  # lines of the take-off name their unit beside the figures
            for key, value in data.items():
                look(value, name if name.endswith(units) else key)
        elif isinstance(data, list):
            for value in data:
                look(value, name)
        elif isinstance(data, int | float) and not isinstance(data, bool):
            assert name.endswith(units) or name in plain, name

    for job in (BOARDS, IMPOSSIBLE):
        look(content(job), "")


@pytest.mark.example
def test_figures_of_a_small_job():
    data = content(READY)
    # 72 in = 585216 ticks, 42 in = 341376, 36 in = 292608
    assert data["sizes"]["old_ticks"] == [585216, 341376]
    assert data["sizes"]["finished_ticks"] == [585216, 292608]
    assert data["base"]["offset_mm"] == pytest.approx([0.0, 76.2])
    # a rectangle with corners of 2 in: 2 (72 + 36) in less 4 (2 in) (2 - pi / 2)
    assert data["edge"]["perimeter_mm"] == pytest.approx(25.4 * (216 - 8 * (2 - 3.141592653589793 / 2)))
