"""What is given to each sheet, and rounds (state.md, "Sheets and rounds")."""

import pytest
from one_unit import Unit, field, step


def feeding(name, sheet="frame", kind="length", **more):
    return {
        "required": False,
        **field(more.pop("key", name.replace(".", "_")), kind, feeds=[{"sheet": sheet, "as": name}], **more),
    }


def frame_unit(*more):
    return Unit(
        step(
            "frame",
            feeding("plumb_left", repeat=True),
            feeding("width_head", repeat=True),
            *more,
            answers=[{"sheet": "frame", "judged": ["plumb_left"]}],
        )
    )


def test_opening_then_each_round_with_its_moves():
    unit = frame_unit()
    first = unit.read("frame.plumb_left", -6, reversed=True, over=1800, u=0.3)
    unit.move(mm=6)
    opened = unit.round()
    second = unit.read("frame.width_head", 914, round=opened)
    given = unit.given()
    assert given["rounds"] == [
        {
            "readings": [{"id": first, "of": "plumb_left", "value": -6.0, "over": 1800.0, "reversed": True, "u": 0.3}],
            "done": [{"do": "push_head_right", "by": 6.0}],
        },
        {"readings": [{"id": second, "of": "width_head", "value": 914.0}], "done": []},
    ]
    assert given["ids"] == [first, second]
    assert unit.state()["sheets"]["frame"]["rounds"] == [opened]


def test_readings_without_sight_of_a_move_stay_apart():
    unit = frame_unit()
    opened = unit.round()
    late = unit.read("frame.plumb_left", 3)  # made on a phone that had not seen the round
    assert [[read["id"] for read in each["readings"]] for each in unit.given()["rounds"]] == [[late], []]
    assert unit.state()["sheets"]["frame"]["rounds"] == [opened]


def test_a_split_gives_no_verdict_until_a_round_names_both():
    unit = frame_unit()
    first, second = unit.round(), unit.round()
    state = unit.state()
    assert state["sheets"]["frame"]["split"] == [first, second]
    assert set(state["sheets"]["frame"]["verdicts"].values()) == {None}
    assert (unit.step("frame")["is"], state["waiting"], unit.given()) == ("open", ["split:frame"], None)
    both = unit.round(first, second)
    assert unit.state()["sheets"]["frame"]["split"] == []
    assert unit.state()["sheets"]["frame"]["rounds"] == [first, second, both]


def test_a_round_that_names_two_starts_afresh_and_only_tilt_is_carried_on():
    unit = frame_unit(feeding("tilt.along"), feeding("room.left_top"))
    unit.read("frame.plumb_left", -6)
    unit.read("frame.tilt_along", 12, over=6000)
    unit.read("frame.room_left_top", 9)
    first, second = unit.round(), unit.round()
    unit.read("frame.plumb_left", 1, round=first)
    unit.round(first, second)
    given = unit.given()
    assert given["rounds"] == [{"readings": [], "done": []}]
    assert given["tilt"] == {"along": 12.0, "over": 6000.0}
    assert "room" not in given


def test_a_round_that_is_not_here_yet_counts_as_the_opening():
    unit = frame_unit()
    first = unit.read("frame.plumb_left", -6)
    unit.round("99")
    assert [[read["id"] for read in each["readings"]] for each in unit.given()["rounds"]] == [[first], []]


def test_a_reading_waits_for_the_round_that_it_names():
    """One round taken back or not here, another here or not: it is in none of them."""
    unit = frame_unit()
    first = unit.read("frame.plumb_left", -6, reversed=True)
    later = unit.read("frame.plumb_left", 0.5, reversed=True, round="99")
    for _ in range(2):
        assert [read["id"] for read in unit.given()["rounds"][0]["readings"]] == [first]
        state = unit.state()
        assert state["steps"][0]["values"] == {"plumb_left": [first, later]}
        assert state["sheets"]["frame"]["verdicts"]["plumb_left"] == "outside"
        opened = unit.round()  # the same once a round is taken back as before any
        unit.retract(opened)


def test_a_round_that_names_two_starts_afresh_though_neither_is_here_yet():
    unit = frame_unit()
    unit.read("frame.plumb_left", -6)
    unit.round("98", "99")
    assert unit.given()["rounds"] == [{"readings": [], "done": []}]


def test_in_a_split_what_stands_on_either_side_is_judged():
    land = field("land", "length", feeds=[{"sheet": "frame", "as": "land_left_sill"}], expect={"from": 25_000_000})
    unit = frame_unit(land)
    unit.round()
    unit.read("frame.land", 20, round=unit.round())
    assert unit.step("frame")["outside"] == ["land"]


