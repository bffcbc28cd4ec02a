"""The unit of a drawing, by all that says it: both header variables, the unit note, the scale bar, the file name.

References
----------
DXF Reference ($INSUNITS: 1 inch, 2 foot, 4 mm, 5 cm, 6 m; $MEASUREMENT: 0 imperial, 1 metric)
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.dxf_audit.drawing import Drawing, Entity
from edgewright.unit_words import LENGTH, printable

__all__ = ["Text", "UnitEvidence", "texts_of", "unit_evidence"]

_BY_CODE: Final = {"1": "in", "2": "ft", "4": "mm", "5": "cm", "6": "m"}
_MM: Final = {"in": 25.4, "ft": 304.8, "mm": 1.0, "cm": 10.0, "m": 1000.0}
_IMPERIAL: Final = ("in", "ft")
_UNIT: Final = r"(inch(?:es)?|in|mm|cm|millimet(?:re|er)s?|centimet(?:re|er)s?|feet|foot|ft|met(?:re|er)s?)\b"
_NOTE: Final = re.compile(
    r"\b(?:drawing units?|units?|dimensions|measures|sizes)\b[^.;]{0,30}?\b" + _UNIT, re.I
)
_BAR: Final = re.compile(r"\b(?:bar|scale)\b\D{0,20}?(\d{1,6}(?:\.\d{1,6})?) ?" + _UNIT, re.I)
#: A scale bar lies within so many heights of its lettering.
_NEAR: Final = 6.0
_MOST_BARS: Final = 4
#: Two lengths of a scale bar agree within this share.
_AGREES: Final = 1e-4


@dataclass(frozen=True, slots=True)
class Text:
    """Words on the drawing: anchor and height in drawing units."""

    words: str
    layer: str
    x: float
    y: float
    height: float


@dataclass(frozen=True, slots=True)
class UnitEvidence:
    """What the drawing says of its unit.

    Attributes
    ----------
    unit
        ``in``, ``ft``, ``mm``, ``cm`` or ``m``; empty where nothing says it.
    said
        Each source with what it says, for a report.
    faults
        Sentences.
    """

    unit: str
    said: tuple[tuple[str, str], ...]
    faults: tuple[str, ...]

    @property
    def mm(self) -> float:
        """Millimetres of one drawing unit; 1 where nothing says the unit."""
        return _MM.get(self.unit, 1.0)


def texts_of(drawing: Drawing) -> tuple[Text, ...]:
    """All text of the model space."""
    return tuple(text for entity in drawing.entities for text in _text(entity))


def _text(entity: Entity) -> Iterator[Text]:
    if entity.kind not in ("TEXT", "MTEXT"):
        return
    words = "".join(value for code, value in entity.groups if code in (1, 3))
    # text that is not left-aligned is placed by its second point
    second = entity.kind == "TEXT" and (entity.first(72, "0") != "0" or entity.first(73, "0") != "0")
    codes = (11, 21) if second and entity.first(11) else (10, 20)
    try:
        x, y, height = (
            float(entity.first(codes[0])),
            float(entity.first(codes[1])),
            float(entity.first(40, "0")),
        )
    except ValueError:
        return
    if all(map(math.isfinite, (x, y, height))):
        yield Text(words[:1000], entity.layer, x, y, height)


def unit_evidence(drawing: Drawing, texts: Sequence[Text], file_name: str) -> UnitEvidence:
    """Compare all that says the unit."""
    said: list[tuple[str, str]] = []
    faults: list[str] = []
    code, system = drawing.variable("$INSUNITS", 70), drawing.variable("$MEASUREMENT", 70)
    unit = _BY_CODE.get(code or "", "")
    if unit:
        said.append((f"$INSUNITS {code}", unit))
    elif code in (None, "0"):
        how = "is missing" if code is None else "is 0"
        faults.append(f"the header names no unit ($INSUNITS {how}): a reader may take inches for millimetres")
    else:
        faults.append(
            f"the header names a unit that few readers know ($INSUNITS {printable(code or '')[:20]})"
        )
    if system is None:
        faults.append("the header does not say whether it is metric ($MEASUREMENT is missing)")
    elif system in ("0", "1"):
        metric = "metric" if system == "1" else "imperial"
        said.append((f"$MEASUREMENT {system}", metric))
        if unit and (unit in _IMPERIAL) != (system == "0"):
            faults.append(
                f"the header contradicts itself: $INSUNITS {code} is {unit}, $MEASUREMENT {system} is {metric}"
            )
    else:
        faults.append(f"$MEASUREMENT is {printable(system)[:20]}; it must be 0 (imperial) or 1 (metric)")
    told = [("unit note", found) for found in _noted(texts)]
    told += [("file name", found) for found in _named(file_name)]
    for source, found in dict.fromkeys(told):
        said.append((source, found))
        if unit and found != unit:
            faults.append(f"the {source} says {found}, $INSUNITS {code} says {unit}")
    unit = unit or next((found for _, found in told), "")
    for name, length, want in _bars(drawing, texts, _MM.get(unit, 1.0)):
        said.append(("scale bar", f"{name} measures {length:.6g} drawing units"))
        if unit and not _same(length * _MM[unit], want):
            shown = f"{length:.6g} {unit}, {length * _MM[unit]:.6g} mm"
            faults.append(f"the scale bar says {name} ({want:.6g} mm) and measures {shown}")
    return UnitEvidence(unit, tuple(said), tuple(faults))


def _plain(word: str) -> str:
    return LENGTH[word.lower()]


def _noted(texts: Sequence[Text]) -> Iterator[str]:
    for text in texts:
        if _BAR.search(text.words) is None:
            found = _NOTE.search(text.words)
            if found is not None:
                yield _plain(found[1])


def _named(file_name: str) -> Iterator[str]:
    """Unit at the end of the name, or millimetres and inches anywhere in it; "in" may be the plain word."""
    words = re.split(r"[^a-z0-9]+", file_name.lower().removesuffix(".dxf"))
    for number, word in enumerate(words, start=1):
        if word in ("mm", "inch", "inches") or (word in ("in", "cm") and number == len(words)):
            yield _plain(word)


def _same(length: float, want: float) -> bool:
    return abs(length - want) <= _AGREES * want


def _bars(drawing: Drawing, texts: Sequence[Text], mm: float) -> Iterator[tuple[str, float, float]]:
    """Each scale bar: what it says, its length in drawing units, and the length that it says (mm).

    Of the lines near its text the bar is the one that agrees, else the longest: something else may lie there too.
    """
    bars = [(text, found) for text in texts if (found := _BAR.search(text.words)) and text.height > 0]
    for text, found in bars[:_MOST_BARS]:
        lengths = [
            length
            for x0, y0, x1, y1 in _lines(drawing, text.layer)
            if _apart(text, x0, y0, x1, y1) <= _NEAR * text.height
            and (length := math.hypot(x1 - x0, y1 - y0)) > 0
        ]
        if lengths:
            unit = _plain(found[2])
            want = float(found[1]) * _MM[unit]
            length = next((length for length in lengths if _same(length * mm, want)), max(lengths))
            yield f"{found[1]} {unit}", length, want


def _lines(drawing: Drawing, layer: str) -> Iterator[tuple[float, float, float, float]]:
    for entity in drawing.entities:
        if entity.kind == "LINE" and entity.layer == layer:
            try:
                x0, y0, x1, y1 = (float(entity.first(code)) for code in (10, 20, 11, 21))
            except ValueError:
                continue
            if all(abs(value) < 1e9 for value in (x0, y0, x1, y1)):
                yield x0, y0, x1, y1


def _apart(text: Text, x0: float, y0: float, x1: float, y1: float) -> float:
    """Distance of a text's anchor from a line (drawing units)."""
    dx, dy = x1 - x0, y1 - y0
    size = dx * dx + dy * dy
    at = min(1.0, max(0.0, ((text.x - x0) * dx + (text.y - y0) * dy) / size)) if size else 0.0
    return math.hypot(text.x - x0 - at * dx, text.y - y0 - at * dy)
