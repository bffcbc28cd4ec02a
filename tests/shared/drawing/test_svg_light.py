"""Light pictures: the same faces and lines in fewer bytes, read by svgpathtools."""

import re
import xml.etree.ElementTree as ET

import pytest
import svgpathtools

from edgewright.drawing.arcs import loop_of
from edgewright.drawing.svg import svg_text
from edgewright.drawing.svg_light import STEPS, light_svg
from edgewright.drawing.view import Circle, Face, Layer, Loop, Segment, View

SVG = "{http://www.w3.org/2000/svg}"
FACES = Layer("FACES", "shaded faces", 0.13, "continuous", False)
LINES = Layer("LINES", "lines", 0.18, "dashed", False)
SHAPES = (
    ("FACES", Face(Loop(((1.04, 2, 0), (3, 2, 0), (3.26, 4.5, 0))), 0.81)),
    ("FACES", Face(Loop(((0, 1, 0), (1, 1, 0), (1, 0, 0))), 0.81)),
    ("FACES", Face(Loop(((5, 1, 0), (6, 1, 0), (5, 0, 0))), 0.7)),
    ("LINES", Segment(7, 7, 8, 7)),
    ("LINES", Segment(8, 7.5, 8, 9)),
    ("LINES", Loop(((10, 10, 0), (12, 10, 0), (11, 12, 0)))),
    ("LINES", Segment(7, 1, 8, 1)),
)


def both(*shapes):
    text = svg_text(View("picture", "t", shapes, (FACES, LINES)), title="t", description="d")
    return text, light_svg(text)


def corners(text, scale=1.0):
    """Per group and fill the ends of all straight lines in mm, closing lines of faces left out."""
    found = {}
    for group in ET.fromstring(text).iter(f"{SVG}g"):
        for path in group.findall(f"{SVG}path"):
            # a lower m right behind another figure begins a new part in svgpathtools too
            for part in svgpathtools.parse_path(path.get("d")).continuous_subpaths():
                key = group.get("class"), path.get("fill")
                places = [part[0].start, *(line.end for line in part)]
                if key[1] and len(places) > 1 and abs(places[-1] - places[0]) < 1e-9:
                    places.pop()
                found.setdefault(key, []).append([place * scale for place in places])
    return found


def test_it_draws_what_the_large_one_draws():
    large, small = both(*SHAPES)
    wanted, found = corners(large), corners(small, 1 / STEPS)
    assert sorted(map(str, wanted)) == sorted(map(str, found))
    for key, parts in wanted.items():
        for many, few in zip(parts, found[key], strict=True):
            assert few == pytest.approx(many, abs=0.5 * 2**0.5 / STEPS + 1e-4)
    assert len(small) < len(large)


def test_lines_keep_their_width_and_dashes_and_faces_have_none():
    _, small = both(*SHAPES)
    faces, lines = re.findall(r"<g class=[^>]*>", small)
    assert faces == '<g class="FACES" stroke-width="2.6" stroke="none">'
    # 0.18 mm and dashes of 12 and 3 line widths, in steps of 1/20 mm
    assert lines == '<g class="LINES" stroke-width="3.6" stroke-dasharray="43.2 10.8">'
    assert 'transform="scale(0.05)"' in small


def test_alike_faces_share_a_path_and_a_loop_is_closed():
    _, small = both(*SHAPES)
    root = ET.fromstring(small)
    groups = {group.get("class"): group.findall(f"{SVG}path") for group in root.iter(f"{SVG}g")}
    assert [path.get("fill") for path in groups["FACES"]] == ["#cfcfcf", "#b3b3b3"]
    (one,) = groups["LINES"]
    loop = svgpathtools.parse_path(one.get("d")).continuous_subpaths()[2]
    assert loop.isclosed()


def test_a_picture_with_arcs_is_refused():
    with pytest.raises(ValueError, match="arcs"):
        both(*SHAPES, ("LINES", Circle(0, 0, 1)))
    with pytest.raises(ValueError, match="arcs"):
        both(*SHAPES, ("FACES", Face(loop_of(Circle(0, 0, 1)), 0.5)))
