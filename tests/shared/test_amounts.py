"""Volumes, durations, densities and mix ratios are read exactly or refused; weight is never taken for volume."""

import pytest

from edgewright.amounts import read_density, read_duration, read_ratio, read_volume
from edgewright.errors import UnitError


@pytest.mark.reference
@pytest.mark.parametrize(
    ("text", "ml"),
    # NIST Handbook 44, Appendix C: 1 gal = 3785.411784 ml, 1 fl oz = 29.5735295625 ml
    [
        ("64 fl oz", 64 * 29.5735295625),
        ("3/4 gal", 0.75 * 3785.411784),
        ("1 qt", 3785.411784 / 4),
        ("2,5 l", 2500),
    ],
)
def test_volumes(text, ml):
    assert read_volume(text).mm3 == pytest.approx(ml * 1000, rel=1e-12)


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "minutes"), [("20 min", 20), ("1 1/2 h", 90), ("2 days", 2880), ("4h", 240), ("0.5 hours", 30)]
)
def test_durations(text, minutes):
    assert read_duration(text).minutes == minutes


@pytest.mark.reference
@pytest.mark.parametrize(
    ("text", "g_per_ml"),
    # NIST Handbook 44, Appendix C: 1 lb = 453.59237 g, 1 gal = 3785.411784 ml
    [
        ("1.1 g/ml", 1.1),
        ("1.1 kg/l", 1.1),
        ("1100 kg/m^3", 1.1),
        ("1.1 g/cm³", 1.1),
        ("9.2 lb/gal", 9.2 * 453.59237 / 3785.411784),
    ],
)
def test_densities(text, g_per_ml):
    assert read_density(text).g_per_ml == pytest.approx(g_per_ml, rel=1e-12)


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1:1 by volume", (1, 1, "volume")),
        ("4:2 by volume", (2, 1, "volume")),
        ("100:45 by weight", (20, 9, "weight")),
        ("2.2 : 1 by Weight", (11, 5, "weight")),
        ("3 to 1 by volume", (3, 1, "volume")),
    ],
)
def test_ratios_are_whole_parts_in_lowest_terms(text, parts):
    ratio = read_ratio(text)

    assert (ratio.a, ratio.b, ratio.by) == parts


@pytest.mark.example
@pytest.mark.parametrize(
    ("read", "text", "said"),
    [
        (read_volume, "64 oz", "is a weight, a volume is needed"),
        (read_volume, "64", "has no unit"),
        (read_volume, "64 in", "is a length"),
        (read_duration, "20", "has no unit"),
        (read_duration, "20 ml", "is a volume, a duration is needed"),
        (read_density, "1.1", "has no unit"),
        (read_density, "1.1 g", "is a weight, a density is needed"),
        (read_ratio, "2:1", "may be by volume or by weight, which are not the same"),
        (read_ratio, "2:0 by volume", "has no part of one"),
        (read_ratio, "2:1 by mass", "is not a mix ratio"),
        (read_ratio, "-2:1 by volume", "is not a mix ratio"),
        (read_ratio, "1:1 by volume" + " " * 100 + "x" * 100, "is not a mix ratio"),
        (read_ratio, 2, "is text"),
    ],
)
def test_what_is_not_sure_is_refused(read, text, said):
    with pytest.raises(UnitError, match=said):
        read(text)
