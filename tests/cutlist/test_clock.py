"""The clock after the pour: common practice, no source, read from the trade's defaults or the job."""

import pytest

from edgewright import trade
from edgewright.cutlist.clock import filling_clock, pour_clock
from edgewright.jobfile import parse_job
from edgewright.starter_text import STARTER


def coating(keys=""):
    return parse_job(STARTER.replace("[coating]\n", f"[coating]\n{keys}\n")).coating


def moments(clock, what):
    return [(moment.low, moment.high) for moment in clock if moment.what == what]


@pytest.mark.example
def test_what_practice_says():
    clock = pour_clock(coating())

    assert moments(clock, "flame") == [(0, 0), (10, 10), (15, 15)]
    assert moments(clock, "scrape drips") == [(210, 240)]  # 3 1/2 to 4 h
    assert moments(clock, "light use") == [(48 * 60, 72 * 60)]
    assert moments(clock, "full cure") == [(5 * 1440, 7 * 1440)]
    assert moments(clock, "next coat") == [(1440, None)]
    assert moments(filling_clock(), "resin over water paint or filler") == [(1440, None)]
    assert {m.origin.split(";")[0].split(":")[0] for m in clock} == {"common practice, no source"}


@pytest.mark.example
def test_order_of_the_steps():
    clock = pour_clock(coating())
    lows = [moment.low for moment in clock]

    assert lows == sorted(lows)
    # tape comes off before the drips are scraped, drips are swept before both end
    (tape,), (scrape,) = moments(clock, "pull tape"), moments(clock, "scrape drips")
    assert tape[1] <= scrape[0]
    assert max(low for low, _ in moments(clock, "sweep drips")) <= scrape[0]


@pytest.mark.example
def test_the_jobs_own_window_comes_first():
    clock = pour_clock(coating('recoat_from = "4 h"\nrecoat_until = "18 h"'))

    assert moments(clock, "next coat") == [(240, 1080)]
    assert next(m for m in clock if m.what == "next coat").origin == "job file"


@pytest.mark.example
def test_a_single_coat_has_no_next_one():
    clock = pour_clock(parse_job(STARTER.replace("resin_coats = 2", "resin_coats = 1")).coating)

    assert moments(clock, "next coat") == []


@pytest.mark.example
def test_times_are_read_from_the_trade_defaults(monkeypatch):
    monkeypatch.setattr(trade, "FILLER_SANDABLE", trade.Default(45, "min", "the tin"))
    monkeypatch.setattr(trade, "SCRAPE_DRIPS_AFTER", trade.Default((2.25, 3.0), "h", "own test"))

    assert moments(filling_clock(), "sand polyester filler") == [(45, None)]
    assert moments(pour_clock(coating()), "scrape drips") == [(135, 180)]
