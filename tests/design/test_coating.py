"""Coating arithmetic against published figures and hand reckoning."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.band import Band
from edgewright.convert import convert
from edgewright.design.coating import (
    CUPS,
    FLUID_OUNCE,
    GALLON,
    MIL,
    SQUARE_FOOT,
    base_coat,
    bucket_residue,
    cups_for,
    drips,
    edge_drink,
    edge_filler,
    film_of_coverage,
    glue_line,
    resin_film,
    resin_on_lip,
    seam_filler,
    thinner_film,
    tool_residue,
)
from edgewright.errors import InputError

INCH = 25.4
ONE = Band.exact(1.0)

# Reference job: 72 × 36 in, corners R 2 in, round-overs 3/8 in above and below, T 1-7/16 in
P = 212.566 * INCH
EDGE = 395.55 * INCH**2
FLAT = 2509.30 * INCH**2
T = 1.4375 * INCH


def coverage(film_mm):
    """Coverage in ft²/gal of a film: the inverse of what is under test, by convert alone."""
    return convert(1 / film_mm, "1/mm", "ft**2/gal")


def ounces(band):
    return tuple(n / FLUID_OUNCE for n in (band.low, band.expected, band.high))


def mil(low, high):
    return Band.between(low * MIL, high * MIL)


# ---- published figures ----------------------------------------------------------------------------------


@pytest.mark.reference
def test_gallon_and_fluid_ounce():
    """NIST Handbook 44, Appendix C: 231 in³ = 3.785411784 L; 1/128 of it is 29.5735295625 mL."""
    assert pytest.approx(3_785_411.784, rel=1e-15) == GALLON
    assert pytest.approx(29_573.5295625, rel=1e-15) == FLUID_OUNCE
    assert pytest.approx(1.8046875 * INCH**3, rel=1e-14) == FLUID_OUNCE
    assert pytest.approx(convert(1, "fl_oz", "mm**3"), rel=1e-14) == FLUID_OUNCE


@pytest.mark.reference
def test_square_feet_times_mil_per_gallon():
    """Coating sheets print 1604 ft²·mil/gal; exactly 231/0.144."""
    assert film_of_coverage(1604) == pytest.approx(MIL, rel=2e-4)
    assert film_of_coverage(231 / 0.144) == pytest.approx(MIL, rel=1e-14)


@pytest.mark.reference
def test_metric_twin_of_the_constant():
    """Coating data sheet: 1 L = 1000 m²·µm; and 1 m²/L = 40.74583 ft²/gal."""
    assert film_of_coverage(40.745833) == pytest.approx(1.0, rel=1e-8)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("film_mm", "solids", "unit", "published", "rel"),
    [
        # published worked example: 65 % solids, 5 mil dry -> 208.52 ft²/gal
        (5 * MIL, 0.65, "ft**2/gal", 208.52, 1e-3),
        # same sheet, metric: 65 %, 125 µm -> 5.2 m²/L
        (0.125, 0.65, "m**2/L", 5.2, 1e-12),
    ],
)
def test_coverage_of_a_paint_with_solids(film_mm, solids, unit, published, rel):
    # the wet film is dry / solids; a gallon over its coverage is that film again
    wet = film_mm / solids
    found = convert(1 / wet, "1/mm", unit)

    assert found == pytest.approx(published, rel=rel)
    assert film_of_coverage(coverage(wet)) == pytest.approx(wet, rel=1e-14)


@pytest.mark.reference
def test_solids_and_transfer_multiply():
    """R. Joseph, paint questions, October 2003: 52 % solids, 30 % transfer, 1.5 mil, 1 gal -> 167 ft²."""
    area = 167 * SQUARE_FOOT
    used = resin_film(area, ONE * (1.5 * MIL)).expected

    assert used / (0.52 * 0.30) == pytest.approx(GALLON, rel=2e-3)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("inches", "published"), [(1 / 8, 77 / 6), (1 / 16, 77 / 3), (1 / 32, 154 / 3), (1 / 64, 308 / 3)]
)
def test_coverage_of_whole_fractions(inches, published):
    """From 231 in³ (NIST Handbook 44): 12.8333, 25.6667, 51.3333 and 102.667 ft²/gal, exact thirds."""
    assert film_of_coverage(published) == pytest.approx(inches * INCH, rel=1e-14)


@pytest.mark.reference
@pytest.mark.parametrize(("inches", "printed"), [(1 / 32, 48), (1 / 64, 96)])
def test_a_printed_coverage_that_is_wrong(inches, printed):
    """A glue page prints "almost exactly 48 ft²/gal" at 1/32 in and 96 at 1/64: not 51.33 and 102.67."""
    assert film_of_coverage(printed) > 1.06 * inches * INCH
    assert film_of_coverage(1 / (32 * inches) * 51.333333) == pytest.approx(inches * INCH, rel=1e-7)


@pytest.mark.reference
def test_a_square_foot_at_an_eighth_and_a_square_metre_at_three_mm():
    """9.974 fl oz and 3.000 L, from 231 in³."""
    assert resin_film(SQUARE_FOOT, ONE * (INCH / 8)).expected / FLUID_OUNCE == pytest.approx(9.974, abs=5e-4)
    assert resin_film(1e6, ONE * 3.0).expected == 3e6


@pytest.mark.reference
def test_six_mil_of_glue():
    """A PVA data sheet (cold press, 6 to 8 wet mil): 6 mil is 152.4 µm, 267.36 ft²/gal."""
    assert film_of_coverage(267.36) == pytest.approx(0.1524, rel=2e-5)
    # at 1.1 g/cm³ 167.6 g/m² over one square metre
    assert glue_line(1e6, ONE * 0.1524).expected * 1.1e-3 == pytest.approx(167.6, abs=0.05)


# ---- the reference job, reckoned by hand ----------------------------------------------------------------


@pytest.mark.example
def test_flood_coat_of_the_reference_job():
    # flat 2509.3 in² × 0.035 in / 1.8047 in³/fl oz = 48.66; edge 395.55 × 0.008 / 1.8047 = 1.753;
    # lip 212.566 × 0.375 × 0.008 / 1.8047 = 0.353; drips 17.714 ft × 0.25 = 4.43
    assert ounces(resin_film(FLAT, mil(35, 40))) == pytest.approx((48.66, 52.14, 55.62), abs=0.01)
    assert ounces(resin_film(EDGE, mil(8, 12))) == pytest.approx((1.753, 2.192, 2.630), abs=0.001)
    assert ounces(resin_on_lip(P, 3 / 8 * INCH, mil(8, 12))) == pytest.approx(
        (0.353, 0.442, 0.530), abs=0.001
    )
    per_foot = Band(0.25, 0.375, 0.5) * (FLUID_OUNCE / (12 * INCH))
    assert ounces(drips(P, per_foot)) == pytest.approx((4.428, 6.643, 8.857), abs=0.001)


@pytest.mark.example
def test_one_full_skim_takes_near_seven_ounces():
    # 1.4375 × 212.566 × 1/32 = 9.549 in³ = 5.291 fl oz, × 1.3 = 6.878
    filled = edge_filler(T, P, Band.exact(INCH / 32))

    assert filled.expected * 1.3 / FLUID_OUNCE == pytest.approx(6.878, abs=0.001)


@pytest.mark.example
def test_a_seam_is_filled_as_a_triangle():
    # 1/2 × 1/16 × 1/16 × 212.566 in = 0.4152 in³ = 0.230 fl oz
    groove = Band.exact(INCH / 16)

    assert seam_filler(P, groove, groove).expected / FLUID_OUNCE == pytest.approx(0.230, abs=0.001)


@pytest.mark.example
def test_base_colour_of_the_reference_job():
    # 20.17 ft² × 2 / 300 ft²/gal × 128 = 17.2 fl oz; 2.747 ft² of edge drink 1 to 2 films
    film = Band.exact(film_of_coverage(300))

    assert base_coat(FLAT + EDGE, film, 2).expected / FLUID_OUNCE == pytest.approx(17.21, abs=0.01)
    assert ounces(edge_drink(EDGE, film, Band(1, 1.5, 2))) == pytest.approx((1.172, 1.758, 2.344), abs=0.002)


@pytest.mark.example
def test_glue_of_the_reference_job():
    # 2 × 72 + 2 × 32-1/4 = 208.5 in × 1-7/8 = 390.94 in² = 2.71 ft²
    area = 208.5 * 1.875 * INCH**2
    low, _, high = ounces(glue_line(area, mil(6, 8)))

    assert area / SQUARE_FOOT == pytest.approx(2.71, abs=0.005)
    assert (low, high) == pytest.approx((1.300, 1.733), abs=0.001)


@pytest.mark.example
@pytest.mark.parametrize(
    ("fluid_ounces", "name", "count"),
    [
        (0, "1 quart", 1),
        (24, "1 quart", 1),
        (24.01, "2 1/2 quart", 1),
        (60, "2 1/2 quart", 1),
        (68.4, "1 gallon", 1),
        (96, "1 gallon", 1),
        (96.01, "1 gallon", 2),
        (200, "1 gallon", 3),
    ],
)
def test_cups_are_filled_three_quarters(fluid_ounces, name, count):
    cup, cups = cups_for(fluid_ounces * FLUID_OUNCE)

    assert (cup.name, cups) == (name, count)


@pytest.mark.example
def test_an_unscraped_wall_keeps_what_common_practice_says():
    assert ounces(bucket_residue(70 * FLUID_OUNCE))[::2] == pytest.approx((1.3, 4.2))
    assert [round(cup.residue.high / FLUID_OUNCE, 1) for cup in CUPS] == [1.9, 3.2, 4.2]


@pytest.mark.example
def test_the_edge_keeps_no_more_than_was_poured():
    assert thinner_film(mil(8, 12), mil(35, 40)) == mil(8, 12)
    assert thinner_film(mil(8, 12), mil(3, 5)) == mil(3, 5)


@pytest.mark.example
@pytest.mark.parametrize("bad", [-1.0, float("nan"), float("inf")])
def test_impossible_measures_are_refused(bad):
    for fault in (
        lambda: resin_film(bad, ONE),
        lambda: resin_on_lip(P, bad, ONE),
        lambda: drips(bad, ONE),
        lambda: edge_filler(bad, P, ONE),
        lambda: seam_filler(bad, ONE, ONE),
        lambda: base_coat(bad, ONE, 1),
        lambda: edge_drink(bad, ONE, ONE),
        lambda: glue_line(bad, ONE),
        lambda: cups_for(bad),
    ):
        with pytest.raises(InputError, match="at least 0 mm"):
            fault()
    for coverage_of_none in (0, bad):
        if coverage_of_none != float("inf"):
            with pytest.raises(InputError, match="greater than 0"):
                film_of_coverage(coverage_of_none)


# ---- properties -----------------------------------------------------------------------------------------

areas = st.floats(0, 1e8)
films = st.tuples(st.floats(0, 3), st.floats(0, 3)).map(lambda pair: Band.between(*sorted(pair)))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(areas, films, st.floats(0, 10))
def test_film_volume_grows_with_area_and_with_film(area, film, more):
    one = resin_film(area, film)

    for other in (resin_film(area * more, film), resin_film(area, film * more)):
        assert (other.low, other.expected, other.high) == pytest.approx(
            (one.low * more, one.expected * more, one.high * more), rel=1e-12
        )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(areas, films, st.integers(1, 4))
def test_coats_of_base_colour_and_tools_add_up(area, film, coats):
    single, many = base_coat(area, film, 1), base_coat(area, film, coats)

    assert many.high == pytest.approx(coats * single.high, rel=1e-12)
    assert tool_residue(film, coats).low == pytest.approx(coats * film.low, rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(0, 2e7), st.floats(0, 2e7))
def test_more_resin_never_leaves_less_in_the_cups(a, b):
    less, more = sorted((a, b))
    cup, count = cups_for(more)

    assert bucket_residue(less).high <= bucket_residue(more).high
    assert count * cup.size * 0.75 >= more * (1 - 1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(1, 5000))
def test_coverage_and_film_are_inverse(square_feet):
    assert coverage(film_of_coverage(square_feet)) == pytest.approx(square_feet, rel=1e-12)
