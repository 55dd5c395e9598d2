"""The packet: server.md's shape, every name known where it is used, texts short, drawings described."""

import gzip
import hashlib
import json
import re
from xml.etree import ElementTree

import jsonschema
import pytest
from plan.conftest import PEOPLE, UNIT, plan
from plan.shape import SHAPE, STAGES

from fieldapp.plan import packet

SHORT = 34  # letters; a button says "Go on: …"
TWO_LINES = 100
NM = 1_000_000


DECIDED = ("structure", "plate", "escape", "access", "fire")  # issue 12, point 8


def every(packets):
    return [(built.packet, step) for built in packets for step in built.packet["steps"]]


def fields(packets):
    return [(built, step, field) for built in packets for step in built.packet["steps"] for field in step["fields"]]


_SHEETS = {}


def sheets_of(built):
    """{name: sheet} of a packet, parsed once."""
    if built.hash not in _SHEETS:
        _SHEETS[built.hash] = _parsed(built)
    return _SHEETS[built.hash]


def _parsed(built):
    return {sheet["name"]: json.loads(built.parts[sheet["part"]]) for sheet in built.packet["sheets"]}


def feeds_known(sheet):
    """The feed names that state.md gives a sheet of this kind."""
    if sheet["kind"] != "linear":
        return {item["name"] for item in sheet["inputs"]}
    rooms = {
        "left_bottom",
        "right_bottom",
        "left_top",
        "right_top",
        "head_left",
        "head_right",
        "strip_left",
        "strip_right",
    }
    return (
        set(sheet["readings"])
        | {"tilt.along", "tilt.through"}
        | {f"room.{name}" for name in rooms}
        | {f"fixed.{corner}" for corner in ("bl", "br", "tl", "tr")}
    )


def test_shape(packets):
    for built in packets:
        jsonschema.validate(built.packet, SHAPE)


def test_the_same_choices_give_the_same_bytes_named_by_their_hash():
    one, other = (packet.build(plan(), UNIT, PEOPLE) for _ in range(2))
    assert one.packet_bytes == other.packet_bytes
    assert one.hash == hashlib.sha256(one.packet_bytes).hexdigest()
    assert json.loads(one.packet_bytes) == one.packet
    for name, body in one.parts.items():
        assert name == hashlib.sha256(body).hexdigest()
    assert packet.build(plan(hand="right"), UNIT, PEOPLE).hash != one.hash


def test_every_stage_in_its_order(packets):
    for built in packets:
        seen = list(dict.fromkeys(step["stage"] for step in built.packet["steps"]))
        assert seen == STAGES
        assert [stage["id"] for stage in built.packet["stages"]] == STAGES


def test_ids_are_unique_and_needs_come_before(packets):
    for built in packets:
        ids = [step["id"] for step in built.packet["steps"]]
        assert len(set(ids)) == len(ids)
        for at, step in enumerate(built.packet["steps"]):
            assert set(step["needs"]) <= set(ids[:at]), step["id"]
            names = [field["id"] for field in step["fields"]]
            assert len(set(names)) == len(names), step["id"]


def test_every_feed_names_an_input_and_every_answer_a_judged_quantity(packets):
    for built, step, field in fields(packets):
        sheets = sheets_of(built)
        for feed in field.get("feeds", []):
            assert feed["as"] in feeds_known(sheets[feed["sheet"]]), (step["id"], field["id"], feed)
    for built in packets:
        sheets = sheets_of(built)
        for step in built.packet["steps"]:
            for item in step["answers"]:
                assert set(item["judged"]) <= {one["what"] for one in sheets[item["sheet"]]["judged"]}, step["id"]


def test_every_needed_input_of_a_sheet_that_decides_can_be_read(packets):
    """A step whose answer waits for an input that nobody is asked for would stay open for ever."""
    for built in packets:
        deciding = {item["sheet"] for step in built.packet["steps"] for item in step["answers"]}
        fed = {(feed["sheet"], feed["as"]): field for _, _, field in fields([built]) for feed in field.get("feeds", [])}
        for name, sheet in sheets_of(built).items():
            if name not in deciding or sheet["kind"] == "linear":
                continue
            for item in sheet["inputs"]:
                stands = "value" in item or item.get("needed", True) is False
                assert stands or fed[name, item["name"]]["required"], (name, item["name"])


