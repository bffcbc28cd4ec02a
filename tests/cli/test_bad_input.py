"""What a person may well type by mistake: each is answered by one sentence and an exit code, by every command alike."""

from __future__ import annotations

import json
import os
import signal

import pytest
from cli_jobs import run

from edgewright.cutlist.column_generation.relaxation import Relaxation

PLAIN = """[job]
title = "Bad input"
units = "in"
[top]
length = 72
width = 42
thickness = "3/4"
material = "plywood"
[trim]
north = 6
[edge]
bottom_round_over = "1/4"
"""
#: The trim gives no strip.
NO_WOOD = PLAIN.replace("north = 6", "north = 1") + "strip_width = 2\n"


def board(name: str = "board", length: object = 96, width: object = 8, **more: object) -> str:
    keys = {"length": length, "width": width, "thickness": '"3/4"', **more}
    return "\n".join(
        ["[[stock]]", f'name = "{name}"', *(f"{key} = {value}" for key, value in keys.items()), ""]
    )


#: What is refused as it is read: the key, the value that was given, the bound or what is allowed.
REFUSED = {
    "a number of splices where none are allowed": (
        PLAIN + "[splice]\nallowed = false\nmax_per_side = 2\n",
        ["splice.max_per_side: 2 is given beside allowed = false", "write allowed = true"],
    ),
    "more splices in a side than are laid out": (
        PLAIN + "[splice]\nmax_per_side = 21\n",
        ["splice.max_per_side: 21", "0 to 20"],
    ),
    "pieces of no length": (PLAIN + "[splice]\nmin_piece = 0\n", ["splice.min_piece: 0", "1 in to 8 ft"]),
    "a board of no length": (PLAIN + board(length=0), ["stock[0].length: 0", "more than 0 in, at most 30 ft"]),
    "a board of less than none": (PLAIN + board(width=-5), ["stock[0].width: -5 in", "more than 0 in"]),
    "true for a length": (PLAIN + board(length="true"), ["stock[0].length: true", "write text like"]),
    "more boards than are counted": (PLAIN + board(count=10_001), ["stock[0].count: 10001", "1 to 10000"]),
    "no boards": (PLAIN + board(count=0), ["stock[0].count: 0", "1 to 10000"]),
    "half a board": (PLAIN + board(count=1.5), ["stock[0].count: 1.5", "write a whole number"]),
    "a price below nothing": (PLAIN + board(price=-1), ["stock[0].price: -1", "0 to 1000000"]),
    "a price that is no number": (PLAIN + board(price="nan"), ["stock[0].price: nan", "0 to 1000000"]),
    "a price in words": (PLAIN + board(price='"ten"'), ['stock[0].price: "ten"', "without quotes"]),
    "no kerf": (PLAIN + "[saw]\nkerf = 0\n", ["saw.kerf: 0", "0.5 mm to 6.4 mm", "measure a test cut"]),
    "a kerf of a hand": (PLAIN + "[saw]\nkerf = 5\n", ["saw.kerf: 5 in", "0.5 mm to 6.4 mm"]),
    "two boards of one name": (PLAIN + board() + board(), ['stock[1].name: "board"', "names must differ"]),
    "a board that is a text": (PLAIN.replace("[job]", 'stock = "board"\n[job]'), ["stock", "[[stock]]"]),
    "a defect outside the board": (
        PLAIN + board(count=1, defects='[{name = "knot", along = [90, 100]}]'),
        ["stock[0].defects[0].along: 100 in", "at most its length of 96 in"],
    ),
    "a defect of several boards": (
        PLAIN + board(count=3, defects='[{name = "knot", along = [9, 10]}]'),
        ["stock[0].count: 3", "count = 1"],
    ),
    "a defect beside the top": (
        PLAIN + '[[top.defects]]\nname = "hole"\nalong = [70, 80]\nacross = [0, 2]\n',
        ["top.defects[0].along: 80 in", "at most its length of 72 in"],
    ),
    "a trim of nearly all": (
        PLAIN.replace("north = 6", "north = 41"),
        ["trim.north: 41 in", "at least 2 in must stay"],
    ),
    "more cuts made than there are": (PLAIN + "[as_cut]\ncuts = 99\n", ["as_cut.cuts: 99", "0 to 3"]),
    "no file at all": ("", ["is empty", "[job] and [top]"]),
}  # fmt: skip
#: What is read and has no plan: the sentence says why, and what would do.
NO_PLAN = {
    "no stock": (NO_WOOD, "the 4 sides need 218 in and the 0 strips to be had give 0 in", "Buy or find"),
    "sides longer than any stick, and no splices": (
        NO_WOOD + "[splice]\nallowed = false\n" + board(length=60, price=10),
        "no layout was found that keeps every side whole: side N1 is 72 in long, the longest strip 60 in",
        "Buy or find 2 more strips 3/4 in thick, at least 2 in wide and 72 in long each",
    ),
    "no splice far enough from both corners": (
        NO_WOOD + "[splice]\nfrom_corner = 40\n" + board(length=60, price=10),
        "no layout was found that keeps the splice rules",
        "72 in long each",
    ),
    "pieces longer than every side": (
        NO_WOOD + "[splice]\nmin_piece = 90\n" + board(length=60, price=10),
        "no layout was found that keeps the splice rules",
        "72 in long each",
    ),
    "boards of another thickness": (
        NO_WOOD + board(price=10).replace('"3/4"', '"1/2"'),
        "the 0 strips to be had give 0 in",
        "3/4 in thick",
    ),
    "a board that is one knot": (
        NO_WOOD + board(count=1, defects='[{name = "knot", along = [0, 96]}]'),
        "the 0 strips to be had give 0 in",
        "Buy or find",
    ),
}
KNOTS = [f'{{name = "k", along = [{n * 0.4 + 0.1:.1f}, {n * 0.4 + 0.2:.1f}]}}' for n in range(200)]
#: What is odd, but can be cut.
READY = {
    "ten thousand boards": PLAIN + board(length=20, width=3, count=10_000),
    "ten thousand boards of a hair": PLAIN
    + board(length='"0.001 mm"', width='"0.001 mm"', count=10_000, price=0),
    "a board for nothing": NO_WOOD + board(price=0),
    "the dearest board": NO_WOOD + board(price=1_000_000),
    "two hundred knots": PLAIN + board(count=1, defects=f"[{', '.join(KNOTS)}]"),
}


