"""The pictures of the README and the gallery are what the program draws now."""

import re
import runpy
import typing
from pathlib import Path

import pytest

from edgewright.job_outline import AnyOutline
from edgewright.jobfile import read_any_job

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
MAKE = runpy.run_path(str(EXAMPLES / "make_pictures.py"))
DRAWINGS = MAKE["drawings"]()
LINKED = re.compile(r"!\[[^\]]*\]\(([^)]+)\)")


@pytest.mark.parametrize("name", DRAWINGS)
def test_drawing_is_up_to_date(name):
    """If this fails, look at the drawing and run ``python examples/make_pictures.py``."""
    assert (EXAMPLES / "pictures" / name).read_text(encoding="utf-8") == DRAWINGS[name]


@pytest.mark.parametrize(
    "page", [EXAMPLES / "GALLERY.md", EXAMPLES.parent / "README.md"], ids=lambda p: p.name
)
def test_every_picture_is_there(page):
    linked = LINKED.findall(page.read_text(encoding="utf-8"))
    assert linked
    for name in linked:
        assert (page.parent / name).is_file(), name


def test_every_page_of_the_packet_is_in_the_gallery():
    text = (EXAMPLES / "GALLERY.md").read_text(encoding="utf-8")
    pages = sorted(path.name for path in (EXAMPLES / "pictures").glob("packet_*.png"))
    assert len(pages) == len(MAKE["packet_pages"](MAKE["plan"](MAKE["JOB"]), ppi=20))
    assert all(name in text for name in pages)


def test_every_shape_has_an_example_and_its_picture():
    union, _ = typing.get_args(AnyOutline)
    shapes = {typing.get_args(table.model_fields["shape"].annotation)[0] for table in typing.get_args(union)}
    text = (EXAMPLES / "GALLERY.md").read_text(encoding="utf-8")
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    found = set()
    for path in (EXAMPLES / "shapes").glob("*.toml"):
        shape = read_any_job(path).top.outline.shape
        found.add(shape)
        assert f"(pictures/shapes/{path.stem}.svg)" in text
        assert f"`{shape}`" in text
        assert f"| `{shape}` |" in readme
    assert found == shapes
    assert len(shapes) == 15


def test_pictures_of_shapes_stay_small():
    sizes = {path.name: path.stat().st_size for path in (EXAMPLES / "pictures" / "shapes").glob("*.svg")}
    assert max(sizes.values()) < 80_000, sizes