def test_readings_of_a_sheet_with_corrections_repeat_and_carry_the_sheets_name_for_it(packets):
    for built, step, field in fields(packets):
        sheets = sheets_of(built)
        for feed in field.get("feeds", []):
            sheet = sheets[feed["sheet"]]
            if sheet["kind"] == "linear":
                reading = feed["as"] in sheet["readings"]
                assert field.get("repeat", False) is reading, (step["id"], field["id"])
                assert not reading or field["id"] == feed["as"]


def test_every_frame_reading_has_a_field_and_a_drawing(packets):
    for built in packets:
        frame = sheets_of(built)["frame"]
        fed = {
            feed["as"] for _, _, field in fields([built]) for feed in field.get("feeds", []) if feed["sheet"] == "frame"
        }
        lands = {kind for kind in frame["kinds"] if kind.startswith("land_")}
        wanted = set(frame["kinds"]) - (lands if "smooth" in built.packet["facts"][0] else set())
        assert wanted <= fed
        drawn = {drawing["id"] for drawing in built.packet["drawings"]}
        assert {"unit", *(f"read-{kind}" for kind in frame["kinds"])} <= drawn


def test_words_are_short_and_nothing_is_left_to_fill(packets):
    for _, step in every(packets):
        assert len(step["say"]) <= SHORT, step["say"]
        assert len(step["purpose"]) <= TWO_LINES, step["purpose"]
        for field in step["fields"]:
            assert len(field["say"]) <= SHORT, field["say"]
            for option in field.get("options", []):
                assert len(option["say"]) <= SHORT, option["say"]
    for built in packets:
        for text in _texts(built.packet):
            assert not re.search(r"[{}]", text), text


