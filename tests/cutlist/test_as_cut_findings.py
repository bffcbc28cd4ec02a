"""What is asked after some cuts: at 1/64 in of difference, not a tick below. Common practice, no source."""

from __future__ import annotations

from functools import cache

import pytest

from edgewright.cutlist.plan import Plan, plan
from edgewright.findings import Finding
from edgewright.jobfile import parse_job

#: Keep lines at 40, 38 and 36 in, each cut gives 1 7/8 in of 42 in; guide at 35 1/2 in for cut 1.
JOB = """[job]
title = "T"
units = "{units}"
[top]
length = "72 in"
width = "42 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "6 in"
[saw]
{saw}
[as_cut]
"""
BELOW, STEP = 126, 127  # ticks; 127 are 1/64 in
INCH = 8128


def piece(ticks: int) -> str:
    return f'[[as_cut.piece]]\nside = "north"\nlength = "72 in"\nwidth = "{ticks / 320} mm"\n'


def tick(ticks: int) -> str:
    return f'"{ticks / 320} mm"'


@cache
def made(as_cut: str, saw: str = "", units: str = "in") -> Plan:
    return plan(parse_job(JOB.format(units=units, saw=saw) + as_cut))


def asked(as_cut: str, saw: str = "", units: str = "in") -> list[Finding]:
    return [f for f in made(as_cut, saw, units).findings if 521 <= f.number <= 523]


WIDE = 1 * INCH + 7 * INCH // 8


