"""What counts, what stands, pairs, and fields judged by themselves (state.md, "Fields and entries")."""

import pytest
from one_unit import MM, Unit, field, step


def one(kind="tick", **more):
    return Unit(step("s", field("f", kind, **more)))


def test_what_a_counted_entry_replaces_does_not_stand():
    unit = one()
    first = unit.tick("s.f")
    second = unit.tick("s.f", replaces=[first])
    assert unit.step("s")["values"] == {"f": [second]}


def test_a_replacement_that_came_before_what_it_replaces_is_remembered():
    unit = one()
    unit.tick("s.f", replaces=["99"])
    assert unit.step("s")["values"] == {"f": ["02"]}
    unit.entries.append({**unit.entries[-1], "id": "99", "replaces": []})
    assert unit.step("s")["values"] == {"f": ["02"]}
    assert unit.step("s")["pairs"] == []


def test_a_ring_of_replacements_leaves_none_standing():
    unit = one()
    unit.tick("s.f", replaces=["03"])
    unit.tick("s.f", replaces=["02"])
    assert unit.step("s")["values"] == {}
    assert unit.step("s")["missing"] == ["f"]


def test_a_retract_is_no_value():
    unit = one()
    unit.retract(unit.tick("s.f"))
    assert (unit.step("s")["is"], unit.step("s")["missing"], unit.step("s")["pairs"]) == ("open", ["f"], [])


def test_two_that_stand_are_a_pair_until_an_entry_replaces_both():
    unit = one()
    first, second = unit.tick("s.f"), unit.tick("s.f", by="omar")
    assert (unit.step("s")["is"], unit.step("s")["pairs"]) == ("open", ["f"])
    assert unit.state()["waiting"] == ["pair:s"]
    third = unit.tick("s.f", replaces=[first])
    assert unit.step("s")["pairs"] == ["f"]
    unit.tick("s.f", replaces=[second, third])
    assert (unit.step("s")["is"], unit.step("s")["pairs"]) == ("done", [])


def test_a_retract_and_a_value_that_stand_are_a_pair():
    unit = one()
    first = unit.tick("s.f")
    unit.tick("s.f", replaces=[first])
    unit.retract(first)
    assert unit.step("s")["pairs"] == ["f"]


def test_a_repeat_field_holds_every_standing_reading_and_no_pair():
    unit = one("length", repeat=True)
    ids = [unit.read("s.f", 1), unit.read("s.f", 2)]
    assert (unit.step("s")["values"], unit.step("s")["pairs"], unit.step("s")["is"]) == ({"f": ids}, [], "done")


def test_a_quarantined_entry_counts_once_a_supervisor_admits_it():
    unit = one()
    own = unit.tick("s.f", standing="quarantined", by="omar")
    assert (unit.step("s")["is"], unit.state()["waiting"]) == ("open", ["quarantined"])
    unit.review(own, "admitted", by="omar")  # nobody reviews her own
    assert unit.step("s")["is"] == "open"
    admission = unit.review(own, "admitted")
    assert (unit.step("s")["is"], unit.state()["waiting"]) == ("done", [])
    unit.retract(admission)  # an admission counts whether or not it stands
    assert unit.step("s")["is"] == "done"


def test_an_admission_made_on_a_revoked_phone_counts_once_it_is_admitted():
    unit = one()
    own = unit.tick("s.f", standing="quarantined")
    first = unit.review(own, "admitted", standing="quarantined")
    assert unit.step("s")["is"] == "open"
    unit.review(first, "admitted", by="ada")
    assert unit.step("s")["is"] == "done"


def test_what_a_quarantined_entry_replaces_stands_until_it_is_admitted():
    unit = one()
    first = unit.tick("s.f")
    second = unit.tick("s.f", ticked=False, replaces=[first], standing="quarantined")
    assert unit.step("s")["values"] == {"f": [first]}
    unit.review(second, "admitted")
    assert unit.step("s")["values"] == {"f": [second]}


@pytest.mark.parametrize(
    ("kind", "more", "enter", "word"),
    [
        ("tick", {}, lambda u: u.tick("s.f"), "done"),
        ("tick", {}, lambda u: u.tick("s.f", ticked=False), "outside"),
        (
            "choice",
            {"options": [{"id": "a", "say": "a"}, {"id": "b", "say": "b", "ok": False}]},
            lambda u: u.choose("s.f", "a"),
            "done",
        ),
        (
            "choice",
            {"options": [{"id": "a", "say": "a"}, {"id": "b", "say": "b", "ok": False}]},
            lambda u: u.choose("s.f", "b"),
            "outside",
        ),
        ("text", {}, lambda u: u.note("s.f"), "done"),
        ("date", {}, lambda u: u.note("s.f", "2027-09"), "done"),
        ("photo", {}, lambda u: u.add("photo", {"sha256": "0" * 64, "bytes": 9}, step="s", field="f"), "done"),
        # Φ(2/1) = 0.97725 from printed tables of the normal distribution: inside from 0.975; Φ(1.9) = 0.9713 is not.
        ("number", {"ucum": "Cel", "expect": {"to": 42, "u": 1}}, lambda u: u.number("s.f", 40), "done"),
        ("number", {"ucum": "Cel", "expect": {"to": 41.9, "u": 1}}, lambda u: u.number("s.f", 40), "unsettled"),
        ("number", {"ucum": "Cel", "expect": {"to": 38, "u": 1}}, lambda u: u.number("s.f", 40), "outside"),
        ("number", {"ucum": "Cel", "expect": {"from": 5, "to": 40}}, lambda u: u.number("s.f", 40), "done"),
        ("number", {"ucum": "Cel", "expect": {"from": 5, "to": 40}}, lambda u: u.number("s.f", 40.000001), "outside"),
        (
            "length",
            {"expect": {"from": -2 * MM, "to": 2 * MM, "u": MM}},
            lambda u: u.read("s.f", 0),
            "unsettled",
        ),  # 0.9545
        (
            "length",
            {"expect": {"from": -2 * MM, "to": 2 * MM, "u": MM}},
            lambda u: u.read("s.f", 0, u=0.5),
            "done",
        ),  # its own u
        ("length", {"expect": {"from": -2 * MM, "to": 2 * MM, "u": MM}}, lambda u: u.read("s.f", 4), "outside"),
        ("length", {"expect": {"from": None, "to": 2 * MM, "u": 0}}, lambda u: u.read("s.f", 2), "done"),
    ],
)
def test_a_field_judged_by_itself(kind, more, enter, word):
    unit = one(kind, **more)
    enter(unit)
    made = unit.step("s")
    assert made["is"] == ("done" if word == "unsettled" else word)
    assert made["unsettled"] == (["f"] if word == "unsettled" else [])
    assert made["outside"] == (["f"] if word == "outside" else [])


