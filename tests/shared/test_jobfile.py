"""Job files: what is read, and the sentence for everything that cannot be."""

import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.errors import InputError, JobError
from edgewright.job import Job
from edgewright.jobfile import parse_job, read_job

HEAD = '[job]\ntitle = "T"\nunits = "in"\n'
TOP = '[top]\nlength = 72\nwidth = 42\nthickness = "23/32"\nmaterial = "plywood"\n'
GOOD = HEAD + TOP  # lines 1 to 8; what a case adds begins on line 9


def faults(text: str) -> list[tuple[str, int | None, str]]:
    with pytest.raises(JobError) as caught:
        parse_job(text)
    assert isinstance(caught.value, InputError)
    return [(f.key, f.line, f.message) for f in caught.value.faults]


def refusal(source: str | Path) -> JobError | None:
    """Return the error of a text or a file; anything but a JobError passes through and fails the test."""
    try:
        parse_job(source) if isinstance(source, str) else read_job(source)
    except JobError as error:
        return error
    return None


@pytest.mark.example
def test_a_short_file_gives_all_defaults() -> None:
    job = parse_job(GOOD)

    assert job.top.length.exact_mm == 72 * Fraction("25.4")
    assert job.top.length.given == "72"
    assert job.saw.kerf.given == "1/8 in"
    assert job.saw.kerf.exact_mm == Fraction("3.175")
    assert job.edge.strip_width == "widest"
    assert job.strip_thickness.exact_mm == Fraction(23, 32) * Fraction("25.4")
    assert job.bench_grid.given == "1/32 in"
    assert (job.stock, job.overrides, job.base.overhang) == ((), (), None)


@pytest.mark.example
def test_empty_optional_tables_are_the_defaults() -> None:
    tables = ["trim", "edge", "planning", "splice", "saw", "router", "pins", "base", "seating", "coating"]

    assert parse_job(GOOD + "".join(f"[{table}]\n" for table in tables)) == parse_job(GOOD)
    assert parse_job(HEAD + TOP + "[top.finished_edge]\n[edge.corner_radius]\n") == parse_job(GOOD)


