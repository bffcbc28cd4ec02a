"""What a job file gave and what is used: every key with its value, for the summary; and the job's digest."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final, Literal

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from edgewright.amounts import Density, Duration, MixRatio, Volume
from edgewright.compass import CORNERS, SIDES
from edgewright.job_coating import Coating
from edgewright.job_edge import ARRISES
from edgewright.job_fields import say
from edgewright.job_outline_base import NamedLength, OutlineTable
from edgewright.trade import inch, inch_text
from edgewright.units import Coverage, Length, Temperature

if TYPE_CHECKING:
    from edgewright.job_any import AnyJob

__all__ = ["KeyUse", "given_and_used", "job_digest"]

_PRODUCT_KEYS: Final = (
    "filler_work_time",
    "mix_ratio",
    "pot_life",
    "largest_batch",
    "density_a",
    "density_b",
    "tint_percent",
    "recoat_from",
    "recoat_until",
)


@dataclass(frozen=True, slots=True)
class KeyUse:
    """One key of the job.

    Attributes
    ----------
    key
        Dotted place, like ``saw.kerf`` or ``stock[0].width``.
    given
        The value as the file gives it; None when it was left out.
    used
        The value used, with unit; inches also in millimetres.
    source
        ``"file"`` or ``"default"``.
    origin
        Where a default comes from; "" for what the file gives.
    """

    key: str
    given: str | None
    used: str
    source: Literal["file", "default"]
    origin: str


def given_and_used(job: AnyJob) -> tuple[KeyUse, ...]:
    """List every key of a job in the order of the file, with the value given and the value used."""
    derived = _derived(job)
    rows = []
    for row in _rows(job, ""):
        used, origin = derived.get(row.key, (None, ""))
        if row.source == "default" and used is not None:
            row = KeyUse(row.key, None, used, "default", origin or row.origin)
        rows.append(row)
    return tuple(rows)


def job_digest(job: AnyJob) -> str:
    """SHA-256 (hex) of the values used: the same for ``72 in``, ``6 ft`` and a default that says the same."""
    values = _canonical(job)
    told = values["job"]
    # what is merely printed, and not given, changes no digest
    values["job"] = {
        key: value for key, value in told.items() if value is not None or key in ("date", "revision")
    }
    _leave_out_no_chairs(values["seating"])
    values["job"]["units"] = job.units
    values["job"]["bench_grid"] = str(job.bench_grid.exact_mm)
    values["edge"]["strip_thickness"] = str(job.strip_thickness.exact_mm)
    if "as_cut" in values and values["as_cut"] is None:
        del values["as_cut"]  # a job whose cutting has not begun keeps its digest
    _leave_out_usual_planning(values)
    _leave_out_unused_forms(values["edge"])
    _leave_out_no_defects(values)
    _leave_out_usual_products(values["coating"])
    _use_what_follows(job, values)
    for board, canonical in zip(job.stock, values["stock"], strict=True):
        canonical["material"] = job.board_material(board)
        canonical["count"] = board.limit
    text = json.dumps(values, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _leave_out_no_chairs(seating: dict[str, Any]) -> None:
    """Take out what only the customer's page asks for, where it is not given."""
    seating["wall"] = {side: wall for side, wall in seating["wall"].items() if wall is not None}
    for key in ("chair_width", "chair_depth", "wall"):
        if not seating[key]:
            del seating[key]


def _leave_out_usual_planning(values: dict[str, Any]) -> None:
    """Take out what changes no plan: the usual effort, and minutes where labour is not weighed."""
    planning = values["planning"]
    if planning["objective"] == "order":
        for key in [key for key in planning if key != "effort"]:
            del planning[key]
    if planning["effort"] == 100:
        del planning["effort"]
    if not planning:
        del values["planning"]


def _leave_out_unused_forms(edge: dict[str, Any]) -> None:
    """Take out forms that are not given, and round-overs that a form or a bullnose stands in for."""
    if not edge["bullnose"]:
        del edge["bullnose"]
    for arris in ARRISES:
        if edge[f"{arris}_form"] is None:
            del edge[f"{arris}_form"]
        else:
            edge[f"{arris}_form"] = {k: v for k, v in edge[f"{arris}_form"].items() if v is not None}
        if "bullnose" in edge or f"{arris}_form" in edge:
            del edge[f"{arris}_round_over"]


