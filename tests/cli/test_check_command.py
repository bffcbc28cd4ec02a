"""What `check` says, and its exit codes."""

import json

import pytest
from cli_jobs import FAULTY, IMPOSSIBLE, NO_PROFILE, READY, run


@pytest.fixture
def check(tmp_path):
    def check(text, *more):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return run("check", path, *more)

    return check


@pytest.mark.parametrize(
    ("job", "code", "status"),
    [(READY, 0, "ready"), (IMPOSSIBLE, 1, "NOT FOR CUTTING"), (NO_PROFILE, 1, "NOT FOR CUTTING")],
)
def test_exit_code_and_status(check, job, code, status):
    assert check(job).exit_code == code
    result = check(job, "--json")
    content = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (code, "")
    assert (content["status"], content["faults"]) == (status, [])
    assert (content["shortage"] is None) == (job is not IMPOSSIBLE)


def test_faults_as_json(check):
    result = check(FAULTY, "--json")
    content = json.loads(result.stdout)
    assert (result.exit_code, content["status"]) == (2, "faulty")
    # widht stands on line 6, counted from the empty first line
    assert {"key": "top.widht", "line": 6} in [{k: f[k] for k in ("key", "line")} for f in content["faults"]]


def test_findings_in_words(check):
    # trimming 6 in on one side moves the middle of the top by 3 in
    output = " ".join(check(READY).stdout.split())
    assert (
        "WARNINGS 401 base off centre, base: if the base stays where it is: base centre 3 in north" in output
    )
    assert "to change: move the base" in output
    stopped = " ".join(check(NO_PROFILE).stdout.split())
    assert "STOPS 201" in stopped
    assert stopped.endswith("NOT FOR CUTTING")


def test_an_overridden_stop_is_shown_and_open_no_more(check):
    figures = {f["number"]: f for f in json.loads(check(READY, "--json").stdout)["findings"]}[401]["figures"]
    override = f'\n[[override]]\nfinding = 401\nfigures = "{figures}"\nreason = "customer agreed"\n'
    assert "overridden: customer agreed" in check(READY + override).stdout


def test_cuts_are_never_printed(check):
    for words in ("guide at", "keep line"):
        assert words not in check(READY).stdout
