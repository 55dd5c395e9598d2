"""How the office says readings, dates, figures and states, and finds a code that is one character off."""

import re

import pytest
from office_acts import signed, text

from fieldapp.web import office_words


@pytest.mark.parametrize(("value", "says"), [
    ({"text": "-3.5; -3.5", "nm": -3_500_000, "reversed": True}, "−3.5; −3.5 mm, reversed"),
    ({"text": "88 13/16 in", "nm": 2_255_837_500}, "88 13/16 in = 2255.8\u00a0mm"),
    ({"text": "36 1/2", "nm": 927_100_000}, "36 1/2 = 927.1\u00a0mm"),
    ({"text": "-1/4 in; -3/16 in", "nm": -5_556_250}, "−1/4 in; −3/16 in = −5.6\u00a0mm"),
    ({"text": "2251.5", "nm": 1}, "2251.5 mm"), ({"text": "130", "number": 130, "ucum": "deg"}, "130 °"),
    ({"text": "24", "number": 24, "ucum": "1"}, "24"),
    ({"text": "9000 /min", "number": 9000, "ucum": "/min"}, "9000 /min")])
def test_a_reading_says_its_unit(value, says):
    assert office_words.value({"kind": "reading", "value": value}) == says


def test_a_code_that_is_one_character_off_is_named(shared):
    ruth = shared.client("ruth")
    short = ruth.get(f"/api/units/{shared.units['07']}").get_json()["short"]
    right = f"{short[:3]}-{short[3:]}"
    for wrong in (right[:-1] + ("A" if right[-1] != "A" else "B"), f"{short[1]}{short[0]}{short[2]}-{short[3:]}"):
        page = text(ruth.get(f"/office/units?find={wrong}"))
        assert f"No unit has {wrong}. {right} is one character off." in page
        assert "Quay 3 / 07" in page
    far = "".join("A" if letter != "A" else "B" for letter in short)
    assert "off" not in text(ruth.get(f"/office/units?find={far}"))


def test_every_state_word_in_the_list_has_its_shape(yard, ruth):
    signed(yard)
    page = ruth.get("/office/units").get_data(as_text=True)
    cells = re.findall(r'<td class="state">(.*?)</td>', page, re.DOTALL)
    assert len(cells) == 3
    assert all(cell.startswith("<svg") and "</svg> " in cell for cell in cells)
    assert "signed, not yet accepted" in page


@pytest.mark.parametrize(
    ("kept", "shown"),
    [("2026-10-21", "21 Oct 2026"), ("2028-03", "Mar 2028"), ("next week", "next week"), ("2026-13-40", "2026-13-40")],
)
def test_a_date_is_shown_as_it_is_read(kept, shown):
    assert office_words.value({"kind": "note", "value": {"text": kept}}, {"type": "date"}) == shown


def test_figures_have_their_unit_and_a_minus_that_is_one():
    """screens.md 4: mm at most one decimal, U+00A0 before the unit, U+2212 for minus."""
    assert office_words.figured(-0.43, "mm") == "−0.4\u00a0mm"
    assert office_words.figured(30.8333, "%") == "30.8\u00a0%"
    assert office_words.figured(-4.0, "°C") == "−4\u00a0°C"
    assert office_words.figured(-0.01, "%") == "0\u00a0%"
