"""One figure for one quantity: on the terminal, in the packet's table, in what to buy, and adding up in the file."""

import csv
import io
import re
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from cli_jobs import READY

import edgewright
from edgewright.cli.packet_data import packet_data
from edgewright.cli.quantities_table import quantities_table
from edgewright.cli.summary import summary
from edgewright.cli.table_csv import table_csv
from edgewright.jobfile import parse_job

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.toml"))}
TEXTS["metric"] = READY.replace("[job]", '[job]\nunits = "mm"')
EVERY = pytest.mark.parametrize("name", TEXTS)


@cache
def made(name):
    plan = edgewright.plan(parse_job(TEXTS[name]))
    return plan, packet_data(plan, "a4"), summary(plan, 400).splitlines()


def totals_of(data):
    return {row[0].lower(): row for row in data["quantities"] if row[0].isupper()}


@pytest.mark.property
@EVERY
def test_terminal_and_packet_name_the_same_totals(name):
    _, data, lines = made(name)
    totals = totals_of(data)
    assert {"filler", "resin in all", "weight"} <= set(totals)
    for group, (_, expected, low, high, unit, likely) in totals.items():
        unit = "" if unit == "count" else f" {unit}"
        words = expected + unit + (f" ({low} to {high}; likely {likely})" if low != high else "")
        assert any(re.fullmatch(rf"  {group} +{re.escape(words)}(; buy .*)?", line) for line in lines), words


@pytest.mark.property
@EVERY
def test_what_to_buy_names_the_high_figure_of_the_table(name):
    _, data, lines = made(name)
    totals = totals_of(data)
    assert {group for group, _ in data["buy"]} >= {"filler", "base coat", "resin in all"}
    for group, buy in data["buy"]:
        _, _, _, high, unit, _ = totals[group]
        assert buy.endswith(f", for the high figure of {high} {unit}")
        assert Decimal(re.search(r": ([\d.]+) ", buy)[1]) >= Decimal(high)
        assert any(line.startswith(f"  {group} ") and line.endswith(f"; buy {buy}") for line in lines)


@pytest.mark.property
@EVERY
def test_printed_lines_add_up_to_printed_totals(name):
    _, data, _ = made(name)
    for group, total in totals_of(data).items():
        parts = [row for row in data["quantities"] if row[0].startswith(f"{group}: ")]
        if group == "resin in all":
            parts = [row for row in data["quantities"] if re.match(r"(seal coat|resin coat \d+): ", row[0])]
        for column in (1, 2, 3):
            assert sum(Decimal(row[column]) for row in parts) == Decimal(total[column])


@pytest.mark.property
@EVERY
def test_the_file_names_its_own_high_figure_in_what_to_buy(name):
    plan, _, _ = made(name)
    rows = list(csv.reader(io.StringIO(table_csv(quantities_table(plan)), newline="")))
    bought = [row for row in rows if row[1] == "total" and row[8].startswith("buy ")]
    assert len(bought) >= 3
    for row in bought:
        assert row[8].endswith(f", for the high figure of {row[4]} {row[7]}")


@pytest.mark.property
@EVERY
def test_the_parts_of_the_edge_add_up_as_printed(name):
    plan, data, lines = made(name)
    (figures,) = (t for c in data["chapters"] for t in c["tables"] if t["title"] == "Edge figures")
    edge = dict(figures["rows"])
    parts = [Decimal(edge[zone].split()[0]) for zone in ("top round-over", "flat", "bottom round-over")]
    total, unit = edge["edge in all"].split()
    assert sum(parts) == Decimal(total)
    assert unit == ("in²" if plan.job.units == "in" else "cm²")
    assert any(re.fullmatch(rf"  edge in all +{total} {unit}", line) for line in lines)
