"""Make the pictures of the README and the gallery from an example job.

Run it from anywhere, with Edgewright installed::

    python examples/make_pictures.py

It writes ``examples/pictures/``: drawings as SVG, and the pages of the packet as PNG.
"""

from __future__ import annotations

from pathlib import Path

from edgewright.cli.packet import packet_pages
from edgewright.cli.packet_figures import finished_picture
from edgewright.cutlist.plan import plan
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.design.edge_section import edge_section
from edgewright.drawing.svg import svg_text
from edgewright.drawing.view import View

HERE = Path(__file__).resolve().parent
JOB = HERE / "narrow_one_side.toml"
PICTURES = HERE / "pictures"


def drawings() -> dict[str, str]:
    """SVG texts by file name."""
    made = plan(JOB)
    views: dict[str, View] = {
        "finished_top": finished_picture(made),
        "trim_sheet": trim_figures(made, (180.0, 130.0))[0],
        "strip_map": strip_map_figures(made, (180.0, 130.0))[0],
        "edge_section": edge_section(made.design, made.cut_plan.strip_width_ticks, code=made.code)[0],
    }
    return {
        f"{name}.svg": svg_text(view, title=view.title, description=view.title)
        for name, view in views.items()
    }


def main() -> None:
    """Write everything."""
    PICTURES.mkdir(exist_ok=True)
    for name, text in drawings().items():
        (PICTURES / name).write_text(text, encoding="utf-8")
    for old in PICTURES.glob("packet_*.png"):
        old.unlink()
    for number, page in enumerate(packet_pages(plan(JOB), ppi=80), 1):
        (PICTURES / f"packet_{number}.png").write_bytes(page)


if __name__ == "__main__":
    main()
