"""Typed temperatures, and amounts in the reader's units."""

from contextlib import suppress
from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.trade.temperatures import read
from fieldapp.trade.units import amount, convert


@pytest.mark.parametrize(
    ("typed", "celsius"),
    [
        ("20", 20),
        ("20\n", 20),
        ("20.5", 20.5),
        ("20,5", 20.5),
        (".5", 0.5),
        ("5.", 5),
        ("20 C", 20),
        ("20c", 20),
        (" 20 °C ", 20),
        ("20°C", 20),
        ("20 ℃", 20),
        ("54 °F", 110 / 9),
        ("54F", 110 / 9),
        ("54 f", 110 / 9),
        ("68 ℉", 20),
        ("32 F", 0),
        ("-40 °F", -40),
        ("−5", -5),
        ("– 5 °C", -5),
        ("+5", 5),
        ("-0", 0),
        ("٢٠", 20),
        ("\u00a012,5\u202f°C", 12.5),
    ],
)
def test_what_is_read(typed, celsius):
    # 0 °C is 32 °F, a degree is 9/5 of a Fahrenheit degree: NIST SP 811 (2008), appendix B
    found = read(typed)
    assert found == pytest.approx(celsius, rel=1e-12, abs=1e-12)
    assert str(found)[0] != "-" or found < 0


@pytest.mark.parametrize(
    "typed",
    ["", " ", "warm", "20 K", "20 kelvin", "1e3", "0x10", "1_0", "20 30", "20°", "--5", "+-5", "20 C F", "NaN", "inf",
     "1/2", "1,234.5", "C", "°F", "5" * 41, "20 degrees", "²0"],
)
def test_what_is_refused_says_what_was_given(typed):
    with pytest.raises(ValueError, match="is no temperature") as told:
        read(typed)
    assert "54 °F" in str(told.value)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=45))
def test_no_text_makes_it_fall(typed):
    with suppress(ValueError):
        assert isfinite(read(typed))


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (37.5646, "kg", "37.6 kg (82.8 lb)"),  # 1 lb = 0.453 592 37 kg
        (17.1226, "N", "17.1 N (3.8 lbf)"),  # 1 lbf = 4.448 222 N
        (4.8538, "m/s", "4.9 m/s (10.9 mph)"),  # 1 mph = 0.447 04 m/s
        (300, "mL", "300 mL (10.1 fl oz)"),  # 1 US fl oz = 29.573 53 mL
        (20, "°C", "20 °C (68 °F)"),
        (3, "K", "3 K (5.4 °F)"),
    ],
)
def test_amounts(value, unit, said):
    # factors of NIST SP 811 (2008), appendix B
    assert amount(value, unit, "in").replace("\u00a0", " ") == said
    assert amount(value, unit, "mm").replace("\u00a0", " ") == said.split(" (")[0]


def test_the_ends_of_the_range_convert_without_dust():
    assert (convert(-49, "degF", "degC"), convert(140, "degF", "degC"), convert(32, "degF", "degC")) == (-45, 60, 0)
