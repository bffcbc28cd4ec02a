"""Our own sentences for the complaints of pydantic and the TOML reader; their wording stays inside."""

from __future__ import annotations

import difflib
import re
from typing import Any, Final, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from edgewright.job import Job
from edgewright.job_fields import brief
from edgewright.unit_words import LENGTH

__all__ = ["sentence", "toml_sentence"]

#: Kinds of wrong type, and what to write instead.
_WRONG_TYPE: Final = {
    "bool_type": "true or false, without quotes",
    "int_type": "a whole number without quotes and without a point",
    "float_type": "a number without quotes",
    "string_type": "text in quotes",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "dict_type": "a table",
    "tuple_type": "a list in [ ]",
}


def sentence(detail: ErrorDetails) -> str:
    """Write one fault as a sentence: value got, what is allowed, hint.

    Parameters
    ----------
    detail
        One entry of ``ValidationError.errors()``.
    """
    kind, place = detail["type"], detail["loc"]
    context = detail.get("ctx", {})
    field = _field(place)
    about = f" ({field.description})" if field is not None and field.description else ""
    if kind == "value_error":
        return str(context["error"])
    got = brief(detail["input"])
    if kind == "missing":
        what = f"table [{place[-1]}]" if len(place) == 1 else f"key {place[-1]}"
        return f"is missing: write the {what}{about}"
    if kind == "extra_forbidden":
        return _unknown(place)
    if kind == "literal_error":
        words = _words(field.annotation if field else None)
        near = _near(detail["input"], words)
        hint = f'did you mean "{near}"? ' if near else ""
        allowed = ", ".join(f'"{word}"' for word in words)
        return f"{got} is not known here: {hint}{allowed} can be chosen{about}"
    if kind in _WRONG_TYPE:
        return f"{got} is of the wrong kind: write {_WRONG_TYPE[kind]}{about}"
    low, high = _bounds(field)
    if kind == "finite_number":
        span = f": {low} to {high} is allowed" if low is not None and high is not None else ""
        return f"{got} is not a finite number{span}{about}"
    if low is not None and high is not None:
        return f"{got} is out of range: {low} to {high} is allowed{about}"
    return f"{got} cannot be used{about}"


def _model(annotation: object) -> type[BaseModel] | None:
    """Model that an annotation holds, through lists and ``| None``."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((model for part in get_args(annotation) if (model := _model(part))), None)


def _field(place: tuple[str | int, ...]) -> FieldInfo | None:
    """Find the declaration of the key at a place; None for an unknown key."""
    model: type[BaseModel] | None = Job
    field: FieldInfo | None = None
    for part in place:
        if isinstance(part, str):
            fields = _fields(model)
            field = fields.get(part)
            model = _model(field.annotation) if field is not None else None
    return field


def _fields(model: type[BaseModel] | None) -> dict[str, FieldInfo]:
    return (
        {field.alias or name: field for name, field in model.model_fields.items()}
        if model is not None
        else {}
    )


def _words(annotation: object) -> list[str]:
    """Words of a ``Literal``, also inside ``| None``."""
    if isinstance(annotation, str):
        return [annotation]
    return [word for part in get_args(annotation) for word in _words(part)]


def _near(value: object, words: list[str]) -> str | None:
    """Word that was likely meant: in other case, spelled a little otherwise, or another name of a unit."""
    if not isinstance(value, str) or len(value) > 40:
        return None
    plain = " ".join(value.casefold().replace("_", " ").split())
    if LENGTH.get(plain) in words:
        return LENGTH[plain]
    return next(iter(difflib.get_close_matches(plain, words, n=1, cutoff=0.75)), None)


def _bounds(field: FieldInfo | None) -> tuple[object, object]:
    low = high = None
    stack: list[Any] = [field] if field is not None else []
    while stack:
        item = stack.pop()
        low = getattr(item, "ge", low) if getattr(item, "ge", None) is not None else low
        high = getattr(item, "le", high) if getattr(item, "le", None) is not None else high
        stack.extend(getattr(item, "metadata", ()))
        stack.extend(get_args(getattr(item, "annotation", item)))
    return low, high


def _unknown(place: tuple[str | int, ...]) -> str:
    """Name the nearest known key for an unknown one."""
    table = next((i for i in range(len(place) - 1, 0, -1) if isinstance(place[i - 1], str)), 0)
    parent = place[:-1] if table else ()
    holder = _field(parent)
    known = list(_fields(_model(holder.annotation) if holder is not None else Job))
    name = str(place[-1])
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
    if near:
        return f"{brief(name)} is not a known key: did you mean {near[0]}?"
    if name in _fields(Job):
        header = f"[[{name}]]" if name in ("stock", "override") else f"[{name}]"
        return f"{brief(name)} is a table of its own: begin it with the line {header}"
    elsewhere = _homes(name)
    if elsewhere:
        return f"{brief(name)} is not a known key here: it belongs to [{elsewhere[0]}]"
    return f"{brief(name)} is not a known key: known here are {', '.join(known)}"


def _homes(name: str) -> list[str]:
    """Tables that do have a key of this name."""
    return [table for table, field in _fields(Job).items() if name in _fields(_model(field.annotation))]


_UNQUOTED: Final = re.compile(r"""\s*[\w."'-]+\s*=\s*[^\s"'\[{]""")
_INCH_MARK: Final = re.compile(r'''\s*[\w."'-]+\s*=\s*"[^"]*[0-9]""''')
_NO_VALUE: Final = re.compile(r"\s*[\w.-]+\s*(=\s*)?(#.*)?$")


def toml_sentence(reason: str, text: str) -> tuple[str, int]:
    """Sentence and line for a text that is not valid TOML; ``reason`` is the reader's own complaint."""
    place = re.search(r"\(at line ([0-9]+), column ([0-9]+)\)", reason)
    rows = text.split("\n")
    number = int(place[1]) if place else max(1, len(text.rstrip("\n").split("\n")))
    row = rows[number - 1] if number <= len(rows) else ""
    plain = re.sub(r"\s*\(at .*\)$", "", reason)
    if "overwrite" in plain or "Cannot declare" in plain or "Cannot mutate" in plain:
        return f"{brief(row.strip())} was given before: keep one of them", number
    if _INCH_MARK.match(row):
        hint = """a value with the mark " needs ' ' around it, like '41 5/8"'"""
        return f"{brief(row.strip())} cannot be read: {hint}", number
    if _NO_VALUE.match(row):
        return f"{brief(row.strip())} cannot be read: a line needs a key, = and a value", number
    if _UNQUOTED.match(row):
        hint = 'text and figures with a unit need quotes, like length = "41 5/8 in"'
        return f"{brief(row.strip())} cannot be read: {hint}", number
    column = f" near column {place[2]}" if place else ""
    return f"{brief(row.strip())} is not valid TOML{column}: check quotes, brackets and =", number
