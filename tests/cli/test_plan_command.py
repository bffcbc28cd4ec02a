"""What `plan` writes and prints, ready and NOT FOR CUTTING."""

import csv
import io
import json

import pytest
from cli_jobs import FAULTY, IMPOSSIBLE, NO_PROFILE, READY, READY_DXF, files_below, program, run

#: Drawings of READY: one sheet of rips, one enlarged cut, one layer.
SVG = [
    f"svg/{name}.svg" for name in ("edge", "kerf", "picture", "router", "strips_1", "trim_1", "underside_1")
]
#: One job for each way of not being ready: no plan; and a plan, but open stops.
REFUSED = {"impossible": IMPOSSIBLE, "stops": NO_PROFILE}


@pytest.fixture
def write(tmp_path):
    def write(text):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_a_ready_plan_is_written_whole(tmp_path, write):
    result = run("plan", write(READY), "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    files = files_below(tmp_path / "out")
    sheets = [
        *("customer.pdf", "cuts.csv", *READY_DXF, "packet.pdf", "pieces.csv", "plan.json", "quantities.csv"),
        *SVG,
    ]
    assert sorted(files) == [*sheets, "tables.xlsx", "top.glb", "top.step", "top.stl"]
    plan = json.loads(files["plan.json"])
    assert plan["status"] == "ready"
    assert plan["files"] == sorted(set(files) - {"plan.json"})
    # the code stands on everything, so that pages of two plans are never mixed
    assert plan["plan_code"] in result.stdout
    # (pages and the workbook are compressed; they are read in test_packet, test_customer_page and test_table_xlsx)
    assert all(
        plan["plan_code"].encode() in files[name] for name in files if not name.endswith((".pdf", ".xlsx"))
    )


@pytest.mark.parametrize("job", REFUSED.values(), ids=REFUSED)
def test_without_a_ready_plan_nothing_to_cut_by_is_written_or_printed(tmp_path, write, job):
    result = run("plan", write(job), "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (1, "")
    files = files_below(tmp_path / "out")
    assert sorted(files) == ["customer.pdf", "packet.pdf", "plan.json", "quantities.csv", "tables.xlsx"]
    plan = json.loads(files["plan.json"])
    assert plan["status"] == "NOT FOR CUTTING"
    assert not {"cuts", "pieces", "strip_map", "remnants"} & set(plan["cut_plan"])
    assert not {"crosscuts", "rips"} & set(plan)
    assert b"guide_ticks" not in files["plan.json"]
    assert b"keep_ticks" not in files["plan.json"]
    assert files["quantities.csv"].startswith(b"NOT FOR CUTTING,")
    lines = result.stdout.splitlines()
    assert "NOT FOR CUTTING" in lines[1]
    assert "NOT FOR CUTTING" in lines[-2:]
    for words in ("guide at", "keep line", "SAW CUTS", "STRIPS AND", "CROSSCUTS", "gives"):
        assert words not in result.stdout


def test_a_shortage_is_told_with_what_to_buy(write):
    output = " ".join(run("plan", write(IMPOSSIBLE)).stdout.split())
    # sides: 2 x 72 in and 2 x (40 - 2 x 2 3/8) = 35 1/4 in, 214 1/2 in in all, from no strip at all
    assert "the 4 sides need 214 1/2 in and the 0 strips to be had give 0 in" in output
    assert "Buy or find" in output


def test_without_out_only_the_summary_is_given(tmp_path, write):
    path = write(READY)
    result = run("plan", path)
    assert result.exit_code == 0
    assert list(tmp_path.iterdir()) == [path]
    assert "Written" not in result.stdout


@pytest.mark.parametrize(("job", "code"), [(READY, 0), (IMPOSSIBLE, 1), (NO_PROFILE, 1)])
def test_json_is_the_only_thing_on_standard_output(tmp_path, write, job, code):
    # as a program of its own: a library that prints a banner would be seen here
    done = program(
        "plan",
        write(job),
        "--json",
        "--no-solid",
        "--out",
        tmp_path / "out",
        env={"PYTHONIOENCODING": "ascii"},
    )
    assert (done.returncode, done.stderr) == (code, b"")
    assert json.loads(done.stdout)["job"]["title"] == "Reading table × 2"
    assert done.stdout == (tmp_path / "out" / "plan.json").read_bytes()


def test_json_of_a_faulty_file_prints_nothing(write):
    result = run("plan", write(FAULTY), "--json")
    assert (result.exit_code, result.stdout) == (2, "")


def test_the_same_job_gives_the_same_bytes(tmp_path, write):
    path = write(READY)
    for number, env in enumerate([{"PYTHONHASHSEED": "1"}, {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo"}]):
        assert program("plan", path, "--out", tmp_path / str(number), env=env).returncode == 0
    assert files_below(tmp_path / "0") == files_below(tmp_path / "1")


def test_existing_output_needs_force(tmp_path, write):
    path, out = write(READY), tmp_path / "out"
    assert run("plan", path, "--out", out, "--no-solid").exit_code == 0
    before = files_below(out)
    again = run("plan", path, "--out", out)
    assert (again.exit_code, again.stdout) == (3, "")
    assert "--force" in again.stderr
    # a later plan that is not ready takes the drawing of the earlier one away
    assert run("plan", write(IMPOSSIBLE), "--out", out, "--force").exit_code == 1
    assert (
        sorted(files_below(out))
        == ["customer.pdf", "packet.pdf", "plan.json", "quantities.csv", "tables.xlsx"]
        != sorted(before)
    )
    (out / "notes.txt").write_text("mine")
    refused = run("plan", path, "--out", out, "--force")
    assert refused.exit_code == 3
    assert "notes.txt" in refused.stderr
    assert (out / "notes.txt").read_text() == "mine"


@pytest.mark.parametrize("out", ["job.toml", "job.toml/out", "missing/out", "/proc/out", "."])
def test_output_that_cannot_be_written(tmp_path, write, monkeypatch, out):
    path = write(READY)
    monkeypatch.chdir(tmp_path)
    for force in ([], ["--force"]):
        result = run("plan", path, "--out", out, "--no-solid", *force)
        assert (result.exit_code, result.stdout) == (3, "")
        assert len(result.stderr.splitlines()) == 1
    assert files_below(tmp_path) == {"job.toml": READY.encode()}


def test_r12_drawing_has_no_polylines(tmp_path, write):
    assert run("plan", write(READY), "--out", tmp_path / "out", "--dxf", "r12", "--no-solid").exit_code == 0
    for path in (tmp_path / "out" / "dxf").glob("*.dxf"):
        text = path.read_text("ascii")
        assert "AC1009" in text
        assert "LWPOLYLINE" not in text


def test_quantities_are_rectangular(tmp_path, write):
    for number, job in enumerate([READY, IMPOSSIBLE, NO_PROFILE]):
        run("plan", write(job), "--out", tmp_path / str(number), "--no-solid")
        data = (tmp_path / str(number) / "quantities.csv").read_bytes()
        rows = list(csv.reader(io.StringIO(data.decode("utf-8"), newline="")))
        assert {len(row) for row in rows} == {9}
        assert data.count(b"\n") == data.count(b"\r\n")


def test_without_the_solid(tmp_path, write):
    assert run("plan", write(READY), "--out", tmp_path / "out", "--no-solid").exit_code == 0
    assert not {"top.step", "top.glb", "top.stl"} & set(files_below(tmp_path / "out"))


def test_unknown_paper_is_refused_before_any_work(tmp_path, write):
    result = run("plan", write(READY), "--out", tmp_path / "out", "--paper", "a5")
    assert result.exit_code == 2
    assert "paper 'a5' is not known: it must be one of a4, letter" in result.stderr
    assert not (tmp_path / "out").exists()


def test_without_a_temporary_folder_the_plan_is_complete_but_for_the_solid(tmp_path, write, monkeypatch):
    def refuse(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.TemporaryDirectory", refuse)
    result = run("plan", write(READY), "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "top.step, top.glb and top.stl are left out: no temporary folder can be written" in result.stderr
    assert set(files_below(tmp_path / "out")) == {
        *READY_DXF,
        "customer.pdf",
        "cuts.csv",
        "packet.pdf",
        "pieces.csv",
        "plan.json",
        "quantities.csv",
        "tables.xlsx",
        *SVG,
    }


def test_without_the_kernel_the_plan_is_complete_but_for_the_solid(tmp_path, write):
    fake = tmp_path / "fake" / "cadquery"
    fake.mkdir(parents=True)
    (fake / "__init__.py").write_text(
        "raise ImportError('libGL.so.1: cannot open shared object file: No such file or directory')"
    )
    done = program("plan", write(READY), "--out", tmp_path / "out", env={"PYTHONPATH": str(fake.parent)})
    assert done.returncode == 0
    assert b"libGL.so.1" in done.stderr
    assert "packet.pdf" in files_below(tmp_path / "out")
    assert "top.step" not in files_below(tmp_path / "out")