# What is added below GOOD; key; line; words the message must hold (value, bound, hint).
BELOW = [
    ("[trim]\nnorth = -3", "trim.north", 10, ["-3 in", "0 in to 20 ft"]),
    (
        "[trim]\nnorth = 30\nsouth = 12",
        "trim.north",
        10,
        ["30 in", "12 in off the south", "42 in", "at least 2 in"],
    ),
    ("[trim]\neast = 72", "trim.east", 10, ["72 in", "length of 72 in", "at least 2 in"]),
    ("[trim]\nfinished_width = 43", "trim.finished_width", 10, ["43 in", "at most", "42 in"]),
    ('[trim]\nfinished_length = "6 ft 1 in"', "trim.finished_length", 10, ["6 ft 1 in", "72 in"]),
    (
        "[trim]\nsouth = 1\nfinished_width = 40",
        "trim.finished_width",
        11,
        ["40 in", "south = 1 in", "not both"],
    ),
    ("[trim]\nwest = 0\nfinished_length = 40", "trim.finished_length", 11, ["40 in", "west = 0", "not both"]),
    ('[trim]\nwidth_from = "north"', "trim.width_from", 10, ['"north"', "finished_width"]),
    ('[trim]\nwidth_from = "east"', "trim.width_from", 10, ['"east"', '"north", "south", "both"']),
    ("[edge]\nlayers = 5", "edge.layers", 10, ["5", "1 to 4"]),
    ("[edge]\nlayers = 1.0", "edge.layers", 10, ["1.0", "whole number"]),
    ("[edge]\nlayers = true", "edge.layers", 10, ["true", "whole number"]),
    ("[edge]\ntop_round_over = 2.5", "edge.top_round_over", 10, ["2.5 in", "0 in to 2 in"]),
    ("[edge]\ncorner_radius = 22", "edge.corner_radius", 10, ["22 in", "at most half", "21 in"]),
    ("[edge.corner_radius]\nnorth_west = 22", "edge.corner_radius.north_west", 10, ["22 in", "21 in"]),
    ("[trim]\nnorth = 6\n[edge]\ncorner_radius = 19", "edge.corner_radius", 12, ["19 in", "18 in"]),
    ("[edge]\nstrip_width = 0", "edge.strip_width", 10, ["0", "1/4 in to 12 in", "widest"]),
    ("[edge]\nstrip_width = [1]", "edge.strip_width", 10, ["a list of 1", '"widest"']),
    ("[edge]\nstrip_width = 3\nmax_strip_width = 2", "edge.strip_width", 10, ["3 in", "2 in"]),
    ("[trim]\nsouth = 39\n[edge]\nstrip_width = 2", "edge.strip_width", 12, ["2 in", "1 1/4 in"]),
    ('[edge]\ncorners = "dovetail"', "edge.corners", 10, ['"dovetail"', '"butt", "pinwheel", "mitre"']),
    ('[edge]\nnest_mitres = "yes"', "edge.nest_mitres", 10, ['"yes"', "true or false"]),
    ("[edge]\nlayer = 2", "edge.layer", 10, ['"layer"', "did you mean layers?"]),
    ("[edge]\nkerf = 1", "edge.kerf", 10, ['"kerf"', "belongs to [saw]"]),
    ('[edge]\n"zz\\nzz" = 1', "edge.zz\\nzz", 10, ["zz\\nzz", "known here are layers"]),
    ("[sawe]\nkerf = 1", "sawe", 9, ["did you mean saw?"]),
    ("[splice]\nstagger_widths = -1", "splice.stagger_widths", 10, ["-1", "0 to 20"]),
    ("[splice]\nstagger_widths = nan", "splice.stagger_widths", 10, ["nan", "not a finite number"]),
    ("[splice]\nstagger_widths = inf", "splice.stagger_widths", 10, ["inf", "0 to 20 is allowed"]),
    ("[splice]\nmax_per_side = -1", "splice.max_per_side", 10, ["-1", "0 to 20"]),
    ("[saw]\nkerf = 0", "saw.kerf", 10, ["0", "0.5 mm to 6.4 mm", "a saw kerf is 1/32 to 1/4 in"]),
    ('[saw]\nkerf = "8 mm"', "saw.kerf", 10, ["8 mm", "6.4 mm"]),
    ("[saw]\nkerf = inf", "saw.kerf", 10, ["not finite"]),
    ('[saw]\nkerf = "1/8 oz"', "saw.kerf", 10, ["1/8 oz"]),
    ("[saw]\nguide_offset_wide = 0", "saw.guide_offset_wide", 10, ["0", "1/8 in to 24 in", "test cut"]),
    ("saw = 3", "top.saw", 9, ['"saw"', "the line [saw]"]),
    ("[pins]\nlengths = []", "pins.lengths", 10, ["0 entries", "1 to 50"]),
    ("[pins]\nlengths = 1", "pins.lengths", 10, ["1 is not a list", "[ ]"]),
    ("[pins]\nlengths = [1, 9]", "pins.lengths[1]", 10, ["9 in", "1/4 in to 4 in"]),
    ("[[stock]]\nlength = 1\nwidth = 1\nthickness = 1", "stock[0].name", 9, ["missing", "name"]),
    ('[stock]\nname = "a"', "stock", 9, ["a table is not a list", "[[stock]]"]),
    ("[base]\noverhang = 4\nfootprint_length = 9", "base.footprint_length", 11, ["9 in", "not both"]),
    ("[base]\nfootprint_width = 9", "base.footprint_width", 10, ["9 in", "footprint_length"]),
    ("[base]\nfootprint_width = 50\nfootprint_length = 60", "base.footprint_width", 10, ["50 in", "42 in"]),
    ("[base]\noverhang = 21", "base.overhang", 10, ["21 in", "42 in"]),
    ("[base]\noverhang = {north = 1, south = 1, west = 1}", "base.overhang.east", 10, ["missing", "east"]),
    ("[seating]\nseats = 0", "seating.seats", 10, ["0", "1 to 100"]),
    ("[seating]\ntable_height = 29\nseat_height = 29", "seating.seat_height", 11, ["29 in", "table_height"]),
    ("[coating]\nresin_coats = 0", "coating.resin_coats", 10, ["0", "1 to 4"]),
    ("[coating]\nflood_film = 35", "coating.flood_film", 10, ["35", "35 mil"]),
    ('[coating]\nflood_film = "1 in"', "coating.flood_film", 10, ["1 in", "250 mil"]),
    ('[coating]\nflood_film = ["40 mil", "35 mil"]', "coating.flood_film", 10, ["40 mil", "35 mil", "first"]),
    (
        '[coating]\nflood_film = ["1 mil", "2 mil", "3 mil"]',
        "coating.flood_film",
        10,
        ["3 entries", "1 to 2"],
    ),
    ('[coating]\nroom_temperature = "200 degF"', "coating.room_temperature", 10, ["200 degF", "122 degF"]),
    ("[coating]\nroom_temperature = 70", "coating.room_temperature", 10, ["70", "70 degF"]),
    (
        '[[override]]\nfinding = 1\nfigures = "f"\nreason = "r"',
        "override[0].finding",
        10,
        ["1", "100 to 999"],
    ),
    (
        '[[override]]\nfinding = 201\nfigures = "f"\nreason = ""',
        "override[0].reason",
        12,
        ["blank", "1 to 200"],
    ),
]


