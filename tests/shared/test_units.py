"""The readers in `edgewright.units`, with the number and the unit words they rest on."""

from __future__ import annotations

import subprocess
import sys
import time
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from edgewright.errors import UnitError
from edgewright.units import Length, read_coverage, read_length, read_temperature

INCH = Fraction(254, 10)
READERS = (read_length, read_temperature, read_coverage)
quick = settings(derandomize=True, deadline=None, max_examples=400)
thorough = settings(derandomize=True, deadline=None, max_examples=2000)


# 41 5/8 in = 41.625 in = 3 ft 5 5/8 in, since 3 ft = 36 in
@pytest.mark.example
@pytest.mark.parametrize(
    "text",
    [
        "41 5/8 in",
        "41-5/8 in",
        '41-5/8"',
        "41⅝″",
        "41 ⅝ in",
        "41-⅝ inches",
        "41–5/8 in",
        "41 5⁄8 in",
        "41 5/8”",
        "41 5/8''",
        "41 5/8 in.",
        "41 5/8in",
        "41.625 in",
        "41.6250 INCHES",
        "41,6250 in",
        "  41 5/8  in ",
        "41\u00a05/8\u2009in",
        "3' 5-5/8\"",
        "3' 5 5/8\"",
        "3'-5 5/8\"",
        "3'5-5/8\"",
        "3′ 5⅝″",
        "3’ 5-5/8”",
        "3 ft 5 5/8 in",
        "3 ft. 5 5/8 in.",
        "3 feet 5.625 inches",
        "3ft5-5/8in",
    ],
)
def test_every_way_to_write_forty_one_and_five_eighths(text: str) -> None:
    assert read_length(text).exact_mm == Fraction(333, 8) * INCH


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1057mm", 1057),
        ("105.7 cm", 1057),
        ("1.057 m", 1057),
        ("1,5 m", 1500),
        ("19,05 mm", Fraction(1905, 100)),
        ("1 millimetre", 1),
        ("2 millimeters", 2),
        ("2 metres", 2000),
        ("1/2 mm", Fraction(1, 2)),
        ('5/8"', Fraction(5, 8) * INCH),
        ("½ in", INCH / 2),
        (".5 in", INCH / 2),
        ("1/3 in", INCH / 3),
        ("6'", 72 * INCH),
        ("6 foot", 72 * INCH),
        ("3 1/2 ft", 42 * INCH),
        ("0' 5\"", 5 * INCH),
        ("0 in", 0),
        ("-1 1/2 in", Fraction(-3, 2) * INCH),
        ("−5 mm", -5),
        ("-2' 6\"", -30 * INCH),
    ],
)
def test_other_accepted_lengths(text: str, mm: int | Fraction) -> None:
    length = read_length(text)
    assert length.exact_mm == mm
    assert length.given == text
    assert length.mm == pytest.approx(float(mm), rel=1e-15)


@pytest.mark.example
@pytest.mark.parametrize(
    ("bare", "mm"),
    [
        (72, 72 * INCH),
        (41.63, Fraction(4163, 100) * INCH),
        ("41 5/8", Fraction(333, 8) * INCH),
        ("½", INCH / 2),
    ],
)
def test_a_bare_number_takes_the_default_unit_exactly(bare: Any, mm: Fraction) -> None:
    assert read_length(bare, "in").exact_mm == mm
    assert read_length(bare, "mm").exact_mm == mm / INCH
    with pytest.raises(UnitError, match="has no unit: write 72 in or 1830 mm"):
        read_length(bare)


@pytest.mark.example
def test_a_written_unit_beats_the_default() -> None:
    assert read_length("30 mm", "in").exact_mm == 30