@pytest.mark.example
@pytest.mark.parametrize(
    ("place", "nominal", "text", "signs"),
    [
        ("kerf", INCH // 8, "cuts = 0\nkerf = {}\n", (1, -1)),
        ("guide offset", 4 * INCH + INCH // 2, "cuts = 0\nguide_offset = {}\n", (1, -1)),
        ("panel width", 40 * INCH, "cuts = 1\nwidth = {}\n", (1, -1)),
        # longer than the old top would be a fault of the file
        ("panel length", 72 * INCH, 'cuts = 1\nwidth = "40 in"\nlength = {}\n', (-1,)),
    ],
)
@pytest.mark.parametrize("which", [0, -1])
def test_a_difference_of_a_64th_is_asked_about_and_no_less(
    place: str, nominal: int, text: str, signs: tuple[int, ...], which: int
) -> None:
    sign = signs[which]
    assert asked(text.format(tick(nominal + sign * BELOW))) == []
    found = asked(text.format(tick(nominal + sign * STEP)))

    first = next(f for f in found if f.number == 521)
    assert (first.place, first.severity) == (place, "warn")
    assert first.figures.startswith("planned ")
    assert ", measured " in first.figures
    assert "again" in first.change


@pytest.mark.example
def test_an_offcut_that_differs_by_a_64th_is_asked_about() -> None:
    panel = 'cuts = 1\nwidth = "40 in"\n'
    assert asked(panel + piece(WIDE - BELOW)) == []
    found = asked(panel + piece(WIDE - STEP))

    # the panel is as planned, so what is missing of the offcut is the kerf's
    assert [(f.number, f.place) for f in found] == [(521, "offcut of cut 1"), (522, "panel width")]
    assert found[0].figures == "planned 1 7/8 in, measured 1 55/64 in"
    assert found[1].figures == (
        "old 42 in less panel 40 in and pieces 1 55/64 in leaves 9/64 in for 1 kerf of 1/8 in"
    )


@pytest.mark.example
def test_with_the_kerf_that_explains_it_the_figures_add_up() -> None:
    found = asked('cuts = 1\nwidth = "40 in"\nkerf = "5/32 in"\n' + piece(WIDE - 2 * STEP))

    assert [(f.place, f.figures) for f in found] == [
        ("kerf", "planned 1/8 in, measured 5/32 in"),
        ("offcut of cut 1", "planned 1 7/8 in, measured 1 27/32 in"),
    ]


@pytest.mark.example
def test_nothing_is_added_up_where_a_piece_was_not_measured() -> None:
    text = 'cuts = 2\nwidth = "38 in"\n' + piece(WIDE - 2 * STEP)
    assert [f.number for f in asked(text)] == [521]
    spoiled = piece(WIDE - 2 * STEP) + "usable = false\n"
    assert [f.number for f in asked('cuts = 1\nwidth = "40 in"\n' + spoiled)] == [521, 522]


@pytest.mark.example
@pytest.mark.parametrize(
    ("saw", "panel", "offset"),
    [
        # guide at 35 1/2 in on the keep side: a panel of 40 1/16 in means 4 9/16 in
        ("", "40 1/16", "4 9/16 in"),
        # guide at 40 + 1/8 + 4 1/2 in on the waste side: 44 5/8 - 1/8 - 40 1/16 in
        ('guide_side = "waste"', "40 1/16", "4 7/16 in"),
    ],
)
def test_a_panel_cut_otherwise_says_what_the_guide_offset_was(saw: str, panel: str, offset: str) -> None:
    text = f'cuts = 1\nwidth = "{panel} in"\n'
    found = next(f for f in asked(text, saw) if f.place == "panel width")
    assert f"its offset was {offset}" in found.change
    known = next(f for f in asked(f'{text}guide_offset = "{offset}"\n', saw) if f.place == "panel width")
    assert "its offset was" not in known.change


@pytest.mark.example
@pytest.mark.parametrize(
    ("less", "severity"),
    [(BELOW, None), (STEP, "warn"), (4 * STEP, "warn"), (4 * STEP + 1, "stop")],
)
def test_a_panel_too_small_is_silent_below_a_64th_told_to_a_16th_and_then_stops(
    less: int, severity: str | None
) -> None:
    text = f"cuts = 3\nwidth = {tick(36 * INCH - less)}\n" + piece(WIDE) * 3
    found = [f for f in asked(text) if f.number == 523]

    assert [f.severity for f in found] == ([] if severity is None else [severity])
    assert made(text).design.sizes.finished[1] == 36 * INCH - less
    assert made(text).ready == (severity != "stop")
    if found:
        assert found[0].place == "finished width"
        assert found[0].figures.startswith("agreed 36 in, now ")


@pytest.mark.example
def test_the_stop_is_overridden_with_its_figures() -> None:
    text = 'cuts = 3\nwidth = "35 1/2 in"\n' + piece(WIDE) * 3
    stop = next(f for f in asked(text) if f.number == 523)
    assert stop.figures == "agreed 36 in, now 35 1/2 in, 1/2 in less"
    override = f'[[override]]\nfinding = 523\nfigures = "{stop.figures}"\nreason = "agreed by telephone"\n'

    assert made(text + override).ready


@pytest.mark.example
def test_figures_of_a_metric_job_are_metric() -> None:
    found = asked('cuts = 0\nkerf = "3.6 mm"\n', 'kerf = "3.2 mm"', "mm")
    assert [f.figures for f in found] == ["planned 3.2 mm, measured 3.6 mm"]
    # 0.39 mm is less than 1/64 in, 0.396875 mm
    assert asked('cuts = 0\nkerf = "3.59 mm"\n', 'kerf = "3.2 mm"', "mm") == []


@pytest.mark.example
def test_what_was_snapped_is_told_of_the_trim_not_of_what_was_cut() -> None:
    """6.01 in is 5.98 grid steps more than 6 in: told as snapped, however the cuts went."""
    text = JOB.format(units="in", saw="").replace('north = "6 in"', 'north = "6.01 in"')
    before = plan(parse_job(text.replace("[as_cut]\n", "")))
    after = plan(parse_job(text + 'cuts = 1\nwidth = "39 in"\n'))

    def snapped(p: Plan) -> list[str]:
        return [f.figures for f in p.findings if f.number == 507]

    assert snapped(after) == snapped(before) != []


DEFECT = """[[top.defects]]
name = "{name}"
metal = {metal}
along = ["20 in", "21 in"]
across = ["{low} in", "{high} in"]
"""


@pytest.mark.example
@pytest.mark.parametrize(
    ("low", "high", "metal", "severity"),
    [
        # the piece of cut 1 is the outer 1 7/8 in of 42 in
        ("41", "41 1/2", "false", "warn"),
        ("41", "41 1/2", "true", "stop"),
        ("39", "40 1/8", "false", None),
        ("39", "40 9/64", "false", "warn"),
    ],
)
def test_a_defect_in_what_came_off_is_told_and_metal_stops(
    low: str, high: str, metal: str, severity: str | None
) -> None:
    text = JOB.format(units="in", saw="").replace(
        "[trim]", DEFECT.format(name="old screw", metal=metal, low=low, high=high) + "[trim]"
    )
    result = plan(parse_job(text + 'cuts = 1\noff = {north = "2 in"}\n' + piece(WIDE) + "cut = 1\n"))
    found = [f for f in result.findings if f.number == 524]

    assert [f.severity for f in found] == ([] if severity is None else [severity])
    if found:
        assert (found[0].place, found[0].figures) == ("offcut of cut 1", "old screw; length used 72 in")
