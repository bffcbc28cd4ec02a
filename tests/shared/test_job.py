"""The job as a value: what follows from what, the summary of values used, the digest and the schema."""

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.job import Job, KeyUse, given_and_used, job_digest, job_schema
from edgewright.jobfile import parse_job
from edgewright.starter import starter_job

GOOD = (
    '[job]\ntitle = "T"\nunits = "in"\n'
    '[top]\nlength = 72\nwidth = 42\nthickness = ["0.70", "0.72", "0.74"]\nmaterial = "plywood"\n'
)
INCH = Fraction("25.4")
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def rows(job: Job) -> dict[str, KeyUse]:
    return {row.key: row for row in given_and_used(job)}


@pytest.mark.example
@pytest.mark.parametrize(
    ("trim", "north", "east", "south", "west"),
    [
        ("north = 6", 6, 0, 0, 0),
        ("finished_width = 36", 3, 0, 3, 0),  # 42 - 36 = 6, half from each side
        ('finished_width = 36\nwidth_from = "north"', 6, 0, 0, 0),
        ('finished_width = 36\nwidth_from = "south"\nwest = 1', 0, 0, 6, 1),
        ('finished_length = 70\nlength_from = "east"', 0, 2, 0, 0),
        ('finished_length = 70\nlength_from = "west"\nnorth = 1', 1, 0, 0, 2),
        ("finished_length = 71", 0, Fraction(1, 2), 0, Fraction(1, 2)),
    ],
)
def test_a_finished_size_becomes_amounts(trim: str, north: int, east: int, south: int, west: int) -> None:
    job = parse_job(f"{GOOD}[trim]\n{trim}\n")

    assert dict(job.amounts.items()) == {
        "north": north * INCH,
        "east": east * INCH,
        "south": south * INCH,
        "west": west * INCH,
    }
    assert job.finished_width == (42 - north - south) * INCH
    assert job.finished_length == (72 - east - west) * INCH


@pytest.mark.example
def test_thickness_readings_keep_least_greatest_and_mean() -> None:
    top = parse_job(GOOD).top

    assert [top.thickness_min.given, top.thickness_max.given] == ["0.70", "0.74"]
    assert top.thickness_mean.exact_mm == Fraction("0.72") * INCH


@pytest.mark.example
def test_strips_are_as_thick_as_the_top_unless_given() -> None:
    assert parse_job(GOOD).strip_thickness.exact_mm == Fraction("0.72") * INCH
    assert parse_job(GOOD + "[edge]\nstrip_thickness = 0.5").strip_thickness.exact_mm == INCH / 2


@pytest.mark.example
def test_one_length_or_a_table_for_corners_and_sides() -> None:
    one = parse_job(GOOD + "[edge]\ncorner_radius = 2\n[base]\noverhang = 4\n")
    table = parse_job(GOOD + "[edge.corner_radius]\nsouth_west = 2\n")

    assert {one.edge.corner_radius[c].given for c in ("south_west", "north_east")} == {"2"}
    assert one.base.overhang is not None
    assert {length.given for _, length in one.base.overhang.per_side().items()} == {"4"}
    assert table.edge.corner_radius["south_west"].exact_mm == 2 * INCH
    assert table.edge.corner_radius["north_east"].exact_mm == 0


@pytest.mark.example
def test_boards_on_hand_and_for_sale() -> None:
    board = "length = 50\nwidth = 5\nthickness = 0.7\n"
    rack_text = f'[[stock]]\nname = "rack"\n{board}'
    sheet_text = f'[[stock]]\nname = "sheet"\nprice = 12.345\nmaterial = "mdf"\n{board}'
    job = parse_job(GOOD + rack_text + sheet_text)
    rack, sheet = job.stock

    assert (rack.for_sale, rack.limit, rack.price_cents, job.board_material(rack)) == (
        False,
        1,
        None,
        "plywood",
    )
    # 12.345 is 1234.5 cents, halves go up
    assert (sheet.for_sale, sheet.limit, sheet.price_cents, job.board_material(sheet)) == (
        True,
        None,
        1235,
        "mdf",
    )


