"""Cautions name every danger and defer; working times say what the trade's defaults say."""

import pytest

from edgewright import trade
from edgewright.cautions import CAUTIONS, cautions_for, working_times

TOPICS = ("saw", "router", "dust", "styrene", "peroxide hardener", "resin", "flame", "lifting")


def text_of(step, units="in"):
    return next(time for time in working_times(units) if time.step == step).text


@pytest.mark.example
def test_every_danger_has_one_caution():
    assert tuple(caution.topic for caution in CAUTIONS) == TOPICS
    assert [caution.topic for caution in cautions_for("flame", "saw")] == ["saw", "flame"]


@pytest.mark.example
@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.topic)
def test_each_defers_to_codes_data_sheets_manuals_or_licensed_practice(caution):
    assert any(word in caution.defer for word in ("code", "data sheet", "ocal limits", "licensed practice"))
    assert str(caution) == f"{caution.text} {caution.defer}"


@pytest.mark.example
@pytest.mark.parametrize(
    ("step", "said"),
    [
        ("sand the edge", ("150 grit", "again after filling")),
        ("sand filler", ("about 20 minutes",)),
        ("sand between coats", ("220 grit",)),
        ("pour", ("65 to 75 °F",)),
        ("flame", ("at once", "about 10 minutes", "5 minutes later", "leave it alone")),
        ("scrape drips", ("3 1/2 to 4 hours", "65 to 70 °F")),
        ("recoat", ("the next day",)),
    ],
)
def test_working_times(step, said):
    for words in said:
        assert words in text_of(step)


@pytest.mark.example
def test_metric_sheets_say_celsius():
    # (65 - 32) × 5/9 = 18.3, (75 - 32) × 5/9 = 23.9
    assert "18 to 24 °C" in text_of("pour", "mm")
    assert "°F" not in "".join(time.text for time in working_times("mm"))


@pytest.mark.example
def test_all_times_are_marked_as_having_no_source():
    assert {time.origin for time in working_times("in")} == {"common practice, no source"}


@pytest.mark.example
def test_times_are_read_from_the_trade_defaults(monkeypatch):
    monkeypatch.setattr(trade, "FILLER_SANDABLE", trade.Default(45, "min", "the tin"))
    monkeypatch.setattr(trade, "SCRAPE_DRIPS_AFTER", trade.Default((2.25, 3.0), "h", "own test"))

    assert "about 45 minutes" in text_of("sand filler")
    assert "2.25 to 3 hours" in text_of("scrape drips")
