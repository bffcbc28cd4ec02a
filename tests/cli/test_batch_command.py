"""What `batch` writes and prints, ready and not; and `prove` of what it wrote."""

import csv
import io
import json
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest
from batch_jobs import SALE, job_text
from cli_jobs import files_below, run


@pytest.fixture
def write(tmp_path):
    def write(name, text):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.fixture
def two(write):
    return (
        write("a.toml", job_text(72, 42, 10, title="Long / table: one", boards=SALE)),
        write("b.toml", job_text(66, 40, 5, title="Long / table: one", boards=SALE)),
    )


SHEETS = {
    *("customer.pdf", "cuts.csv", "packet.pdf", "pieces.csv", "plan.json", "quantities.csv", "tables.xlsx"),
    *(
        f"svg/{name}.svg"
        for name in ("edge", "kerf", "picture", "router", "strips_1", "trim_1", "underside_1")
    ),
}


def test_a_ready_batch_is_written_whole(tmp_path, two):
    result = run("batch", *two, "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr) == (0, "")
    files = files_below(tmp_path / "out")
    folders = ["1_long_table_one", "2_long_table_one"]
    drawings = {name for name in files if "/dxf/" in name}
    lists = {"batch.json", "packet.pdf", "strips.csv", "tables.xlsx"}
    assert set(files) - drawings == lists | {f"{f}/{name}" for f in folders for name in SHEETS}
    for folder in folders:
        parts = {name.split("/")[2].split("_")[0] for name in drawings if name.startswith(f"{folder}/")}
        assert parts == {"audit.txt", "stick", "template", "top", "underside"}
    batch = json.loads(files["batch.json"])
    assert batch["files"] == sorted(set(files) - {"batch.json"})
    assert batch["batch_code"] in result.stdout
    for job, folder in zip(batch["jobs"], folders, strict=True):
        plan = json.loads(files[f"{folder}/plan.json"])
        assert (job["folder"], job["plan_code"]) == (folder, plan["plan_code"])
        assert plan["plan_code"] in result.stdout
    # what goes over is told in both jobs: 4 strips of 72 come off A, which needs 3 of them
    assert "for 2 Long / table: one" in json.dumps(json.loads(files[f"{folders[0]}/plan.json"])["cut_plan"])
    assert b"of 1 Long / table: one" in files[f"{folders[1]}/cuts.csv"]


def test_strips_csv_lists_every_piece_once_and_its_kerfs(tmp_path, two):
    run("batch", *two, "--out", tmp_path / "out")
    text = (tmp_path / "out" / "strips.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 8
    assert {(row["job"], row["piece"]) for row in rows} == {
        (n, s) for n in "12" for s in ("N1", "S1", "E1", "W1")
    }
    by_strip = {}
    for row in rows:
        by_strip.setdefault((row["stick"], row["strip"]), []).append(row)
    for strip in by_strip.values():
        # the farthest part first, a kerf of 1/8 in between
        for far, near in pairwise(strip):
            assert Decimal(far["from_mm"]) - Decimal(near["to_mm"]) >= Decimal("3.175")


def test_the_same_batch_gives_the_same_bytes_and_is_replaced_only_with_force(tmp_path, two):
    out = tmp_path / "out"
    run("batch", *two, "--out", out)
    first = files_below(out)
    again = run("batch", *two, "--out", out)
    assert again.exit_code == 3
    assert "is there already" in again.stderr
    assert run("batch", *two, "--out", out, "--force").exit_code == 0
    assert files_below(out) == first
    (out / "1_long_table_one" / "note.txt").write_text("mine")
    refused = run("batch", *two, "--out", out, "--force")
    assert refused.exit_code == 3
    assert "holds 1_long_table_one/note.txt, which this program did not write" in refused.stderr
    assert (out / "1_long_table_one" / "note.txt").read_text() == "mine"


def test_prove_reads_a_batch_and_finds_a_fault(tmp_path, two):
    run("batch", *two, "--out", tmp_path / "out")
    path = tmp_path / "out" / "batch.json"
    result = run("prove", path)
    assert result.exit_code == 0
    words = " ".join(result.stdout.split())
    assert "accepts the batch: 8 pieces for 2 jobs from 2 sticks; 4 of 4 stages are proven" in words
    verdict = json.loads(run("prove", path, "--json").stdout)
    assert verdict["accepted"]
    assert [stage["value"] for stage in verdict["stages"]] == [0, 0, 2, 6]
    content = json.loads(path.read_text())
    content["batch"]["pieces"][0]["length_ticks"] -= 1
    path.write_text(json.dumps(content))
    refused = run("prove", path)
    assert refused.exit_code == 1
    assert "FAULT gap in a side" in refused.stdout


def test_json_is_the_only_thing_on_standard_output(two):
    batch = json.loads(run("batch", *two, "--json").stdout)
    assert batch["status"] == "ready"
    assert [stage["value"] for stage in batch["batch"]["stages"]] == [0, 0, 2, 6]


def test_without_wood_nothing_is_written(tmp_path, write):
    short = write("short.toml", job_text(72, 42, 1))
    result = run("batch", short, short, "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert not (tmp_path / "out").exists()
    words = " ".join(result.stdout.split())
    assert "No plan: strips 2 in wide for 1 Table, 2 Table: the sides need 436 in" in words
    assert result.stdout.splitlines()[-1] == "NOT FOR CUTTING"


def test_shared_wood_serves_all_jobs(tmp_path, write):
    short = write("short.toml", job_text(72, 42, 1))
    wood = write(
        "wood.toml",
        '[[stock]]\nname = "panel"\nlength = "96 in"\nwidth = "24 in"\nthickness = "3/4 in"\nprice = 60\n',
    )
    # 24 1/8 / 2 1/8 = 11 strips of 96 a panel; 4 x 72 + 4 x 37: four strips of 72 and two of 37 + 1/8 + 37
    result = run("batch", short, short, "--stock", wood)
    assert result.exit_code == 0
    assert "1 x panel" in result.stdout


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[job]\ntitle = "x"\n', "a file of shared wood holds [[stock]] tables only"),
        ('[[stock]]\nname = "x"\nlength = 96\n', "has no unit"),
        ("", "is missing"),
    ],
)
def test_faults_of_the_file_of_shared_wood_are_told(write, text, words):
    job = write("job.toml", job_text(72, 42, 10))
    result = run("batch", job, "--stock", write("wood.toml", text))
    assert result.exit_code == 2
    assert words in result.stderr


def test_a_top_with_an_outline_and_an_open_stop_are_told(tmp_path, write, two):
    shaped = Path(__file__).resolve().parents[2] / "examples" / "shapes" / "racetrack.toml"
    result = run("batch", two[0], shaped)
    assert result.exit_code == 2
    assert "has an outline, and a batch plans rectangular tops only" in result.stderr
    stop = write(
        "stop.toml",
        job_text(72, 42, 10).replace('round_over = "1/4"', 'round_over = "3/4"'),
    )
    refused = run("batch", two[0], stop, "--out", tmp_path / "out")
    assert refused.exit_code == 1
    assert not (tmp_path / "out").exists()
    assert "Open stop 2" in refused.stdout
    assert "in 2 Table" in refused.stdout
    assert not [words for words in ("offcut north", "folder", "splices") if words in refused.stdout]


def test_stopping_writes_nothing_and_says_that_a_plan_was_in_hand(tmp_path, two, monkeypatch):
    from edgewright.cutlist.column_generation import batch as planner

    wide = tmp_path / "wide.toml"
    wide.write_text(job_text(60, 40, 8, "3", boards=SALE))

    def stopped(*args):
        raise KeyboardInterrupt

    monkeypatch.setattr(planner, "_proven", stopped)
    result = run("batch", *two, wide, "--out", tmp_path / "out")
    assert result.exit_code == 130
    assert "a first plan for all jobs is in hand" in result.stderr
    assert not (tmp_path / "out").exists()
