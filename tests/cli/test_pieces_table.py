"""`pieces.csv`: rows as RFC 4180 has them, figures of the pieces to a hundredth."""

import csv
import io
from pathlib import Path

import pytest

from edgewright.cli.pieces_table import shaped_pieces_table
from edgewright.cli.table_csv import table_csv
from edgewright.cutlist.any_plan import plan_any

SHAPES = Path(__file__).resolve().parents[2] / "examples" / "shapes"


@pytest.mark.example
def test_a_mitred_octagon_has_eight_equal_pieces():
    plan = plan_any(SHAPES / "octagon.toml")
    text = table_csv(shaped_pieces_table(plan))
    assert text.count("\n") == text.count("\r\n") == 9
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    # strips stand proud on every side, so the octagon of their outer edges has that much more across flats
    proud = plan.job.edge.proud.mm
    side = (44 * 25.4 + 2 * proud) * 0.41421356
    for row in rows:
        assert float(row["length_mm"]) == pytest.approx(side, abs=0.011)
        assert float(row["start_degrees_from_square"]) == float(row["end_degrees_from_square"]) == 22.5
        assert float(row["thickness_mm"]) == pytest.approx(23 / 32 * 25.4, abs=0.006)
        assert row["plan_code"] == plan.code
    assert len({row["piece"] for row in rows}) == 8


def test_names_with_commas_keep_their_field_and_no_piece_leaves_the_header_alone():
    text = table_csv(shaped_pieces_table(plan_any(SHAPES / "live_edge.toml")))
    assert text.startswith("piece,what,layer,under,length,")
    assert text.count("\r\n") == 1
