"""What one plan changes against another, and what it would do to work that stands."""

import copy
import json

import pytest
from plan.conftest import PEOPLE, UNIT, plan

from fieldapp.plan import packet
from fieldapp.plan.change import changes, said
from fieldapp.plan.effect import effect
from fieldapp.record import fold
from fieldapp.record.entries import covers_hash

NOTHING = {"facts": [], "figures": [], "steps": [], "rules": [], "editions": [], "people": []}


def built(people=PEOPLE, **more):
    return packet.build({**plan(), **more}, UNIT, people)


@pytest.fixture(scope="module")
def old():
    return built()


def test_the_same_plan_changes_nothing(old):
    assert changes(old.packet, built().packet) == NOTHING
    assert said(NOTHING) == []


def test_a_kit_that_rises_more_moves_the_head(old):
    # 2045 + 6 + 44.2 + 12 * 0.55 = 2101.8; a rise of 50.2 is 6 mm more: by hand
    new = built(head_kit={"profile": "straight", "rise": 50.2}).packet
    found = changes(old.packet, new)
    figures = {item["id"]: (item["was"], item["now"]) for item in found["figures"]}
    assert figures == {
        "opening_height": ("2101.8\u00a0mm", "2107.8\u00a0mm"),
        "head_kit": ("44.2\u00a0mm", "50.2\u00a0mm"),
    }
    assert said(found)[0] == "Opening's height 2101.8\u00a0mm → 2107.8\u00a0mm"
    steps = {item["id"]: item for item in found["steps"]}
    assert {"opening-sum", "mark", "second-look", "real-opening"} <= set(steps)
    assert {item["is"] for item in found["steps"]} == {"changed"}
    assert "Mark's height, left: 2101.8\u00a0mm → 2107.8\u00a0mm" in steps["mark"]["of"]
    told = [text.split(":")[0] for text in steps["mark"]["of"][1:]]  # after "what is shown", in the plan's order
    named = [field["say"] for step in new["steps"] if step["id"] == "mark" for field in step["fields"]]
    assert told == [say for say in named if say in told]
    assert "opening" in found["rules"]
    assert "frame" not in found["rules"]
    assert changes(old.packet, new, "in")["figures"][0]["now"] == "82\u00a031/32\u00a0in"  # 2107.8 / 25.4 = 82.984


def test_steps_come_and_go_and_hands_are_named(old):
    new = built(hand="right", hardware={"limit": "chain", "panic_bar": True}).packet
    found = changes(old.packet, new)
    assert found["facts"] == [{"was": "Hinges left, end wall", "now": "Hinges right, end wall"}]
    assert any(item["id"] == "panic_bar" and item["now"] == "yes" for item in found["figures"])
    back = changes(new, old.packet)
    assert {item["id"] for item in found["steps"] if item["is"] == "new"} == {
        item["id"] for item in back["steps"] if item["is"] == "gone"
    }


def test_every_choice_that_changes_a_packet_is_said(old):
    """Nothing of a packet may differ that no line names: a plan is never changed in silence."""
    for more in (
        {"tolerance": {"plumb": 2}},
        {"mass": {"leaf": 40, "total": 61, "panel": 38}},
        {"rivet": 6.4},
        {"watch_minutes": 90},
        {"head_seal": {"kind": "bulb", "free_height": 12, "compression": 45, "band": [41, 49]}},
        {"corners": {"width": 860, "height": 2006}},
        {"drawing": "maker's sheet T-2"},
        {"reversible": True},
        {"opening": {"width": 926}},
    ):
        new = built(**more)
        found = changes(old.packet, new.packet)
        assert new.hash != old.hash, more
        assert said(found), more


def test_people_and_what_the_site_changed(old):
    other = [PEOPLE[0], {**PEOPLE[1], "id": "0199c0de-0000-7000-8000-00000000000d", "name": "mara"}]
    assert changes(old.packet, built(people=other).packet)["people"] == ["mara joins", "ruth leaves"]


def test_a_plan_of_before_figures_were_listed_says_nothing_of_them(old):
    older = {key: value for key, value in old.packet.items() if key != "planned"}
    assert changes(older, old.packet) == NOTHING


def entry(number, kind, value, step=None, field=None, **more):
    return {"id": f"0199c0de-7a11-7000-8000-{number:012d}", "kind": kind, "value": value, "step": step, "field": field,
            "round": None, "replaces": [], "person": PEOPLE[0]["id"], "sheet": None,
            "server": {"standing": "kept"}, **more}


