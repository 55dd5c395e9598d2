"""Rivets against printed tables."""

from fractions import Fraction

import pytest

from fieldapp.plan.tables import table
from fieldapp.trade import rivets

# US Army TM 10-5410-223-24, para 2-12 (inches), as printed
ROWS_3_16 = [
    ("62", 0.020, 0.125),
    ("64", 0.126, 0.250),
    ("66", 0.251, 0.375),
    ("68", 0.376, 0.500),
    ("610", 0.501, 0.625),
    ("612", 0.626, 0.750),
]
# US Army TM 10-5410-221-14/1, Table 4-3 (inches), as printed; it prints .125 for the start of 84, where the
# rows' own rule (one thousandth above the row before) has .126
ROWS_1_8 = [
    ("41", 0.020, 0.062),
    ("42", 0.063, 0.125),
    ("43", 0.126, 0.187),
    ("44", 0.188, 0.250),
    ("45", 0.251, 0.312),
    ("46", 0.313, 0.375),
    ("48", 0.376, 0.500),
]
ROWS_5_32 = [("52", 0.020, 0.125), ("53", 0.126, 0.187), ("54", 0.188, 0.250), ("56", 0.251, 0.375)]
ROWS_1_4 = [("86", 0.251, 0.375), ("88", 0.376, 0.500), ("812", 0.626, 0.750)]


def rivet(grip, diameter=4.8, u=0.0, **more):
    given = {
        "diameter": diameter,
        "stack": [{"thickness": {"value": grip, "u": u}}],
        "at": [{"place": "sides"}],
        **more,
    }
    return rivets.rivet(given, table("rivets"), table("doubt"))


@pytest.mark.parametrize(("diameter", "rows"), [(4.8, ROWS_3_16), (3.2, ROWS_1_8), (4.0, ROWS_5_32), (6.4, ROWS_1_4)])
def test_each_printed_row_serves_both_its_printed_ends(diameter, rows):
    for name, least, most in rows:
        for inches in (least, (least + most) / 2, most):
            at = rivet(inches * 25.4, diameter)["at"][0]
            assert (at["row"], at["verdict"], at["chance_inside"]) == (name, "inside", 1), (name, inches)
            assert at["margin_below"] == pytest.approx((inches - least) * 25.4, abs=1e-8)
            assert at["margin_above"] == pytest.approx((most - inches) * 25.4, abs=1e-8)


def test_the_size_code_is_the_diameter_and_the_greatest_grip():
    # askvity.info, how to measure grip range on a rivet: first digit 1/32 in of diameter, the rest 1/16 in of grip;
    # printed to a thousandth and cut, so 1/16 is .062
    for size in table("rivets")["sizes"]:
        for name, _, most in size["rows"]:
            assert int(name[0]) / 32 == pytest.approx(float(Fraction(size["inch"])), abs=1e-9)
            assert abs(int(name[1:]) / 16 - most) <= 0.0006


def test_handbook_edge_and_pitch():
    # SOLAS/FAS Sheet Metalwork Phase 2, Module 1 Unit 12, p. 27: edge at least 2 d and at most 10 t, pitch 3 d to
    # 24 t; 24 t is 38 mm (38.4) for 1.6 mm and 48 mm for 2 mm sheet
    for thick, most in ((1.6, 38.4), (2.0, 48.0)):
        edge, pitch = rivet(thick, edge=12, pitch=30)["judged"]
        assert (edge["what"], edge["from"], edge["to"]) == ("edge", 9.6, 10 * thick)
        assert (pitch["what"], pitch["from"], pitch["to"]) == ("pitch", 14.4, most)


def test_the_two_edge_rules_can_exclude_each_other():
    # computed from the two handbook rows: 2 d > 10 t when t < d/5, 1.28 mm for 6.4
    answer = rivet(1.2, 6.4, edge=12.4)
    edge = answer["judged"][0]
    assert (edge["from"], edge["to"], edge["chance_inside"], edge["verdict"]) == (12.8, 12.0, 0, "outside")
    assert any("no figure keeps both rules" in sentence for sentence in answer["say"])
    assert rivet(1.28, 6.4, edge=12.8)["judged"][0]["to"] == 12.8


def test_metric_holes():
    # ISO 15977 application data, from memory
    for diameter, hole in ((3.2, (3.3, 3.4)), (4.0, (4.1, 4.2)), (4.8, (4.9, 5.0)), (6.4, (6.5, 6.6))):
        assert tuple(rivet(2, diameter)["hole"].values()) == hole