@pytest.mark.example
@pytest.mark.parametrize(
    ("added", "key", "line", "words"), BELOW, ids=[f"{c[1]}-{i}" for i, c in enumerate(BELOW)]
)
def test_a_fault_names_line_key_value_and_bound(added: str, key: str, line: int, words: list[str]) -> None:
    found = faults(GOOD + added)

    assert [(k, n) for k, n, _ in found] == [(key, line)]
    for word in words:
        assert word in found[0][2]


# Instead of one line of GOOD; key; words.
INSTEAD = [
    ('title = "T"', 'title = ""', "job.title", ["blank", "1 to 200"]),
    ('title = "T"', f'title = "{"x" * 201}"', "job.title", ["201 characters", "at most 200"]),
    ('title = "T"', 'title = "a\\tb"', "job.title", ["U+0009"]),
    ('title = "T"', "title = 5", "job.title", ["5 is not text", "quotes"]),
    ('units = "in"', 'units = "cm"', "job.units", ['"cm"', '"in", "mm"']),
    ('units = "in"', 'units = "in"\nbench_grid = "6 mm"', "job.bench_grid", ["6 mm", "0.1 mm to 5 mm"]),
    ('units = "in"', 'units = "in"\nbench_grid = "0.013 in"', "job.bench_grid", ["0.013 in", "1/320 mm"]),
    ('units = "in"', 'units = "in"\ndate = 2020-05-02', "job.date", ["2020-05-02", "quotes"]),
    ("length = 72", "length = 5", "top.length", ["5 in", "6 in to 20 ft"]),
    ("length = 72", "length = 241", "top.length", ["241 in", "20 ft"]),
    ("length = 72", "", "top.length", ["missing", "east to west"]),
    ("length = 72", "length = true", "top.length", ["true is not a length"]),
    ("length = 72", "length = {a = 1}", "top.length", ["a table is not a length"]),
    ("length = 72", "length = 1" + "0" * 30, "top.length", []),
    ("length = 72", 'length = "41-5/8 x"', "top.length", ["41-5/8 x"]),
    ('"23/32"', "0.1", "top.thickness", ["0.1 in", "1/4 in to 4 in", "caliper"]),
    ('"23/32"', '["3/4", "7/8"]', "top.thickness", ["3/4 in", "7/8 in", "less than 1/8 in"]),
    ('"23/32"', "[]", "top.thickness", ["0 entries", "1 to 50"]),
    ('"23/32"', "[0.7, 9]", "top.thickness[1]", ["9 in", "4 in"]),
    ('"plywood"', '"oak"', "top.material", ['"oak"', '"plywood", "mdf"']),
    ('"plywood"', '"mdf"\ndiagonals = [83]', "top.diagonals", ["1 entries", "2 are allowed"]),
    ('"plywood"', '"mdf"\ndiagonals = [83, 114]', "top.diagonals[1]", ["114 in", "less than 114 in"]),
    ('"plywood"', '"mdf"\ndiagonals = [30, 83]', "top.diagonals[0]", ["30 in", "more than 30 in"]),
    ('"plywood"', '"mdf"\ncorner_radius = 21.5', "top.corner_radius", ["21.5 in", "21 in"]),
    (
        '"plywood"',
        '"mdf"\nseams = [{across = "width", at = 42}]',
        "top.seams[0].at",
        ["42 in", "width of 42 in"],
    ),
    ('"plywood"', '"mdf"\nseams = [{across = "length", at = 0}]', "top.seams[0].at", ["0", "more than 0 in"]),
    (
        '"plywood"',
        '"mdf"\nfinished_edge.east.depth = 7',
        "top.finished_edge.east.depth",
        ["7 in", "0 in to 6 in"],
    ),
    (
        '"plywood"',
        '"mdf"\nfinished_edge.up = {}',
        "top.finished_edge.up",
        ['"up"', "north, east, south, west"],
    ),
    (
        '"plywood"',
        '"mdf"\nfinished_edge.east.arris_radius = 1',
        "top.finished_edge.east.arris_radius",
        ["1 in"],
    ),
]


