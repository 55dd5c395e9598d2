"""The demo: three jobs, two crews, twelve units, each in the state that its story means, the same each time."""

import json

import pytest

from fieldapp import settings
from fieldapp.record import fold
from fieldapp.record.entries import covers_hash
from fieldapp.site import demo
from fieldapp.store import entries, opening, packets, people, states, units
from fieldapp.store.base import read
from fieldapp.trade import containers
from fieldapp.trade.estimate import judge
from fieldapp.web.entry_schemas import problems_of

QUAY, HILL, YARD = "Saltmarsh stores", "Bramble Hill plant rooms", "Tannery Lane yard"
MEANT = {
    (QUAY, "01"): ("planned", "plan", []),
    (QUAY, "02"): ("accepted", None, []),
    (QUAY, "03"): ("stale", "seal", ["concession:head-seal", "stale"]),
    (QUAY, "04"): ("signed", None, ["sign-off"]),
    (QUAY, "07"): ("working", "set-and-fix", []),
    (HILL, "01"): ("working", "set-and-fix", ["hold:stop"]),
    (HILL, "02"): ("returned", None, []),
    (HILL, "03"): ("working", "seal", []),
    (YARD, "01"): ("working", "edges", ["concession:strip"]),
    (YARD, "02"): ("working", "edges", ["pair:strip"]),
    (YARD, "03"): ("working", "ready", []),
    (YARD, "04"): ("working", "cut", []),
}


class Seeded:
    """A seeded site: its units by (job, number), their states, entries, packets and parts."""

    def __init__(self, folder):
        self.app = opening.open_store(settings.load(folder))
        self.made = demo.seed(self.app)
        self.states, self.entries, self.packets, self.parts = {}, {}, {}, {}
        with self.app.app_context(), read() as session:
            for key, unit in self.made.units.items():
                row = states.state_of(session, unit)
                assert row.fault is None
                self.states[key] = json.loads(row.state)
                self.entries[key] = list(entries.wire(session, unit))
                built = self.made.packets[unit]
                self.packets[key] = {built.hash: built.packet}
                self.parts[key] = {name: json.loads(body) for name, body in built.parts.items()}
                assert packets.body(session, built.hash) == built.packet_bytes


@pytest.fixture(scope="module")
def seeded(tmp_path_factory):
    return Seeded(tmp_path_factory.mktemp("demo"))


def of(state, step):
    return next(one for one in state["steps"] if one["id"] == step)


def test_each_unit_is_what_its_story_means(seeded):
    found = {key: (state["is"], state["stage"], state["waiting"]) for key, state in seeded.states.items()}
    assert found == MEANT
    for key, state in seeded.states.items():
        assert state["elsewhere"] == [], key
        assert all(sheet["unusable"] == [] for sheet in state["sheets"].values()), key


def test_the_frame_that_is_out_of_true_after_one_round(seeded):
    key = (QUAY, "07")
    assert of(seeded.states[key], "true-frame")["is"] == "outside"
    told = [entry for entry in seeded.entries[key] if entry["kind"] == "told" and entry["value"]["sheet"] == "frame"]
    assert len(told) == 1
    assert told[0]["value"]["moves"]  # told, and not made yet: the phone goes on from here
    assert not [entry for entry in seeded.entries[key] if entry["kind"] in ("move", "round")]


def test_the_stop_that_is_stated_and_the_holds_that_are_confirmed(seeded):
    assert of(seeded.states[HILL, "01"], "stop")["hold"] == "stated"
    assert of(seeded.states[HILL, "01"], "air")["hold"] == "confirmed"
    assert of(seeded.states[QUAY, "02"], "way-out")["hold"] == "confirmed"


def test_the_pair_and_the_concession(seeded):
    assert of(seeded.states[YARD, "02"], "strip")["pairs"] == ["strip_middle"]
    assert of(seeded.states[YARD, "01"], "strip")["outside"] == ["strip_middle"]


def test_finished_frames_were_moved_by_rounds_and_come_true(seeded):
    for number in ("02", "03", "04"):
        state = seeded.states[QUAY, number]
        moved = [entry for entry in seeded.entries[QUAY, number] if entry["kind"] == "move"]
        assert moved
        assert state["sheets"]["frame"]["rounds"]
        assert "outside" not in state["sheets"]["frame"]["verdicts"].values()


