"""Read the outlines of a top from a DXF file: closed loops of lines and arcs, in millimetres.

What cannot be taken exactly is refused with its place, never bent into shape: a spline, a gap, a line drawn
twice. `edgewright.drawing.dxf_entities` takes entities apart, `edgewright.drawing.chain_edges` makes loops.

References
----------
DXF Reference (header variable $INSUNITS)
"""

from __future__ import annotations

import logging
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Final, Literal

from edgewright.drawing.chain_edges import DrawnEdge, Loop, Loops, chain, extent
from edgewright.drawing.dxf_entities import IGNORED, DrawingFaultError, edges_of
from edgewright.unit_words import printable

__all__ = ["LARGEST_DRAWING", "DrawingFaultError", "Loop", "Loops", "read_loops"]

LARGEST_DRAWING: Final = 4 << 20
"""Bytes; the outline of a top takes a few thousand."""
MOST_EDGES: Final = 5000

#: Millimetres of one drawing unit, and its name, by $INSUNITS.
_UNITS: Final = {1: (25.4, "in"), 2: (304.8, "ft"), 4: (1.0, "mm"), 5: (10.0, "cm"), 6: (1000.0, "m")}
_MM: Final = {"in": 25.4, "mm": 1.0}
_LEAST_MM, _MOST_MM = 152.4, 6096.0


def read_loops(path: str, units: Literal["in", "mm"] | None = None, layer: str | None = None) -> Loops:
    """Read all closed loops of one layer.

    Parameters
    ----------
    path
        Name of an ASCII DXF file of at most 4 MiB.
    units
        Unit of the drawing where the file names none.
    layer
        Layer to be read; without it the only layer that holds lines or arcs.

    Returns
    -------
    Loops
        Loops of vertices (x, y, bulge to the next vertex), in mm and in the order of the file.

    Raises
    ------
    DrawingFaultError
        With one sentence; its ``key`` says which key of the job file it is about.
    """
    name = f'"{printable(os.path.basename(path))[:60]}"'
    _need_ascii_dxf(path, name)
    import ezdxf

    edges: list[DrawnEdge] = []
    with _damage_told(name):
        document = ezdxf.readfile(path)
        mm = _unit(document, units, name)
        for entity in _of_layer(document, layer, name):
            edges.extend(edges_of(entity, mm, name))
            if len(edges) > MOST_EDGES:
                message = f"{name} holds more than {MOST_EDGES} lines and arcs: draw the outline alone"
                raise DrawingFaultError("file", message)
    loops = chain(edges, mm, name)
    size = max(max(extent(loop)) for loop in loops)
    if not _LEAST_MM <= size <= _MOST_MM:
        shown = f"{size:.4g} mm ({size / 25.4:.4g} in)"
        message = (
            f"{name} holds an outline of {shown}: 6 in to 20 ft is allowed; check the unit of the drawing"
        )
        raise DrawingFaultError("file" if units is None else "units", message)
    return loops


def _need_ascii_dxf(path: str, name: str) -> None:
    """Refuse what is no file, too large, or plainly of another kind."""
    try:
        status = os.stat(path)
        start = b""
        # a pipe would never end, so it is not even opened
        if stat.S_ISREG(status.st_mode):
            with open(path, "rb") as file:
                start = file.read(64)
    except FileNotFoundError:
        message = f"{name} is not there: give the name of the DXF file, seen from the folder of the job file"
        raise DrawingFaultError("file", message) from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or "the name cannot be used").lower()
        raise DrawingFaultError("file", f"{name} cannot be read ({reason}): check the file") from None
    if not stat.S_ISREG(status.st_mode):
        raise DrawingFaultError("file", f"{name} is no plain file: give the DXF file of the outline")
    if status.st_size > LARGEST_DRAWING:
        message = f"{name} is larger than 4 MiB, the most that is read: draw the outline alone"
        raise DrawingFaultError("file", message)
    if start.startswith(b"AutoCAD Binary DXF"):
        raise DrawingFaultError("file", f"{name} is a binary DXF file: save it as ASCII DXF, R2000 or R12")
    if start.startswith(b"AC10"):
        raise DrawingFaultError("file", f"{name} is a DWG file: save it as ASCII DXF, R2000 or R12")
    if b"\0" in start or not start.strip():
        raise DrawingFaultError("file", f"{name} is no DXF file: save the drawing as ASCII DXF, R2000 or R12")


@contextmanager
def _damage_told(name: str) -> Iterator[None]:
    """Make one sentence of every way in which a damaged file fails; what the library mends stays off the terminal.

    The library raises whatever comes up where figures are missing, so all is caught here: a file is data, never a
    defect of the program.
    """
    logger = logging.getLogger("ezdxf")
    before = logger.disabled
    logger.disabled = True
    try:
        yield
    except DrawingFaultError:
        raise
    except Exception:
        message = (
            f"{name} cannot be read as DXF, it is damaged or another kind of file: save it again as ASCII DXF"
        )
        raise DrawingFaultError("file", message) from None
    finally:
        logger.disabled = before


def _unit(document: Any, units: Literal["in", "mm"] | None, name: str) -> float:
    """Millimetres of one drawing unit."""
    code = document.header.get("$INSUNITS", 0)
    said = _UNITS.get(code)
    if said is None and units is None:
        what = "names no unit" if code == 0 else f"names a unit that is not read ($INSUNITS {code})"
        raise DrawingFaultError("file", f'{name} {what}: write units = "in" or units = "mm" beside file')
    if said is not None and units is not None and said[1] != units:
        message = (
            f'"{units}" contradicts the drawing, which is in {said[1]}: leave units out, or export it again'
        )
        raise DrawingFaultError("units", message)
    if units is not None:
        return _MM[units]
    assert said is not None
    return said[0]


def _of_layer(document: Any, layer: str | None, name: str) -> list[Any]:
    """Entities of the layer that is wanted, or of the only one that holds any."""
    by_layer: dict[str, list[Any]] = {}
    shown: dict[str, str] = {}
    for entity in document.modelspace():
        if entity.dxftype() not in IGNORED:
            key = str(entity.dxf.layer).casefold()
            shown.setdefault(key, printable(str(entity.dxf.layer))[:60])
            by_layer.setdefault(key, []).append(entity)
    if not by_layer:
        raise DrawingFaultError(
            "file", f"{name} holds no lines or arcs in its model space: draw the outline there"
        )
    names = ", ".join(f'"{text}"' for text in sorted(shown.values())[:8])
    if layer is not None:
        if layer.casefold() not in by_layer:
            message = f'"{printable(layer)}" is no layer with lines or arcs in {name}: those are {names}'
            raise DrawingFaultError("layer", message)
        return by_layer[layer.casefold()]
    if len(by_layer) > 1:
        message = f"{name} holds lines or arcs on {len(by_layer)} layers: name one with layer, of {names}"
        raise DrawingFaultError("file", message)
    return next(iter(by_layer.values()))