@pytest.mark.example
def test_splices_allowed_by_side_length() -> None:
    splice = parse_job(GOOD).splice
    foot = 12 * INCH

    assert [splice.most(n * foot) for n in (6, 8, 15, 16)] == [1, 2, 2, 3]
    assert parse_job(GOOD + "[splice]\nmax_per_side = 0").splice.most(20 * foot) == 0
    assert parse_job(GOOD + "[splice]\nallowed = false").splice.most(20 * foot) == 0


@pytest.mark.example
def test_the_guide_offset_is_that_of_the_shoe_side() -> None:
    assert parse_job(GOOD).saw.guide_offset.exact_mm == Fraction("4.5") * INCH
    assert (
        parse_job(GOOD + '[saw]\nshoe_side = "narrow"').saw.guide_offset.exact_mm == Fraction("1.25") * INCH
    )


@pytest.mark.example
def test_the_grid_follows_the_units() -> None:
    metric = GOOD.replace('"in"', '"mm"').replace("72\n", "1829\n").replace("42\n", "1067\n")
    metric = metric.replace('["0.70", "0.72", "0.74"]', "18")

    assert parse_job(GOOD).bench_grid.exact_mm == INCH / 32
    assert parse_job(metric).bench_grid.exact_mm == Fraction(1, 2)
    assert parse_job(metric).top.thickness_mean.exact_mm == 18


@pytest.mark.example
def test_a_job_cannot_be_changed() -> None:
    job = parse_job(GOOD)

    with pytest.raises(ValueError, match="frozen"):
        job.top.width = job.top.length  # type: ignore[misc]
    assert hash(job) == hash(parse_job(GOOD))


@pytest.mark.example
def test_the_summary_tells_given_used_and_origin() -> None:
    used = rows(parse_job(GOOD + '[trim]\nfinished_width = 36\n[edge]\nproud = "1/16 in"\n'))

    assert used["top.length"] == KeyUse("top.length", "72", "72 in = 1828.8 mm", "file", "")
    assert used["edge.proud"] == KeyUse("edge.proud", "1/16 in", "1/16 in = 1.5875 mm", "file", "")
    assert used["saw.kerf"] == KeyUse(
        "saw.kerf", None, "1/8 in = 3.175 mm", "default", "common practice, no source"
    )
    assert (used["trim.north"].used, used["trim.north"].origin) == (
        "3 in = 76.2 mm",
        "follows from trim.finished_width",
    )
    assert used["edge.strip_thickness"].origin == "the top's own thickness"
    assert used["job.bench_grid"].used == "1/32 in = ~0.7937 mm"
    assert used["edge.corner_radius"].origin == "none unless given"


@pytest.mark.property
def test_every_default_in_the_summary_has_an_origin() -> None:
    board = '[[stock]]\nname = "a"\nlength = 9\nwidth = 9\nthickness = 1\n'
    for text in (
        GOOD,
        starter_job(),
        GOOD + board + "[base]\noverhang = {north=1, east=2, south=3, west=4}\n",
    ):
        for row in given_and_used(parse_job(text)):
            assert (row.source == "default") == (row.given is None) == bool(row.origin), row


@pytest.mark.example
def test_the_digest_follows_values_not_their_spelling() -> None:
    same = (
        GOOD.replace("length = 72", 'length = "6 ft"')
        + '[saw]\nkerf = "3.175 mm"\n[trim]\nfinished_width = 42\n'
    )

    assert job_digest(parse_job(same)) == job_digest(parse_job(GOOD))
    assert len(job_digest(parse_job(GOOD))) == 64


@pytest.mark.example
@pytest.mark.parametrize(
    "changed",
    [
        GOOD.replace('"T"', '"U"'),
        GOOD.replace("length = 72", "length = 72.01"),
        GOOD + "[saw]\nkerf = 0.126\n",
        GOOD + "[edge]\nnest_mitres = false\n",
        GOOD + "[coating]\nflood_film = \"36 mil\"\n",
        GOOD + "[coating]\nroom_temperature = \"70 degF\"\n",
        GOOD + '[[override]]\nfinding = 201\nfigures = "f"\nreason = "r"\n',
    ],
)  # fmt: skip
def test_the_digest_changes_with_any_value(changed: str) -> None:
    assert job_digest(parse_job(changed)) != job_digest(parse_job(GOOD))


