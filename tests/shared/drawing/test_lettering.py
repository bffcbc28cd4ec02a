"""Widths of text against the font itself, and breaking lines."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing import lettering
from edgewright.drawing.lettering import note_box, text_width, wrapped
from edgewright.drawing.view import Note

FONT_FILE = Path(__file__).parents[3] / "cli" / "fonts" / "DejaVuSansCondensed.ttf"


@cache
def opened() -> TTFont:
    return TTFont(FONT_FILE)


def font_width(char: str) -> float:
    font = opened()
    return float(font["hmtx"][font.getBestCmap()[ord(char)]][0]) / float(font["head"].unitsPerEm)


@pytest.mark.reference
def test_every_width_in_the_table_is_the_fonts_own():
    chars = "".join(lettering._BY_WIDTH.values())
    assert len(chars) == len(set(chars)) > 120
    for char in chars:
        assert text_width(char, 1.0) == pytest.approx(font_width(char), abs=1e-9), char


@pytest.mark.reference
def test_accented_letters_and_printable_ascii_are_known():
    for char in [*map(chr, range(32, 127)), *"ÄÖÜäöüéèçñâêîôûå"]:
        assert text_width(char, 1.0) == pytest.approx(font_width(char), abs=1e-9), char


@pytest.mark.example
def test_unknown_characters_count_a_full_height():
    assert text_width("木", 4) == 4


@pytest.mark.example
def test_a_turned_note_stands_upright():
    x0, y0, x1, y1 = note_box(Note(10, 20, 4, "HH", "start", 90))
    width = 2 * 4 * 1386 / 2048
    assert (y0, y1) == (pytest.approx(20), pytest.approx(20 + width))
    # turned to the left, what was above the base line lies left of it
    assert x0 == pytest.approx(10 - 0.77 * 4)
    assert x1 == pytest.approx(10 + 0.21 * 4)


@pytest.mark.example
def test_a_figure_its_fraction_and_its_unit_stay_on_one_line():
    lines = wrapped("set the guide at 4 1/2 in from the kerf and at 40 mm", 4, 30)
    assert any("4 1/2 in" in line for line in lines)
    assert any("40 mm" in line for line in lines)
    assert len(lines) > 2


@pytest.mark.example
def test_a_line_feed_starts_a_line():
    assert wrapped("a b\nc", 4, 100) == ["a b", "c"]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.text("ab wÜ木19/", max_size=60), st.floats(8, 60))
def test_lines_fit_and_nothing_is_lost(text: str, width: float):
    lines = wrapped(text, 4, width)
    assert all(text_width(line, 4) <= width + 1e-9 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
