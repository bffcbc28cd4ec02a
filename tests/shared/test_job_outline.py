"""Tables of measured outlines: what each shape takes, and the sentence for figures that make no outline."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.errors import Fault, JobError
from edgewright.job_outline import (
    Boat,
    DEnd,
    Ellipse,
    LCounter,
    OutlineTable,
    Oval,
    Polygon,
    Quad,
    Racetrack,
    Rectangle,
    RegularPolygon,
    Round,
    Stations,
    Tapered,
    UCounter,
)
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job

# lines 1 to 6; the keys of a case begin on line 7, shape first
HEAD = '[job]\ntitle = "T"\nunits = "in"\n[top]\nthickness = "23/32"\nmaterial = "plywood"\n'
INCH = Fraction("25.4")

GOOD: dict[str, tuple[type[OutlineTable], str]] = {
    "rectangle": (Rectangle, "length = 72\nwidth = 36"),
    "racetrack": (Racetrack, "length = 72\nwidth = 36"),
    "round": (Round, "diameters = 48"),
    "ellipse": (Ellipse, "length = 72\nwidth = 36"),
    "oval": (Oval, "length = 72\nwidth = 36"),
    "boat": (Boat, "length = 96\nend_width = 36\nmiddle_width = 48"),
    "d_end": (DEnd, "length = 72\nwidth = 36"),
    "regular_polygon": (RegularPolygon, "sides = 8\nacross_flats = 44"),
    "polygon": (Polygon, "sides = [30, 40, 50]\ndiagonals = []"),
    "tapered": (Tapered, 'length = 58\nwest_width = 30\neast_width = 28\nsquare_side = "south"'),
    "quad": (Quad, "south = 40\neast = 30\nnorth = 40\nwest = 30\ndiagonals = [50, 50]"),
    "l_counter": (LCounter, "long_leg = 96\nshort_leg = 66\nlong_depth = 25\nshort_depth = 25"),
    "u_counter": (
        UCounter,
        "back_length = 100\nleft_leg = 60\nright_leg = 50\nback_depth = 25\nleft_depth = 24\nright_depth = 23",
    ),
    "stations": (Stations, "at = [0, 6, 12]\nsouth = [8, 9, 8]\nnorth = [9, 9, 9]"),
}


def read(shape: str, keys: str, after: str = "") -> ShapedJob:
    job = parse_any_job(f'{HEAD}[top.outline]\nshape = "{shape}"\n{keys}\n{after}')
    assert isinstance(job, ShapedJob)
    return job


def refusal(text: str) -> tuple[Fault, ...]:
    """Return the faults of a text; anything but a JobError passes through and fails the test."""
    try:
        parse_any_job(text)
    except JobError as error:
        return error.faults
    return ()


def faults(shape: str, keys: str) -> list[tuple[str, int | None, str]]:
    with pytest.raises(JobError) as caught:
        read(shape, keys)
    return [
        (fault.key.removeprefix("top.outline"), fault.line, fault.message) for fault in caught.value.faults
    ]


@pytest.mark.example
@pytest.mark.parametrize("shape", GOOD)
def test_every_shape_is_read(shape: str) -> None:
    kind, keys = GOOD[shape]
    outline = read(shape, keys).top.outline

    assert type(outline) is kind
    assert outline.shape == shape


@pytest.mark.example
@pytest.mark.parametrize("shape", GOOD)
def test_every_shape_can_be_what_is_left_of_another(shape: str) -> None:
    kind, keys = GOOD[shape]
    square = "length = 200\nwidth = 200"
    job = read("rectangle", square, f'[trim.to]\nshape = "{shape}"\n{keys}\noffset = [1, -2]\nturn = 30\n')
    plain = read("rectangle", square, f'[trim.to]\nshape = "{shape}"\n{keys}\n')

    assert job.trim.to is not None
    assert plain.trim.to is not None
    assert isinstance(job.trim.to, kind)
    assert [length.exact_mm / INCH for length in job.trim.to.offset] == [1, -2]
    assert job.trim.to.turn == 30
    assert ([length.exact_mm for length in plain.trim.to.offset], plain.trim.to.turn) == ([0, 0], 0)


# Box by hand from the figures of GOOD, in inches; None where it takes geometry.
BOXES = {
    "rectangle": (72, 36),
    "round": (48, 48),
    "boat": (96, 48),
    "tapered": (58, 30),
    "l_counter": (96, 66),
    "u_counter": (100, 60),
    "quad": None,
    "stations": None,
}


@pytest.mark.example
@pytest.mark.parametrize("shape", BOXES)
def test_the_box_is_known_where_the_figures_give_it(shape: str) -> None:
    box = read(shape, GOOD[shape][1]).top.outline.box

    assert (None if box is None else tuple(size / INCH for size in box)) == BOXES[shape]


@pytest.mark.example
def test_corners_of_a_rectangle_one_by_one_or_all_alike() -> None:
    size = "length = 72\nwidth = 36\n"
    each = read(
        "rectangle",
        size + "corner_radius = {south_west = 2}\nclipped = {north_east = {along = 1, across = 3}}",
    )
    alike = read("rectangle", size + "clipped = {along = 2, across = 1}")

    outline = each.top.outline
    assert isinstance(outline, Rectangle)
    clip = outline.clip("north_east")
    assert clip is not None
    assert (clip.along.given, clip.across.given) == ("1", "3")
    assert outline.clip("south_west") is None
    assert outline.corner_radius["south_west"].exact_mm == 2 * INCH
    assert isinstance(alike.top.outline, Rectangle)
    assert {alike.top.outline.clip(c) is not None for c in ("south_west", "north_east")} == {True}


@pytest.mark.reference
def test_the_angle_of_an_l_from_its_diagonal() -> None:
    """3-4-5: marks at 3 and a diagonal of 3 make 60 degrees (Euclid I.1), of 3 times the root of 2 a right angle."""
    keys = GOOD["l_counter"][1]
    sixty = read("l_counter", f"{keys}\ninside_diagonal = {{legs = 3, across = 3}}").top.outline
    right = read("l_counter", keys).top.outline
    given = read("l_counter", f"{keys}\ninside_angle = 91.5").top.outline

    assert isinstance(sixty, LCounter)
    assert isinstance(right, LCounter)
    assert isinstance(given, LCounter)
    assert sixty.angle_deg == pytest.approx(60, abs=1e-9)
    assert (right.angle_deg, given.angle_deg) == (90, 91.5)
    assert sixty.box is None


# Shape; keys from line 9 on; key at fault; line; words of the sentence (value, bound, hint).
BAD = [
    ("rectangle", "length = 72", ".width", 7, ["missing", "north to south"]),
    ("rectangle", "length = 5\nwidth = 36", ".length", 9, ["5 in", "6 in to 20 ft"]),
    (
        "rectangle",
        "length = 72\nwidth = 36\ncorner_radius = 19",
        ".corner_radius",
        11,
        ["19 in", "width of 36 in"],
    ),
    (
        "rectangle",
        "length = 72\nwidth = 36\nclipped = {along = 2}",
        ".clipped.along",
        11,
        ["2 in", "without across"],
    ),
    (
        "rectangle",
        "length = 72\nwidth = 36\nclipped = {along = 37, across = 1}",
        ".clipped",
        11,
        ["37 in", "length of 72 in"],
    ),
    (
        "rectangle",
        "length = 72\nwidth = 36\ncorner_radius = 1\nclipped = {along = 2, across = 2}",
        ".corner_radius",
        11,
        ["1 in", "clipped", "not both"],
    ),
    (
        "rectangle",
        "length = 72\nwidth = 36\nclipped = {along = 2, across = 2, south_west = {along = 1, across = 1}}",
        ".clipped.along",
        11,
        ["2 in", "south_west", "alike or each"],
    ),
    (
        "rectangle",
        "length = 72\nwidth = 36\ndiameter = 3",
        ".diameter",
        11,
        ['"diameter"', "known here are shape"],
    ),
    ("rectangle", "length = 72\nwidth = 36\noffset = [1, 1]", ".offset", 11, ['"offset"', "not a known key"]),
    ("racetrack", "length = 36\nwidth = 36", ".length", 9, ["36 in", "not longer", "round"]),
    ("round", "diameters = []", ".diameters", 9, ["0 entries", "1 to 8"]),
    ("round", "diameters = [48, 5]", ".diameters[1]", 9, ["5 in", "6 in to 20 ft"]),
    ("round", "diameters = 48\nwrap = 150", ".wrap", 10, ["beside diameters", "keep one"]),
    ("round", "", "", 7, ["none of diameters, wrap", "exactly one"]),
    ("round", 'diameters = 48\ntape_thickness = "0.01"', ".tape_thickness", 10, ["0.01 in", "without wrap"]),
    (
        "ellipse",
        "length = 72\nwidth = 36\nquarter_width = 18",
        ".quarter_width",
        11,
        ["18 in", "more than 18 in"],
    ),
    (
        "ellipse",
        "length = 72\nwidth = 36\nquarter_width = 36",
        ".quarter_width",
        11,
        ["36 in", "less than 36 in"],
    ),
    (
        "oval",
        "length = 72\nwidth = 36\nend_radius = 18",
        ".end_radius",
        11,
        ["18 in", "half the width", "racetrack"],
    ),
    (
        "oval",
        "length = 72\nwidth = 36\nend_radius = 9\nquarter_width = 30",
        ".quarter_width",
        12,
        ["beside end_radius (9 in)"],
    ),
    ("oval", "length = 30\nwidth = 36", ".length", 9, ["30 in", "not longer"]),
    (
        "boat",
        "length = 96\nend_width = 48\nmiddle_width = 48",
        ".middle_width",
        11,
        ["48 in", "end_width = 48 in"],
    ),
    (
        "boat",
        "length = 30\nend_width = 10\nmiddle_width = 41",
        ".middle_width",
        11,
        ["41 in", "at most 40 in"],
    ),
    ("d_end", "length = 72\nwidth = 36\ndepth = 19", ".depth", 11, ["19 in", "half the chord", "18 in"]),
    ("d_end", "length = 72\nwidth = 36\nchord = 37", ".chord", 11, ["37 in", "36 in"]),
    ("d_end", "length = 35\nwidth = 36", ".length", 9, ["35 in", "2 bowed ends of 18 in", "at least 36 in"]),
    ("d_end", 'length = 72\nwidth = 36\nends = "north"', ".ends", 11, ['"north"', '"east", "west", "both"']),
    ("regular_polygon", "sides = 8", "", 7, ["none of across_flats, across_corners, side"]),
    (
        "regular_polygon",
        "sides = 8\nside = 9\nacross_flats = 44",
        ".side",
        10,
        ["beside across_flats (44 in)"],
    ),
    ("regular_polygon", "sides = 5\nacross_flats = 44", ".across_flats", 10, ["44 in", "5 sides"]),
    ("regular_polygon", "sides = 2\nside = 9", ".sides", 9, ["2", "3 to 64"]),
    ("regular_polygon", "sides = [9]\nside = 9", ".sides", 9, ["a list of 1", "whole number"]),
    (
        "polygon",
        "sides = [30, 40, 70]\ndiagonals = []",
        ".sides[2]",
        9,
        ["70 in", "30 in", "40 in", "70 in, is"],
    ),
    ("polygon", "sides = [30, 40]\ndiagonals = []", ".sides", 9, ["2 entries", "3 to 64"]),
    ("polygon", "sides = [30, 40, 30, 40]\ndiagonals = []", ".diagonals", 10, ["0 entries", "exactly 1"]),
    ("polygon", "sides = [30, 40, 30, 40]\ndiagonals = [71]", ".diagonals[0]", 10, ["71 in", "70 in"]),
    (
        "polygon",
        "sides = [30, 40, 50]\ndiagonals = []\nangles = [90, 90, 90, 90]",
        ".angles",
        11,
        ["4 entries", "3 are"],
    ),
    (
        "polygon",
        "sides = [30, 40, 50]\ndiagonals = []\nangles = [0, 90, 90]",
        ".angles[0]",
        11,
        ["0", "1 to 359"],
    ),
    ("tapered", "length = 58\nwest_width = 30\neast_width = 28", ".square_side", 7, ["missing"]),
    (
        "quad",
        "south = 40\neast = 30\nnorth = 40\nwest = 30\ndiagonals = [70, 50]",
        ".diagonals[0]",
        13,
        ["70 in", "south = 40 in", "east = 30 in", "70 in, is possible"],
    ),
    (
        "quad",
        "south = 40\neast = 30\nnorth = 40\nwest = 30\ndiagonals = [50]",
        ".diagonals",
        13,
        ["1 entries"],
    ),
    (
        "l_counter",
        "long_leg = 25\nshort_leg = 66\nlong_depth = 25\nshort_depth = 25",
        ".long_leg",
        9,
        ["25 in", "635"],
    ),
    (
        "l_counter",
        GOOD["l_counter"][1] + "\ninside_diagonal = {legs = 12, across = 24}",
        ".inside_diagonal.across",
        13,
        ["24 in", "two legs of 12 in", "24 in, is possible"],
    ),
    (
        "l_counter",
        GOOD["l_counter"][1] + "\ninside_diagonal = {legs = 20, across = 1}",
        ".inside_diagonal",
        13,
        ["degrees", "30 to 175"],
    ),
    ("l_counter", GOOD["l_counter"][1] + "\ninside_angle = 180", ".inside_angle", 13, ["180", "30 to 175"]),
    ("l_counter", GOOD["l_counter"][1] + '\ninside_angle = "90"', ".inside_angle", 13, ['"90"', "number"]),
    (
        "u_counter",
        "back_length = 47\nleft_leg = 25\nright_leg = 50\nback_depth = 25\nleft_depth = 24\nright_depth = 23",
        ".back_length",
        9,
        ["47 in", "more than 47 in"],
    ),
    (
        "stations",
        "at = [0, 6, 6]\nsouth = [8, 9, 8]\nnorth = [9, 9, 9]",
        ".at[2]",
        9,
        ["6 in", "west to east"],
    ),
    (
        "stations",
        "at = [0, 6, 12]\nsouth = [8, 9]\nnorth = [9, 9, 9]",
        ".south",
        10,
        ["2 entries", "3 are allowed"],
    ),
    ("stations", "at = [0, 6, 12]\nnorth = [9, 9, 9]", "", 7, ["no south", 'straight = "south"']),
    (
        "stations",
        'at = [0, 6]\nsouth = [8, 9]\nnorth = [9, 9]\nstraight = "north"',
        ".north",
        11,
        ["beside straight", "keep one"],
    ),
    (
        "stations",
        "at = [0, 6, 12]\nsouth = [8, -9, 8]\nnorth = [9, 9, 9]",
        ".north[1]",
        11,
        ["9 in", "no wood"],
    ),
    ("circle", "diameter = 4", ".shape", 8, ['"circle"', '"round"', "can be chosen"]),
    ("Round", "diameters = 48", ".shape", 8, ['did you mean "round"?']),
    ("l-counter", "", ".shape", 8, ['did you mean "l_counter"?']),
]


@pytest.mark.example
@pytest.mark.parametrize(
    ("shape", "keys", "key", "line", "words"), BAD, ids=[f"{c[0]}-{i}" for i, c in enumerate(BAD)]
)
def test_a_fault_names_key_line_value_and_bound(
    shape: str, keys: str, key: str, line: int, words: list[str]
) -> None:
    found = faults(shape, keys)

    assert (found[0][0], found[0][1]) == (key, line), found
    for word in words:
        assert word in found[0][2], found[0][2]


@pytest.mark.example
@pytest.mark.parametrize(
    ("table", "key", "words"),
    [
        ("[top.outline]\n", "top.outline.shape", ["missing", '"rectangle"']),
        ("[top.outline]\nshape = 5\n", "top.outline.shape", ["5 is not known"]),
        ("[top.outline]\nshape = [[]]\n", "top.outline.shape", ["a list of 1"]),
        ('[top]\noutline = "round"\n', "top.outline", ['"round"', "a table"]),
        ("[top]\noutline = []\n", "top.outline", ["a list of 0", "a table"]),
    ],
)
def test_a_table_without_a_shape_is_told(table: str, key: str, words: list[str]) -> None:
    text = HEAD + table if table.startswith("[top.o") else HEAD + table.removeprefix("[top]\n")
    with pytest.raises(JobError) as caught:
        parse_any_job(text)

    assert [fault.key for fault in caught.value.faults] == [key]
    assert all(word in caught.value.faults[0].message for word in words), caught.value


@pytest.mark.example
def test_bare_numbers_of_an_outline_need_a_unit() -> None:
    with pytest.raises(JobError, match="units = ") as caught:
        parse_any_job(
            HEAD.replace('units = "in"\n', "").replace('"23/32"', '"1 in"')
            + '[top.outline]\nshape = "round"\ndiameters = 48'
        )

    assert [(fault.key, fault.line) for fault in caught.value.faults] == [("top.outline.diameters", 8)]


KEYS = sorted({key for kind, _ in GOOD.values() for key in kind.model_fields} | {"file", "layer", "x"})
VALUES = st.one_of(
    st.booleans().map(lambda b: str(b).lower()),
    st.integers(-300, 300).map(str),
    st.floats().map(str),
    st.lists(st.integers(-5, 60), max_size=5).map(str),
    st.sampled_from(
        ['"1 in"', '""', '"../x.dxf"', '"."', "[[]]", "{}", "{along = 1, across = 2}", "1979-05-27"]
    ),
    st.sampled_from(['"south"', '"both"', "{legs = 3, across = 4}", '["1 in", {}]', "1e400", "-0.0"]),
)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=400)
@given(
    st.sampled_from([*GOOD, "drawing"]),
    st.lists(st.tuples(st.sampled_from(KEYS), VALUES), max_size=9, unique_by=lambda pair: pair[0]),
    st.sampled_from(["top.outline", "trim.to"]),
)
def test_any_value_of_an_outline_is_read_or_refused(
    shape: str, pairs: list[tuple[str, str]], table: str
) -> None:
    keys = "".join(f"{key} = {value}\n" for key, value in pairs if key != "shape")
    old = '[top.outline]\nshape = "round"\ndiameters = 48\n' if table == "trim.to" else ""
    for fault in refusal(f'{HEAD}{old}[{table}]\nshape = "{shape}"\n{keys}'):
        assert fault.message
        assert "\n" not in fault.message
        # what chooses between the tables stays inside
        assert f"outline.{shape}" not in fault.key
        assert not any(leak in fault.message for leak in ("Input should", "union_tag", "Value error"))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.integers(8, 200), st.integers(8, 200), st.integers(-40, 40), st.integers(-40, 40))
def test_measured_corners_always_close(length: int, width: int, dx: int, dy: int) -> None:
    """Four corners of a convex quadrilateral, taped to 1/16 in, are never refused."""
    ne = (length + dx / 16, width + dy / 16)

    def tape(a: tuple[float, float], b: tuple[float, float]) -> float:
        return round(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 * 16) / 16

    sw, se, nw = (0.0, 0.0), (float(length), 0.0), (0.0, float(width))
    keys = f"south = {tape(sw, se)}\neast = {tape(se, ne)}\nnorth = {tape(ne, nw)}\nwest = {tape(nw, sw)}\n"
    outline = read("quad", f"{keys}diagonals = [{tape(sw, ne)}, {tape(se, nw)}]").top.outline

    assert isinstance(outline, Quad)
    assert outline.south.exact_mm == length * INCH
