"""The job of a top of any shape: trims, build-up, cut-outs, what must fit together, digest, summary and schema."""

import subprocess
import sys
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.errors import Fault, JobError
from edgewright.job import Job, KeyUse, given_and_used, job_digest, job_schema
from edgewright.job_outline import Drawing, Round
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job, parse_job, read_any_job, read_job

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples" / "shapes").glob("*.toml"))
PLAIN = '[job]\ntitle = "T"\nunits = "in"\n[top]\nlength = 72\nwidth = 36\nthickness = "23/32"\nmaterial = "plywood"\n'
# lines 1 to 10; what a case adds begins on line 11
GOOD = (
    '[job]\ntitle = "T"\nunits = "in"\n[top]\nthickness = "23/32"\nmaterial = "plywood"\n'
    '[top.outline]\nshape = "rectangle"\nlength = 72\nwidth = 36\n'
)
INCH = Fraction("25.4")


def shaped(text: str) -> ShapedJob:
    job = parse_any_job(text)
    assert isinstance(job, ShapedJob)
    return job


def faults(text: str) -> list[tuple[str, int | None, str]]:
    with pytest.raises(JobError) as caught:
        parse_any_job(text)
    return [(fault.key, fault.line, fault.message) for fault in caught.value.faults]


def refusal(text: str) -> tuple[Fault, ...]:
    """Return the faults of a text; anything but a JobError passes through and fails the test."""
    try:
        parse_any_job(text)
    except JobError as error:
        return error.faults
    return ()


def rows(job: Job | ShapedJob) -> dict[str, KeyUse]:
    return {row.key: row for row in given_and_used(job)}


@pytest.mark.example
def test_the_outline_decides_which_job_is_read() -> None:
    assert isinstance(parse_any_job(PLAIN), Job)
    assert isinstance(parse_any_job(GOOD), ShapedJob)
    assert parse_any_job(PLAIN) == parse_job(PLAIN)


@pytest.mark.example
def test_a_plain_reader_refuses_an_outline_in_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(GOOD, encoding="utf-8")

    with pytest.raises(
        JobError, match='shape = "rectangle" cannot be used here: only a top with length and width'
    ):
        read_job(tmp_path / "a.toml")
    assert isinstance(read_any_job(tmp_path / "a.toml"), ShapedJob)


@pytest.mark.example
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_read(path: Path) -> None:
    job = read_any_job(path)

    assert isinstance(job, ShapedJob)
    assert hash(job) == hash(read_any_job(path))
    assert len(job_digest(job)) == 64


@pytest.mark.example
def test_the_examples_show_every_shape() -> None:
    shown = {tomllib.loads(path.read_text(encoding="utf-8"))["top"]["outline"]["shape"] for path in EXAMPLES}
    schema = job_schema()["$defs"]["ShapedTop"]["properties"]["outline"]

    assert shown == set(schema["discriminator"]["mapping"])


@pytest.mark.example
def test_what_is_left_out_has_its_default() -> None:
    job = shaped(GOOD)

    assert (job.trim.way, job.trim.cuts, job.cut_outs) == (None, (), ())
    assert (job.edge.build_up, job.edge.skirt_drop, job.edge.unrouted) == ("flat", None, ())
    assert job.edge.inside_radius.exact_mm == INCH / 2
    assert job.edge.outside_radius.exact_mm == 0
    assert job.joint_clear == job.splice.from_seam
    assert job.strip_thickness.exact_mm == Fraction(23, 32) * INCH
    assert (job.units, job.bench_grid.given) == ("in", "1/32 in")
    assert job.top.finished_edge.depth.exact_mm == 0
    assert shaped(GOOD + "[edge]\njoint_clear = 2\ncorner_radius = 1\n").joint_clear.exact_mm == 2 * INCH
    assert shaped(GOOD + "[edge]\ncorner_radius = 1\n").edge.outside_radius.exact_mm == INCH