def test_a_round_taken_back_is_passed_over():
    unit = frame_unit()
    first = unit.round()
    second = unit.round(first)
    third = unit.round(second)
    unit.retract(second)
    sheet = unit.state()["sheets"]["frame"]
    assert (sheet["rounds"], sheet["split"]) == ([first, third], [])
    assert len(unit.given()["rounds"]) == 3


def test_rounds_that_follow_each_other_in_a_ring_do_not_hang():
    unit = frame_unit()
    unit.round("03")
    unit.round("02")
    assert unit.state()["sheets"]["frame"]["split"] == []
    assert unit.given()["rounds"] == [{"readings": [], "done": []}]


def test_room_is_carried_on_less_and_plus_what_moves_take_and_give():
    """A push of the head by v takes v at the side it goes to and gives v at the other (contract.md's table)."""
    unit = frame_unit(feeding("room.right_top"), feeding("room.left_top"))
    unit.read("frame.room_right_top", 10)
    unit.read("frame.room_left_top", 3)
    unit.move("push_head_right", 6)
    assert unit.given()["room"] == {"right_top": 4.0, "left_top": 9.0}
    opened = unit.round()
    unit.move("push_head_right", 6, round=opened)  # 2 mm of it were cut free: none is left, not less than none
    assert unit.given()["room"] == {"right_top": 0.0, "left_top": 15.0}
    last = unit.round(opened)
    unit.read("frame.room_right_top", 1.5, round=last)
    assert unit.given()["room"] == {"right_top": 1.5, "left_top": 15.0}


def test_a_raise_takes_room_above_and_at_the_far_top():
    """raise_bl by v: v above that end of the head, v·H/W at right_top (contract.md's table), given back at left_top."""
    unit = frame_unit(feeding("room.head_left"), feeding("room.right_top"), feeding("room.left_top"))
    for place in ("head_left", "right_top", "left_top"):
        unit.read(f"frame.room_{place}", 10)
    unit.move("raise_bl", 2)
    slope = 2057 / 914
    assert unit.given()["room"] == pytest.approx(
        {"head_left": 8, "right_top": 10 - 2 * slope, "left_top": 10 + 2 * slope}
    )


def test_tilt_along_and_through_come_over_one_length():
    unit = frame_unit(feeding("tilt.along"), feeding("tilt.through"))
    unit.read("frame.tilt_along", 12, over=6000, u=0.5)
    unit.read("frame.tilt_through", 1, over=2000, u=0.3)
    assert unit.given()["tilt"] == pytest.approx({"along": 12, "through": 3, "over": 6000, "u": 0.9})


def test_a_tilt_without_its_length_is_set_aside():
    unit = frame_unit(feeding("tilt.along"))
    key = unit.read("frame.tilt_along", 12)
    assert "tilt" not in unit.given()
    assert unit.state()["sheets"]["frame"]["unusable"] == [key]


def test_a_tilt_without_its_length_was_read_over_the_one_that_the_field_asks_for():
    unit = frame_unit(feeding("tilt.along", over=2_000_000_000))
    unit.read("frame.tilt_along", 12)
    assert unit.given()["tilt"] == {"along": 12.0, "over": 2000.0}


def test_riveted_corners_are_fixed():
    unit = frame_unit(feeding("fixed.bl", kind="tick"), feeding("fixed.br", kind="tick"))
    unit.tick("frame.fixed_bl")
    unit.tick("frame.fixed_br", ticked=False)
    assert unit.given()["fixed"] == ["bl"]


@pytest.mark.parametrize(
    "odd", [{"mm": 20_000}, {"mm": 0, "over": 100}, {"mm": 0, "over": 2200}, {"mm": 0, "u": 0}, {"mm": 501}]
)
def test_a_reading_outside_the_sheets_range_is_set_aside_and_named(odd):
    unit = frame_unit()
    good = unit.read("frame.plumb_left", 0.1)
    key = unit.read("frame.plumb_left", odd.pop("mm"), **odd)
    assert unit.state()["sheets"]["frame"]["unusable"] == [key]
    assert unit.given()["ids"] == [good]
    assert unit.step("frame")["values"] == {"plumb_left": [good, key]}