def _leave_out_no_defects(values: dict[str, Any]) -> None:
    """Take out empty lists of defects, and without any the clearance, which then means nothing."""
    tables = [table for table in (values["top"], *values["stock"]) if "defects" in table]
    for table in tables:
        if not table["defects"]:
            del table["defects"]
    if not any("defects" in table for table in tables):
        del values["saw"]["defect_clearance"]


def _leave_out_usual_products(coating: dict[str, Any]) -> None:
    """Take out what a job that tells nothing of its products does not have either."""
    usual = _canonical(Coating())
    for key in _PRODUCT_KEYS:
        if coating[key] == usual[key]:
            del coating[key]


def _use_what_follows(job: AnyJob, values: dict[str, Any]) -> None:
    """Put in what the keys of top and trim mean, however they are written."""
    from edgewright.job import Job  # it imports this module

    if isinstance(job, Job):
        values["top"]["grain"] = job.top.grain_along
        values["trim"] = {side: str(mm) for side, mm in job.amounts.items()}
        return
    from edgewright.job_shaped import ShapedJob

    if isinstance(job, ShapedJob):
        values["edge"]["joint_clear"] = str(job.joint_clear.exact_mm)
        if not job.top.new:  # an old top keeps its digest
            del values["top"]["new"], values["top"]["oversize"]
        if job.trim.edges:
            values["trim"] |= {"edges": _canonical(job.trim.cuts), "cut_order": []}


def _canonical(value: Any) -> Any:
    if isinstance(value, BaseModel):
        fields = type(value).model_fields
        values = {field.alias or name: _canonical(getattr(value, name)) for name, field in fields.items()}
        if isinstance(value, OutlineTable):
            left_out = {key: _canonical(used) for key, used in value.follows().items() if values[key] is None}
            values |= left_out | value.read_from_elsewhere()
        return values
    if isinstance(value, tuple):
        return [_canonical(entry) for entry in value]
    if isinstance(value, NamedLength):
        return [value.name, str(value.length.exact_mm)]
    if isinstance(value, Length):
        return str(value.exact_mm)
    if isinstance(value, Coverage):
        return float(f"{value.film_mm:.12g}")
    if isinstance(value, Temperature):
        return float(f"{value.celsius:.12g}")
    if isinstance(value, Volume):
        return float(f"{value.mm3:.12g}")
    if isinstance(value, Duration):
        return float(f"{value.minutes:.12g}")
    if isinstance(value, Density):
        return float(f"{value.g_per_ml:.12g}")
    if isinstance(value, MixRatio):
        return [value.a, value.b, value.by]
    return value


def _derived(job: AnyJob) -> dict[str, tuple[str, str]]:
    """Collect what is used where a default follows from another key."""
    rows = {
        "job.units": (job.units, ""),
        "job.bench_grid": (_used(job.bench_grid), ""),
        "edge.strip_thickness": (_used(job.strip_thickness), ""),
    }
    for arris in ARRISES:
        if job.edge.bullnose or getattr(job.edge, f"{arris}_form") is not None:
            rows[f"edge.{arris}_round_over"] = ("-", "another form is given")
    rows |= _derived_of_top(job)
    for number, board in enumerate(job.stock):
        rows[f"stock[{number}].material"] = (job.board_material(board), "")
        rows[f"stock[{number}].count"] = (
            "as many as needed" if board.limit is None else str(board.limit),
            "",
        )
    return rows


def _derived_of_top(job: AnyJob) -> dict[str, tuple[str, str]]:
    """Collect what is used where a key of the top or the trim is left out."""
    from edgewright.job import Job  # it imports this module

    if not isinstance(job, Job):
        return _derived_of_shape(job)
    rows: dict[str, tuple[str, str]] = {"top.grain": (job.top.grain_along, "")}
    for side, mm in job.amounts.items():
        axis = "width" if side in ("north", "south") else "length"
        if getattr(job.trim, f"finished_{axis}") is not None:
            in_inches = job.units == "in" and (mm * 64 / inch("1")).denominator == 1
            said = _used(Length(inch_text(mm), mm)) if in_inches else _mm(mm)
            rows[f"trim.{side}"] = (said, f"follows from trim.finished_{axis}")
    return rows