@pytest.mark.example
def test_edges_are_cut_in_the_order_of_the_file_or_as_told() -> None:
    edges = '[trim.edges]\n"north-east corner" = 1\nsouth = 2\neast = "1/2"\n'
    order = '[trim]\ncut_order = ["east", "north-east corner", "south"]\n'

    assert [(cut.name, cut.length.exact_mm / INCH) for cut in shaped(GOOD + edges).trim.cuts] == [
        ("north-east corner", 1),
        ("south", 2),
        ("east", Fraction(1, 2)),
    ]
    told = shaped(GOOD + order + edges)
    assert [cut.name for cut in told.trim.cuts] == ["east", "north-east corner", "south"]
    assert (told.trim.way, [cut.name for cut in told.trim.edges]) == (
        "edges",
        ["north-east corner", "south", "east"],
    )


@pytest.mark.example
@pytest.mark.parametrize(
    ("trim", "way"),
    [
        ("[trim]\nall_round = 1", "all_round"),
        ("[trim.edges]\nsouth = 1", "edges"),
        ('[trim]\nparallel = {edge = "north", to = "south", distance = 34}', "parallel"),
        ("[trim]\nlargest_rectangle = true", "largest_rectangle"),
        ('[trim.to]\nshape = "round"\nwrap = 90', "to"),
        ("[trim]\nlargest_rectangle = false", None),
    ],
)
def test_each_way_to_trim_is_read(trim: str, way: str | None) -> None:
    assert shaped(f"{GOOD}{trim}\n").trim.way == way


HOLE = '[[cut_out]]\nkind = "round"\nx = 20\ny = 18\ndiameter = 8\n'