def fits(value: Any, schema: dict[str, Any], root: dict[str, Any]) -> bool:
    """Judge a value by the part of JSON Schema that our schema uses."""
    if "$ref" in schema:
        return fits(value, root["$defs"][schema["$ref"].rpartition("/")[2]], root)
    for choice in ("anyOf", "oneOf"):
        if choice in schema and not any(fits(value, part, root) for part in schema[choice]):
            return False
    if "const" in schema and value != schema["const"]:
        return False
    if "enum" in schema and value not in schema["enum"]:
        return False
    kinds = {
        "object": dict,
        "array": list,
        "string": str,
        "boolean": bool,
        "integer": int,
        "number": (int, float),
    }
    kind = schema.get("type")
    if kind == "null":
        return value is None
    if kind in kinds and (
        not isinstance(value, kinds[kind]) or isinstance(value, bool) != (kind == "boolean")
    ):
        return False
    if isinstance(value, dict) and "properties" in schema:
        known = schema["properties"]
        return (
            all(key in value for key in schema.get("required", ()))
            and (schema.get("additionalProperties", True) is not False or value.keys() <= known.keys())
            and all(fits(entry, known[key], root) for key, entry in value.items() if key in known)
        )
    if isinstance(value, list):
        size = schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", 10**9)
        return size and all(fits(entry, schema.get("items", {}), root) for entry in value)
    if isinstance(value, int | float):
        return schema.get("minimum", value) <= value <= schema.get("maximum", value)
    return True


@pytest.mark.example
def test_the_schema_takes_the_starter_and_refuses_what_the_reader_refuses() -> None:
    schema = job_schema()
    starter = tomllib.loads(starter_job())

    assert schema["$schema"].startswith("https://json-schema.org/")
    assert fits(starter, schema, schema)
    more = GOOD + "[edge]\ncorner_radius = {north_east = 1}\nstrip_width = 2\n[base]\noverhang = 4\n"
    assert fits(tomllib.loads(more), schema, schema)
    for bad in ("[edge]\nlayers = 5", "[edge]\ncolor = 1", '[edge]\ncorners = "x"', "[saw]\nkerf = true"):
        assert not fits(tomllib.loads(GOOD + bad), schema, schema), bad
    assert not fits({"job": {"title": "T"}}, schema, schema)


@pytest.mark.example
@pytest.mark.parametrize(
    # wood.toml is no job: it holds what several jobs share
    "path",
    sorted(p for p in EXAMPLES.rglob("*.toml") if p.stem != "wood"),
    ids=lambda path: path.stem,
)
def test_the_schema_takes_every_example(path: Path) -> None:
    schema = job_schema()
    job = tomllib.loads(path.read_text(encoding="utf-8"))

    assert fits(job, schema, schema)
    job["top"]["outline"] = {"shape": "circle"}
    assert not fits(job, schema, schema)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.integers(0, 39 * 32), st.integers(0, 39 * 32))
def test_amounts_and_finished_size_make_up_the_top(north: int, south: int) -> None:
    """In 1/32 in: what comes off and what is left are the old width, exactly."""
    if north + south > 40 * 32:
        south = 40 * 32 - north
    # of a top 2 in wide no strip has room for pins: the job says that it knows
    good = GOOD + "[edge]\nstrip_width = 0.5\n"
    job = parse_job(f"{good}[trim]\nnorth = {north / 32}\nsouth = {south / 32}\n")

    assert job.finished_width + job.amounts.north + job.amounts.south == 42 * INCH
    again = parse_job(f"{good}[trim]\nfinished_width = {float(job.finished_width / INCH)}\n")
    assert again.finished_width == job.finished_width
