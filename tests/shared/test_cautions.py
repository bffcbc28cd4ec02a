"""Cautions name every danger and defer."""

import pytest

from edgewright.cautions import CAUTIONS, cautions_for

TOPICS = ("saw", "router", "dust", "styrene", "peroxide hardener", "resin", "flame", "lifting")


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
@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.topic)
def test_what_stands_on_a_card_is_shorter_than_the_whole(caution):
    assert 20 < len(caution.short) < len(caution.text)