# What is added below GOOD; key; line; words the message must hold.
BELOW = [
    (
        "[trim]\nall_round = 1\nlargest_rectangle = true",
        "trim.largest_rectangle",
        13,
        ["beside all_round (1 in)"],
    ),
    (
        "[trim]\nall_round = 1\n[trim.edges]\nsouth = 1",
        "trim.edges",
        13,
        ["beside all_round (1 in)", "keep one of all_round, edges"],
    ),
    ("[trim]\nall_round = 18", "trim.all_round", 12, ["18 in", "36 in wide", "at least 2 in"]),
    ("[trim]\nnorth = 4", "trim.north", 12, ['"north"', "length and width", "[top.outline]"]),
    ("[trim]\nfinished_width = 4", "trim.finished_width", 12, ['"finished_width"', "length and width"]),
    ("[trim.edges]\nsouth = -1\neast = 1", "trim.edges.south", 12, ["-1 in", "0 in to 20 ft"]),
    ("[trim.edges]\neast = true", "trim.edges.east", 12, ["true is not a length"]),
    ('[trim.edges]\n"" = 1', "trim.edges.", 12, ["blank"]),
    ("[trim]\nedges = 4", "trim.edges", 12, ["4 is not a table", "like south"]),
    ('[trim]\ncut_order = ["west"]\n[trim.edges]\neast = 1', "trim.cut_order", 12, ['leaves out "east"']),
    (
        '[trim]\ncut_order = ["east", "east"]\n[trim.edges]\neast = 1',
        "trim.cut_order[1]",
        12,
        ['"east" is named twice'],
    ),
    ('[trim]\nparallel = {edge = "n", to = "n", distance = 9}', "trim.parallel.to", 12, ['"n" is the edge']),
    ('[trim]\nparallel = {edge = "n", to = "s"}', "trim.parallel.distance", 12, ["missing", "left between"]),
    (
        '[trim]\nparallel = {edge = "n", to = "s", distance = 1}',
        "trim.parallel.distance",
        12,
        ["1 in", "2 in"],
    ),
    (
        '[trim.to]\nshape = "round"\ndiameters = 40',
        "trim.to",
        11,
        ["width of 40 in", "36 in", "only takes away"],
    ),
    ('[trim.to]\nshape = "drawing"\nfile = "x.dxf"', "trim.to.shape", 12, ['"drawing" is not known here']),
    ('[trim.to]\nshape = "round"', "trim.to", 11, ["none of diameters, wrap"]),
    (
        '[trim.to]\nshape = "round"\ndiameters = 30\noffset = [1]',
        "trim.to.offset",
        14,
        ["1 entries", "2 are"],
    ),
    ('[trim.to]\nshape = "round"\ndiameters = 30\nturn = 361', "trim.to.turn", 14, ["361", "-360 to 360"]),
    ('[edge]\nbuild_up = "skirt_under"', "edge.build_up", 12, ['"skirt_under"', "without skirt_drop"]),
    ("[edge]\nskirt_drop = 3", "edge.skirt_drop", 12, ["3 in", 'build_up = "flat"']),
    (
        '[edge]\nbuild_up = "skirt"',
        "edge.build_up",
        12,
        ['"skirt"', '"flat", "skirt_under", "skirt_on_edge"'],
    ),
    ("[edge]\nsegments = 2", "edge.segments", 12, ["2", "3 to 96"]),
    ('[edge]\nunrouted = ["west", "west"]', "edge.unrouted[1]", 12, ['"west" is named twice']),
    ('[edge]\nunrouted = "west"', "edge.unrouted", 12, ['"west" is not a list', "names of edges"]),
    ("[edge]\ncorner_radius = {south_west = 1}", "edge.corner_radius", 12, ["a table is not a length"]),
    ("[edge]\ncorner_radius = 19", "edge.corner_radius", 12, ["19 in", "18 in"]),
    ("[edge]\ninside_radius = -1", "edge.inside_radius", 12, ["-1 in", "0 in to 10 ft"]),
    ("[edge]\nstrip_width = 10\nmax_strip_width = 9", "edge.strip_width", 12, ["10 in", "9 in"]),
    ("[base]\nfootprint_length = 73\nfootprint_width = 9", "base.footprint_length", 12, ["73 in", "72 in"]),
    ("[top.finished_edge]\ndepth = 18", "top.finished_edge.depth", 12, ["18 in", "out of range"]),
    ("[top.finished_edge]\narris_radius = 1", "top.finished_edge.arris_radius", 12, ["1 in", "23/32 in"]),
    ("[top.finished_edge.north]\ndepth = 1", "top.finished_edge.north", 11, ['"north"', "known only"]),
    (
        '[[top.seams]]\nacross = "width"\nat = 36',
        "top.seams[0].at",
        13,
        ["36 in", "width of 36 in"],
    ),
    ('[[cut_out]]\nkind = "round"\nx = 1\ny = 18', "cut_out[0].diameter", 11, ["missing", "diameter"]),
    (f"{HOLE}turn = 4", "cut_out[0].turn", 16, ["4.0", 'kind = "round"']),
    (f"{HOLE}length = 4", "cut_out[0].length", 16, ["4 in", 'kind = "round"', "it has diameter"]),
    (HOLE.replace("20", "3"), "cut_out[0].x", 13, ["3 in", "4 in", "length of 72 in"]),
    (HOLE.replace("18", "33"), "cut_out[0].y", 14, ["33 in", "4 in", "width of 36 in"]),
    (HOLE.replace('"round"', '"oval"'), "cut_out[0].kind", 12, ['"oval"', '"round", "rectangle"']),
    (f'{HOLE}name = "a"\n{HOLE}name = "a"', "cut_out[1].name", 22, ['"a" is the name of an earlier']),
    (
        '[[cut_out]]\nkind = "rectangle"\nx = 20\ny = 18\nlength = 8\nwidth = 6\ncorner_radius = 4',
        "cut_out[0].corner_radius",
        17,
        ["4 in", "half of 6 in"],
    ),
    ("[cut_out]\nx = 1", "cut_out", 11, ["a table is not a list", "[[cut_out]]"]),
    ("[top.outlines]\nx = 1", "top.outlines", 11, ["did you mean outline?"]),
]


@pytest.mark.example
@pytest.mark.parametrize(
    ("added", "key", "line", "words"), BELOW, ids=[f"{c[1]}-{i}" for i, c in enumerate(BELOW)]
)
def test_a_fault_names_line_key_value_and_bound(added: str, key: str, line: int, words: list[str]) -> None:
    found = faults(GOOD + added)

    assert (key, line) in [(k, n) for k, n, _ in found], found
    message = next(m for k, n, m in found if (k, n) == (key, line))
    for word in words:
        assert word in message, message