def test_what_was_told_is_what_the_estimate_says_of_the_readings_before_it(seeded):
    """Worked out again from the entries up to each `told`, by the fold's own route."""
    for key in ((QUAY, "02"), (QUAY, "07"), (HILL, "01")):
        before = []
        for entry in seeded.entries[key]:
            if entry["kind"] == "told":
                name = entry["value"]["sheet"]
                given = fold.given(fold.gather(None, before), seeded.packets[key], seeded.parts[key], name)
                assert sorted(entry["value"]["from"]) == given["ids"]
                said = {
                    what: word
                    for what, word in judge(seeded.parts[key][entry["sheet"]], given).items()
                    if word not in (None, "not known")
                }
                assert said.items() <= entry["value"]["verdicts"].items(), (key, name)
            before.append(entry)


def test_every_entry_would_pass_the_door(seeded):
    for made in seeded.entries.values():
        for entry in made:
            wire = {name: value for name, value in entry.items() if name != "server"}
            assert problems_of(wire) == {}, wire
            if "sha256" in entry["value"] and "covers" in entry["value"]:
                assert entry["value"]["sha256"] == covers_hash(entry["value"]["covers"])


def test_what_was_typed_is_kept_with_its_unit(seeded):
    """offline.md 98: a number typed without unit gets ` mm` or ` in` put behind it; the text kept is the one shown."""
    readings = [entry["value"] for found in seeded.entries.values() for entry in found if entry["kind"] == "reading"]
    lengths_read = [value for value in readings if "nm" in value]
    assert len(lengths_read) > 300
    for value in lengths_read:
        parts = value["text"].split("; ")
        assert all(part.endswith((" mm", " in")) for part in parts), value
        assert len(parts) == (2 if value.get("reversed") else 1)
    assert {value["text"] for value in readings if value.get("ucum") == "/min"} == {"10200 /min", "9000 /min"}
    assert all(value["text"].endswith(" °") for value in readings if value.get("ucum") == "deg")


def test_counts_rise_by_one_an_entry_a_device(seeded):
    by_device = {}
    for made in seeded.entries.values():
        for entry in made:
            by_device.setdefault(entry["device"], []).append(entry["count"])
    assert len(by_device) == 5  # four phones and the site's own
    for counts in by_device.values():
        assert sorted(counts) == list(range(1, len(counts) + 1))


def test_everything_lies_in_early_november_2026(seeded):
    for made in seeded.entries.values():
        for entry in made:
            assert "2026-11-02" <= entry["at"][:10] <= "2026-11-11", entry["at"]


def test_the_scenario_holds_what_the_product_can_do(seeded):
    facts = [fact for held in seeded.packets.values() for plan in held.values() for fact in plan["facts"][:2]]
    for word in (
        "side wall",
        "end wall",
        "smooth wall",
        "Hinges left",
        "Hinges right",
        "angled kit",
        "straight kit",
        "no head kit",
        "bulb seal",
        "sealant at the head",
    ):
        assert any(word in fact for fact in facts), word
    steps = {step["id"] for held in seeded.packets.values() for plan in held.values() for step in plan["steps"]}
    assert {"chain", "door-stop", "closer", "panic-bar", "core", "corrugation"} <= steps


def test_container_numbers_add_up(seeded):
    for held in seeded.packets.values():
        for plan in held.values():
            assert containers.container({"identification": plan["unit"]["box"]})["valid"] is True


def test_two_crews_see_different_units_and_each_may_sign_in(seeded):
    with seeded.app.app_context(), read() as session:
        north, south = (
            {unit.id for unit in units.all_visible(session, people.by_name(session, name))} for name in ("lena", "pia")
        )
        everything = {unit.id for unit in units.all_visible(session, people.by_name(session, "ruth"))}
        assert len(north) == 8
        assert len(south) == 4
        assert not north & south
        assert north | south == everything == set(seeded.made.units.values())
        assert {role for one in demo.people() for role in one["roles"]} == {"installer", "supervisor", "administrator"}
        for one in demo.people():
            assert people.password_fits(people.by_name(session, one["name"]), one["password"])


def test_the_same_each_time(seeded, tmp_path):
    again = Seeded(tmp_path)
    assert again.made.units == seeded.made.units
    assert again.entries == seeded.entries
    assert {key: list(held) for key, held in again.packets.items()} == {
        key: list(held) for key, held in seeded.packets.items()
    }
    with again.app.app_context(), read() as session:
        hashes = {person.name: (person.id, person.password) for person in people.everybody(session)}
    with seeded.app.app_context(), read() as session:
        assert hashes == {person.name: (person.id, person.password) for person in people.everybody(session)}
