"""`plan` and `check` of a top with an outline: what is written, what is withheld, and how faults are told."""

import json
import os
import re
import shutil
from pathlib import Path

import ezdxf
import pytest
from cli_jobs import files_below, program, run

SHAPES = Path(__file__).resolve().parents[2] / "examples" / "shapes"


def example(name, *changes, more=""):
    """Text of an example with some of its lines changed; each change must find its line."""
    text = (SHAPES / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text + more


@pytest.fixture
def write(tmp_path):
    def write(text, name="job.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


OCTAGON = "octagon"
#: Round-overs of 3/4 in each need 1 1/2 in; two layers of 23/32 in are 1 7/16 in: finding 201.
TOO_DEEP = example(OCTAGON, more='top_round_over = "3/4"\nbottom_round_over = "3/4"\n')
#: A ring on solid wood holds it across the grain: finding 313.
CROSS_GRAIN = example("round_diameters", ('"plywood"', '"solid wood"\ngrain = "length"'))


@pytest.mark.parametrize(("job", "number"), [(TOO_DEEP, 201), (CROSS_GRAIN, 313)], ids=["201", "313"])
def test_while_a_stop_is_open_nothing_to_cut_by_is_given(tmp_path, write, job, number):
    result = run("plan", write(job), "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (1, "")
    files = files_below(tmp_path / "out")
    assert sorted(files) == ["customer.pdf", "packet.pdf", "plan.json", "quantities.csv", "tables.xlsx"]
    plan = json.loads(files["plan.json"])
    assert plan["status"] == "NOT FOR CUTTING"
    assert not {"cuts", "offcuts", "router", "pieces", "blanks"} & set(plan)
    assert number in [finding["number"] for finding in plan["findings"] if finding["severity"] == "stop"]
    assert files["quantities.csv"].startswith(b"NOT FOR CUTTING,")
    assert "NOT FOR CUTTING" in result.stdout.splitlines()[-1]


def test_a_stop_may_be_overridden_with_its_figures_and_a_reason(tmp_path, write):
    found = json.loads(run("check", write(CROSS_GRAIN), "--json").stdout)["findings"]
    (stop,) = [finding for finding in found if finding["severity"] == "stop"]
    override = (
        f"[[override]]\nfinding = {stop['number']}\nfigures = {json.dumps(stop['figures'])}\n"
        'reason = "strips in slotted screws"\n'
    )
    result = run("check", write(CROSS_GRAIN + override))
    assert (result.exit_code, result.stderr) == (0, "")
    assert "slotted screws" in " ".join(result.stdout.split())


@pytest.mark.parametrize(
    ("job", "code", "status"),
    [(example("tapered"), 0, "ready"), (TOO_DEEP, 1, "NOT FOR CUTTING"), ("[top]\n", 2, "faulty")],
    ids=["ready", "stop", "faulty"],
)
def test_check_gives_its_exit_code_and_its_json(write, job, code, status):
    path = write(job)
    assert run("check", path).exit_code == code
    result = run("check", path, "--json")
    assert (result.exit_code, result.stderr) == (code, "")
    content = json.loads(result.stdout)
    assert content["status"] == status
    assert content["shortage"] is None
    assert bool(content["faults"]) == (code == 2)


def test_a_shape_that_cannot_be_is_a_fault_with_key_and_line_in_json(write):
    path = write(example("rectangle_clipped", ("corner_radius = 1", "corner_radius = 12")))
    content = json.loads(run("check", path, "--json").stdout)
    (fault,) = content["faults"]
    line = path.read_text().splitlines().index("[edge]") + 1
    assert (fault["key"], fault["line"]) == ("edge", line)
    # what the clipped corner has left is shorter than a radius of a foot takes of it
    assert "outside corner radius is 12 in at the corner of" in fault["message"]


#: Example, changes, key that is blamed, and what the sentence says.
REFUSED = {
    "sides that cannot close": (
        example("corner_desk_polygon", ("diagonals = [52, 52] ", "diagonals = [80, 52] ")),
        "top.outline",
        "less than both together, 68 in, is possible",
    ),
    "a trim that leaves nothing": (
        example("live_edge", ("south = 1", "south = 19")),
        "trim.edges.south",
        "19 in, as much as the top has there",
    ),
    "a trim into an inside corner": (
        example("l_counter", ('"long leg end"', '"long leg front"')),
        "trim.edges.long leg front",
        "at most the trim of 1/2 in may come off",
    ),
    "a trim finer than the bench grid": (
        example("live_edge", ("south = 1", 'south = "0.001"')),
        "trim.edges.south",
        "less than half a step of the bench grid",
    ),
    "an arc that is to be sawn": (
        example("oval_four_arcs", more="[trim.edges]\nsouth = 1\n"),
        "trim.edges.south",
        "a saw cut needs a straight edge",
    ),
    "no such edge to trim": (
        example("tapered", ('edge = "north", to = "south"', 'edge = "north", to = "souht"')),
        "trim.parallel.to",
        'this top has "south", "east", "north", "west"',
    ),
    "no such edge to leave": (
        example("d_end", ('["west"]', '["west", "wall"]')),
        "edge.unrouted[1]",
        'there is no edge "wall"',
    ),
    "a parallel cut beside the top": (
        example("tapered", ('distance = "28 1/4"', "distance = 40")),
        "trim.parallel",
        "misses the top by 10 in",
    ),
    "a new outline larger than the old": (
        example("round_from_square", ("diameters = 46", "diameters = 49")),
        "trim.to",
        "a new length of 49 in is larger than the top",
    ),
    "a new outline that reaches out": (
        example("round_from_square", ('offset = [0, "1/2"]', "offset = [0, 3]")),
        "trim.to",
        # 23 + 3 - 24 = 2 in to the north
        "2 in outside the wood",
    ),
    "a radius too large for a corner": (
        example("rectangle_clipped", ("corner_radius = 1", "corner_radius = 12")),
        "edge",
        "give a smaller radius",
    ),
    "an inside radius without wood": (
        example("l_counter", ("inside_radius = 1\n", "")),
        "edge.inside_radius",
        "the old top has no wood for a radius of 3/4 in there",
    ),
    "a cut-out over the rim": (
        example("l_counter", ("y = 53", "y = 64")),
        "cut_out[0]",
        "basin meets the rim",
    ),
    "a cut-out too near the rim": (
        example("l_counter", ("y = 53", "y = 58")),
        "cut_out[0]",
        "of wood must lie between",
    ),
    "a cut-out outside": (
        example("l_counter", ("x = 62", "x = 40"), ("y = 53", "y = 12")),
        "cut_out[0]",
        "outside the top",
    ),
    "cut-outs that overlap": (
        example(
            "l_counter",
            ("x = 62", "x = 70"),
            more='[[cut_out]]\nkind = "round"\nx = 72\ny = 53\ndiameter = 5\n',
        ),
        "cut_out[2]",
        "basin and cut-out 3 overlap",
    ),
    "strips too wide": (
        example("rectangle_clipped", ("width = 34", "width = 20"), more="strip_width = 12\n"),
        "edge.strip_width",
        "at most half its shorter extent, 10 in",
    ),
    "a skirt round a tight curve": (
        example("u_counter", more='build_up = "skirt_on_edge"\nskirt_drop = 40\n'),
        "edge",
        "hollow edge of radius 15 mm",
    ),
    "a skirt round a live edge": (
        example("live_edge", ('build_up = "none"', 'build_up = "skirt_under"\nskirt_drop = 2')),
        "edge",
        "a skirt needs straight edges and arcs",
    ),
    "stations out of order": (
        example("live_edge", ("[0, 6, 12,", "[0, 12, 6,")),
        "top.outline.at",
        "stations go from west to east",
    ),
    "stations that cross": (
        example("live_edge", ('"17 5/8"', "0")),
        "top.outline.north",
        "leaves no wood",
    ),
    "a form too wide for the top": (
        example(
            "tapered",
            ('distance = "28 1/4"', "distance = 3"),
            (
                'corner_radius = "3/4"',
                'build_up = "none"\ntop_form = {form = "bevel", inset = 2, depth = "1/4"}',
            ),
        ),
        "edge",
        "use a smaller form",
    ),
    "no number": (
        example("ellipse", ("length = 72", "length = nan")),
        "top.outline.length",
        "not finite or beyond",
    ),
    "infinite": (
        example("ellipse", ("length = 72", "length = inf")),
        "top.outline.length",
        "not finite or beyond",
    ),
    "huge": (
        example("ellipse", ("length = 72", "length = 1e300")),
        "top.outline.length",
        "not finite or beyond",
    ),
    "tiny": (example("ellipse", ("length = 72", "length = 1e-9")), "top.outline.length", "6 in"),
    "negative": (example("ellipse", ("length = 72", "length = -72")), "top.outline.length", "-72"),
    "a list": (
        example("ellipse", ("length = 72", "length = [72]")),
        "top.outline.length",
        "a list of 1 is not",
    ),
    "a truth value": (example("ellipse", ("length = 72", "length = true")), "top.outline.length", "true"),
    "no such shape": (
        example("ellipse", ('"ellipse"', '"elipse"')),
        "top.outline.shape",
        'did you mean "ellipse"?',
    ),
}


@pytest.mark.parametrize(("job", "key", "words"), REFUSED.values(), ids=REFUSED)
def test_what_can_be_typed_wrong_is_told_in_one_sentence_with_its_place(tmp_path, write, job, key, words):
    path = write(job)
    result = run("plan", path, "--out", tmp_path / "out")
    assert (result.exit_code, result.stdout) == (2, "")
    assert not (tmp_path / "out").exists()
    told = [line for line in result.stderr.splitlines() if words in line]
    assert told, result.stderr
    assert re.match(rf"{re.escape(str(path))}:[0-9]+: {re.escape(key)}", told[0]), told[0]
    assert "Traceback" not in result.stderr
    assert len(result.stderr.splitlines()) <= 2


def draw(path, units=1, layer="DESK", entities=()):
    """Save a drawing of closed polylines; ``units`` is its $INSUNITS."""
    document = ezdxf.new("R2000")
    document.header["$INSUNITS"] = units
    model = document.modelspace()
    for points in entities:
        model.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})
    return document, model, path


SQUARE = [(0, 0), (60, 0), (60, 30), (0, 30)]
BOW_TIE = [(0, 0), (60, 30), (60, 0), (0, 30)]


@pytest.mark.parametrize(
    ("units", "loops", "extra", "words"),
    [
        (0, [SQUARE], None, "units"),
        (1, [SQUARE, SQUARE], None, ""),
        (1, [BOW_TIE], None, "crosses"),
        (1, [], "open", ""),
        (1, [SQUARE], "spline", ""),
        (1, [], None, ""),
        (6, [SQUARE], None, ""),
    ],
    ids=["no units", "twice", "crossing", "open", "spline", "empty", "metres"],
)
def test_drawings_that_make_no_top_are_refused_with_their_reason(tmp_path, write, units, loops, extra, words):
    document, model, file = draw(tmp_path / "desk.dxf", units, entities=loops)
    if extra == "open":
        model.add_line((0, 0), (60, 0), dxfattribs={"layer": "DESK"})
        model.add_line((60, 0), (60, 30), dxfattribs={"layer": "DESK"})
    if extra == "spline":
        model.add_spline([(10, 10), (20, 15), (30, 10)], dxfattribs={"layer": "DESK"})
    document.saveas(file)
    path = write(example("drawn_desk", ('"drawn_desk.dxf"', '"desk.dxf"')))
    result = run("check", path)
    assert (result.exit_code, result.stdout) == (2, "")
    (line,) = result.stderr.splitlines()
    assert re.match(rf"{re.escape(str(path))}:[0-9]+: top.outline", line), line
    assert words in line


def test_measurements_that_fit_no_outline_stop_the_plan(write):
    # sides of 60 and 30 in have diagonals of 67 in; with 40 in every figure is feet away from the best fit
    path = write(example("quad_largest_rectangle", ('["67 3/16", "67 5/16"]', "[40, 40]")))
    found = json.loads(run("check", path, "--json").stdout)["findings"]
    assert [finding["number"] for finding in found if finding["severity"] == "stop"] == [109]


def test_a_later_plan_replaces_the_folder_of_an_earlier_one(tmp_path, write):
    out = tmp_path / "out"
    ready = write(example("tapered"))
    assert run("plan", ready, "--out", out, "--no-solid").exit_code == 0
    assert "pieces.csv" in files_below(out)
    assert run("plan", ready, "--out", out, "--no-solid").exit_code == 3
    assert run("plan", write(TOO_DEEP), "--out", out, "--force").exit_code == 1
    assert sorted(files_below(out)) == [
        "customer.pdf",
        "packet.pdf",
        "plan.json",
        "quantities.csv",
        "tables.xlsx",
    ]


def test_json_is_the_only_thing_on_standard_output(tmp_path, write):
    done = program(
        "plan",
        write(example("d_end")),
        "--json",
        "--no-solid",
        "--out",
        tmp_path / "out",
        env={"LC_ALL": "C"},
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout == (tmp_path / "out" / "plan.json").read_bytes()
    assert json.loads(done.stdout)["status"] == "ready"


def test_the_same_job_gives_the_same_bytes_wherever_it_is_planned(tmp_path):
    """Other folder, other hash seed, other time zone, other locale; the drawing moves with the job."""
    for number, env in enumerate(
        [
            {"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C"},
            {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo", "LC_ALL": "C.UTF-8", "COLUMNS": "200"},
        ]
    ):
        folder = tmp_path / str(number) / ("deep" * number or "flat")
        folder.mkdir(parents=True)
        for name in ("drawn_desk.toml", "drawn_desk.dxf"):
            shutil.copy(SHAPES / name, folder / name)
        done = program(
            "plan",
            folder / "drawn_desk.toml",
            "--out",
            tmp_path / f"out{number}",
            "--dxf",
            "R12",
            "--no-solid",
            env=env,
        )
        assert (done.returncode, done.stderr) == (0, b"")
    first, second = (files_below(tmp_path / f"out{number}") for number in range(2))
    assert "dxf/template_x1_in.dxf" in first
    assert first == second
    assert os.fspath(tmp_path).encode() not in b"".join(first.values())
