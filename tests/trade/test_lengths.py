"""Lengths as people type them, and as they are said.

The figures rest on two exact definitions, 1 in = 25.4 mm and 1 ft = 12 in (international yard and pound
agreement of 1959; NIST SP 811, 2008, appendix B): 1/64 in is 396,875 nm, 1/16 in is 1,587,500 nm.
"""

import doctest
import unicodedata
from fractions import Fraction

import pint
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from fieldapp.trade import lengths
from fieldapp.trade.lengths import NM_PER_MM, LengthError, read, say, say_up
from fieldapp.trade.lengths_parse import UNITS

IN, FT = 25_400_000, 304_800_000


def refused(value):
    with pytest.raises(LengthError) as caught:
        read(value)
    return caught.value


@pytest.mark.parametrize(("mm", "typed"), [
    ("914", ["914", "914.", " 914 ", "914 mm", "914mm", "914 MM", "914 millimetres", "914 Millimeter",
             "91.4cm",
             "91.4 centimetres", "91,4 centimeter", "0.914 m", "0,914 m", ".914 metre", "0.914 METERS",
             "+914",
             "+ 914", "\ufeff914", "\t914\n", "\xa0914\u2003", "0914", "٩١٤", "۹۱۴", "９１４", "𝟗𝟏𝟒"]),
    ("914.4", ["36 in", "36in", "36 in.", "36 inches", "36 Inch", '36"', "36″", "36“", "36”", "36''", "36′′",
               "36’’",
               "36 ''", "36 0/2", "3 ft", "3 ft.", "3 Feet", "3 foot", "3'", "3′", "3‘", "3’", "3 '", "3' 0",
               "3'0\"",
               "3 ft 0 in", "3. ft", "914.4"]),
    ("36.5", ["36.5", "36,5", "36.50", "36 1/2 mm", "36-1/2 mm", "36½mm", "3.65 cm", "3,65cm", "٣٦٫٥",
              "36.5 mm"]),
    ("1.234", ["1.234", "0.1234 cm"]),
    ("0.5", [".5", ",5", "0.5", "0,5", "1/2 mm", "½ mm"]),
    ("5", ["5.", "5,", "5"]),
    ("0.125", ["0,125", "0.125", ",125", "1/8 mm"]),
    ("1234.5", ["1,234.5", "1.234,5", "1 234,5", "1 234.5", "1\xa0234,5", "1\u2009234,5", "1\u202f234,5",
                "1234.5",
                "1234,5", "١٬٢٣٤٫٥"]),
    ("1234", ["1 234", "1\xa0234", "1\u202f234 mm", "1234", "١٬٢٣٤"]),
    ("1234.567", ["1234,567", "1,234.567", "1 234,567", "1.234,567"]),
    ("12.7", ["1/2", "½", "½ in", '1/2"', "0.5 in", "32/64", "16/32 in", "1⁄2", "1∕2", "0 1/2"]),
    ("927.1", ["36 1/2", "36-1/2", "36½", "36 ½", "36-½", "36 1⁄2", "36 1∕2", "36\xa01/2", "36–1/2", "36‑½",
               "36 1/2 in", '36-1/2"', "36½″", "36.5 in", "36,5 inches", "36 16/32 Inch", "٣٦ ١/٢",
               "3 ft 0 1/2 in", "3' 0 1/2\"", "3'0½", "3' 1/2\"", "3'-½", "3' - 1/2", "3 ft 0.5 in"]),
    ("1066.8", ["3 1/2 ft", "3½'", "3.5 ft", "3'-6\"", "3' - 6\"", "3' 6", "3'6", "3 ft 6", "3ft6in",
                "3 ft. 6 in.",
                "3‘ 6“", "3′ — 6″", "3'- 6", "3' -6", "3 feet 6 inches", "3’ 6’’", "42 in"]),
    ("1079.5", ["3'6½", "3' 6.5\"", "3' 6,5", "3' 6-1/2", "3 ft 6 1/2"]),
    ("-6.35", ["-1/4", "- 1/4", "−1/4", "–¼ in", "— 0.25 in", "-6.35", "‐6,35 mm"]),
    ("-1066.8", ["-3' 6\"", "- 3'-6", "−3½ ft"]),
    ("-927.1", ["-36 1/2", "-36-1/2"]),
    ("0", ["0", "-0", "+0", "- 0.0", "0/2", "-0 mm", "0' 0\""]),
    ("100000", ["100 m", "100000", "100 000 mm", "10000 cm"]),
])
def test_what_is_typed(mm, typed):
    assert [(text, read(text)) for text in typed] == [(text, Fraction(mm) * NM_PER_MM) for text in typed]


def test_the_examples_of_the_docstring():
    tried = doctest.testmod(lengths)
    assert (tried.failed, tried.attempted) == (0, 1)