def test_what_a_change_does_is_what_the_fold_says(old):
    new = built(head_kit={"profile": "straight", "rise": 50.2})
    packets = {old.hash: old.packet}
    parts = {name: json.loads(body) for name, body in old.parts.items()}
    sheets = {name: json.loads(body) for name, body in new.parts.items()}
    issue = entry(1, "issue", {"packet": old.hash, "others": {}, "because": "first plan"}, packet=old.hash)
    read = [
        entry(2, "reading", {"text": "2102", "nm": 2_102_000_000}, "mark", "mark_height_left", packet=old.hash),
        entry(3, "tick", {"ticked": True}, "place", "place_clear", packet=old.hash),
    ]
    covers = [one["id"] for one in read]
    signed = entry(4, "signoff", {"covers": covers, "sha256": covers_hash(covers)}, packet=old.hash)
    held = fold.gather(None, [issue, *read, signed])
    before = copy.deepcopy((held, packets, parts))
    found = effect(held, packets, parts, new.hash, new.packet, sheets)
    assert (held, packets, parts) == before  # nothing was issued
    assert [(one["was"], one["now"]) for one in found["signoffs"]] == [("complete", "stale")]
    assert found["is"] == ["signed", "stale"]
    # 2102 was within 2 mm of 2101.8, and is not of 2107.8
    assert [one["id"] for one in found["steps"]] == ["mark"]
    assert found["steps"][0]["entries"] == 1
    after = fold.state(
        [issue, *read, signed, {**issue, "id": "0199c0de-7a11-7000-8000-000000000009", "replaces": [issue["id"]],
                                "value": {"packet": new.hash, "others": {}, "because": "kit"}}],
        {**packets, new.hash: new.packet}, {**parts, **sheets},
    )
    assert after["is"] == found["is"][1]
    assert next(one["is"] for one in after["steps"] if one["id"] == "mark") == found["steps"][0]["now"]


def test_work_without_a_place_in_the_new_plan_is_counted():
    old, new = built(hardware={"closer": True}), built(hardware={"closer": False})
    gone = {step["id"] for step in old.packet["steps"]} - {step["id"] for step in new.packet["steps"]}
    found = [(step, field) for step in old.packet["steps"] if step["id"] in gone for field in step["fields"]]
    step, field = next((step, field) for step, field in found if field["type"] == "tick")
    issue = entry(1, "issue", {"packet": old.hash, "others": {}, "because": "first plan"}, packet=old.hash)
    done = entry(2, "tick", {"ticked": True}, step["id"], field["id"], packet=old.hash)
    held = fold.gather(None, [issue, done])
    found = effect(held, {old.hash: old.packet}, {}, new.hash, new.packet, {})
    assert found["homeless"] == 1
    assert found["steps"][0]["now"] == "no longer there"


def test_a_limit_that_moves_about_its_plan_is_said_with_it(old):
    other = copy.deepcopy(old.packet)
    mark = next(step for step in other["steps"] if step["id"] == "mark")
    field = next(field for field in mark["fields"] if field["id"] == "mark_width_sill")
    field["expect"]["to"] += 1_000_000
    [step] = changes(old.packet, other)["steps"]
    assert [text.replace("\u00a0", " ") for text in step["of"]] == [
        "Mark's width at the sill: 926 mm, allowed from 924 mm to 928 mm → 926 mm, allowed from 924 mm to 929 mm"
    ]


def test_another_edition_of_a_catalogue_is_named(old):
    other = {**old.packet, "editions": {**old.packet["editions"], "rivets": "0" * 64}}
    assert said(changes(old.packet, other)) == ["Catalogue of rivets: another edition"]


def test_every_step_that_changes_says_what_of_it(old):
    """A narrower leaf changes over what a level is read, and nothing else of that step."""
    narrow = built(frame={"width": 920, "height": 2050}, corners={"width": 864, "height": 2006}, flange=1.5, rivet=6.4)
    steps = changes(old.packet, narrow.packet)["steps"]
    assert [step["say"] for step in steps if step["is"] == "changed" and not step["of"]] == []
    sill = next(step for step in steps if step["id"] == "seat-sill")
    assert sill["of"][0] == "Sill level, read over: 866 mm → 864 mm".replace(" mm", "\u00a0mm")