def _texts(value):
    """Every text of a packet but its drawings."""
    if isinstance(value, dict):
        return [text for key, inner in value.items() if key != "svg" for text in _texts(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in _texts(inner)]
    return [value] if isinstance(value, str) else []


def test_the_tone_of_the_house(packets):
    """screens.md 4: no exclamation marks, no thanks, none of the words that a foreman would not say."""
    for text in {text for built in packets for text in _texts(built.packet)}:
        assert "!" not in text, text
        assert not re.search(r"\b(error|invalid|sync|submit|upload|OK|please|thank|about \d)\b", text), text


def test_each_step_says_what_a_wrong_reading_means(packets):
    for _, step in every(packets):
        if step["fields"] and step["signed"] and step["id"] not in ("parallel", "parallel-smooth"):
            assert any("wrong" in field for field in step["fields"]), step["id"]


def test_what_is_outside_has_a_limit_with_its_source(packets):
    for _, step, field in fields(packets):
        expect = field.get("expect")
        if expect:
            assert "from" in expect or "to" in expect, field["id"]
            assert expect.get("from", -1e18) <= expect.get("to", 1e18)
            if field["type"] == "length":
                assert all(type(expect[key]) is int for key in ("from", "to", "u") if key in expect), field["id"]
            assert field.get("wrong"), (step["id"], field["id"])


def test_hold_points_and_what_nobody_may_concede(packets):
    """work.md: never for lock-in, disc, air, missing hold point; the hold points are those marked H there."""
    for built in packets:
        steps = {step["id"]: step for step in built.packet["steps"]}
        holds = {name for name, step in steps.items() if step["hold"]}
        assert holds == {"air", "services", "hot-work", "people", "second-look", "lower-out", "stop", "way-out"}
        disc = "tools" if "tools" in steps else "cold-tools"
        for name in (*holds, disc):
            assert steps[name]["concession"] is False
            assert steps[name]["hold"] or name == disc
        deciders = {f"decide-{what}" for what in DECIDED}  # work.md: unanswered, the H at Set out stays shut
        assert deciders <= set(steps["second-look"]["needs"])
        for step in (steps[name] for name in holds):
            assert step["look"], step["id"]
        assert [name for name, step in steps.items() if not step["signed"]] == ["after-a-move", "frame-again"]


def test_who_decides_is_named_dated_and_answered(packets):
    """Each question has one required answer, name and date, given by the office, and no answer that is missing or no
    is taken for one; what is published is shown beside it, with its source, as information."""
    for built in packets:
        steps = {step["id"]: step for step in built.packet["steps"]}
        for step in (steps[f"decide-{what}"] for what in DECIDED):
            asked = {field["id"]: field for field in step["fields"]}
            assert {name: asked[name]["type"] for name in ("answer", "who", "decided_on")} == {
                "answer": "choice",
                "who": "text",
                "decided_on": "date",
            }
            assert all(asked[name]["required"] and asked[name]["office"] for name in ("answer", "who", "decided_on"))
            assert {o["id"] for o in asked["answer"]["options"] if not o["ok"]} >= {"open"}
            assert all(option["ok"] == (option["id"] not in ("open", "no")) for option in asked["answer"]["options"])
            assert any(re.search(r"\(.*\d.*\)", line) for line in step["shown"]), step["id"]
            assert "never a permission" in step["cautions"][0]
            assert step["concession"] is False


def test_photos_are_never_required(packets):
    for _, _, field in fields(packets):
        assert not (field["type"] == "photo" and field["required"])


def test_what_belongs_to_the_box_is_offered_to_its_other_units(packets):
    of_box = {(step["id"], field["id"]) for _, step, field in fields(packets[:1]) if field.get("of_box")}
    for wanted in (
        ("right-box", "identification"),
        ("air", "air"),
        ("stance", "tilt_along"),
        ("hot-work", "permit"),
        ("tools", "marked_rpm"),
    ):
        assert wanted in of_box
    assert ("coating", "behind") not in of_box  # what lies behind the sheet belongs to the wall


@pytest.mark.parametrize("wall", ["corrugated side", "corrugated end", "smooth insulated"])
def test_the_hand_turns_hinge_and_latch(wall):
    for hand, other in (("left", "right"), ("right", "left")):
        steps = {step["id"]: step for step in packet.build(plan(wall=wall, hand=hand), UNIT, PEOPLE).packet["steps"]}
        assert [field["id"] for field in steps["hinge-jamb"]["fields"]] == [f"plumb_{hand}", f"lean_{hand}"]
        assert steps["hinge-jamb"]["answers"] == [{"sheet": "frame", "judged": [f"plumb_{hand}"]}]
        assert f"plumb_{other}" in [field["id"] for field in steps["true-frame"]["fields"]]


def test_drawings_are_described_and_styled_by_classes_alone(packets):
    svg = "{http://www.w3.org/2000/svg}"
    for built in packets:
        for drawing in built.packet["drawings"]:
            root = ElementTree.fromstring(drawing["svg"])
            assert root.find(f"{svg}title").text
            assert root.find(f"{svg}desc").text == drawing["say"]
            width = float(root.get("viewBox").split()[2])
            for node in root.iter():
                assert node.get("style") is None
                assert node.get("class") in (None, "ink", "pencil", "chalk", "hair", "hatch", "paper")
                if node.tag == f"{svg}text":  # drawn 328 px wide on a phone of 360
                    assert float(node.get("font-size")) * 328 / width >= 16, drawing["id"]
            if drawing["id"].startswith("read-"):
                assert any(node.get("class") == "chalk" for node in root.iter())


def test_a_fault_in_the_choices_is_said_and_another_language_refused():
    with pytest.raises(ValueError, match="hand: 'up'; right would be one of 'left', 'right'"):
        packet.build(plan() | {"hand": "up"}, UNIT, PEOPLE)
    with pytest.raises(ValueError, match="lang: 'es'"):
        packet.build(plan(), UNIT, PEOPLE, lang="es")


def test_a_packet_is_small_over_the_wire(packets):
    """60 kB at most, compressed, without its shared parts: what a phone with a poor signal must fetch for each unit."""
    sizes = [len(gzip.compress(built.packet_bytes)) for built in packets]
    print(f"\npackets, compressed: {min(sizes)} to {max(sizes)} bytes")
    assert max(sizes) < 60_000