@pytest.mark.example
def test_a_decimal_inch_rounds_up_for_parts_and_down_for_stock() -> None:
    # 0.1 in = 812.8 ticks
    length = read_length("0.1 in")
    assert (length.ticks_up(), length.ticks_down(), length.ticks()) == (813, 812, 813)


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1 m - 20 cm", "arithmetic is not read"),
        ("2*3 in", "arithmetic is not read"),
        ("2 x 3 in", "arithmetic is not read"),
        ("1m20cm", "arithmetic is not read"),
        ("(2 in)", "does not begin with a number"),
        ("+2 in", "does not begin with a number"),
        ("--2 in", "does not begin with a number"),
        ("41 - 5/8 in", "sum or a range"),
        ("41 -5/8 in", "sum or a range"),
        ("41-43 in", "sum or a range"),
        ("1e3 mm", "exponent"),
        ("1.5E-3 m", "exponent"),
        ("9**9**9 mm", "exponent"),
        ("nan mm", "not a finite number"),
        ("-inf mm", "not a finite number"),
        ("Infinity", "not a finite number"),
        (float("nan"), "not finite"),
        (float("-inf"), "not finite"),
        (1e300, "beyond"),
        (10**30, "beyond"),
        (True, "`true` is not a length"),
        (None, "is not a length"),
        ([41], "a list is not a length"),
        ("41 5/0 in", "denominator 0"),
        ("41 9/8 in", "1 or more: write 42 1/8"),
        ("41 8/8 in", "1 or more: write 42 if"),
        ("415/8 in", "1 or more: write 51 7/8"),
        ("3' 14\"", "12 inches or more"),
        ("3 ft 12 in", "12 inches or more"),
        ("3.5' 2\"", "whole feet"),
        ("3' 5", "not marked as inches"),
        ("3 ft 20 mm", "not marked as inches"),
        ("3' - 5\"", "arithmetic is not read"),
        ("3 ft.5 in", "arithmetic is not read"),
        ("1,500 mm", "may mean 1.500 mm or 1500 mm"),
        ("0,125 in", "may mean 0.125 in or 125 in"),
        ("3' 1,500\"", "may mean 1.500 or 1500"),
        ("1,234.5 mm", "decimal comma"),
        ("1,234,567 mm", "decimal comma"),
        (",5 mm", "decimal comma"),
        ("1 000 mm", "one clear number"),
        ("5. in", "one clear number"),
        ("1.2.3 in", "one clear number"),
        ("41 5 / 8 in", "one clear number"),
        ("41.5 5/8 in", "one clear number"),
        ("½½ in", "one clear number"),
        ("4½1 in", "one clear number"),
        ("18 degF", "is a temperature, a length is needed"),
        ("70F", "is a temperature, a length is needed"),
        ("20 °C", "is a temperature, a length is needed"),
        ("3 fl oz", "is a volume, a length is needed"),
        ("1 gal", "is a volume, a length is needed"),
        ("3 fl oz/ft^2", "is a coverage, a length is needed"),
        ("3 ft2", "is an area, a length is needed"),
        ("3 sq. ft.", "is an area, a length is needed"),
        ("50 lb", "is a weight, a length is needed"),
        ("45°", "is an angle, a length is needed"),
        ("40 mil", "is a film thickness, a length is needed"),
        ("3 cubits", "`cubits`, which is not read for a length: use in, ft, mm, cm or m"),
        ("in", "does not begin with a number"),
        ("٣ mm", "does not begin with a number"),
        ("1" * 41, "41 characters long"),
        ("5" + " " * 50 + "in", "characters long"),
        ("", "empty"),
        (" \t", "empty"),
        ("2000 km", "use in, ft, mm, cm or m"),
        ("2000000 m", "too large"),
    ],
)
def test_refused_lengths(text: Any, why: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_length(text)
    message = str(caught.value)
    assert why in message
    assert message.isprintable()


@pytest.mark.example
def test_a_message_never_holds_what_a_terminal_cannot_print() -> None:
    for text in ("5 \ud800", "\x1b[31m5 in", "1,500 \ud800", "5 \x07"):
        with pytest.raises(UnitError) as caught:
            read_length(text)
        assert str(caught.value).isprintable()


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        # (F - 32) * 5 / 9
        ("70 degF", 38 * 5 / 9),
        ("70 °F", 38 * 5 / 9),
        ("70°F", 38 * 5 / 9),
        ("70 deg F", 38 * 5 / 9),
        ("70 degrees F", 38 * 5 / 9),
        ("70F", 38 * 5 / 9),
        ("70 ℉", 38 * 5 / 9),
        ("21 degC", 21),
        ("21,5 °C", 21.5),
        ("21 celsius", 21),
        ("-40 degF", -40),
        ("212 degF", 100),
    ],
)
def test_accepted_temperatures(text: str, celsius: float) -> None:
    assert read_temperature(text).celsius == pytest.approx(celsius, abs=1e-9)
    assert read_temperature(text).given == text


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("70", "has no unit: write 70 degF or 21 degC"),
        (70, "has no unit: write 70 degF or 21 degC"),
        (70.5, "has no unit"),
        ("70 deg", "is an angle, a temperature is needed"),
        ("70 in", "is a length, a temperature is needed"),
        ("300 K", "is in kelvin"),
        ("70 degX", "use degF or degC"),
        ("60-70 degF", "sum or a range"),
        ("7e1 degF", "exponent"),
        (False, "`false` is not a temperature"),
        ("9999999999 degC", "too large"),
    ],
)
def test_refused_temperatures(text: Any, why: str) -> None:
    with pytest.raises(UnitError, match=why):
        read_temperature(text)


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "film_mm"),
    [
        # 3 fl oz = 3 * 231/128 in³ over 144 in²
        ("3 fl oz/ft^2", 3 * 231 / 128 / 144 * 25.4),
        ("3 fl. oz. per sq. ft.", 3 * 231 / 128 / 144 * 25.4),
        ("3 fl oz / ft²", 3 * 231 / 128 / 144 * 25.4),
        ("3 floz/ft2", 3 * 231 / 128 / 144 * 25.4),
        ("3 fluid ounces/square foot", 3 * 231 / 128 / 144 * 25.4),
        # one gallon, 231 in³, over 16 * 144 in²
        ("16 ft^2/gal", 231 / (16 * 144) * 25.4),
        ("16 sq ft per gallon", 231 / (16 * 144) * 25.4),
        # 1 L over 1 m² stands 1 mm high
        ("0.35 L/m^2", 0.35),
        ("350 ml/m2", 0.35),
        ("0,35 l/m²", 0.35),
        ("10 m2/L", 0.1),
        ("40 mil", 1.016),
        ("35 thou", 0.889),
        ("100 µm", 0.1),
        ("100 μm", 0.1),
        ("1 mm", 1),
        ("1/8 in", 3.175),
        ('1/8"', 3.175),
        ("0 mil", 0),
        ("-1 mm", -1),
    ],
)
def test_accepted_coverages(text: str, film_mm: float) -> None:
    assert read_coverage(text).film_mm == pytest.approx(film_mm, rel=1e-12)
    assert read_coverage(text).given == text


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("3 oz/ft^2", "may be a weight"),
        ("3 ounces per sq ft", "may be a weight"),
        ("300 g/m^2", "needs a density"),
        ("3 m2/kg", "needs a density"),
        ("0 ft^2/gal", "covers no area"),
        ("3", "has no unit"),
        (3, "has no unit"),
        ("3 fl oz", "is a volume, a coverage is needed"),
        ("3 ft^2", "is an area, a coverage is needed"),
        ("70 degF", "is a temperature, a coverage is needed"),
        ("3 ft", "which is not read for a coverage"),
        ("3 ft/gal", "which is not read for a coverage"),
        ("1,500 ft^2/gal", "may mean 1.500 ft.*2/gal or 1500 ft.*2/gal"),
        ("3 fl oz/ft^2 + 1 mil", "arithmetic is not read"),
        (None, "is not a coverage"),
    ],
)
def test_refused_coverages(text: Any, why: str) -> None:
    with pytest.raises(UnitError, match=why):
        read_coverage(text)


