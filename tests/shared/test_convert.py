from __future__ import annotations

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.convert import convert

PAIRS = [
    ("in", "mm", "inch", "millimeter"),
    ("ft", "m", "foot", "meter"),
    ("mil", "um", "thou", "micrometer"),
    ("cm", "in", "centimeter", "inch"),
    ("mm**2", "ft**2", "millimeter**2", "foot**2"),
    ("mm**2", "in**2", "millimeter**2", "inch**2"),
    ("mm**2", "m**2", "millimeter**2", "meter**2"),
    ("mm**3", "fl_oz", "millimeter**3", "fluid_ounce"),
    ("mm**3", "mL", "millimeter**3", "milliliter"),
    ("gal", "L", "gallon", "liter"),
    ("qt", "fl_oz", "quart", "fluid_ounce"),
    ("fl_oz/ft**2", "mm", "fluid_ounce/foot**2", "millimeter"),
    ("ft**2/gal", "1/mm", "foot**2/gallon", "1/millimeter"),
    ("m**2/L", "ft**2/gal", "meter**2/liter", "foot**2/gallon"),
    ("L/m**2", "mil", "liter/meter**2", "thou"),
    ("g", "lb", "gram", "pound"),
    ("oz", "kg", "ounce", "kilogram"),
    ("lb/ft**2", "kg/m**2", "pound/foot**2", "kilogram/meter**2"),
    ("degF", "degC", "degree_Fahrenheit", "degree_Celsius"),
    ("degC", "degF", "degree_Celsius", "degree_Fahrenheit"),
    ("degC", "K", "degree_Celsius", "kelvin"),
]


@pytest.fixture(scope="module")
def full() -> pint.UnitRegistry[float]:
    """Give pint's own full registry."""
    return pint.UnitRegistry()


@pytest.mark.reference
@pytest.mark.parametrize(("ours_from", "ours_to", "full_from", "full_to"), PAIRS)
def test_our_short_list_agrees_with_pints_own_registry(
    full: pint.UnitRegistry[float], ours_from: str, ours_to: str, full_from: str, full_to: str
) -> None:
    """pint's default definitions, which follow NIST SP 811 and Handbook 44."""
    for value in (0.125, 1.0, 70.0, 12345.678):
        assert convert(value, ours_from, ours_to) == pytest.approx(
            float(full.convert(value, full_from, full_to)), rel=1e-12, abs=1e-9
        )


@pytest.mark.reference
@pytest.mark.parametrize(
    ("value", "from_unit", "to_unit", "published"),
    [
        (1, "in", "mm", 25.4),  # NIST Handbook 44 App. C
        (1, "gal", "in**3", 231),  # NIST Handbook 44 App. C
        (1, "gal", "L", 3.785411784),  # NIST Handbook 44 App. C
        (1, "fl_oz", "in**3", 1.8046875),  # computed: 231 / 128
        (1, "fl_oz", "mL", 29.5735295625),  # computed: 231 / 128 * 16.387064
        (1, "lb", "g", 453.59237),  # NIST Handbook 44 App. C
        (1, "gal/mil", "ft**2", 231 / 0.144),  # coating sheets print 1604
        (1, "L/um", "m**2", 1000),  # coating data sheets: 1 L = 1000 m²·µm
        (1, "m**2/L", "ft**2/gal", 40.745833),  # computed: 10.76391 * 3.785412
        (8, "1/in", "ft**2/gal", 77 / 6),  # 1/8 in: 12.8333 ft²/gal, computed
        (1 / 8, "in*ft**2", "fl_oz", 9.974026),  # computed: 18 in³ / 1.8046875
        (3, "mm*m**2", "L", 3),  # computed
        (-40, "degF", "degC", -40),  # where the scales cross
        (212, "degF", "degC", 100),  # water boils
    ],
)
def test_published_conversions(value: float, from_unit: str, to_unit: str, published: float) -> None:
    assert convert(value, from_unit, to_unit) == pytest.approx(published, rel=2e-8)


@pytest.mark.reference
def test_the_printed_1604_is_the_exact_figure_to_0_02_percent() -> None:
    """1604 ft²·mil/gal on coating data sheets."""
    assert convert(1, "gal/mil", "ft**2") == pytest.approx(1604, rel=2e-4)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.floats(-1e9, 1e9), st.sampled_from(PAIRS))
def test_there_and_back_gives_the_same_figure(value: float, pair: tuple[str, str, str, str]) -> None:
    there = convert(value, pair[0], pair[1])
    assert convert(there, pair[1], pair[0]) == pytest.approx(value, rel=1e-12, abs=1e-9)


@pytest.mark.example
def test_kinds_do_not_mix() -> None:
    with pytest.raises(pint.DimensionalityError):
        convert(1, "fl_oz", "oz")
