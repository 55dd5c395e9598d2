"""Rivets: the contract's example, breaks, doubt, and what replaces one that was drilled out."""

import pytest
from scipy.stats import norm

from fieldapp.plan.tables import table
from fieldapp.trade import rivets

EXAMPLE = {
    "diameter": 4.8,
    "stack": [{"what": "flange", "thickness": 1.5}, {"what": "wall", "thickness": {"value": 1.6, "u": 0.05}}],
    "at": [{"place": "sides", "stand_off": 0}, {"place": "head", "stand_off": {"value": 3.2, "u": 0.5}}],
    "edge": 12,
    "pitch": 30,
}


def rivet(**more):
    return rivets.rivet(EXAMPLE | more, table("rivets"), table("doubt"))


def one(grip, u=0.0, **more):
    return rivet(stack=[{"thickness": {"value": grip, "u": u}}], at=[{"place": "sides"}], **more)["at"][0]


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = rivet()
    sides, head = found["at"]
    assert (sides["place"], round(sides["grip"], 3), round(sides["u"], 3), sides["row"]) == ("sides", 3.1, 0.071, "62")
    assert (round(sides["margin_below"], 2), round(sides["margin_above"], 3)) == (2.59, 0.075)
    assert (round(sides["chance_inside"], 3), sides["verdict"]) == (0.856, "too close to call")
    assert (sides["measure_again"], sides["other_row"]) == (True, "64")
    assert sides["because"] in found["say"]
    assert head["row"] == "64"
    assert found["hole"] == {"from": 4.9, "to": 5.0}
    edge, pitch = found["judged"]
    # the page's own example of a judged quantity
    assert (edge["what"], edge["estimate"], edge["u"], edge["from"], edge["to"]) == ("edge", 12, 0.6, 9.6, 15)
    assert (round(edge["chance_inside"], 5), edge["verdict"]) == (0.99997, "inside")
    assert (pitch["what"], pitch["from"], pitch["to"]) == ("pitch", 14.4, 36)
    assert found["again"] is None
    assert any("clamp" in sentence for sentence in found["say"])


def test_the_trap_of_thin_sheets():
    # 1.6 mm wall and 1.5 mm flange with paint are 3.1 to 3.6 mm and straddle the 62/64 break at 3.175 (computed)
    assert [one(grip)["row"] for grip in (3.1, 3.175, 3.1751, 3.19, 3.2, 3.6)] == ["62", "62", "64", "64", "64", "64"]
    between = one(3.19)
    assert (between["chance_inside"], between["verdict"]) == (1, "inside")
    assert between["margin_below"] == pytest.approx(3.19 - 3.2004)


def test_chance_by_scipy():
    for grip, u, low, high in ((3.1, 0.0707, 0.508, 3.175), (3.3, 0.2, 3.175, 6.35), (6.3, 0.5, 3.175, 6.35)):
        chance = norm.cdf(high, grip, u) - norm.cdf(low, grip, u)
        assert one(grip, u)["chance_inside"] == pytest.approx(chance, rel=1e-9)


def test_nearer_end_names_the_other_row():
    assert one(3.3, 0.2)["other_row"] == "62"
    assert one(6.2, 0.2)["other_row"] == "66"
    lowest = one(0.55, 0.05)
    assert (lowest["row"], lowest["verdict"], lowest["other_row"]) == ("62", "too close to call", None)


WIDE = [
    {"name": "a", "grip_from": 1.5, "grip_to": 2.5},
    {"name": "b", "grip_from": 2.5, "grip_to": 4},
    {"name": "c", "grip_from": 4.5, "grip_to": 6},
]


def own(grip, u=0.0):
    return one(grip, u, diameter=5.0, rows=WIDE, hole={"from": 5.1, "to": 5.2})


