"""The trade's defaults: exact, each with an origin."""

from fractions import Fraction

import pytest

from edgewright import trade


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "mm"), [("1/8", Fraction(3175, 1000)), ("4 1/2", Fraction(1143, 10)), ("3", Fraction(762, 10))]
)
def test_inches_are_exact_and_write_back(text: str, mm: Fraction) -> None:
    assert trade.inch(text) == mm
    assert trade.inch_text(mm) == f"{text} in"


@pytest.mark.example
def test_nothing_is_written_as_zero() -> None:
    assert trade.inch_text(Fraction(0)) == "0 in"


@pytest.mark.property
def test_every_default_names_its_origin() -> None:
    defaults = {name: value for name, value in vars(trade).items() if isinstance(value, trade.Default)}

    assert len(defaults) > 40
    assert all(default.origin for default in defaults.values())
    lengths = [d.value for name, d in defaults.items() if d.unit == "mm" and not isinstance(d.value, tuple)]
    assert all(isinstance(length, Fraction) and length > 0 for length in lengths)


@pytest.mark.reference
def test_softwood_plywood_density_is_three_pounds_a_square_foot_and_inch() -> None:
    # APA rule quoted by trade text: 3.0 lb/ft2 per inch;
    # 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, 1 in = 0.0254 m
    rule = 3.0 * 0.45359237 / (0.3048**2 * 0.0254)

    assert trade.DENSITY_SOFTWOOD_PLYWOOD.value == pytest.approx(rule, abs=0.05)


@pytest.mark.property
def test_each_material_has_a_density_range() -> None:
    assert tuple(trade.DENSITY) == trade.MATERIALS
    assert all(low.value <= high.value for low, high in trade.DENSITY.values())
