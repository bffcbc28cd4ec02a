"""Random tops of every shape, written and read back: sound and measured as designed, without check figures as well."""

import pytest
from any_tops import any_tops
from dxf_files_of import file_of, groups_of, without_check_figures
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.template_view import template_view
from edgewright.drawing.dxf import dxf_text
from edgewright.dxf_audit.audit import audit_dxf


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(any_tops(), st.sampled_from(["in", "mm"]), st.sampled_from(["R2000", "R12"]))
def test_a_template_of_any_top_is_sound_with_and_without_check_figures(top, units, dialect):
    region = top.region
    view = template_view(region.outer, region.holes, "any top", "AAAA-AAAA")
    data = dxf_text(view, units, dialect).encode("ascii")
    for written in (data, file_of(without_check_figures(groups_of(data)))):
        found = audit_dxf(written, f"top_{units}.dxf")
        assert found.faults == ()
        edge = found.layer("TEMPLATE_EDGE")
        assert (edge.closed, edge.open) == (1, 0)
        assert edge.area == pytest.approx(region.outer.area, rel=1e-9)
        assert edge.length == pytest.approx(region.outer.length, rel=1e-9)
        assert edge.box == pytest.approx(region.outer.bounds, abs=1e-6)