def _derived_of_shape(job: AnyJob) -> dict[str, tuple[str, str]]:
    from edgewright.job_shaped import ShapedJob

    if not isinstance(job, ShapedJob):
        return {}
    rows = {"edge.joint_clear": (_used(job.joint_clear), "")}
    for key, table in (("top.outline", job.top.outline), ("trim.to", job.trim.to)):
        if table is not None:
            rows |= {f"{key}.{name}": (_used(value), "") for name, value in table.follows().items()}
    return rows


def _rows(model: BaseModel, prefix: str) -> Iterator[KeyUse]:
    for name, field in type(model).model_fields.items():
        key = f"{prefix}{field.alias or name}"
        value = getattr(model, name)
        given = name in model.model_fields_set
        if isinstance(value, BaseModel):
            yield from _table(value, key)
        elif isinstance(value, tuple) and value and isinstance(value[0], BaseModel):
            for number, entry in enumerate(value):
                yield from _rows(entry, f"{key}[{number}].")
        elif isinstance(value, tuple) and value and isinstance(value[0], NamedLength):
            for pair in value:
                yield KeyUse(f"{key}.{pair.name}", _given(pair.length), _used(pair.length), "file", "")
        else:
            yield KeyUse(key, _given(value) if given else None, _used(value), *_source(field, given))


def _table(table: BaseModel, key: str) -> list[KeyUse]:
    """Rows of a table; one row for all sides (or corners) when they are all alike."""
    rows = list(_rows(table, f"{key}."))
    names = list(type(table).model_fields)
    if sorted(names) not in (sorted(SIDES), sorted(CORNERS)):
        return rows
    share = len(rows) // len(names)
    parts = [
        [
            KeyUse(row.key.replace(f"{key}.{name}", key, 1), row.given, row.used, row.source, row.origin)
            for row in chunk
        ]
        for name, chunk in zip(names, (rows[i : i + share] for i in range(0, len(rows), share)), strict=True)
    ]
    return parts[0] if all(part == parts[0] for part in parts) else rows


def _source(field: FieldInfo, given: bool) -> tuple[Literal["file", "default"], str]:
    if given:
        return "file", ""
    extra = field.json_schema_extra
    return "default", str(extra.get("x-origin", "")) if isinstance(extra, dict) else ""


def _given(value: object) -> str:
    if isinstance(value, tuple):
        return "[" + ", ".join(_given(entry) for entry in value) + "]"
    if isinstance(value, Length | Coverage | Temperature | Volume | Duration | Density | MixRatio):
        return value.given
    return str(value).lower() if isinstance(value, bool) else str(value)


def _used(value: object) -> str:
    if value is None:
        return "-"
    if value == ():
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(_used(entry) for entry in value)
    if isinstance(value, Length):
        said, mm = say(value), _mm(value.exact_mm)
        return said if said == mm else f"{said} = {mm}"
    if isinstance(value, Coverage):
        return f"{value.given} = {value.film_mm:.3f} mm film"
    if isinstance(value, Temperature):
        return f"{value.given} = {value.celsius:.1f} degC"
    if isinstance(value, Volume):
        return f"{value.given} = {value.mm3 / 1000:.0f} ml"
    if isinstance(value, Duration):
        said = f"{value.minutes:g} min"
        return said if value.given == said else f"{value.given} = {said}"
    if isinstance(value, Density):
        return f"{value.given} = {value.g_per_ml:.3f} g/ml"
    if isinstance(value, MixRatio):
        return f"{value.a}:{value.b} by {value.by}"
    return str(value)


def _mm(mm: Fraction) -> str:
    """Millimetres with up to four decimals; ``~`` in front when that is not all of it."""
    text = f"{float(mm):.4f}".rstrip("0").rstrip(".")
    return ("" if Fraction(text) == mm else "~") + f"{text} mm"