@pytest.mark.example
def test_a_length_beside_an_outline_is_refused() -> None:
    text = GOOD.replace("[top]\n", "[top]\nlength = 72\nwidth = 36\n")

    assert [(key, line) for key, line, _ in faults(text)] == [("top.length", 5), ("top.width", 6)]
    assert "72 is given beside [top.outline]" in faults(text)[0][2]


@pytest.mark.example
@pytest.mark.parametrize(
    ("added", "key"),
    [
        ('[edge]\nbuild_up = "flat"', "edge.build_up"),
        ("[trim]\nall_round = 1", "trim.all_round"),
        (HOLE, "cut_out"),
    ],
)
def test_keys_of_shaped_tops_are_pointed_to_from_a_plain_one(added: str, key: str) -> None:
    ((found, _, message),) = faults(PLAIN + added)

    assert found == key
    assert "is known only for a top with [top.outline]" in message


@pytest.mark.example
def test_all_faults_are_told_at_once() -> None:
    text = GOOD.replace("width = 36", "width = 36\nradius = 1") + "[saw]\nkerf = 0\n" + HOLE + "name = 4\n"

    assert [(key, line) for key, line, _ in faults(text)] == [
        ("top.outline.radius", 11),
        ("saw.kerf", 13),
        ("cut_out[0].name", 19),
    ]
    between = GOOD + "[saw]\nkerf = 0\n[trim]\nall_round = 30\n" + HOLE + HOLE.replace("20", "99")
    assert [key for key, _, _ in faults(between)] == ["saw.kerf", "trim.all_round", "cut_out[1].x"]


@pytest.mark.example
def test_the_digest_follows_values_not_their_spelling() -> None:
    round_top = GOOD.partition("[top.outline]")[0] + '[top.outline]\nshape = "round"\ndiameters = 48\n'
    same = [
        (GOOD, GOOD.replace("length = 72", 'length = "6 ft"') + "[trim.edges]\n"),
        (round_top, round_top.replace("48", "[48]")),
        (
            GOOD + "[trim.edges]\nsouth = 1\neast = 2\n",
            GOOD + '[trim]\ncut_order = ["south", "east"]\n[trim.edges]\neast = 2\nsouth = 1\n',
        ),
        (GOOD, GOOD + '[edge]\njoint_clear = 6\ninside_radius = "12.7 mm"\n'),
        (
            GOOD + '[trim.to]\nshape = "d_end"\nlength = 60\nwidth = 30\n',
            GOOD + '[trim.to]\nshape = "d_end"\nlength = 60\nwidth = 30\ndepth = 15\nchord = 30\nturn = 0\n',
        ),
    ]
    for one, other in same:
        assert job_digest(shaped(one)) == job_digest(shaped(other))


@pytest.mark.example
@pytest.mark.parametrize(
    "changed",
    [
        PLAIN,
        GOOD.replace("width = 36", "width = 36.01"),
        GOOD + "corner_radius = 1\n",
        GOOD + "clipped = {along = 1, across = 1}\n",
        GOOD + "[trim]\nlargest_rectangle = true\n",
        GOOD + "[trim.edges]\nsouth = 1\neast = 2\n",
        GOOD + "[trim.edges]\neast = 2\nsouth = 1\n",
        GOOD + "[edge]\nsegments = 12\n",
        GOOD + '[edge]\nunrouted = ["north"]\n',
        GOOD + HOLE,
    ],
)
def test_the_digest_changes_with_any_value(changed: str) -> None:
    others = {
        job_digest(parse_any_job(text))
        for text in (GOOD, GOOD + "[trim.edges]\nsouth = 2\neast = 1\n", GOOD + HOLE.replace("18", "17"))
    }

    assert job_digest(parse_any_job(changed)) not in others


@pytest.mark.example
def test_the_order_of_cuts_is_part_of_the_digest() -> None:
    one = shaped(GOOD + "[trim.edges]\nsouth = 1\neast = 2\n")
    other = shaped(GOOD + "[trim.edges]\neast = 2\nsouth = 1\n")

    assert job_digest(one) != job_digest(other)