def test_exact_figures():
    assert [read("1/64 in"), read("1/16 in"), 16 * read("1/16 in"), read("88 13/16 in")] \
        == [396_875, 1_587_500, 25_400_000, 2_255_837_500]
    assert [read(value) for value in (914, 36.5, -12.7, 0, 1e-7, 0.1 + 0.2)] \
        == [914_000_000, 36_500_000, -12_700_000, 0, 0, 300_000]


@pytest.mark.parametrize(("given", "nm"), [
    ("0.0000005", 1), ("-0.0000005", -1), ("0.0000004999", 0), ("0.0000015", 2), (0.0000005, 1),
    (-0.0000025, -3),
    ("1/64 mm", 15_625), ("0.00000002 in", 1), ("0.00000001 in", 0)])
def test_whole_nanometres_a_half_away_from_zero(given, nm):
    assert read(given) == nm


def test_units_agree_with_pint():
    registry = pint.UnitRegistry()
    for unit, nm in UNITS.items():
        expected = registry.Quantity(1, {"in": "inch", "ft": "foot",
        "m": "metre"}.get(unit, unit)).to("nanometre")
        assert nm == pytest.approx(expected.magnitude, rel=1e-12)
        assert read(f"7 {unit}") == 7 * nm


@pytest.mark.parametrize(("typed", "readings"), [
    ("1,234", ["1.234 mm", "1234 mm"]), ("-1,234", ["-1.234 mm", "-1234 mm"]),
    ("36,125 in", ["36.125 in", "36125 in"]),
    ('36,125"', ["36.125 in", "36125 in"]), ("12,345 cm", ["12.345 cm", "12345 cm"]),
    ("１,２３４", ["1.234 mm", "1234 mm"]),
    ("3' 6,125", ["3 ft 6.125 in", "3 ft 6125 in"]), ("36 - 1/2", ["36 1/2 in", "35 1/2 in"]),
    ("36 -1/2", ["36 1/2 in", "35 1/2 in"]), ("36- ½ mm", ["36 1/2 mm", "35 1/2 mm"]),
    ("0 - 1/2", ["0 1/2 in", "-1/2 in"]),
    ("-36 – 1/2", ["-36 1/2 in", "-35 1/2 in"]), ("3' 6 - 1/2", ["3 ft 6 1/2 in", "3 ft 5 1/2 in"]),
    ("3 6", ["3 ft 6 in", "36 mm"]), ("3 6 in", ["3 ft 6 in", "36 in"]),
    ("3 6 1/2", ["3 ft 6 1/2 in", "36 1/2 in"]),
    ("36 48", ["3648 mm", "36.48 mm"]), ("3.5 6", ["3.5 mm", "6 mm"]),
    ("3ft.5in", ["3 ft 5 in", "3 ft 0.5 in"])])
def test_two_readings_are_both_named(typed, readings):
    error = refused(typed)
    assert error.readings == readings
    assert all(reading in str(error) for reading in [typed, *readings])


@pytest.mark.parametrize(("typed", "code", "right"), [
    ("", "empty", "914 mm"), ("  \t", "empty", "36 1/2 in"), ("wide", "unreadable", "914 mm"),
    ("NaN", "unreadable", "914"),
    ("inf", "unreadable", "914"), ("1e3", "unreadable", "914"), ("0x10", "unreadable", "914"),
    ("1_000", "unreadable", "914"),
    ("5 yd", "unit", "mm, cm, m, in or ft"), ("5 km", "unit", "cm"), ("5 thou", "unit", "in"),
    ("1 m 20 cm", "units", "1200 mm"),
    ("3 in 2 ft", "units", "feet and inches"), ("3 ft 20 cm", "units", "1200 mm"),
    ("1/3", "denominator", "2, 4, 8, 16, 32 or 64"),
    ("⅓", "denominator", "64"), ("1/128", "denominator", "64"), ("36 1/10", "denominator", "64"),
    ("1/0", "denominator", "64"),
    ("36 9/8", "improper", "37 1/8"), ("8/8", "improper", "37 1/8"), ("361/2", "improper", "37 1/8"),
    ("36.5 1/2", "decimals", "36.5 in or 36 1/2 in"), ("36,5½", "decimals", "36.5 in"),
    ("36. 1/2", "decimals", "36.5 in"),
    ("3.5 ft 6 in", "feet", "3 ft 6 in"), ("3 1/2' 6", "feet", "3 ft 6 in"), ("3.' 6", "feet", "3 ft 6 in"),
    ("3' 12", "inches", "under 12"), ("3' 12.0\"", "inches", "under 12"), ("3' 600", "inches", "under 12"),
    ("--5", "signs", "one in front"), ("+ -5", "signs", "one in front"), ("−−5", "signs", "one in front"),
    ("100.000001 m", "far", "100 m"), ("-100001", "far", "-100 m"), ("329 ft", "far", "100 m"),
    ("1,000,000", "far", "100 m"),
    ("1234567890123456", "digits", "15 digits"), ("0.123456789012345", "digits", "15 digits"),
    ("9" * 41, "long", "40 characters"),
    ("36\n1/2", "unreadable", "914"), ("1\t234", "unreadable", "914"), ("36-6", "unreadable", "914"),
    ('"', "unreadable", "914")])
