"""Findings 401, 402 and 406, each at its bound and beyond."""

import pytest

from edgewright.compass import PerSide
from edgewright.design.check_base import apron_findings, off_centre_findings, overhang_findings

INCH = 25.4
TRIMS = PerSide(6 * INCH, 0.0, 0.0, 0.0)


@pytest.mark.example
def test_base_off_centre_by_more_than_an_eighth():
    assert off_centre_findings((INCH / 8, -INCH / 8), "in") == ()
    (finding,) = off_centre_findings((0.0, 3 * INCH), "in")
    assert (finding.number, finding.severity) == (401, "warn")
    assert finding.figures == "base centre 3 in north of the top's centre"
    (both,) = off_centre_findings((-INCH, -INCH / 4), "in")
    assert both.figures == "base centre 1 in west and 1/4 in south of the top's centre"


@pytest.mark.example
def test_a_job_that_says_nothing_of_its_base_is_told_what_is_taken_for_granted():
    (finding,) = off_centre_findings((0.0, 3 * INCH), "in", known=False)
    assert finding.figures == "if the base stays where it is: base centre 3 in north of the top's centre"


@pytest.mark.example
def test_trim_past_the_base_stops_and_flush_passes():
    assert overhang_findings(PerSide(0.0, None, None, 5.0), TRIMS, "in") == ()
    (finding,) = overhang_findings(PerSide(-INCH, None, 0.0, 5.0), TRIMS, "in")
    assert (finding.number, finding.severity, finding.place) == (402, "stop", "north")
    assert finding.figures == "north: trim 6 in, overhang left -1 in"


@pytest.mark.example
def test_apron_governs_where_it_is_lower_than_the_edge():
    assert apron_findings(18, 36, None, "mm") == ()
    assert apron_findings(18, 36, 18, "mm") == ()
    (finding,) = apron_findings(18, 36, 80, "mm")
    assert (finding.number, finding.severity) == (406, "note")
    assert finding.figures == "apron ends 98 mm below the upper face, edge 36 mm"
