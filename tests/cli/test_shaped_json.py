"""plan.json of a shaped top: what is documented is written; what one could cut by is withheld when not ready."""

import json
import math
from pathlib import Path

import pytest

from edgewright.cli.plan_json import PLAN_KEYS, json_text
from edgewright.cli.shaped_json import SHAPED_KEYS, shaped_dict
from edgewright.cutlist.any_plan import plan_any
from edgewright.jobfile import parse_any_job

SHAPES = Path(__file__).resolve().parents[2] / "examples" / "shapes"


def content_of(name, more=""):
    text = (SHAPES / f"{name}.toml").read_text(encoding="utf-8") + more
    plan = plan_any(parse_any_job(text, str(SHAPES / "job.toml")))
    return json.loads(json_text(shaped_dict(plan, ["packet.pdf"])))


@pytest.mark.example
def test_a_trimmed_top_is_told_before_and_after():
    content = content_of("tapered")
    assert content["status"] == "ready"
    assert content["files"] == ["packet.pdf"]
    # 58 x 30 in at the west end, 28 1/2 in at the east end
    assert [v[:2] for v in content["top"]["old"]["vertices"]] == [
        pytest.approx(corner, abs=1e-9) for corner in [(0, 0), (1473.2, 0), (1473.2, 723.9), (0, 762)]
    ]
    assert content["top"]["old"]["edges"] == ["south", "east", "north", "west"]
    (cut,) = content["cuts"]
    assert cut["edge"] == "north"
    # parallel to the south side at 28 1/4 in
    assert [cut["keep_from_mm"][1], cut["keep_to_mm"][1]] == pytest.approx([717.55, 717.55])
    assert cut["kerf_mm"] == pytest.approx(3.175)
    (offcut,) = content["offcuts"]
    widths = sorted([offcut["width_start_mm"], offcut["width_end_mm"]])
    # 1/4 and 1 3/4 in at the ends, less the kerf of 1/8 in
    assert widths == pytest.approx([3.175, 41.275], abs=0.2)


@pytest.mark.example
def test_cut_outs_are_told_with_their_edges():
    content = content_of("l_counter")
    basin, hatch = content["top"]["cut_outs"]
    assert (basin["name"], basin["routed"], hatch["name"], hatch["routed"]) == ("basin", False, "hatch", True)
    assert basin["perimeter_mm"] == pytest.approx(15.5 * 25.4 * 3.14159265)
    # a plain hole through 3/4 in of wood
    assert basin["edge_area_mm2"] == pytest.approx(15.5 * 25.4 * 3.14159265 * 19.05)
    # a quarter circle of radius r instead of r of the upper arris, and the hole grows by 2 pi for each mm of inset:
    # P (r pi/2 + t - r) + 2 pi r^2 (pi/2 - 1)
    r, length = content["edge"]["top_round_over_radius_mm"], hatch["perimeter_mm"]
    grown = 2 * math.pi * r * r * (math.pi / 2 - 1)
    assert hatch["edge_area_mm2"] == pytest.approx(length * (r * math.pi / 2 + 19.05 - r) + grown)


def test_a_place_counts_from_the_corner_of_the_old_tops_box():
    for name in ("quad_largest_rectangle", "corner_desk_polygon"):
        xs, ys, _ = zip(*content_of(name)["top"]["old"]["vertices"], strict=True)
        assert (min(xs), min(ys)) == pytest.approx((0, 0), abs=1e-6)


def test_what_one_could_cut_by_is_withheld_while_a_stop_is_open():
    content = content_of("octagon", 'top_round_over = "3/4"\nbottom_round_over = "3/4"\n')
    withheld = {"cuts", "offcuts", "router", "pieces", "blanks", "build_up", "sheet_cuts"}
    assert {key for key, says in SHAPED_KEYS.items() if "withheld while NOT FOR CUTTING" in says} == withheld
    assert set(content) == {key for key in SHAPED_KEYS if "." not in key} - withheld
    assert content["edge"] is None
    assert content["takeoff"] is None


def test_keys_that_both_kinds_of_plan_have_mean_the_same():
    both = set(SHAPED_KEYS) & set(PLAN_KEYS)
    assert {"format", "version", "made_by", "plan_code", "files", "findings"} <= both
    for key in ("format", "version", "made_by"):
        assert SHAPED_KEYS[key] == PLAN_KEYS[key]