@pytest.mark.reference
def test_an_inch_is_25_4_mm() -> None:
    """NIST Handbook 44, Appendix C."""
    assert read_length("1 in").exact_mm == Fraction(254, 10)
    assert read_length("1 ft").exact_mm == Fraction(3048, 10)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("film", "ft2_per_gal"),
    [("1/8 in", "77/6"), ("1/16 in", "77/3"), ("1/32 in", "154/3"), ("1/64 in", "308/3")],
)
def test_film_and_area_per_gallon_name_the_same_coverage(film: str, ft2_per_gal: str) -> None:
    """Computed from the gallon of 231 in³ (NIST Handbook 44, Appendix C): 231 / 144 / (1/8) = 77/6."""
    whole, rest = divmod(Fraction(ft2_per_gal), 1)
    assert read_coverage(f"{whole} {rest} ft^2/gal").film_mm == pytest.approx(
        read_coverage(film).film_mm, rel=1e-12
    )


@pytest.mark.reference
def test_one_mil_covers_1604_ft2_per_gallon() -> None:
    """Coating data sheets print 1604 ft²·mil/gal; exact 231/0.144 = 1604.1667."""
    assert read_coverage("1604 ft^2/gal").film_mm == pytest.approx(read_coverage("1 mil").film_mm, rel=2e-4)
    assert read_coverage("1604 1/6 ft^2/gal").film_mm == pytest.approx(0.0254, rel=1e-12)


@pytest.mark.reference
def test_a_litre_covers_1000_square_metres_by_a_micrometre() -> None:
    """Coating data sheets: 1 L = 1000 m²·µm."""
    assert read_coverage("1000 m^2/L").film_mm == pytest.approx(read_coverage("1 um").film_mm, rel=1e-12)


def spelled(n: int, dash: str, mark: str) -> str:
    """Write n/64 in with the fraction left in 64ths."""
    whole, top = divmod(n, 64)
    number = f"{whole}" if not top else f"{top}/64" if not whole else f"{whole}{dash}{top}/64"
    return number + mark


@pytest.mark.property
@thorough
@given(st.integers(0, 64 * 400), st.sampled_from(" -"), st.sampled_from([" in", '"', "in", "″", " inches"]))
def test_every_sixty_fourth_is_read_exactly(n: int, dash: str, mark: str) -> None:
    length = read_length(spelled(n, dash, mark))
    assert length.exact_mm == Fraction(n, 64) * INCH
    assert length.ticks() == length.ticks_up() == length.ticks_down() == n * 127