def test_refused_with_what_would_be_right(typed, code, right):
    error = refused(typed)
    assert (error.code, error.readings) == (code, [])
    assert right in str(error)


def test_limits_hold_their_last_value():
    assert read("99999.9999999999") == 10**11  # 15 digits; rounded to 100 m
    assert read("9" + " " * 39) == 9 * NM_PER_MM  # 40 characters
    assert refused("9" + " " * 40).code == "long"
    assert read(100_000) == -read(-100_000) == 10**11
    assert refused(100_000.000001).code == "far"
    assert read("3' 11 63/64\"") == 4 * FT - IN // 64


@pytest.mark.parametrize(("value", "said"), [
    (True, "true"), (False, "false"), (None, "null"), ([914], "a list"), ({"mm": 914}, "an object"),
    ((1,), "a list"),
    (b"914", "an object"), (float("nan"), "NaN"), (float("inf"), "Infinity"), (float("-inf"), "-Infinity"),
    (-10**50, "-1" + "0" * 38 + "…"), (1e300, "1" + "0" * 39 + "…"), (object(), "an object")])
def test_what_is_no_length_at_all(value, said):
    assert said in str(refused(value))


def test_a_number_too_long_for_text_is_refused_like_any_other():
    assert "1" + "0" * 39 + "…" in str(refused(10**5000))


def test_no_more_than_40_characters_of_what_was_given_are_shown():
    assert "a" * 40 + "…" in str(refused("a" * 5000))
    assert "a" * 41 not in str(refused("a" * 5000))


@pytest.mark.parametrize("hostile", ["\ud800", "9\udfff", "\x00914", "914\x1b[31m", "\u202e914"])
def test_sentences_can_always_be_written(hostile):
    sentence = str(refused(hostile))
    assert sentence.encode()
    assert not any(unicodedata.category(character) in ("Cc", "Cs", "Cf") for character in sentence)


ANYTHING = st.one_of(
    st.text(), st.text(st.sampled_from("0123456789 .,-–/'\"½⅓ftinmc٬٫+\xa0"), max_size=16), st.integers(),
    st.floats(),
    st.none(), st.booleans(), st.binary(), st.lists(st.integers()), st.dictionaries(st.text(), st.integers()))


@given(ANYTHING)
@example("\ud800")
@example("ß²Ⅷ")
@example("İ" * 40)
def test_read_answers_or_raises_length_error(value):
    try:
        found = read(value)
    except LengthError as error:
        found = error
    if isinstance(found, LengthError):
        assert len(found.readings) in (0, 2)
    else:
        assert type(found) is int
        assert abs(found) <= 10**11


@given(st.integers(-10**11, 10**11))
def test_what_is_said_in_mm_reads_back_within_half_a_tenth(nm):
    said = say(nm / NM_PER_MM, "mm")
    assert abs(read(said) - nm) <= 50_000
    assert say(read(said) / NM_PER_MM, "mm") == said
    assert read(say(nm / NM_PER_MM, "mm", ",")) == read(said)


@given(st.integers(-3937 * 32, 3937 * 32))
def test_thirty_seconds_read_back_exactly(count):
    nm = count * IN // 32
    said = say(nm / NM_PER_MM, "in")
    assert read(said) == nm
    assert said == say_up(nm / NM_PER_MM, "in")


@given(st.integers(-10**10, 10**10), st.sampled_from(["mm", "in"]))
def test_said_up_is_the_next_step_and_never_below(nm, show):
    step = 500_000 if show == "mm" else IN // 32
    assert 0 <= read(say_up(nm / NM_PER_MM, show)) - nm < step


@given(st.integers(0, 300), st.integers(0, 11), st.sampled_from([2, 4, 8, 16, 32, 64]), st.data())
def test_feet_inches_and_fractions_add_up(feet, inches, below, data):
    above = data.draw(st.integers(0, below - 1))
    exact = feet * FT + (inches + Fraction(above, below)) * IN
    for text in (f"{feet}' {inches} {above}/{below}\"", f"{feet} ft - {inches}-{above}⁄{below}",
                 f"{feet * 12 + inches} {above}/{below} in"):
        assert read(text) == exact
        assert read(f"− {text}") == -exact


@given(st.integers(-10**14, 10**14), st.integers(4, 14))
def test_a_unit_of_millimetres_says_what_is_meant_without_one(digits, places):
    value = Fraction(digits, 10**places)
    assume(abs(value) <= 100_000)
    text = f"{'-' if digits < 0 else ''}{abs(digits) // 10**places}.{abs(digits) % 10**places:0{places}d}"
    assume(sum(character.isdigit() for character in text) <= 15)
    nearest = (2 * abs(value) * NM_PER_MM + 1) // 2  # a half goes up in size
    expected = -nearest if digits < 0 else nearest
    assert read(text) == read(text.replace(".", ",")) == read(f"{text} mm") == expected