@pytest.mark.example
@pytest.mark.parametrize(
    ("old", "new", "key", "words"), INSTEAD, ids=[f"{c[2]}-{i}" for i, c in enumerate(INSTEAD)]
)
def test_a_spoilt_line_is_named(old: str, new: str, key: str, words: list[str]) -> None:
    text = GOOD.replace(old, new)
    found = faults(text)

    assert [k for k, _, _ in found] == [key]
    leaf = key.split(".")[1].split("[")[0]
    home = next((n for n, row in enumerate(text.split("\n"), 1) if leaf in row and "=" in row), 4)
    assert found[0][1] == home
    for word in words:
        assert word in found[0][2]


@pytest.mark.example
def test_a_bare_number_without_units_is_refused() -> None:
    found = faults(GOOD.replace('units = "in"\n', ""))

    # one line under [job] mends them all, so they are told at once, each with its line
    assert [k for k, _, _ in found] == ["top.length"]
    message = found[0][2]
    assert 'has no unit: write it with its unit in quotes, like "72 in" or "1830 mm"' in message
    assert 'set units = "in" or "mm" under [job]' in message
    assert re.search(r"so has top.width in line \d+, top.thickness in line \d+$", message)


@pytest.mark.example
@pytest.mark.parametrize(
    ("head", "top", "keys"),
    [
        # where units stands wrong, the bare numbers are no fault of theirs
        ('[job]\ntitle = "T"\n', 'units = "in"\n', ["top.units"]),
        ('job = "T"\n', "", ["job"]),
        ('[job]\ntitle = "T"\nunit = "in"\n', "", ["job.unit"]),
        ('[job]\ntitle = "T"\nunits = "In"\n', "", ["job.units"]),
        ('units = "in"\n[job]\ntitle = "T"\n', "", ["units"]),
        # a unit that was never thought of is told at the first number
        ('[job]\ntitle = "T"\n', "", ["top.length"]),
    ],
)
def test_one_fault_of_units_is_told_once(head: str, top: str, keys: list[str]) -> None:
    assert [key for key, _, _ in faults(head + TOP + top)] == keys


@pytest.mark.example
@pytest.mark.parametrize(
    ("old", "new", "near"),
    [
        ('"plywood"', '"Plywood"', "plywood"),
        ('"plywood"', '"PLY WOOD"', "plywood"),
        ('"plywood"', '"MDF"', "mdf"),
        ('"plywood"', '"solid_wood"', "solid wood"),
        ('"plywood"', '"particle board"', "particleboard"),
        ('units = "in"', 'units = "IN"', "in"),
        ('units = "in"', 'units = "inches"', "in"),
        ('units = "in"', "units = '\"'", "in"),
        ('units = "in"', 'units = "Millimetres"', "mm"),
        # nothing is near
        ('"plywood"', '"oak"', None),
        ('"plywood"', "5", None),
        ('units = "in"', 'units = "cm"', None),
        ('units = "in"', 'units = "furlong"', None),
    ],
)
def test_a_near_word_is_suggested(old: str, new: str, near: str | None) -> None:
    ((_, _, message),) = faults(GOOD.replace(old, new))

    assert ("did you mean" in message) == (near is not None)
    if near is not None:
        assert f'did you mean "{near}"?' in message


@pytest.mark.example
def test_a_name_with_control_characters_is_shown_on_one_line(tmp_path: Path) -> None:
    for name in ("a\n\x1b.toml", "b\n.toml"):
        (tmp_path / "b\n.toml").write_text("[job\n", encoding="utf-8")
        error = refusal(tmp_path / name)
        assert error is not None
        assert str(error).isprintable()
    with pytest.raises(JobError, match="the name of the job file is empty"):
        read_job("")