@pytest.mark.property
@thorough
@given(st.integers(0, 50), st.integers(0, 12 * 64 - 1), st.sampled_from(["{}' {}", "{} ft {}", "{}'-{}"]))
def test_feet_and_inches_are_read_exactly(feet: int, n: int, form: str) -> None:
    text = form.format(feet, spelled(n, "-", '"'))
    assert read_length(text).exact_mm == (12 * feet + Fraction(n, 64)) * INCH


@pytest.mark.property
@thorough
@given(
    st.integers(0, 10**6), st.sampled_from([".", ","]), st.sampled_from([("mm", 1), ("cm", 10), ("m", 1000)])
)
def test_every_tenth_is_read_exactly(n: int, sign: str, unit: tuple[str, int]) -> None:
    text = f"{n // 10}{sign}{n % 10} {unit[0]}"
    assert read_length(text).exact_mm == Fraction(n, 10) * unit[1]


@pytest.mark.property
@quick
@given(st.decimals(-10_000, 10_000, places=4, allow_nan=False))
def test_a_float_counts_as_the_decimal_it_prints(number: Any) -> None:
    assert read_length(float(number), "in").exact_mm == Fraction(number) * INCH


@pytest.mark.property
@thorough
@given(st.integers(0, 99999), st.integers(1, 6), st.data(), st.sampled_from(["mm", "in", "m", '"']))
def test_a_decimal_comma_is_understood_or_refused_never_dropped(
    whole: int, places: int, data: st.DataObject, unit: str
) -> None:
    decimals = f"{data.draw(st.integers(0, 10**places - 1)):0{places}d}"
    number = f"{whole},{decimals}"
    if len(decimals) == 3:
        with pytest.raises(UnitError, match="may mean"):
            read_length(f"{number} {unit}")
    else:
        assert read_length(f"{number} {unit}") == Length(
            f"{number} {unit}", read_length(f"{whole}.{decimals} {unit}").exact_mm
        )


@pytest.mark.property
@quick
@given(st.integers(1, 99), st.integers(1, 99), st.integers(1, 64), st.sampled_from(["-", " - ", " -", "- "]))
def test_a_dash_never_subtracts(whole: int, top: int, bottom: int, dash: str) -> None:
    try:
        length = read_length(f"{whole}{dash}{top}/{bottom} in")
    except UnitError:
        return
    assert length.exact_mm == (whole + Fraction(top, bottom)) * INCH


SIGNS = "1 0 41 5/8 / 9/8 ½ . , - ' \" ″ ft in in. mm m cm fl oz gal ^2 ² sq per ° deg F e ** * ( nan inf"
PIECES = st.sampled_from([*SIGNS.split(), " ", "\n", "\x00", "\ud800", "İ", "٣", "ſ", "K", "9" * 15, "µ"])


@pytest.mark.property
@thorough
@given(st.one_of(st.text(max_size=45), st.lists(PIECES, max_size=14).map("".join)))
@example("9**9**9 mm")
@example("9" * 40)
@example("1/" * 20)
@example("1 " * 20)
@example(" " * 10**6)
@example("1" * 10**6 + " in")
def test_no_text_does_more_than_a_unit_error(text: str) -> None:
    for reader in READERS:
        start = time.perf_counter()
        message = ""
        try:
            reader(text)
        except UnitError as error:
            message = str(error)
        assert message.isprintable()
        assert time.perf_counter() - start < 5  # the first call loads pint


@pytest.mark.property
@quick
@given(st.one_of(st.floats(), st.integers(), st.booleans(), st.none(), st.binary(), st.lists(st.integers())))
@example(5e-324)
@example(-0.0)
def test_no_value_does_more_than_a_unit_error(value: Any) -> None:
    for unit in ("in", "mm", None):
        try:
            length = read_length(value, unit)  # type: ignore[arg-type]
        except UnitError:
            continue
        assert abs(length.mm) <= 10**9
    for reader in (read_temperature, read_coverage):
        with pytest.raises(UnitError):
            reader(value)


@pytest.mark.example
def test_a_whole_number_too_long_to_print_is_refused() -> None:
    with pytest.raises(UnitError, match="beyond"):
        read_length(10**6000, "mm")


@pytest.mark.example
def test_reading_a_length_loads_no_pint() -> None:
    code = (
        "import sys; from edgewright.units import read_length; from edgewright.display import show_ticks;"
        "read_length('41 5/8 in'); show_ticks(8128, 'in'); import edgewright.convert;"
        "sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