@pytest.mark.example
def test_the_summary_tells_given_used_and_origin() -> None:
    used = rows(shaped(GOOD + '[trim.edges]\n"south" = "1/2"\n[edge]\nunrouted = ["north"]\n' + HOLE))

    assert used["top.outline.length"] == KeyUse("top.outline.length", "72", "72 in = 1828.8 mm", "file", "")
    assert used["trim.edges.south"] == KeyUse("trim.edges.south", "1/2", "1/2 in = 12.7 mm", "file", "")
    assert used["edge.unrouted"].used == "north"
    assert used["cut_out[0].diameter"].used == "8 in = 203.2 mm"
    assert (used["edge.joint_clear"].used, used["edge.joint_clear"].origin) == (
        "6 in = 152.4 mm",
        "splice.from_seam",
    )
    assert "3/16 to 1/2 in" in used["edge.inside_radius"].origin
    d_end = rows(shaped(GOOD.replace('"rectangle"', '"d_end"')))
    assert (d_end["top.outline.depth"].used, d_end["top.outline.depth"].source) == (
        "18 in = 457.2 mm",
        "default",
    )


@pytest.mark.property
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_default_in_the_summary_has_an_origin(path: Path) -> None:
    for row in given_and_used(read_any_job(path)):
        assert (row.source == "default") == (row.given is None) == bool(row.origin), row


def drawing(path: Path, width: float = 30.0) -> None:
    document = ezdxf.new("R2000", setup=False, units=1)
    document.modelspace().add_lwpolyline([(0, 0), (60, 0), (60, width), (0, width)], close=True)
    document.saveas(path)


DRAWN = GOOD.partition("[top.outline]")[0] + '[top.outline]\nshape = "drawing"\nfile = "top.dxf"\n'