def test_a_level_over_a_part_of_its_side_is_judged_over_the_full_side():
    """1 mm over 1028.5 mm is 2 mm over the 2057 mm of the side; its doubt grows with it."""
    level = field(
        "plumb_left",
        "length",
        repeat=True,
        feeds=[{"sheet": "frame", "as": "plumb_left"}],
        expect={"from": -1_600_000, "to": 1_600_000, "u": 100_000},
    )
    unit = Unit(step("frame", level))
    first = unit.read("frame.plumb_left", 1.0)
    assert unit.step("frame")["outside"] == []
    unit.read("frame.plumb_left", 1.0, over=1028.5, replaces=[first])
    assert unit.step("frame")["outside"] == ["plumb_left"]

    unit.read("frame.plumb_left", 0.3, over=1028.5, u=0.4, replaces=unit.of_kind("reading"))
    assert (unit.step("frame")["outside"], unit.step("frame")["unsettled"]) == ([], ["plumb_left"])


def test_what_the_server_says_of_an_entry_beats_the_phones_own_copy():
    unit = one()
    unit.tick("s.f", standing="quarantined")
    own = {key: value for key, value in unit.entries[-1].items() if key != "server"}
    for order in ([own, unit.entries[-1]], [unit.entries[-1], own]):
        unit.entries[1:] = order
        assert unit.step("s")["values"] == {}


def test_a_tick_that_feeds_a_sheet_is_never_outside_by_itself():
    unit = one(feeds=[{"sheet": "frame", "as": "fixed.bl"}])
    unit.tick("s.f", ticked=False)
    assert unit.step("s")["is"] == "done"


def test_only_the_present_round_of_a_repeat_field_is_judged():
    width = field(
        "width_head",
        "length",
        repeat=True,
        feeds=[{"sheet": "frame", "as": "width_head"}],
        expect={"from": 913 * MM, "to": 915 * MM},
    )
    unit = Unit(step("frame", width))
    unit.read("frame.width_head", 920)
    assert unit.step("frame")["is"] == "outside"
    opened = unit.round()
    unit.read("frame.width_head", 914, round=opened)
    assert unit.step("frame")["is"] == "done"
    unit.read("frame.width_head", 920, round=opened)  # each of the present round is judged
    assert unit.step("frame")["is"] == "outside"


@pytest.mark.parametrize(
    ("place", "kind", "value"),
    [
        ("gone.f", "tick", {"ticked": True}),
        ("s.gone", "tick", {"ticked": True}),
        ("s.f", "note", {"text": "dry"}),
        ("s.number", "reading", {"text": "4 mm", "nm": 4 * MM}),
        ("s.number", "reading", {"text": "68", "number": 68, "ucum": "[degF]"}),  # the field's unit is Cel
    ],
)
def test_what_the_plan_has_no_place_for_is_elsewhere(place, kind, value):
    unit = Unit(step("s", field("f", required=False), field("number", "number", required=False, ucum="Cel")))
    key = unit._on(place, kind, value, {})
    assert unit.state()["elsewhere"] == [key]
    assert unit.step("s")["values"] == {}


def test_a_remark_counts_for_nothing():
    unit = one()
    unit.tick("s.f")
    covers = unit.offers()["signoff"]["covers"]
    unit.add("note", {"text": "gate key at the office"}, step="s")
    assert unit.offers()["signoff"]["covers"] == covers
    assert unit.state()["elsewhere"] == []


def test_of_two_standing_issues_the_greatest_id_is_in_force():
    unit = one()
    unit.packets["p0"] = unit.packets["p1"]
    unit.issue("p0", replaces=[])
    assert unit.state()["packet"] == "p0"


def test_the_stage_is_the_first_with_a_step_neither_done_nor_passed():
    unit = Unit(
        step("a", field("f"), stage="plan"),
        step("b", field("f"), stage="measure"),
        step("c", field("f"), stage="re-check", signed=False),
    )
    assert unit.state()["stage"] == "plan"
    unit.tick("a.f")
    assert unit.state()["stage"] == "measure"
    unit.tick("b.f")
    assert unit.state()["stage"] is None