@pytest.mark.example
def test_all_faults_of_a_file_are_told_at_once_in_order() -> None:
    text = GOOD + '[trim]\nnorth = 41\n[saw]\nkerf = 0\n[[stock]]\nname = "a"\nlength = 9\nwidth = 9\n'
    text += 'thickness = 1\n[[stock]]\nname = "a"\nlength = -9\nwidth = 9\nthickness = 1\nprice = inf\n'
    text = text.replace('"plywood"', '"oak"').replace("units", "unitz")
    keys = [(key, line) for key, line, _ in faults(text.replace("unitz", "units"))]

    assert keys == [("top.material", 8), ("saw.kerf", 12), ("stock[1].length", 20), ("stock[1].price", 23)]
    both = GOOD + "[trim]\nnorth = 41\n[saw]\nkerf = 0\n"
    assert [(key, line) for key, line, _ in faults(both)] == [("trim.north", 10), ("saw.kerf", 12)]


@pytest.mark.example
def test_a_flood_of_faults_is_cut_short() -> None:
    found = faults(GOOD + "".join(f"a{i} = 1\n" for i in range(150)))

    assert len(found) == 101
    assert found[0] == ("", None, "holds 50 more faults than the 100 told here: mend these first")


@pytest.mark.example
def test_two_boards_of_one_name_are_refused() -> None:
    board = '[[stock]]\nname = "a"\nlength = 9\nwidth = 9\nthickness = 1\n'

    assert [(k, n) for k, n, _ in faults(GOOD + board + board)] == [("stock[1].name", 15)]
    deep = faults(GOOD + board + "finished_depth = 4.5\n")
    assert [(k, n) for k, n, _ in deep] == [("stock[0].finished_depth", 14)]


@pytest.mark.example
def test_missing_tables_are_named() -> None:
    assert [(k, n) for k, n, _ in faults("[saw]\nkerf = 0.1\n")][:2] == [("job", None), ("top", None)]
    assert ("job", 1) in [(k, n) for k, n, _ in faults("job = 5\n" + TOP)]


LEAKS = (
    "Input should",
    "Extra inputs",
    "Field required",
    "Value error",
    "validation error",
    "type=",
    "pydantic",
)


@pytest.mark.property
def test_no_wording_of_the_reader_underneath_leaks() -> None:
    """Every key is given values of every wrong kind; the sentences are our own."""
    values = [
        "5",
        "-1",
        "1.5",
        "true",
        '"zz"',
        "nan",
        "[]",
        "[1, true]",
        "{}",
        "{a = 1}",
        "2020-01-01",
        "1" + "0" * 40,
    ]
    tables = {
        f.alias or n: m
        for n, f in Job.model_fields.items()
        if (m := getattr(f.annotation, "model_fields", None))
    }
    assert len(tables) == 12
    for table, keys in tables.items():
        for key in keys:
            for value in values:
                text = f"[{table}]\n{key} = {value}\n"
                text += "".join(part for part in (HEAD, TOP) if not part.startswith(f"[{table}]"))
                error = refusal(text)
                if error is not None:
                    assert not any(leak in str(error) for leak in LEAKS), str(error)
                    assert all(f.message and "\n" not in f.message for f in error.faults)


# Text that is not TOML; line; words.
BROKEN = [
    ("[top]\nlength = 72 in\n", 2, ["length = 72 in", "quotes"]),
    ('[top]\nlength = "41 5/8""\n', 2, ["' '"]),
    ("[top]\nlength = 41 5/8\n", 2, ["quotes"]),
    ("[top]\n\nlength\n", 3, ["key, = and a value"]),
    ("[top\nlength = 1\n", 1, ["[top", "brackets"]),
    ("a = 1\na = 2\n", 2, ["before"]),
    ("[a]\n[b]\n[a]\n", 3, ["before"]),
    ("a = [1, 2\n", 1, ["not valid TOML"]),
    ('a = "x\n', 1, ["not valid TOML"]),
    ("a = " + "[" * 5000 + "]" * 5000, None, ["too deeply"]),
    ("a = " + "{a = " * 5000 + "1" + "}" * 5000, None, ["too deeply"]),
    ("a." * 5000 + "a = 1", None, ["too deeply"]),
    ("a." * 100 + "a = 1", 1, ["not a known key"]),
    ("a = 1" + "0" * 5000, None, ["digits"]),
    ("", None, ["empty"]),
    (" \n\t\n", None, ["empty"]),
    ("#" * (1 << 20) + "#", None, ["1 MiB"]),
]


