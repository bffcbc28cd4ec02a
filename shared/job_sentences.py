"""Our own sentences for the complaints of pydantic and the TOML reader; their wording stays inside."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from typing import Any, Final, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from edgewright.job_fields import brief
from edgewright.job_lines import Place
from edgewright.unit_words import LENGTH

__all__ = ["place_of", "sentence", "toml_sentence"]

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


def sentence(detail: ErrorDetails, root: type[BaseModel]) -> str:
    """Write one fault as a sentence: value got, what is allowed, hint.

    Parameters
    ----------
    detail
        One entry of ``ValidationError.errors()``.
    root
        The job that was to be read.
    """
    kind, place = detail["type"], detail["loc"]
    context = detail.get("ctx", {})
    field = walk(root, place).field
    about = f" ({field.description})" if field is not None and field.description else ""
    if kind == "value_error":
        return str(context["error"])
    got = brief(detail["input"])
    if kind == "missing":
        what = f"table [{place[-1]}]" if len(place) == 1 else f"key {place[-1]}"
        return f"is missing: write the {what}{about}"
    if kind == "extra_forbidden":
        return _unknown(place, detail["input"], root)
    if kind == "union_tag_not_found":
        words = ", ".join(f'"{tag}"' for tag in _tagged(field.annotation if field else None))
        return f"is missing: write the key shape, one of {words}"
    if kind == "union_tag_invalid":
        given = detail["input"].get("shape") if isinstance(detail["input"], dict) else None
        return _choice(given, list(_tagged(field.annotation if field else None)), "")
    if kind == "literal_error":
        return _choice(detail["input"], _words(field.annotation if field else None), about)
    if kind in _WRONG_TYPE:
        return f"{got} is of the wrong kind: write {_WRONG_TYPE[kind]}{about}"
    low, high = _bounds(field)
    if kind == "finite_number":
        span = f": {low} to {high} is allowed" if low is not None and high is not None else ""
        return f"{got} is not a finite number{span}{about}"
    if low is not None and high is not None:
        return f"{got} is out of range: {low} to {high} is allowed{about}"
    return f"{got} cannot be used{about}"


@dataclass(frozen=True, slots=True)
class Spot:
    """What stands at a place: the key's declaration, the table it holds, and the place as the file has it."""

    field: FieldInfo | None
    model: type[BaseModel] | None
    place: Place


def walk(root: type[BaseModel], loc: Place) -> Spot:
    """Follow a place down from the job; what pydantic puts in for the choice of a shape is left out."""
    model: type[BaseModel] | None = root
    field: FieldInfo | None = None
    shapes: dict[str, type[BaseModel]] = {}
    place: Place = ()
    for part in loc:
        if isinstance(part, str) and part in shapes:
            model, shapes = shapes[part], {}
            continue
        place += (part,)
        if isinstance(part, str):
            field = _fields(model).get(part)
            models = _models(field.annotation) if field is not None else []
            shapes = _tagged(field.annotation) if field is not None and len(models) > 1 else {}
            model = models[0] if models else None
    return Spot(field, model, place)


def place_of(detail: ErrorDetails, root: type[BaseModel]) -> Place:
    """Place of a fault as the file has it."""
    place = walk(root, detail["loc"]).place
    return (*place, "shape") if detail["type"].startswith("union_tag") else place


def _models(annotation: object) -> list[type[BaseModel]]:
    """Models that an annotation holds, through lists and unions."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models(part)]


def _tagged(annotation: object) -> dict[str, type[BaseModel]]:
    """Models of a choice by their ``shape``."""
    return {
        word: model
        for model in _models(annotation)
        if "shape" in model.model_fields
        for word in _words(model.model_fields["shape"].annotation)
    }


def _choice(given: object, words: list[str], about: str) -> str:
    near = _near(given, words)
    hint = f'did you mean "{near}"? ' if near else ""
    allowed = ", ".join(f'"{word}"' for word in words)
    return f"{brief(given)} is not known here: {hint}{allowed} can be chosen{about}"


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


def _unknown(loc: Place, given: object, root: type[BaseModel]) -> str:
    """Name the nearest known key for an unknown one."""
    parent = walk(root, loc[:-1])
    known = list(_fields(parent.model))
    name = str(loc[-1])
    other = _other_kind(parent.place, name, given, root)
    if other:
        return other
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
    if near:
        return f"{brief(name)} is not a known key: did you mean {near[0]}?"
    if name in _fields(root):
        header = f"[[{name}]]" if name in ("stock", "override", "cut_out") else f"[{name}]"
        return f"{brief(name)} is a table of its own: begin it with the line {header}"
    # a measurement of an outline belongs to its own table, whatever else has a key of that name
    elsewhere = (
        _homes(name, root) if len([part for part in parent.place if isinstance(part, str)]) < 2 else []
    )
    if elsewhere:
        return f"{brief(name)} is not a known key here: it belongs to [{elsewhere[0]}]"
    return f"{brief(name)} is not a known key: known here are {', '.join(known)}"


def _other_kind(parent: Place, name: str, given: object, root: type[BaseModel]) -> str | None:
    """Tell that a key is known for the other kind of top: with an outline, or given by length and width."""
    from edgewright.job import Job
    from edgewright.job_new_top import NewTopJob
    from edgewright.job_shaped import ShapedJob  # loaded for a fault only: a plain job needs no shapes

    if root is NewTopJob:
        if not any(name in _fields(walk(kind, parent).model) for kind in (Job, ShapedJob)):
            return None
        where = "; its corners stand under [edge]" if name == "corner_radius" else ""
        return f"{brief(name)} says nothing of a top that is cut new: leave it out{where}"
    if name not in _fields(walk(Job if root is ShapedJob else ShapedJob, parent).model):
        return None
    if root is ShapedJob and parent == ("top",):
        return f"{brief(given)} is given beside [top.outline]: the measurements of an outline stand in its own table"
    if root is ShapedJob:
        return f"{brief(name)} is known only for a top given by length and width: with [top.outline], use other keys"
    return f"{brief(name)} is known only for a top with [top.outline], which may be a rectangle too"


def _homes(name: str, root: type[BaseModel]) -> list[str]:
    """Tables that do have a key of this name."""
    return [
        table
        for table, field in _fields(root).items()
        if any(name in _fields(model) for model in _models(field.annotation))
    ]


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
