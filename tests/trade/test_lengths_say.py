"""How lengths are said, and how the sentences of sheets are filled.

1 in is exactly 25.4 mm (NIST SP 811, 2008, appendix B), so 1/32 in is 0.79375 mm.
"""

import pytest

from fieldapp.trade.lengths import fill, say, say_fine, say_up

NBSP, MINUS = "\xa0", "−"


@pytest.mark.parametrize(("mm", "millimetres", "inches"), [
    (0, "0 mm", "0 in"), (914, "914 mm", "35 31/32 in"), (914.4, "914.4 mm", "36 in"),
    (2255.8375, "2255.8 mm", "88 13/16 in"),
    (-927.1, "−927.1 mm", "−36 1/2 in"), (-0.04, "0 mm", "0 in"), (0.05, "0.1 mm", "0 in"),
    (-0.05, "−0.1 mm", "0 in"),
    (0.396875, "0.4 mm", "1/32 in"), (0.396874, "0.4 mm", "0 in"), (1.6, "1.6 mm", "1/16 in"),
    (25.3999999, "25.4 mm", "1 in")])
def test_said_to_a_tenth_or_a_thirty_second_reduced(mm, millimetres, inches):
    assert say(mm, "mm").replace(NBSP, " ") == millimetres
    assert say(mm, "in").replace(NBSP, " ") == inches
    assert " " not in say(mm, "mm") + say(mm, "in")


@pytest.mark.parametrize(("mm", "millimetres", "inches"), [
    (0.12, "0.5 mm", "1/32 in"), (0, "0 mm", "0 in"), (0.5, "0.5 mm", "1/32 in"),
    (0.5000000001, "0.5 mm", "1/32 in"),
    (0.500001, "1 mm", "1/32 in"), (25.4, "25.5 mm", "1 in"), (25.41, "25.5 mm", "1 1/32 in"),
    (-0.7, "−0.5 mm", "0 in")])
def test_said_up_to_the_next_half_or_thirty_second(mm, millimetres, inches):
    assert [say_up(mm, show).replace(NBSP, " ") for show in ("mm", "in")] == [millimetres, inches]


@pytest.mark.parametrize("mm", [float("nan"), float("inf")])
def test_what_is_no_number_cannot_be_said(mm):
    with pytest.raises(ValueError, match="finite"):
        say(mm, "mm")


def test_show_is_one_of_two():
    with pytest.raises(ValueError, match="mm or in, not cm"):
        say(914, "cm")


def test_what_a_calliper_reads_is_said_in_thousandths():
    """0.126 in is where row 64 starts (US Army TM 10-5410-223-24, para 2-12); a 3/16 in hole would be 0.1875."""
    assert say_fine(0.126 * 25.4, "in") == f"0.126{NBSP}in"
    assert say_fine(4.9, "in") == f"0.193{NBSP}in"
    assert say_fine(-0.3 * 25.4, "in", ",") == f"{MINUS}0,300{NBSP}in"
    assert say_fine(1.2345 * 25.4, "in") == f"1.235{NBSP}in"
    assert say_fine(4.94, "mm") == say(4.94, "mm")
    assert fill("{a|fine}", {"a": 4.9}, "in") == say_fine(4.9, "in")


def test_sentences_are_filled():
    values = {"by": 1.5, "left_top": 0.12, "where": "left top {by}", "p": 40.83, "t": -2.04, "n": 3.0,
    "m": 3.26}
    assert fill("Raise {by}; trim {left_top^} at the {where|text}.", values, "mm") \
        == f"Raise 1.5{NBSP}mm; trim 0.5{NBSP}mm at the left top {{by}}."
    assert fill("Raise {by}; trim {left_top^}.", values, "in") == f"Raise 1/16{NBSP}in; trim 1/32{NBSP}in."
    assert fill("{p|%}, {t|C}, {n|n}, {m|n}", values, "in") == f"40.8{NBSP}%, {MINUS}2{NBSP}°C, 3, 3.3"
    assert fill("{by} {p|%} {m|n}", values, "mm", ",") == f"1,5{NBSP}mm 40,8{NBSP}% 3,3"


@pytest.mark.parametrize(("sentence", "says"), [
    ("{a} {b}", "no value for {b}; there are: a, t"), ("{a|x}", "no place"), ("{a", "brace"), ("a}", "brace"),
    ("{}", "brace"), ("{t}", "takes a number, not words"), ("{a|text}", "takes a text, not 1")])
def test_what_cannot_be_filled_is_said_loudly(sentence, says):
    with pytest.raises(ValueError) as caught:
        fill(sentence, {"a": 1, "t": "words"}, "mm")
    assert says in str(caught.value)
