"""Discs: rim speeds against printed labels, and the order of what speaks against one."""

from math import pi

import pytest

from fieldapp.trade import wheels

GOOD = {
    "disc": {"marked_rpm": 10200, "diameter": 150, "marked_speed": 80, "expires": "2027-09"},
    "tool": {"rpm": 9000, "guard_for": 150},
    "today": "2026-11-25",
}


def wheel(disc=None, tool=None, **more):
    given = {"disc": GOOD["disc"] | (disc or {}), "tool": GOOD["tool"] | (tool or {}), "today": GOOD["today"]} | more
    given["disc"] = {name: value for name, value in given["disc"].items() if value != "left out"}
    return wheels.wheel(given)


# labels as printed, from memory (novoabrasive.com, speed recommendations, prints 12,200 for 125 mm); 80 m/s
@pytest.mark.parametrize(
    ("diameter", "label", "exact"),
    [
        (115, 13300, 13286),
        (125, 12200, 12223),
        (125, 12250, 12223),
        (150, 10200, 10186),
        (180, 8500, 8488),
        (230, 6650, 6643),
        (300, 5100, 5093),
        (350, 4400, 4365),
    ],
)
def test_printed_speeds_agree_with_80_metres_a_second(diameter, label, exact):
    found = wheel({"diameter": diameter, "marked_rpm": label}, {"rpm": label, "guard_for": diameter})
    assert (found["verdict"], found["because"], found["marking_agrees"]) == ("inside", [], True)
    assert found["rim_speed_marked"] == pytest.approx(pi * diameter * label / 60000, rel=1e-12)
    assert round(60000 * 80 / (pi * diameter)) == exact


def test_a_label_that_rounds_up_past_80_is_still_inside():
    # 150 mm at a printed 10,200 is 80.1 m/s (computed): what is printed decides
    found = wheel()
    assert round(found["rim_speed_marked"], 1) == 80.1
    assert round(found["rim_speed"], 1) == 70.7
    assert found["verdict"] == "inside"


AGAINST = [
    ("no_marking", {"marked_rpm": None}, {}),
    ("too_fast", {}, {"rpm": 10201}),
    ("too_large", {}, {"guard_for": 125}),
    ("expired", {"expires": "2026-10"}, {}),
    ("grinding_disc", {"kind": "grinding"}, {}),
    ("damaged", {"damaged": True}, {}),
    ("no_guard", {}, {"guard_on": False}),
    ("no_side_handle", {}, {"side_handle": False}),
]


@pytest.mark.parametrize(("word", "disc", "tool"), AGAINST)
def test_each_word_alone_is_outside(word, disc, tool):
    found = wheel(disc, tool)
    assert (found["verdict"], found["because"]) == ("outside", [word])


def test_all_words_come_in_their_order():
    disc, tool = {}, {}
    for word, one, other in AGAINST:
        if word != "no_marking":
            disc, tool = disc | one, tool | other
    assert wheel(disc, tool)["because"] == [word for word, _, _ in AGAINST[1:]]
    assert wheel(disc | {"marked_rpm": None}, tool)["because"] == ["no_marking", *(word for word, _, _ in AGAINST[2:])]


def test_no_marking_has_no_marked_rim_speed():
    found = wheel({"marked_rpm": None})
    assert (found["rim_speed_marked"], found["marking_agrees"]) == (None, None)


@pytest.mark.parametrize(
    ("expires", "today", "past"),
    [
        ("2026-11", "2026-11-30", False),
        ("2026-11", "2026-12-01", True),
        ("2028-02", "2028-02-29", False),
        ("2027-01", "2026-12-31", False),
    ],
)
def test_a_disc_lasts_to_the_last_day_of_its_month(expires, today, past):
    assert ("expired" in wheel({"expires": expires}, today=today)["because"]) is past


def test_a_date_is_judged_only_with_both():
    given = {"disc": GOOD["disc"] | {"expires": "2020-01"}, "tool": GOOD["tool"]}
    assert wheels.wheel(given)["verdict"] == "inside"


@pytest.mark.parametrize(("speed", "agrees"), [(80, True), (50, False), (100, False), ("left out", None)])
def test_marking_within_three_per_cent(speed, agrees):
    found = wheel({"marked_speed": speed})
    assert found["marking_agrees"] is agrees
    assert found["verdict"] == ("too close to call" if agrees is False else "inside")
    assert found["because"] == (["marking_disagrees"] if agrees is False else [])


def test_the_three_per_cent_themselves():
    exact = 60000 * 80 / (pi * 150)
    for factor, agrees in ((1.0299, True), (1.0301, False), (0.9701, True), (0.9699, False)):
        assert wheel({"marked_rpm": exact * factor}, {"rpm": 1000})["marking_agrees"] is agrees


def test_disagreeing_marks_do_not_soften_what_is_outside():
    found = wheel({"marked_speed": 50, "damaged": True})
    assert (found["verdict"], found["because"]) == ("outside", ["damaged", "marking_disagrees"])


def test_no_sentence_calls_a_disc_safe_or_its_use_permitted():
    cases = [wheel(), *(wheel(disc, tool) for _, disc, tool in AGAINST), wheel({"marked_speed": 50})]
    for found in cases:
        assert len(found["cautions"]) >= 3
        for sentence in found["say"] + found["cautions"]:
            words = sentence.lower()
            assert not any(word in words for word in ("safe", "allowed", "may be used", "permitted", "fine to"))
