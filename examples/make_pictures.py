"""Make the pictures of the README and the gallery from example jobs.

Run it from anywhere, with Edgewright installed::

    python examples/make_pictures.py

It writes ``examples/pictures/``: drawings as SVG, and the pages of a packet as PNG.
"""

from __future__ import annotations

from pathlib import Path

from edgewright.cli.finished_picture import finished_picture
from edgewright.cli.packet import packet_pages
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import plan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_solid import shaped_solid_spec
from edgewright.cutlist.sheets.layout_sheet import layout_figures
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.design.edge_section import edge_section
from edgewright.design.picture import picture
from edgewright.drawing.svg import svg_text
from edgewright.drawing.view import View

HERE = Path(__file__).resolve().parent
JOB = HERE / "narrow_one_side.toml"
SHAPES = HERE / "shapes"
NEW_TOP = HERE / "new_tops" / "card_room_table.toml"
PICTURES = HERE / "pictures"


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
    return svg_text(view, title=view.title, description=view.title)


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
