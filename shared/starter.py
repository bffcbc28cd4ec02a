"""Make a job file: a commented starter, or one from answers asked in the order of the trade."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, NamedTuple

from edgewright.compass import SIDES
from edgewright.errors import InputError
from edgewright.job_fields import brief
from edgewright.starter_text import STARTER
from edgewright.trade import inch_text
from edgewright.units import Length, read_length

__all__ = ["QUESTIONS", "Question", "StarterAnswers", "quote_toml", "starter_job", "write_job"]


class Question(NamedTuple):
    """One question: a field of `StarterAnswers`, what to ask, the default ("" for none) and some help."""

    key: str
    prompt: str
    default: str
    help: str


QUESTIONS: Final[tuple[Question, ...]] = (
    Question("title", "Name of the job", "Reading-room table", "any script, up to 200 characters"),
    Question("material", "Material", "plywood", "plywood, mdf, particleboard, solid wood or laminate"),
    Question(
        "thickness", "Thickness of the top", "23/32 in", "caliper; several readings with ; between them"
    ),
    Question("length", "Length, east to west", "72 in", "like 72 in, 6 ft or 1830 mm"),
    Question("width", "Width, north to south", "42 in", "chalk N, E, S and W on the top first"),
    Question(
        "diagonals",
        "Two diagonals",
        "",
        "south-west to north-east first, with ; between; empty: not measured",
    ),
    Question("cut_amount", "How much comes off", "6 in", "kerf included; 0 for nothing"),
    Question("cut_side", "Off which side", "north", "north, east, south or west"),
    Question("wanted_thickness", "Wanted thickness of the edge", "double", 'a length, or "double"'),
    Question("top_round_over", "Top round-over", "3/8 in", "radius of the bit; 0 for none"),
    Question("bottom_round_over", "Bottom round-over", "1/4 in", "radius of the bit; 0 for none"),
    Question("corner_radius", "Corner radius, seen from above", "2 in", "0 for square corners"),
    Question(
        "overhang", "Overhang to the apron", "", "one length, or north; east; south; west; empty: unknown"
    ),
    Question("kerf", "Saw kerf", "1/8 in", "measure a test cut"),
    Question("guide_offset", "Guide offset", "4 1/2 in", "guide to the near side of the kerf, by a test cut"),
    Question("arm_height", "Chair arm height", "", "floor to arm; empty: no arm chairs"),
    Question("table_height", "Table height", "", "floor to the upper face; empty: not measured"),
    Question(
        "flood_film", "What the trowel lays down per coat", "35 mil; 40 mil", "a coverage, or low; high"
    ),
)


@dataclass(frozen=True, slots=True)
class StarterAnswers:
    """Answers as typed, each with its unit, in `QUESTIONS` order; empty leaves an optional key out."""

    title: str = QUESTIONS[0].default
    material: str = QUESTIONS[1].default
    thickness: str = QUESTIONS[2].default
    length: str = QUESTIONS[3].default
    width: str = QUESTIONS[4].default
    diagonals: str = QUESTIONS[5].default
    cut_amount: str = QUESTIONS[6].default
    cut_side: str = QUESTIONS[7].default
    wanted_thickness: str = QUESTIONS[8].default
    top_round_over: str = QUESTIONS[9].default
    bottom_round_over: str = QUESTIONS[10].default
    corner_radius: str = QUESTIONS[11].default
    overhang: str = QUESTIONS[12].default
    kerf: str = QUESTIONS[13].default
    guide_offset: str = QUESTIONS[14].default
    arm_height: str = QUESTIONS[15].default
    table_height: str = QUESTIONS[16].default
    flood_film: str = QUESTIONS[17].default


def quote_toml(text: str) -> str:
    """Write a text as a TOML string, whatever is in it."""
    if (
        not any(c in text for c in "'\n\r")
        and ('"' in text or "\\" in text)
        and text.replace("\t", " ").isprintable()
    ):
        return f"'{text}'"  # 41 5/8" stays readable
    named = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return '"' + "".join(named.get(c) or (c if c.isprintable() else f"\\U{ord(c):08X}") for c in text) + '"'


def write_job(answers: StarterAnswers, *, units: str = "") -> str:
    """Write a commented job file from answers.

    Parameters
    ----------
    answers
        As typed. Only what decides the form of the file is read here; `edgewright.jobfile` judges the values.
    units
        ``"in"`` or ``"mm"`` when answers are bare numbers; else every answer carries its unit.

    Returns
    -------
    str
        TOML.

    Raises
    ------
    InputError
        A side that is none, or a wanted thickness that needs no strips or too many of them.
    """
    a = answers
    lines = [
        "# Job file. Every other key has a default; the summary shows each value used and its origin.",
        "",
        "[job]",
        f"title = {quote_toml(a.title)}",
    ]
    if units:
        lines.append(f"units = {quote_toml(units)}   # unit of bare numbers")
    lines += [
        "",
        "# The old top, face up. Chalk N, E, S and W on it: the length runs east to west.",
        "[top]",
        _pair("material", a.material),
        _pair("thickness", a.thickness) + "   # by caliper, not the nominal figure",
        _pair("length", a.length),
        _pair("width", a.width),
    ]
    if a.diagonals.strip():
        lines.append(_pair("diagonals", a.diagonals) + "   # south-west to north-east first")
    if not _nothing(a.cut_amount):
        side = a.cut_side.strip().lower()
        if side not in SIDES:
            raise InputError(f"{brief(a.cut_side)} is not a side: write north, east, south or west")
        lines += ["", "# What comes off, kerf included.", "[trim]", _pair(side, a.cut_amount)]
    lines += ["", "# Strips under the edge, and the profile routed on it.", "[edge]", *_layers(a, units)]
    lines += [
        _pair("top_round_over", a.top_round_over),
        _pair("bottom_round_over", a.bottom_round_over),
        _pair("corner_radius", a.corner_radius) + "   # seen from above",
    ]
    lines += ["", "# Both figures by a test cut.", "[saw]", _pair("kerf", a.kerf)]
    lines.append(
        _pair("guide_offset_wide", a.guide_offset) + "   # guide to the near side of the kerf, wide shoe side"
    )
    if a.overhang.strip():
        lines += ["", "# From the old top's edge to the apron.", "[base]", _overhang(a.overhang)]
    heights = [
        _pair(k, v) for k, v in (("arm_height", a.arm_height), ("table_height", a.table_height)) if v.strip()
    ]
    if heights:
        lines += ["", "# Heights above the floor.", "[seating]", *heights]
    if a.flood_film.strip():
        lines += [
            "",
            "# What the trowel lays down in one coat.",
            "[coating]",
            _pair("flood_film", a.flood_film),
        ]
    return "\n".join(lines) + "\n"


def _value(text: str) -> str:
    """One value; 0 and bare numbers stay text, so that nothing is changed on the way."""
    return "0" if text.strip() == "0" else quote_toml(text.strip())


def _pair(key: str, text: str) -> str:
    """Write ``key = value``; a text with ; in it becomes a list."""
    parts = [part for part in text.split(";") if part.strip()]
    if len(parts) > 1:
        return f"{key} = [{', '.join(_value(part) for part in parts)}]"
    return f"{key} = {_value(text)}"


def _nothing(text: str) -> bool:
    return text.strip() in ("", "0", "none")


def _overhang(text: str) -> str:
    parts = [part for part in text.split(";") if part.strip()]
    if len(parts) == 1:
        return _pair("overhang", text)
    if len(parts) != 4:
        raise InputError(
            f"{brief(text)} holds {len(parts)} overhangs: write one, or north; east; south; west"
        )
    return "overhang = {" + ", ".join(f"{s} = {_value(p)}" for s, p in zip(SIDES, parts, strict=True)) + "}"


def _layers(a: StarterAnswers, units: str) -> list[str]:
    """Layers, and the thickness of the strips where the wanted edge is not a whole number of tops."""
    wanted = a.wanted_thickness.strip()
    if wanted.lower() in ("", "double"):
        return ["layers = 1   # one layer of strips under the top: a double edge"]
    unit = units if units in ("in", "mm") else None
    readings = [read_length(part, unit).exact_mm for part in a.thickness.split(";") if part.strip()]  # type: ignore[arg-type]
    if not readings:
        raise InputError("the thickness of the top is missing: the strips follow from it")
    top = sum(readings, Fraction(0)) / len(readings)
    under = read_length(wanted, unit).exact_mm - top  # type: ignore[arg-type]
    if under <= 0 or top <= 0:
        raise InputError(
            f"{brief(wanted)} is not thicker than the top of {a.thickness.strip()}: strips add to it"
        )
    layers = max(1, int(under / top + Fraction(1, 2)))
    if layers > 4:
        raise InputError(f"{brief(wanted)} needs {layers} layers of strips: at most 4 are planned")
    strip = under / layers
    lines = [f"layers = {layers}   # layers of strips under the top"]
    if strip != top:
        lines.append(
            f"strip_thickness = {quote_toml(_exact(strip))}   # brings the edge to {' '.join(wanted.split())}"
        )
    return lines


def _exact(mm: Fraction) -> str:
    """Write a length that the reader reads back the same, or rounded to 0.0001 mm where nothing else can."""
    text = inch_text(mm)
    if len(text) <= 12 and read_length(text, None) == Length(text, mm):
        return text
    return f"{float(mm):.4f}".rstrip("0").rstrip(".") + " mm"


def starter_job() -> str:
    """Write the starter: a reading-room table, ready to be planned as it is."""
    return STARTER