@pytest.mark.example
def test_a_drawing_is_read_from_the_folder_of_the_job_and_kept(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(DRAWN, encoding="utf-8")
    drawing(tmp_path / "top.dxf")
    job = read_any_job(tmp_path / "job.toml")
    assert isinstance(job, ShapedJob)
    assert isinstance(job.top.outline, Drawing)
    before = job_digest(job)

    assert job.top.outline.loops == (
        ((0.0, 0.0, 0.0), (1524.0, 0.0, 0.0), (1524.0, 762.0, 0.0), (0.0, 762.0, 0.0)),
    )
    assert job == read_any_job(tmp_path / "job.toml")
    # another drawing of the same name is another job
    drawing(tmp_path / "top.dxf", 31)
    assert job_digest(read_any_job(tmp_path / "job.toml")) != before
    assert job != read_any_job(tmp_path / "job.toml")
    # where it lies is not
    (tmp_path / "sub").mkdir()
    drawing(tmp_path / "sub" / "other.dxf")
    (tmp_path / "job.toml").write_text(DRAWN.replace("top.dxf", "sub/other.dxf"), encoding="utf-8")
    assert job_digest(read_any_job(tmp_path / "job.toml")) == before


@pytest.mark.example
@pytest.mark.parametrize(
    ("added", "key", "line", "words"),
    [
        ("", "top.outline.file", 9, ['"none.dxf" is not there', "folder of the job file"]),
        ("loops = [[[0, 0, 0]]]", "top.outline.loops", 10, ["not a known key"]),
        ('units = "cm"', "top.outline.units", 10, ['"cm"', '"in", "mm"']),
    ],
)
def test_faults_of_a_drawing_stand_at_its_keys(
    tmp_path: Path, added: str, key: str, line: int, words: list[str]
) -> None:
    (tmp_path / "job.toml").write_text(DRAWN.replace("top.dxf", "none.dxf") + added, encoding="utf-8")
    with pytest.raises(JobError) as caught:
        read_any_job(tmp_path / "job.toml")

    (found,) = caught.value.faults
    assert (found.key, found.line) == (key, line)
    assert all(word in found.message for word in words), found.message


@pytest.mark.example
def test_units_and_layer_that_a_drawing_contradicts_are_told_there(tmp_path: Path) -> None:
    drawing(tmp_path / "top.dxf")
    for added, key in (('units = "mm"', "top.outline.units"), ('layer = "X"', "top.outline.layer")):
        (tmp_path / "job.toml").write_text(DRAWN + added, encoding="utf-8")
        with pytest.raises(JobError) as caught:
            read_any_job(tmp_path / "job.toml")
        assert [(fault.key, fault.line) for fault in caught.value.faults] == [(key, 10)]


@pytest.mark.example
def test_a_drawing_cannot_be_changed_in_the_job(tmp_path: Path) -> None:
    drawing(tmp_path / "top.dxf")
    (tmp_path / "job.toml").write_text(DRAWN, encoding="utf-8")
    job = read_any_job(tmp_path / "job.toml")

    with pytest.raises((ValueError, AttributeError)):
        job.top.outline.loops = ()  # type: ignore[union-attr, misc]


@pytest.mark.example
def test_the_schema_tells_of_all_kinds_of_job() -> None:
    schema = job_schema()
    kinds = {part["$ref"].rpartition("/")[2] for part in schema["anyOf"]}

    assert kinds == {"Job", "ShapedJob", "NewTopJob"}
    outline = schema["$defs"]["ShapedTop"]["properties"]["outline"]["discriminator"]["mapping"]
    target = schema["$defs"]["ShapedTrim"]["properties"]["to"]["anyOf"][0]["discriminator"]["mapping"]
    assert set(outline) - set(target) == {"drawing"}
    assert {"offset", "turn"} <= schema["$defs"]["PlacedRound"]["properties"].keys()
    assert "offset" not in schema["$defs"][Round.__name__]["properties"]


@pytest.mark.property
def test_every_key_has_a_description() -> None:
    bare = [
        (name, key)
        for name, model in job_schema()["$defs"].items()
        for key, field in model.get("properties", {}).items()
        if not field.get("description")
    ]
    assert bare == []


@pytest.mark.example
def test_a_plain_job_loads_no_shapes_and_a_shaped_one_no_drawing_library() -> None:
    code = (
        "import sys, edgewright.jobfile as f; f.parse_any_job({!r}); "
        "print([m for m in ('edgewright.job_shaped', 'ezdxf', 'numpy') if m in sys.modules])"
    )
    for text, loaded in ((PLAIN, "[]"), (GOOD, "['edgewright.job_shaped']")):
        done = subprocess.run(
            [sys.executable, "-c", code.format(text)], capture_output=True, text=True, check=True
        )
        assert done.stdout.strip() == loaded


def _toml(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(
                [
                    "top.outline",
                    "top.outline.shape",
                    "top.length",
                    "top.seams",
                    "top.finished_edge",
                    "trim",
                    "trim.edges",
                    "trim.edges.south",
                    "trim.parallel",
                    "trim.to",
                    "trim.to.shape",
                    "trim.to.offset",
                    "trim.cut_order",
                    "edge.corner_radius",
                    "edge.unrouted",
                    "edge.skirt_drop",
                    "cut_out",
                    "x.y",
                ]
            ),
            st.one_of(
                st.booleans(),
                st.integers(),
                st.floats(),
                st.sampled_from(
                    [
                        '"1 in"',
                        '"round"',
                        '"drawing"',
                        "[]",
                        "{}",
                        "[{}]",
                        "[[]]",
                        "{shape = []}",
                        "1979-05-27",
                    ]
                ),
            ),
        ),
        max_size=6,
        unique_by=lambda pair: pair[0],
    ),
    st.sampled_from(
        ["", 'top.outline.shape = "round"\n', 'top.outline.file = "a"\ntop.outline.shape = "drawing"\n']
    ),
)
def test_any_value_at_any_key_is_read_or_refused(pairs: list[tuple[str, object]], before: str) -> None:
    text = before + "".join(f"{key} = {_toml(value)}\n" for key, value in pairs)
    for fault in refusal(text):
        assert fault.message
        assert "\n" not in fault.message
        assert not any(
            leak in fault.message for leak in ("Input should", "union_tag", "Value error", "Extra in")
        )
