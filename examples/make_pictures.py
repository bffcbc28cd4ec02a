"""Make the pictures of the README and the gallery from example jobs.

Run it from anywhere, with Edgewright installed::

    python examples/make_pictures.py

It writes ``examples/pictures/``: drawings as SVG, and the pages of a packet as PNG.
"""

from __future__ import annotations

import re
from pathlib import Path

from edgewright.cli.packet import packet_pages
from edgewright.cli.packet_figures import finished_picture
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import plan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_solid import shaped_solid_spec
from edgewright.cutlist.sheets.layout_sheet import layout_figures
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.design.edge_section import edge_section
from edgewright.design.picture import picture
from edgewright.design.picture_eye import FACES
from edgewright.drawing.svg import svg_text
from edgewright.drawing.view import View

HERE = Path(__file__).resolve().parent
JOB = HERE / "narrow_one_side.toml"
SHAPES = HERE / "shapes"
NEW_TOP = HERE / "new_tops" / "card_room_table.toml"
PICTURES = HERE / "pictures"

#: Steps of a small picture in a millimetre: a twentieth is less than half the thinnest line.
STEPS = 20
#: A path as `svg_text` writes it: what it draws, and its grey if it is a face.
PATH = re.compile(r'<path d="([^"]*)"(?: fill="(#\w+)" stroke="none")?/>')
POINT = re.compile(r"(-?[\d.]+),(-?[\d.]+)")
MEASURE = re.compile(r'(stroke-width|stroke-dasharray)="([^"]*)"')


def drawings() -> dict[str, str]:
    """SVG texts by file name."""
    made = plan(JOB)
    views: dict[str, View] = {
        "finished_top": finished_picture(made),
        "trim_sheet": trim_figures(made, (180.0, 200.0))[0],
        "strip_map": strip_map_figures(made, (180.0, 200.0))[0],
        "edge_section": edge_section(made.design, made.cut_plan.strip_width_ticks, code=made.code)[0],
    }
    new = plan_any(NEW_TOP)
    assert isinstance(new, ShapedPlan)
    views["new_top_sheet"] = layout_figures(new, (180.0, 110.0))[0]
    texts = {
        f"{name}.svg": svg_text(view, title=view.title, description=view.title)
        for name, view in views.items()
    }
    return texts | {f"shapes/{job.stem}.svg": shape_picture(job) for job in sorted(SHAPES.glob("*.toml"))}


def shape_picture(job: Path) -> str:
    """The finished top of a job, the pieces of its build-up drawn apart, without plies."""
    made = plan_any(job)
    assert isinstance(made, ShapedPlan)
    view = picture(shaped_solid_spec(made.design), made.job.info.title, paper=(150.0, 75.0))
    return smaller(svg_text(view, title=view.title, description=view.title))


def smaller(text: str) -> str:
    """The same picture of faces and lines in fewer bytes: whole steps, each from the point before it, paths joined."""
    lines: list[str] = []
    joined: str | None = None  # how the path begins that the next one may be joined to
    here = (0, 0)
    for line in text.splitlines():
        path = PATH.fullmatch(line)
        if path is None:
            joined = None
            line = MEASURE.sub(lambda m: f'{m[1]}="{_in_steps(m[2])}"', line)
            line = line.replace('<g fill="none"', f'<g transform="scale({1 / STEPS:g})" fill="none"')
            lines.append(line.replace(f'<g class="{FACES.name}"', f'<g class="{FACES.name}" stroke="none"'))
            continue
        begin = f'<path fill="{path[2]}" d="' if path[2] else '<path d="'
        if begin != joined:
            joined, here = begin, (0, 0)
            lines.append(f'{begin}"/>')
        drawn, here = _from_here(path[1], here)
        lines[-1] = lines[-1].removesuffix('"/>') + drawn + '"/>'
    return "\n".join([*lines, ""])


def _in_steps(lengths: str) -> str:
    return " ".join(f"{float(length) * STEPS:g}" for length in lengths.split())


def _from_here(path: str, here: tuple[int, int]) -> tuple[str, tuple[int, int]]:
    """A path of straight lines in whole steps from one point to the next; faces need no line back."""
    points = [(round(float(x) * STEPS), round(float(y) * STEPS)) for x, y in POINT.findall(path)]
    moves = []
    for number, (x, y) in enumerate(points):
        if number == 0 or (x, y) != here:
            moves.append(f"{x - here[0]},{y - here[1]}")
        here = (x, y)
    return "m" + " ".join(moves).replace(",-", "-").replace(" -", "-"), here


def main() -> None:
    """Write everything."""
    for old in (*PICTURES.glob("packet_*.png"), *PICTURES.glob("shapes/*.svg")):
        old.unlink()
    (PICTURES / "shapes").mkdir(parents=True, exist_ok=True)
    for name, text in drawings().items():
        (PICTURES / name).write_text(text, encoding="utf-8")
    for number, page in enumerate(packet_pages(plan(JOB), ppi=80), 1):
        (PICTURES / f"packet_{number}.png").write_bytes(page)


if __name__ == "__main__":
    main()
