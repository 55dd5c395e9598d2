"""Faults of a frame's input: each named by its dotted path, all together, with the value and what would be right."""

import copy

import pytest
from trade.test_frame_example import EXAMPLE

from fieldapp.trade.frame_input import read


def changed(path, value):
    """The example with one field put, or taken away where value is `...`; and its problems."""
    asked = copy.deepcopy(EXAMPLE)
    *way, last = [int(one) if one.isdigit() else one for one in path.split(".")]
    at = asked
    for one in way:
        at = at[one]
    if value is ...:
        del at[last]
    else:
        at[last] = value
    return read(asked)[1]


GOOD = [
    ("frame.width", 300),
    ("frame.height", "4000"),
    ("frame.hinge", "right"),
    ("tilt.u", 0),
    ("tools.tape", 0),
    ("rounds.0.readings.2.over", 200),
    ("rounds.0.readings.2.u", 0.01),
    ("rounds.1.readings", []),
    ("can_read", []),
    ("room.left_top", 0),
    ("fixed", ["bl", "tr"]),
    ("no_trim", ["left_mid"]),
    ("rounds.0.done", []),
    ("show", "in"),
    ("tilt.along", ...),
    ("tilt", ...),
    ("rounds.0.done.0.by", "1/4"),
    ("rounds.1.readings.2.value", "-1/16 in"),
]


@pytest.mark.parametrize(("path", "value"), GOOD)
def test_what_is_right(path, value):
    assert changed(path, value) == {}


BAD = [
    ("frame", ...),
    ("rounds", ...),
    ("frame.width", ...),
    ("frame.hinge", ...),
    ("rounds.0.readings", ...),
    ("rounds.0.readings.0.of", ...),
    ("rounds.0.readings.0.value", ...),
    ("rounds.0.done.0.do", ...),
    ("rounds.0.done.0.by", ...),
    ("tilt.over", ...),
    ("frame.width", 299.9),
    ("frame.width", 3000.1),
    ("frame.width", True),
    ("frame.width", None),
    ("frame.width", "wide"),
    ("frame.width", [914]),
    ("frame.height", 4001),
    ("frame.hinge", "top"),
    ("frame.depth", 3),
    ("extra", 1),
    ("rounds", []),
    ("rounds", [{"readings": []}] * 51),
    ("rounds", {}),
    ("rounds.0", 5),
    ("rounds.0.more", 1),
    ("rounds.0.readings", None),
    ("rounds.0.readings.0", "x"),
    ("rounds.0.readings.0.of", "diagonal"),
    ("rounds.0.readings.0.of", ["diagonal_bl_tr"]),
    ("rounds.0.readings.0.value", "1,234"),
    ("rounds.0.readings.0.value", "36 - 1/2"),
    ("rounds.0.readings.0.value", 0.5),
    ("rounds.0.readings.0.value", 10_001),
    ("rounds.0.readings.0.value", -2),
    ("rounds.0.readings.0.value", None),
    ("rounds.0.readings.2.value", 501),
    ("rounds.0.readings.2.value", -500.5),
    ("rounds.0.readings.0.over", 1800),
    ("rounds.0.readings.0.reversed", True),
    ("rounds.0.readings.0.reversed", False),
    ("rounds.0.readings.2.over", 199),
    ("rounds.0.readings.2.over", 2160),
    ("rounds.0.readings.2.over", None),
    ("rounds.0.readings.2.reversed", 1),
    ("rounds.0.readings.2.reversed", None),
    ("rounds.0.readings.2.u", 0.009),
    ("rounds.0.readings.2.u", 101),
    ("rounds.0.readings.2.u", 0),
    ("rounds.0.readings.2.u", False),
    ("rounds.1.readings.3.over", 961),
    ("rounds.0.done.0.by", 0),
    ("rounds.0.done.0.by", -1),
    ("rounds.0.done.0.by", 201),
    ("rounds.0.done.0.do", "push"),
    ("rounds.0.done", {}),
    ("rounds.0.done.0", None),
    ("tolerance.square", 0.09),
    ("tolerance.square", 101),
    ("tolerance.bow", 1),
    ("tolerance", 3),
    ("tolerance.plumb", None),
    ("tilt.along", 501),
    ("tilt.over", 199),
    ("tilt.over", 20_001),
    ("tilt.u", -1),
    ("tilt.u", 51),
    ("tilt.across", 1),
    ("tilt", None),
    ("tools.tape", -0.1),
    ("tools.level", 10.1),
    ("tools.level", "0.3"),
    ("tools.level", True),
    ("tools", []),
    ("room.left_top", -1),
    ("room.left_top", 501),
    ("room.left_mid", 3),
    ("room", "x"),
    ("can_read", "plumb_left"),
    ("can_read.0", "plumb"),
    ("fixed", ["left"]),
    ("fixed", None),
    ("no_trim", ["bl"]),
    ("show", "cm"),
    ("show", None),
]