@pytest.fixture
def job(tmp_path):
    def write(text):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.mark.parametrize("name", REFUSED)
def test_what_makes_no_sense_is_refused_with_key_value_and_bound(job, name):
    text, words = REFUSED[name]
    result = run("check", job(text))
    assert (result.exit_code, result.stdout) == (2, "")
    for word in words:
        assert word in result.stderr


@pytest.mark.parametrize("name", NO_PLAN)
def test_what_has_no_plan_is_told_why_and_what_to_buy(job, name):
    text, why, buy = NO_PLAN[name]
    result = run("check", job(text))
    said = " ".join(result.stdout.split())
    assert (result.exit_code, result.stderr) == (1, "")
    assert said.endswith("NOT FOR CUTTING")
    assert why in said
    assert buy in said


@pytest.mark.parametrize("name", READY)
def test_what_is_odd_is_planned_all_the_same(job, name):
    result = run("check", job(READY[name]))
    assert (result.exit_code, result.stderr) == (0, "")


@pytest.mark.parametrize("command", ["plan", "ask", "prove", "compare"])
def test_every_command_says_the_same_of_a_faulty_job(job, command):
    text, words = REFUSED["a number of splices where none are allowed"]
    result = run(command, job(text))
    assert (result.exit_code, result.stdout) == (2, "")
    for word in words:
        assert word in result.stderr


@pytest.mark.parametrize("command", ["plan", "ask", "prove", "compare"])
def test_every_command_ends_where_there_is_no_plan(job, command):
    result = run(command, job(NO_PLAN["sides longer than any stick, and no splices"][0]))
    assert result.exit_code == (1 if command in ("plan", "prove") else 0)
    assert result.stderr == ""


def test_a_question_that_forbids_splices_drops_their_number(job):
    result = run("ask", job(PLAIN + "[splice]\nmax_per_side = 2\n"), "--json")
    assert result.exit_code == 0
    assert "no splices" in json.dumps(json.loads(result.stdout))


def test_a_stop_amid_a_long_plan_leaves_nothing(job, monkeypatch):
    """A signal while components are priced, of a job with too many of them to be listed."""
    boards = "".join(board(f"b{n}", round(20 + n * 0.7, 1), 3, price=1 + n % 7) for n in range(30))
    path = job(NO_WOOD.replace("strip_width = 2", "strip_width = 2\nlayers = 4") + boards)
    real = Relaxation.solve

    def interrupted(*args, **more):
        os.kill(os.getpid(), signal.SIGINT)
        return real(*args, **more)

    monkeypatch.setattr(Relaxation, "solve", interrupted)
    result = run("plan", path, "--out", path.parent / "out")
    assert (result.exit_code, result.stdout, result.stderr) == (130, "", "edgewright: stopped\n")
    assert os.listdir(path.parent) == ["job.toml"]
