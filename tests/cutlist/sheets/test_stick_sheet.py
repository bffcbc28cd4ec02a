"""The stick sheet: legible in every job, pieces true to the plan."""

from __future__ import annotations

import dataclasses

import pytest
from paper_checks import paper_faults, ruled_faults
from sheet_jobs import JOBS, sheet_plan

from edgewright.cutlist.bench_cuts import CLAMPED
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.display import show_ticks
from edgewright.drawing.paper import PANEL
from edgewright.drawing.view import Note, Segment, View

EVERY = pytest.mark.parametrize("name", JOBS)


def texts(views: tuple[View, ...]) -> list[str]:
    return [shape.text for view in views for _, shape in view.shapes if isinstance(shape, Note)]


@pytest.mark.example
@EVERY
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 110.0), (180.0, 205.0), (150.0, 100.0)):
        for view in stick_figures(sheet_plan(name), (width, height)):
            assert paper_faults(view, width, height) == []
            assert ruled_faults(view) == []


@pytest.mark.example
@EVERY
def test_every_piece_and_every_stop_is_written(name: str):
    plan = sheet_plan(name)
    words = " ".join(texts(stick_figures(plan)))
    for piece in plan.cut_plan.pieces:
        assert f"{piece.id} {show_ticks(piece.length_ticks, plan.job.units)}" in words
    for cut in (cut for cut in plan.crosscuts if cut.end == "end"):
        assert show_ticks(cut.stop_ticks, plan.job.units) in words


@pytest.mark.example
def test_stops_of_the_reference_job_are_cumulative():
    words = texts(stick_figures(sheet_plan("one side")))
    # 32 1/4, and 32 1/4 + 1/8 + 32 1/4
    assert {"32 1/4 in", "64 5/8 in", "rest 7 1/4 in"} <= set(words)


@pytest.mark.example
def test_mitres_are_drawn_at_45_degrees_to_scale():
    plan = sheet_plan("nested mitres")
    views = stick_figures(plan)
    slants = [
        shape
        for view in views
        for shape in view.on(PANEL.name)
        if isinstance(shape, Segment) and abs(shape.x1 - shape.x0) > 0.01 and abs(shape.y1 - shape.y0) > 0.01
    ]
    # eight mitred ends: two pieces in one strip and one in each of two others
    assert len(slants) == 8
    for slant in slants:
        assert abs(slant.x1 - slant.x0) == pytest.approx(abs(slant.y1 - slant.y0))
    assert any("turned" in text for text in texts(views))


@pytest.mark.example
def test_a_cut_that_is_not_held_by_hand_has_a_star():
    plan = sheet_plan("one side")
    held = tuple(dataclasses.replace(cut, held=CLAMPED) for cut in plan.crosscuts[:1])
    words = texts(stick_figures(dataclasses.replace(plan, crosscuts=(*held, *plan.crosscuts[1:]))))
    assert "32 1/4 in *" in words
    assert "64 5/8 in" in words
    assert any(text.startswith("Stops with *: clamped") for text in words)


@pytest.mark.example
def test_a_crowded_strip_is_spelled_out_instead():
    plan = sheet_plan("one side")
    lane = plan.cut_plan.pieces[0].lane_id
    piece = next(p for p in plan.cut_plan.pieces if p.lane_id == lane)
    cut = next(c for c in plan.crosscuts if c.piece_id == piece.id)
    # 30 pieces of 2 in and a kerf each: more than labels have room for
    pitch, long = 17272, 16256
    pieces = [
        dataclasses.replace(piece, id=f"E1{n}", length_ticks=long, lane_start_ticks=n * pitch)
        for n in range(30)
    ]
    cuts = [
        dataclasses.replace(cut, piece_id=p.id, stop_ticks=p.lane_start_ticks + long, length_ticks=long)
        for p in pieces
    ]
    crowded = dataclasses.replace(
        plan, crosscuts=tuple(cuts), cut_plan=dataclasses.replace(plan.cut_plan, pieces=tuple(pieces))
    )
    views = stick_figures(crowded)
    for view in views:
        assert paper_faults(view, 180, 110) == []
    words = " ".join(texts(views))
    assert "E10 2 in, stop 2 in" in words
    assert "E129 2 in, stop" in words


@pytest.mark.example
def test_a_plan_that_is_not_ready_has_no_sheet():
    plan = sheet_plan("one side")
    impossible = dataclasses.replace(plan, cut_plan=dataclasses.replace(plan.cut_plan, status="impossible"))
    assert stick_figures(impossible) == ()