@pytest.mark.parametrize(("path", "value"), BAD)
def test_a_fault_is_named_by_its_path(path, value):
    problems = changed(path, value)
    wanted = {"fixed": "fixed.0", "no_trim": "no_trim.0"}.get(path, path) if isinstance(value, list) else path
    assert set(problems) == {wanted}, problems
    assert all(sentence for sentence in problems[wanted])


def test_every_fault_of_a_line_comes_together():
    asked = copy.deepcopy(EXAMPLE)
    asked["frame"] = {"width": 1, "hinge": "up", "x": 0}
    asked["rounds"][0]["readings"][0] = {"of": "nothing", "value": "1 m 20 cm", "u": "wide"}
    asked["rounds"][1]["readings"][4]["reversed"] = True
    asked["show"] = 5
    assert set(read(asked)[1]) == {
        "frame.width",
        "frame.height",
        "frame.hinge",
        "frame.x",
        "rounds.0.readings.0.of",
        "rounds.0.readings.0.value",
        "rounds.0.readings.0.u",
        "rounds.1.readings.4.reversed",
        "show",
    }


def test_a_sentence_shows_the_value_and_what_would_be_right():
    assert changed("frame.width", 299)["frame.width"] == ["299 given; a length from 300 to 3000 mm would be right"]
    long = changed("frame.hinge", "x" * 100)["frame.hinge"][0]
    assert "x" * 40 in long and "x" * 41 not in long  # noqa: PT018


@pytest.mark.parametrize(
    ("path", "right"),
    [
        ("frame", "an object with width, height, hinge"),
        ("rounds", "a list of 1 to 50 rounds"),
        ("frame.width", "a length from 300 to 3000 mm"),
        ("frame.hinge", "one of left, right"),
        ("rounds.0.readings", "a list of 0 to 500 readings"),
        ("rounds.0.readings.2.value", "a length from -500 to 500 mm"),
        ("rounds.0.done.0.by", "a length from 0.01 to 200 mm"),
        ("tilt.over", "a length from 200 to 20000 mm"),
    ],
)
def test_a_missing_field_says_what_would_be_right(path, right):
    assert changed(path, ...) == {path: [f"missing; {right} would be right"]}


def test_an_unknown_field_is_named_whole():
    name = "x" * 100
    assert list(changed(f"frame.{name}", 1)) == [f"frame.{name}"]


def test_a_list_of_the_wrong_length_hides_no_fault_of_its_items():
    bad = {"readings": [{"of": "zz", "value": 1}]}
    assert set(changed("rounds", [bad] + [{"readings": []}] * 50)) == {"rounds", "rounds.0.readings.0.of"}
    many = [{"of": "width_head", "value": 914}] * 500
    found = changed("rounds", [{"readings": many}, bad])
    assert set(found) == {"rounds", "rounds.1.readings.0.of"}
    assert set(changed("can_read", ["zz"] * 201)) == {"can_read", *(f"can_read.{at}" for at in range(200))}


def test_a_blank_text_is_seen():
    assert changed("frame.hinge", "  ")["frame.hinge"] == ["“  ” given; one of left, right would be right"]


def test_at_most_500_readings_in_all():
    one = {"of": "width_head", "value": 914}
    assert read({**EXAMPLE, "rounds": [{"readings": [one] * 250}, {"readings": [one] * 250}]})[1] == {}
    over = read({**EXAMPLE, "rounds": [{"readings": [one] * 250}, {"readings": [one] * 251}]})[1]
    assert set(over) == {"rounds"}
    assert "500" in over["rounds"][0]


def test_lengths_are_read_as_typed():
    taken, _ = read(EXAMPLE)
    assert taken["rounds"][0]["readings"][0]["value"] == pytest.approx(2255.8375, abs=1e-9)
    assert taken["rounds"][1]["readings"][4]["value"] == 914.4
    assert taken["tolerance"]["plumb"] == 1.5875
