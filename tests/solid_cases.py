"""Figures of tops for the tests of the solid, the mesh, the picture and the files."""

from dataclasses import replace

from edgewright.design.levels import rectangle_levels
from edgewright.design.metrics import edge_metrics
from edgewright.design.outline import rectangle
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.solid_figures import StripBody, region_solid_spec

TOP, STRIP = 18.25, 18.25
WIDTH = 60.0


def box(name, x0, y0, x1, y1, z0, z1):
    """Return a strip piece with square ends."""
    return StripBody(name, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), z0, z1)


def butt_ring(length, width, z0, z1, w=WIDTH, proud=0.0, splice=None):
    """Return the four strips of a layer, the long pair through and one of them spliced if asked."""
    low, inner = -proud, w - proud
    long = length + proud
    south = [(low, long)] if splice is None else [(low, splice), (splice, long)]
    strips = [
        box(f"S1{'ab'[n] if splice else ''}", a, low, b, inner, z0, z1) for n, (a, b) in enumerate(south)
    ]
    strips.append(box("N1", low, width - inner, long, width + proud, z0, z1))
    strips.append(box("W1", low, inner, inner, width - inner, z0, z1))
    strips.append(box("E1", length - inner, inner, long, width - inner, z0, z1))
    return tuple(strips)


def mitred_ring(length, width, z0, z1, w=WIDTH):
    """Return the four mitred strips of a layer."""
    outer = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    inner = ((w, w), (length - w, w), (length - w, width - w), (w, width - w))
    names = ("S1", "E1", "N1", "W1")
    return tuple(
        StripBody(name, (outer[n], outer[(n + 1) % 4], inner[(n + 1) % 4], inner[n]), z0, z1)
        for n, name in enumerate(names)
    )


def rectangular(length, width, radii, thickness, top, rt, rb, strips):
    """Return the figures of a rectangular top with round-overs."""
    spec = region_solid_spec(
        Region(rectangle(length, width, radii)),
        EdgeProfile.round_overs(thickness, rt, rb),
        top,
        strips=strips,
    )
    # the rectangle's own closed form
    metrics = edge_metrics(rectangle_levels(length, width, radii), spec.profile)
    return replace(spec, volume_mm3=metrics.solid_volume_mm3, edge_mm2=metrics.edge_mm2)


def make(radii, rt, rb, ring="butt", top=TOP, length=1828.8, width=914.4, **more):
    """Return a top with one layer of strips."""
    rings = {"butt": butt_ring, "mitre": mitred_ring, "none": lambda *_: ()}
    strips = rings[ring](length, width, 0.0, STRIP, **more)
    return rectangular(length, width, radii, top + STRIP, top, rt, rb, strips)


#: One body: 1066.8 x 2286 x 30 mm, R 50, R 6 round-over on the top edge only.
SLAB = rectangular(1066.8, 2286.0, (50.0,) * 4, 30.0, 30.0, 6.0, 0.0, ())

CASES = {
    "sharp": make((0.0,) * 4, 9.5, 3.2),
    "round": make((50.8,) * 4, 9.525, 9.525, proud=1.5, splice=700.0),
    "small radius": make((0.0, 3.0, 50.0, 9.0), 12.7, 3.2),
    "mitre": make((50.8,) * 4, 9.525, 9.525, ring="mitre"),
    "small radius, mitre": make((5.0,) * 4, 9.525, 6.0, ring="mitre"),
    "round-over deeper than the top": make((30.0,) * 4, 12.0, 10.0, top=6.0),
    "no flat": make((40.0, 40.0, 0.0, 18.25), 18.25, 18.25),
    "half-round end": make((457.2, 0.0, 0.0, 457.2), 6.0, 0.0, ring="none"),
}


def wood_volume(spec, w=WIDTH, proud=0.0):
    """Return the volume of top and ring from the closed form: the edge solid less the prism inside the ring."""
    length, width = spec.size
    hole = (length - 2 * (w - proud)) * (width - 2 * (w - proud)) * spec.seam
    return spec.volume_mm3 - hole
