"""The test cut of any saw setting: legible, to scale, with a box for each figure that is measured."""

from __future__ import annotations

import pytest
from paper_checks import paper_faults
from shaped_jobs import texts

from edgewright.cutlist.sheets.kerf_section import CutSetting, kerf_section
from edgewright.drawing.paper import HATCHING, KEEP
from edgewright.drawing.view import Hatch, Segment


@pytest.mark.example
@pytest.mark.parametrize("side", ["keep", "waste"])
@pytest.mark.parametrize("thickness", [6.0, 19.0, 60.0])
@pytest.mark.parametrize("box", [(180.0, 170.0), (150.0, 170.0)])
def test_every_text_is_legible_and_stays_in_the_box(side, thickness: float, box: tuple[float, float]):
    setting = CutSetting(3.175, thickness, "1/8 in", "4 1/2 in", side, "wide")
    view = kerf_section(setting, "ABCD-EFGH", box)
    assert paper_faults(view, *box) == []
    words = " ".join(texts(view))
    assert f"on the {side} side" in words
    assert {"KERF 1/8 in", "OFFSET 4 1/2 in"} <= set(texts(view))
    assert ("thicker than drawn" in words) == (thickness > 19)


@pytest.mark.example
def test_the_kerf_is_twice_its_size_on_the_waste_side_of_the_keep_line():
    setting = CutSetting(3.0, 18.0, "3 mm", "115 mm", "keep", "wide")
    view = kerf_section(setting, "ABCD-EFGH")
    (kerf,) = (s for s in view.on(HATCHING.name) if isinstance(s, Hatch))
    xs = [x for x, _, _ in kerf.loop.vertices]
    assert max(xs) - min(xs) == pytest.approx(6.0)
    (keep,) = (s for s in view.on(KEEP.name) if isinstance(s, Segment))
    assert keep.x0 == pytest.approx(min(xs))
    waste = next(s for _, s in view.shapes if getattr(s, "text", "") == "WASTE")
    assert waste.x > max(xs)
