"""Findings 314 and 315, figures worked by hand."""

import math

import pytest
from region_cases import RACETRACK
from ring_cases import numbered

from edgewright.design.buildup.kerf_bend import kerf_bend
from edgewright.design.buildup.skirt import SkirtSettings, skirt_bends
from edgewright.design.check_skirt import kerf_findings, skirt_findings
from edgewright.design.outline import rectangle


@pytest.mark.example
def test_314_a_skirt_on_the_edge():
    (found,) = skirt_findings(rectangle(1200, 800), SkirtSettings(18, 60, 20, mount="on"), "mm")
    assert (found.number, found.severity) == (314, "note")
    assert found.figures == "1200 mm × 800 mm before, 1236 mm × 836 mm with a skirt 18 mm thick all round"
    assert skirt_findings(rectangle(1200, 800), SkirtSettings(18, 60, 20), "mm") == ()


@pytest.mark.example
def test_315_kerfs_of_both_ends_are_told_once():
    """Radius 300, half a circle in two ends: pitch √(8 × 300 × 0.127) = 17.5, 942.5 / 17.5 = 54 kerfs."""
    bends = skirt_bends(RACETRACK.outer, numbered(RACETRACK.outer), SkirtSettings(18, 60, 20), 3)
    found = kerf_findings(bends, 3, "mm")
    assert {f.number for f in found} == {315}
    assert {f.severity for f in found} == {"note"}
    assert sum(bend.sweep for _, bend in bends) == pytest.approx(2 * math.pi)
    assert all("radius 300 mm: " in f.figures and "kerfs every 17." in f.figures for f in found)


@pytest.mark.example
def test_315_warns_of_thin_skin_and_narrow_wood():
    thin = kerf_bend(600, 1.5, 18, 3, skin=1.0)
    (found,) = kerf_findings([("east end", thin)], 3, "mm")
    assert (found.severity, found.place) == ("warn", "east end")
    assert "skin may break" in found.change
    narrow = kerf_bend(40, 1.5, 18, 3.5)
    (found,) = kerf_findings([("corner", narrow)], 3.5, "mm")
    assert found.severity == "warn"
    assert "less than a kerf of wood" in found.change