@pytest.mark.example
@pytest.mark.parametrize(("text", "line", "words"), BROKEN, ids=range(len(BROKEN)))
def test_what_is_not_toml_is_one_sentence(text: str, line: int | None, words: list[str]) -> None:
    found = faults(text)

    assert any(n == line and all(word in message for word in words) for _, n, message in found)


@pytest.mark.example
def test_line_ends_and_byte_order_mark_of_other_editors_are_read(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())

    assert read_job(file) == parse_job(GOOD)
    assert [n for _, n, _ in faults("\ufeff\r\n\r\n" + GOOD + "[saw]\r\nkerf = 0")] == [12]


@pytest.mark.example
@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"\x00\x01\xff", "not UTF-8"),
        (GOOD.encode("utf-16"), "is UTF-16, not UTF-8 text: save it as UTF-8"),
        (GOOD.encode("utf-16-le"), "is UTF-16, not UTF-8"),
        (GOOD.encode("utf-16-be"), "is UTF-16, not UTF-8"),
        (GOOD.replace('"T"', '"Ж"').encode("utf-16-le"), "is UTF-16, not UTF-8"),
        (b"\x00" * 100, "not valid TOML"),
        (GOOD.replace("\n", "\r").encode(), "ends its lines with CR alone: save it with LF or CRLF"),
        (b"", "empty"),
        (b"\x00", "not valid TOML"),
        (b"#" * ((1 << 20) + 1), "1 MiB"),
    ],
)
def test_files_that_are_no_job_files(tmp_path: Path, data: bytes, words: str) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(data)

    with pytest.raises(JobError, match=words) as caught:
        read_job(file)
    assert str(file) in str(caught.value)


@pytest.mark.example
def test_a_folder_and_a_missing_file_and_an_odd_name(tmp_path: Path) -> None:
    for path, words in (
        (tmp_path, "is a folder"),
        (tmp_path / "no.toml", "no such file"),
        ("a\0b", "cannot be read"),
    ):
        with pytest.raises(JobError, match=words):
            read_job(path)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.binary(max_size=80), st.sampled_from(["", GOOD, GOOD + "[saw]\nkerf = "]))
def test_any_bytes_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, data: bytes, before: str
) -> None:
    file = tmp_path_factory.getbasetemp() / "fuzz.toml"
    file.write_bytes(before.encode() + data)
    error = refusal(file)
    assert error is None or error.faults


_SCALAR = st.one_of(
    st.booleans(),
    st.integers(),
    st.floats(),
    st.sampled_from(['"1 in"', '"x"', "[]", "{}", "1979-05-27", "07:32:00"]),
)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(
                [
                    "job.title",
                    "top.length",
                    "top.seams",
                    "top.thickness",
                    "trim.north",
                    "edge.corner_radius",
                    "edge.layers",
                    "stock",
                    "saw.kerf",
                    "override",
                    "base.overhang",
                    "splice.stagger_widths",
                    "coating.flood_film",
                    "seating.seats",
                    "pins.lengths",
                    "x.y",
                ]
            ),
            _SCALAR,
        ),
        max_size=6,
        unique_by=lambda p: p[0],
    )
)
def test_any_value_at_any_key_is_read_or_refused(pairs: list[tuple[str, object]]) -> None:
    text = "".join(f"{key} = {str(v).lower() if isinstance(v, bool) else v}\n" for key, v in pairs)
    error = refusal(text)
    if error is not None:
        assert error.faults
        assert [f.line or 0 for f in error.faults] == sorted(f.line or 0 for f in error.faults)


@pytest.mark.example
def test_reading_loads_no_heavy_library() -> None:
    code = (
        "import sys, edgewright.jobfile as f, edgewright.starter as s; "
        f"f.parse_job({GOOD!r}); "
        "print([m for m in ('pint', 'ezdxf', 'numpy', 'highspy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
