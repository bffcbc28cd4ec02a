"""SVG files of a plan: true sizes by svgpathtools, titles and descriptions, light, safe with any title."""

import functools
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
import svgpathtools
from cli_jobs import NO_PROFILE, READY

from edgewright.cli.plan_views import sheet_views
from edgewright.cli.svg_files import svg_files
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.drawing_files import top_view
from edgewright.cutlist.plan import plan
from edgewright.drawing.paper import KEEP, PANEL
from edgewright.jobfile import parse_job
from edgewright.ticks import ticks_to_mm

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = [
    *("narrow_one_side", "knots_and_screws", "rescue_after_cut_1", "shapes/boat", "shapes/l_counter"),
    *(
        "shapes/round_diameters",
        "shapes/live_edge",
        "new_tops/card_room_table",
        "new_tops/racetrack_from_sheet",
    ),
]
EACH = pytest.mark.parametrize("name", NAMES)
SVG = "{http://www.w3.org/2000/svg}"
#: A page waits for no drawing; the largest picture of the examples has 120 kB (gzip makes a quarter of it).
LIGHT = 125_000


@functools.cache
def made(name):
    return plan_any(EXAMPLES / f"{name}.toml")


@functools.cache
def contents(name):
    """Drawings of an example as bytes, by name."""
    found = made(name)
    return svg_files(found, (*sheet_views(found), top_view(found)))


@functools.cache
def files(name):
    """Drawings of an example as their roots, by name."""
    return {key: ET.fromstring(text) for key, text in contents(name).items()}


def extent(root, layer, scale=1.0):
    """Width and height (mm) of all that a layer draws, by svgpathtools."""
    paths = [
        svgpathtools.parse_path(path.get("d"))
        for group in root.iter(f"{SVG}g")
        if group.get("class") == layer
        for path in group.findall(f"{SVG}path")
    ]
    assert paths
    x0, x1, y0, y1 = zip(*(path.bbox() for path in paths), strict=True)
    return (max(x1) - min(x0)) * scale, (max(y1) - min(y0)) * scale


def finished(found):
    """Length and width of the box around the finished top, mm."""
    if hasattr(found, "cut_plan"):
        return tuple(map(ticks_to_mm, found.cut_plan.finished_ticks))
    x0, y0, x1, y1 = found.design.region.bounds
    return x1 - x0, y1 - y0


@EACH
def test_the_finished_outline_has_its_true_size(name):
    size = extent(files(name)["svg/cut.svg"], "FINISHED_OUTLINE")
    assert size == pytest.approx(finished(made(name)), abs=0.01)


@EACH
def test_the_section_is_as_high_as_the_edge(name):
    root = files(name)["svg/edge.svg"]
    assert "full size" in root.find(f"{SVG}title").text
    _, high = extent(root, PANEL.name)
    assert high == pytest.approx(made(name).design.edge_thickness_mm, abs=0.01)


def test_the_map_of_the_underside_is_true_at_its_scale():
    root = files("narrow_one_side")["svg/underside_1.svg"]
    texts = " ".join(text.text for text in root.iter(f"{SVG}text"))
    scale = float(texts.split("Scale 1:")[1].split(".")[0])
    assert extent(root, KEEP.name, scale) == pytest.approx(finished(made("narrow_one_side")), abs=0.01)


@EACH
def test_each_says_what_it_shows_and_how_large_it_is(name):
    found = made(name)
    titles = set()
    for path, root in files(name).items():
        assert path.startswith("svg/")
        assert path.removeprefix("svg/").removesuffix(".svg").replace("_", "").isalnum()
        width, height = (float(root.get(key).removesuffix("mm")) for key in ("width", "height"))
        assert [float(n) for n in root.get("viewBox").split()] == [0, 0, width, height]
        title, words = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
        assert root.get("role") == "img"
        assert root.get("aria-labelledby").split() == [title.get("id"), words.get("id")]
        assert found.job.info.title in title.text
        assert f"Plan {found.code}." in words.text
        assert "finished" in words.text
        assert len(words.text) > 80
        titles.add(title.text)
    assert len(titles) == len(files(name))


@EACH
def test_each_is_light(name):
    sizes = {path: len(text) for path, text in contents(name).items()}
    assert max(sizes.values()) < LIGHT, sizes
    # all but the picture are lines
    assert max(size for path, size in sizes.items() if path != "svg/picture.svg") < 50_000, sizes


def test_any_title_is_text_and_nothing_else():
    nasty = "</title><script>alert(1)</script>&amp; \"'<![CDATA[ " + "Ж漢" * 20
    found = plan(parse_job(READY.replace('"Reading table × 2"', '"""' + nasty + '"""')))
    for text in svg_files(found, (*sheet_views(found), top_view(found))).values():
        root = ET.fromstring(text)
        assert nasty in root.find(f"{SVG}title").text
        assert not list(root.iter(f"{SVG}script"))


def test_while_not_for_cutting_there_are_none():
    found = plan(parse_job(NO_PROFILE))
    with pytest.raises(ValueError, match="NOT FOR CUTTING"):
        svg_files(found, sheet_views(found))


def test_two_views_of_one_name_are_a_mistake():
    found = made("narrow_one_side")
    view = sheet_views(found).section[0]
    with pytest.raises(ValueError, match="two views"):
        svg_files(found, (view, view))
