"""The words and signs people use for units, and what each of them measures.

A unit is first brought to one plain spelling (`tidy`); the tables then give our own name for it, as
`edgewright.convert` takes it. Units of the wrong kind are listed too, so that a message can name the mistake.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

__all__ = [
    "AREA_PER_VOLUME",
    "DENSITY",
    "DURATION",
    "FILM",
    "LENGTH",
    "TEMPERATURE",
    "VOLUME",
    "VOLUME_PER_AREA",
    "WANTED",
    "kind_of",
    "plain_text",
    "printable",
    "tidy",
]


def _spellings(table: dict[str, str]) -> dict[str, str]:
    """Turn ``{unit: "spelling spelling"}`` into ``{spelling: unit}``."""
    return {word: unit for unit, words in table.items() for word in words.split()}


LENGTH: Final = _spellings(
    {
        "in": 'in inch inches "',
        "ft": "ft foot feet '",
        "mm": "mm millimetre millimetres millimeter millimeters",
        "cm": "cm centimetre centimetres centimeter centimeters",
        "m": "m metre metres meter meters",
    }
)
TEMPERATURE: Final = _spellings(
    {"degF": "degf f fahrenheit degfahrenheit", "degC": "degc c celsius degcelsius", "K": "k kelvin"}
)
_THIN: Final = _spellings({"mil": "mil mils thou", "um": "um micron microns micrometre micrometer"})
FILM: Final = _THIN | {word: unit for word, unit in LENGTH.items() if unit in ("in", "mm")}
_AREA: Final = _spellings(
    {
        "ft**2": "ft2 sqft sqfoot sqfeet",
        "in**2": "in2 sqin sqinch sqinches",
        "m**2": "m2 sqm sqmetre sqmetres sqmeter sqmeters",
    }
)
VOLUME: Final = _spellings(
    {
        "fl_oz": "floz",
        "gal": "gal gals gallon gallons",
        "qt": "qt quart quarts",
        "L": "l litre litres liter liters",
        "mL": "ml millilitre millilitres milliliter milliliters",
    }
)
_WEIGHT: Final = _spellings(
    {"g": "g gram grams", "kg": "kg", "lb": "lb lbs pound pounds", "oz": "oz ounce ounces"}
)
DURATION: Final = _spellings(
    {"min": "min mins minute minutes", "h": "h hr hrs hour hours", "d": "d day days"}
)
DENSITY: Final = {
    **{f"{w}/{v}": f"{_WEIGHT[w]}/{VOLUME[v]}" for w in _WEIGHT for v in VOLUME},
    "g/cm3": "g/mL",
    "g/cc": "g/mL",
    "kg/m3": "g/L",
}
_KINDS: Final = {
    "length": LENGTH,
    "temperature": TEMPERATURE,
    "film thickness": _THIN,
    "area": _AREA,
    "volume": VOLUME,
    "weight": _WEIGHT,
    "duration": DURATION,
    "angle": _spellings({"deg": "deg degree degrees", "rad": "rad"}),
}
WANTED: Final = {
    "length": ("72 in or 1830 mm", "in, ft, mm, cm or m"),
    "temperature": ("70 degF or 21 degC", "degF or degC"),
    "coverage": ("3 fl oz/ft^2 or 1 mm", "fl oz/ft^2, ft^2/gal, L/m^2, m^2/L, mil, thou, in or mm"),
    "volume": ("64 fl oz or 2 l", "fl oz, qt, gal, ml or l"),
    "duration": ("20 min or 4 h", "min, h or days"),
    "density": ("1.1 g/ml", "g/ml, kg/l, g/cm3 or lb/gal"),
}
"""For each thing wanted: how to write it, and its units."""

VOLUME_PER_AREA: Final = {f"{v}/{a}": f"{VOLUME[v]}/{_AREA[a]}" for v in VOLUME for a in _AREA}
AREA_PER_VOLUME: Final = {f"{a}/{v}": f"{_AREA[a]}/{VOLUME[v]}" for v in VOLUME for a in _AREA}

# Typographic signs that mean exactly one thing; dashes all mean the one plain hyphen.
_SIGNS: Final = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("″“”„", '"'),
        **dict.fromkeys("′‘’", "'"),
        **dict.fromkeys("⁄∕", "/"),
        **dict.fromkeys("µμ", "u"),
        **dict.fromkeys("°º", "deg"),
        "℉": "degf",
        "℃": "degc",
        "²": "2",
        "³": "3",
    }
)
_FRACTIONS: Final = re.compile("([0-9]?)([¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])")


def plain_text(text: str) -> str:
    """Replace typographic signs by plain ones, and any run of white space by one blank."""
    return " ".join(_FRACTIONS.sub(_spell_fraction, text).translate(_SIGNS).replace("''", '"').split())


def _spell_fraction(match: re.Match[str]) -> str:
    """Write ``½`` as ``1/2``, set off from a digit on either side."""
    digit, sign = match.groups()
    return (f"{digit} " if digit else "") + unicodedata.normalize("NFKC", sign) + " "


def printable(text: str) -> str:
    """Escape what a terminal or a file could not show."""
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def tidy(tail: str) -> str:
    """Bring a unit to the spelling of the tables: ``sq. ft.`` and ``ft^2`` become ``sqft`` and ``ft2``."""
    tail = re.sub(r"\b(in|ft|fl|oz|sq|gal)\.(?= |/|$|oz|ft|in)", r"\1", tail.strip())
    tail = re.sub(r" ?/ ?| per ", "/", tail.replace("^2", "2").replace("^3", "3"))
    tail = re.sub(r"\b(?:square |sq ?)(?=[a-z])", "sq", tail)
    tail = re.sub(r"\b(?:fl|fluid) ?(?:oz|ounces?)\b", "floz", tail)
    return re.sub(r"\bdeg(?:rees?)? ?(?=[fck])", "deg", tail)


def kind_of(unit: str) -> str | None:
    """Say what a tidied unit measures, if it is known."""
    top, slash, bottom = unit.partition("/")
    kinds = [next((kind for kind, units in _KINDS.items() if part in units), None) for part in (top, bottom)]
    if not slash:
        return kinds[0]
    return "coverage" if set(kinds) in ({"volume", "area"}, {"weight", "area"}) else None