def test_rows_that_touch_share_a_break_and_rows_apart_do_not():
    # ISO 15981 grips as in the facts: 2.5 belongs to the shorter; a gap of 0.5 mm is no break
    assert [own(grip)["row"] for grip in (1.5, 2.5, 2.51, 4.0, 4.2, 4.5, 6.0)] == ["a", "a", "b", "b", None, "c", "c"]
    doubt = own(4.45, 0.1)
    assert (doubt["row"], doubt["verdict"], doubt["other_row"], doubt["measure_again"]) == (
        None,
        "too close to call",
        "c",
        True,
    )
    assert doubt["chance_inside"] == pytest.approx(norm.cdf(6, 4.45, 0.1) - norm.cdf(4.5, 4.45, 0.1))
    near_top = own(3.95, 0.1)
    assert (near_top["row"], near_top["verdict"], near_top["other_row"]) == ("b", "too close to call", None)


@pytest.mark.parametrize(("grip", "word"), [(1.4, "too thin"), (6.1, "too thick"), (4.25, "between two rows")])
def test_without_a_row_the_sentence_says_why(grip, word):
    found = own(grip)
    assert (found["row"], found["verdict"], found["measure_again"], found["other_row"]) == (
        None,
        "outside",
        False,
        None,
    )
    assert found["margin_below"] is found["margin_above"] is None
    assert word in found["because"]


def test_doubt_too_wide_for_the_row_it_lies_in():
    found = one(4.5, 200.0)
    assert (found["row"], found["verdict"]) == ("64", "outside")
    assert found["chance_inside"] <= 0.025


@pytest.mark.parametrize(
    ("hole", "edge", "again"),
    [
        (4.9, 12, "same"),
        (5.0, 12, "same"),
        (5.3, 12.8, "next_diameter"),
        (5.3, 12.7, "new_hole"),
        (5.3, None, "new_hole"),
    ],
)
def test_what_replaces_a_drilled_out_rivet(hole, edge, again):
    given = {**EXAMPLE, "replaces": {"hole": hole}}
    if edge is None:
        del given["edge"]
    else:
        given["edge"] = edge
    found = rivets.rivet(given, table("rivets"), table("doubt"))
    assert found["again"] == again
    longer = [sentence for sentence in found["say"] if "longer rivet" in sentence]
    assert all("Never a longer rivet" in sentence for sentence in longer)


def test_the_largest_size_has_no_next_diameter():
    assert rivet(diameter=6.4, replaces={"hole": 7}, edge=40)["again"] == "new_hole"


def test_metals():
    # a carbon steel fastener in stainless is the small anode, a stainless one in steel is sound
    # (swextrav4-3 ssteel.zip:GALVANIC.TXT)
    said = {
        pair: any(
            "anode" in sentence for sentence in rivet(metals=dict(zip(("rivet", "sheet"), pair, strict=True)))["say"]
        )
        for pair in (("steel", "stainless"), ("stainless", "steel"), ("aluminium", "steel"), ("steel", "steel"))
    }
    assert said == {
        ("steel", "stainless"): True,
        ("stainless", "steel"): False,
        ("aluminium", "steel"): True,
        ("steel", "steel"): False,
    }
    assert not any("anode" in sentence for sentence in rivet(metals={"rivet": "steel"})["say"])


def test_a_plain_nought_of_stand_off_has_no_doubt_and_a_measured_one_has():
    stack = [{"thickness": {"value": 2, "u": 0}}]
    for stand_off, u in ((0, 0), (0.5, 0.2), ({"value": 0, "u": 0.3}, 0.3)):
        assert rivet(stack=stack, at=[{"place": "head", "stand_off": stand_off}])["at"][0]["u"] == pytest.approx(u)


def test_sentences_in_inches():
    """To the thousandth, as the rows are printed (US Army TM 10-5410-223-24, para 2-12): 3/16 in would be a hole that
    a 4.8 mm rivet does not go into, and 62 ends at 0.125."""
    said = " ".join(rivet(show="in")["say"])
    assert "row 62 or 64? Grip 0.122\u00a0in, 0.003\u00a0in from the nearer end" in said
    assert "Hole: 0.193\u00a0in to 0.197\u00a0in." in said
    assert "mm" not in said