def test_past_500_readings_the_greatest_ids_are_set_aside():
    unit = frame_unit()
    for _ in range(502):
        unit.read("frame.plumb_left", 0.1)
    for at, entry in enumerate(unit.entries):
        entry["id"] = f"{at:04}"
    assert unit.state()["sheets"]["frame"]["unusable"] == ["0501", "0502"]
    assert len(unit.given()["rounds"][0]["readings"]) == 500


def test_a_move_that_the_sheet_does_not_know_is_set_aside():
    unit = frame_unit()
    keys = [unit.move("pull_it", 3), unit.move("push_head_left", 0), unit.move("push_head_left", 300)]
    assert unit.state()["sheets"]["frame"]["unusable"] == keys


def gaps(**more):
    return Unit(
        step(
            "seal",
            field("gap", "length", feeds=[{"sheet": "gap", "as": "gaps.0.value"}], **more),
            answers=[{"sheet": "gap", "judged": ["gap"]}],
        )
    )


def test_a_calculators_input_goes_by_its_path():
    unit = gaps()
    key = unit.read("seal.gap", 7.1, u=0.5)
    given = unit.given("gap")
    assert given["inputs"] == {"gaps.0.value": {"value": 7.1, "u": 0.5}}
    assert (given["behind"], given["ids"]) == ({"gaps.0.value": [key]}, [key])
    assert unit.state()["sheets"]["gap"]["verdicts"] == {"gap": "too close to call"}
    assert unit.step("seal")["unsettled"] == ["gap"]


def test_of_a_repeat_field_the_mean_is_taken_with_the_u_of_one():
    unit = gaps(repeat=True)
    for mm in (6.0, 7.0, 6.5):
        unit.read("seal.gap", mm)
    assert unit.given("gap")["inputs"] == {"gaps.0.value": {"value": 6.5}}  # the sheet's own u
    unit.read("seal.gap", 6.5, u=0.3)
    assert unit.given("gap")["inputs"] == {"gaps.0.value": {"value": 6.5}}
    for mm in (6.0, 7.0):
        unit.read("seal.gap", mm, u=0.3, replaces=unit.of_kind("reading")[:4])
    assert unit.given("gap")["inputs"] == {"gaps.0.value": {"value": 6.5, "u": 0.3}}


def test_an_input_out_of_range_is_set_aside_and_the_verdict_is_open():
    unit = gaps()
    key = unit.read("seal.gap", 140)
    sheet = unit.state()["sheets"]["gap"]
    assert (sheet["unusable"], sheet["verdicts"]) == ([key], {"gap": None})
    assert unit.step("seal")["is"] == "open"


def test_a_pair_settles_no_input():
    unit = gaps()
    unit.read("seal.gap", 6.5)
    unit.read("seal.gap", 7.5)
    assert unit.given("gap")["inputs"] == {}
    assert unit.state()["sheets"]["gap"]["verdicts"] == {"gap": None}


def test_a_sheet_that_is_not_at_hand_leaves_its_steps_open():
    unit = gaps()
    unit.packets["p1"]["sheets"][1]["part"] = "not here"
    unit.read("seal.gap", 6.5)
    assert unit.state()["sheets"]["gap"] == {"rounds": [], "split": [], "unusable": [], "verdicts": {}}
    assert unit.step("seal")["is"] == "open"


def test_a_plan_that_is_not_at_hand_is_named_and_guesses_nothing():
    unit = gaps()
    key = unit.read("seal.gap", 6.5)
    unit.packets.clear()
    state = unit.state()
    assert (state["packet"], state["steps"], state["sheets"], state["stage"], state["is"]) == (
        "p1",
        [],
        {},
        None,
        "working",
    )
    assert state["elsewhere"] == [key]


def test_the_reading_of_the_newest_round_is_taken_for_a_field_that_does_not_repeat():
    unit = frame_unit(
        field("both", "length", feeds=[{"sheet": "frame", "as": "string_gap"}, {"sheet": "gap", "as": "gaps.0.value"}])
    )
    unit.read("frame.both", 6)
    opened = unit.round()
    assert unit.given("gap")["inputs"] == {"gaps.0.value": {"value": 6.0}}
    unit.read("frame.both", 7, round=opened)
    assert unit.given("gap")["inputs"] == {"gaps.0.value": {"value": 7.0}}
    assert unit.step("frame")["pairs"] == []


def test_the_judge_can_be_another():
    unit = Unit(step("seal", answers=[{"sheet": "gap", "judged": ["gap"]}]), judge=lambda *_: {"gap": "outside"})
    assert unit.state()["sheets"]["gap"]["verdicts"] == {"gap": "outside"}
    assert unit.step("seal")["is"] == "outside"
