"""The cut list as a table."""

import csv
import io

import pytest
from cli_jobs import BOARDS, NO_PROFILE, READY
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cli.cuts_table import attached_words, cuts_table
from edgewright.cli.table import exact_inches, exact_mm
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.plan import plan
from edgewright.jobfile import parse_job
from edgewright.units import read_length


def table(job: str) -> list[dict[str, str]]:
    text = table_csv(cuts_table(plan(parse_job(job))))
    assert text.count("\n") == text.count("\r\n")
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.integers(-(10**9), 10**9))
def test_millimetres_are_exact_and_inches_to_a_millionth(ticks):
    assert read_length(f"{exact_mm(ticks):f} mm").exact_mm * 320 == ticks
    # a millionth of an inch is 0.008 ticks
    assert abs(read_length(f"{exact_inches(ticks):f} in").exact_mm * 320 - ticks) < 0.005


@pytest.mark.example
def test_rips_in_order_then_crosscuts():
    rows = table(READY)
    assert [row["step"] for row in rows] == [str(number) for number in range(1, len(rows) + 1)]
    # strips 1 7/8 in and kerfs 1/8 in: keep lines 2 in apart, the last at the finished 36 in
    rips = rows[:3]
    assert [row["keep_line"] for row in rips] == ["40 in", "38 in", "36 in"]
    assert [row["keep_line_mm"] for row in rips] == ["1016", "965.2", "914.4"]
    assert [row["keep_line_in"] for row in rips] == ["40", "38", "36"]
    assert [row["kerf_to_in"] for row in rips] == ["40.125", "38.125", "36.125"]
    # the guide lies 4 1/2 in on the keep side of the keep line
    assert [(row["guide_side"], row["guide_at"]) for row in rips] == [
        ("keep", "35 1/2 in"),
        ("keep", "33 1/2 in"),
        ("keep", "31 1/2 in"),
    ]
    assert {(row["width"], row["length"], row["measured_from"]) for row in rips} == {
        ("1 7/8 in", "72 in", "old south edge")
    }
    # the short sides run between the long ones: 36 - 2 x 1 7/8 = 32 1/4 in, the second one kerf further on
    cuts = rows[3:]
    assert [(row["operation"], row["keep_line"], row["length"]) for row in cuts] == [
        ("crosscut square", "32 1/4 in", "32 1/4 in"),
        ("crosscut square", "64 5/8 in", "32 1/4 in"),
    ]
    assert all(row["held"] for row in rows)


def test_strips_too_narrow_to_hold_are_ripped_while_attached():
    """Offcuts of 1 7/8 in, below the 8 in that a hand holds; the rest of 1 in that goes to the rack is no strip."""
    assert attached_words(plan(parse_job(READY))) == (
        "Cuts 1, 2 and 3: rip while attached. These strips are narrower than 8 in: never take them from a loose "
        "offcut."
    )
    assert all(row["held"].startswith("rip while attached: ") for row in table(READY)[:3])
    assert attached_words(plan(parse_job(BOARDS))) == ""


def test_guide_on_the_waste_side():
    # keep line + kerf + offset: 36 + 1/8 + 4 1/2
    job = READY + '[saw]\nguide_side = "waste"\n[[override]]\nfinding = 999\nfigures = "x"\nreason = "x"\n'
    result = plan(parse_job(job))
    last = result.cut_plan.cuts[-1]
    assert (last.keep_ticks, last.guide_ticks) == (36 * 8128, 40 * 8128 + 5 * 1016)


def test_mitres_nested_end_for_end_are_told():
    rows = table(READY.replace("[edge]", '[edge]\ncorners = "mitre"'))
    assert any(row["operation"] == "mitre the end at 45°, strip turned end for end" for row in rows)


def test_names_with_commas_quotes_and_other_scripts():
    name = 'shelf, "old" Ж'
    job = READY.replace('north = "6 in"', 'north = "1 in"') + (
        f'strip_width = "2 in"\n[[stock]]\nname = \'{name}\'\nlength = "96 in"\nwidth = "12 in"\n'
        'thickness = "23/32 in"\n'
    )
    fence = [row for row in table(job) if row["measured_from"] == "fence"]
    assert fence
    assert all(row["side_or_strip"].startswith(name) and row["width"] == "2 in" for row in fence)


def test_a_plan_that_is_not_ready_has_no_cut_list():
    with pytest.raises(ValueError, match="NOT FOR CUTTING"):
        cuts_table(plan(parse_job(NO_PROFILE)))
