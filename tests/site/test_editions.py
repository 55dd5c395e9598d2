# ruff: noqa: E501 - rows and sentences are read side by side
"""Plans made under catalogues' editions: the newest is in force, the packet names it, and an old plan keeps its rule."""

import json

import pytest

from fieldapp import settings
from fieldapp.plan import catalogue_csv, packet
from fieldapp.plan.catalogue import CATALOGUES, edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.choices import check
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.named import filled
from fieldapp.plan.picks import picks
from fieldapp.site import editions as kept
from fieldapp.site import load, reissue
from fieldapp.store import editions, opening, packets, people, units
from fieldapp.store.base import read, write

GOOD = """
[[crew]]
name = "east"

[[person]]
name = "vera"
roles = ["supervisor"]
password = "eight letters or more"

[plan.end]
wall = "corrugated end"
hand = "left"
frame = { width = 914, height = 2045 }
corners = { width = 866, height = 2006 }
head_kit = { profile = "straight", rise = "1 3/4 in" }
head_seal = { kind = "bulb", free_height = 12 }
side_edges = { kind = "sealant" }

[[job]]
name = "Barn"

[[job.unit]]
number = "1"
crew = "east"
plan = "end"
"""
DOORS = (
    "id,frame width (mm),frame height (mm),corners width (mm),corners height (mm),flange (mm),hand,holes side,"
    "holes per flat,holes head,holes sill,leaf mass (kg),total mass (kg),kit rise angled (mm),kit rise straight (mm),"
    "glass,source\n"
    "E-4,914,2045,866,2006,1.5,either,7,2,4,2,38,61,44.2,44.2,none,our maker's sheet of May\n"
    "L-1,914,2045,866,2006,,left,,,,,,,,,half,our maker's sheet of May\n"
)
NAMED = """
[plan.named]
wall = "corrugated end"
hand = "right"
door = "e-4"
rivet = 5.0
clearance = { left = 5 }
head_seal = { kind = "bulb", name = "fat bulb" }
side_edges = { kind = "sealant" }

[[job]]
name = "Mill"

[[job.unit]]
number = "1"
crew = "east"
plan = "named"
"""


def rows_of(name, text):
    rows, faults = catalogue_csv.read(name, text.encode())
    assert faults == []
    return rows


def shops():
    """Rows that a shop brought in: doors, a seal, and a rivet of 5 mm with a row that no table of ours has."""
    rivet = {**seed()["rivets"][0], "id": "5-M", "diameter": 5.0, "inch": None, "grip from": 2.0, "grip to": 5.0, "head": None,
             "hole from": 5.1, "hole to": 5.2}
    seals = [*seed()["seals"], {"id": "fat bulb", "kind": "bulb", "free height": 15.0, "thickness": None, "band from": 35.0,
                                "band to": 45.0, "source": "the seal's maker"}]
    return {"doors": rows_of("doors", DOORS), "rivets": [*seed()["rivets"], rivet], "seals": seals}


def under(**rows):
    return InForce.of({**seed(), **rows}, {})


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    folder.mkdir()
    (tmp_path / "first.toml").write_text(GOOD, "utf-8")
    load.load(tmp_path / "first.toml", folder)
    return folder


def packets_of(site):
    with opening.open_store(settings.load(site)).app_context(), read() as session:
        person = next(one for one in people.everybody(session) if one.crew_id is None)
        found = {}
        for unit in units.all_visible(session, person):
            body = json.loads(packets.body(session, unit.packet))
            parts = {sheet["name"]: json.loads(packets.body(session, sheet["part"])) for sheet in body["sheets"]}
            found[unit.job.name, unit.number] = (body, parts, units.choices_of(unit))
        return found


def bring_in(site, **rows):
    with opening.open_store(settings.load(site)).app_context(), write() as session:
        for name, each in rows.items():
            editions.add(session, name, *edition(name, each), person_id="0199c0de-0000-7000-8000-00000000000a")


def test_a_packet_names_the_editions_that_it_was_made_under(site):
    body, *_ = packets_of(site)["Barn", "1"]
    assert body["editions"] == {name: edition(name, seed()[name])[0] for name in CATALOGUES}
    with opening.open_store(settings.load(site)).app_context(), read() as session:
        assert {editions.of_hash(session, hash).number for hash in body["editions"].values()} == {0}


def test_a_new_plan_takes_the_newest_edition_and_an_old_one_keeps_its_rule(site, tmp_path):
    before = packets_of(site)
    bring_in(site, **shops())
    (tmp_path / "more.toml").write_text(NAMED, "utf-8")
    load.load(tmp_path / "more.toml", site)
    after = packets_of(site)
    assert {key: after[key] for key in before} == before
    body, parts, choices = after["Mill", "1"]
    assert body["editions"]["rivets"] != before["Barn", "1"][0]["editions"]["rivets"]
    assert body["editions"]["discs"] == before["Barn", "1"][0]["editions"]["discs"]
    assert [row["name"] for row in parts["rivet_sides"]["rows"]["rows"]] == ["5-M"]
    assert (parts["seal"]["judged"][0]["from"], parts["seal"]["judged"][0]["to"]) == (35, 45)
    assert (choices["frame"], choices["corners"]) == ({"width": 914, "height": 2045}, {"width": 866, "height": 2006})
    assert choices["head_kit"] == {"profile": "straight", "rise": 44.2}
    assert choices["drawing"] == "E-4, our maker's sheet of May"
    assert choices["flange"] == 1.5
    assert choices["holes"] == {"side": 7, "per_flat": 2, "sill": 2}
    assert "door" not in choices
    assert "name" not in choices["head_seal"]


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        ('"e-4"', '"E-5"', "door: 'E-5'; right would be one of the catalogue's: 'E-4', 'L-1'."),
        ('"e-4"', "7", "door: 7; right would be one of the catalogue's: 'E-4', 'L-1'."),
        ('"e-4"', '"L-1"', "hand: 'right'; right would be 'left': the door L-1 has its hinges left."),
        ('"fat bulb"', '"thin"', "head_seal.name: 'thin'; right would be one of the catalogue's: 'bulb seal', 'fat bulb'."),
        ("rivet = 5.0", "rivet = 5.5", "rivet: 5.5; right would be one of 3.2, 4, 4.8, 5, 6.4."),
        ("rivet = 5.0", 'profile = "x"', "profile: 'x'; right would be one of the catalogue's: 'corrugated side', 'corrugated end'."),
        ("rivet = 5.0", 'profile = "corrugated side"', "profile: 'corrugated side'; right would be a profile of a corrugated end wall"),
        ("rivet = 5.0", "sealant = 3", "sealant: 3; right would be a text of 1 to 200 characters."),
        ("rivet = 5.0", 'disc = "900 mm"', "disc: '900 mm'; right would be one of the catalogue's: '115 mm'"),
    ],
)
def test_a_name_that_no_catalogue_has_is_a_sentence_and_nothing_is_loaded(site, tmp_path, was, now, said):
    bring_in(site, **shops())
    (tmp_path / "bad.toml").write_text(NAMED.replace(was, now), "utf-8")
    before = packets_of(site)
    with pytest.raises(load.LoadError) as fault:
        load.load(tmp_path / "bad.toml", site)
    assert [f"job.0.unit.0.choices.{said}" in each for each in fault.value.sentences] == [True]
    assert packets_of(site) == before


def test_the_plan_itself_beats_the_row():
    own = {"wall": "corrugated end", "door": "E-4", "frame": {"width": 900}, "mass": {"leaf": 40}, "drawing": "D-1"}
    made, faults = filled(own, under(**shops()))
    assert faults == []
    assert (made["frame"], made["mass"]) == ({"width": 900, "height": 2045}, {"leaf": 40, "total": 61})
    assert made["drawing"] == "D-1"
    assert filled({"door": "E-4"}, seeded())[1] == ["door: 'E-4'; right would be nothing: the catalogue of doors is empty yet."]


def test_without_a_rivet_of_the_usual_size_a_plan_says_which():
    from plan.conftest import PEOPLE, UNIT, plan

    few = under(rivets=[row for row in seed()["rivets"] if row["diameter"] > 6])
    with pytest.raises(ValueError, match=r"rivet: 'missing'; right would be one of 6.4"):
        packet.build(plan(), UNIT, PEOPLE, under=few)
    assert packet.build(plan() | {"rivet": 6.4}, UNIT, PEOPLE, under=few).packet["editions"] == few.hashes


def test_a_pick_list_follows_the_editions_in_force():
    """A 600 mL sausage and a disc of 10 m: 295 mL * 1.15 / 600 and the end wall's 6.5 m of cut, one of each."""
    from plan.conftest import plan

    sealants = [*seed()["sealants"], {"id": "sausage", "class": "25", "opens": 25.0, "closes": 25.0, "cure": "neutral",
                                      "cartridge": 600.0, "source": "our maker's sheet"}]
    discs = [*seed()["discs"], {"id": "long life", "diameter": 125.0, "thickness": 1.0, "printed speed": 12_200.0,
                                "rim speed": 80.0, "cut a disc": 10.0, "source": "our own count"}]
    chosen = plan() | {"sealant": "Sausage", "disc": "long life"}
    lines = {line["what"]: line for line in picks([{"number": "1", "choices": chosen}], under(sealants=sealants, discs=discs))["lines"]}
    assert lines["Sealant, sausage, neutral cure"]["order"] == 1
    assert lines["Sealant, sausage, neutral cure"]["detail"] == "cartridges of 600 mL"
    assert lines["Cutting disc, long life"]["order"] == 1


def test_a_default_of_the_shops_holds_for_new_plans_and_an_old_one_keeps_the_one_it_was_made_by(site):
    """Clearance 6 mm to each side until the maker says 8: the opening that is cut is 4 mm wider in plans made since."""
    clearance, *others = seed()["defaults"]
    bring_in(site, defaults=[clearance | {"value": 8.0, "origin": "maker's sheet", "source": "sheet 3"}, *others])
    with opening.open_store(settings.load(site)).app_context():
        assert kept.now().defaults["clearance"] == {"value": 8, "origin": "M", "source": "sheet 3"}
        with read() as session:
            person = next(one for one in people.everybody(session) if one.crew_id is None)
            [unit] = units.all_visible(session, person)
            made = packets.parsed(session, [unit.packet])[unit.packet]
            own = kept.made_under(session, made, kept.in_force(session))
            assert (own.default("clearance"), own.numbers["defaults"]) == (6, 0)
            # a plan of before defaults were a catalogue names no edition of them: edition 0 is what it was made by
            older = {**made, "editions": {name: hash for name, hash in made["editions"].items() if name != "defaults"}}
            assert kept.made_under(session, older, kept.in_force(session)).default("clearance") == 6
            assert kept.made_under(session, None, kept.in_force(session)).default("clearance") == 8
        again = reissue.built(unit.id, units.choices_of(unit)).packet
    widths = [{each["id"]: each.get("nm") for each in plan["planned"]}["opening_width"] for plan in (made, again)]
    assert widths == [926_000_000, 930_000_000]
    assert again["editions"]["defaults"] != made["editions"]["defaults"]


def test_editions_alone_are_no_change_unless_the_pick_list_goes_by_them(site):
    with opening.open_store(settings.load(site)).app_context(), read() as session:
        person = next(one for one in people.everybody(session) if one.crew_id is None)
        [unit] = units.all_visible(session, person)
        old = packets.parsed(session, [unit.packet])[unit.packet]
        choices = units.choices_of(unit)

    def alone(**rows):
        bring_in(site, **rows)
        with opening.open_store(settings.load(site)).app_context():
            made = reissue.built(unit.id, choices)
            assert made.hash != unit.packet
            return reissue.alone(old, choices, made)

    assert alone(discs=[row for row in seed()["discs"] if row["diameter"] > 120]) == (
        "Nothing changed: catalogues of another edition are in force (discs 0 → 1), and this plan takes nothing from what is new in "
        "them. Nothing was issued.", False)
    # a deeper corrugation is longer along the sheet: more seal, more cut; the packet shows none of it
    sides, ends = seed()["profiles"]
    said, worth = alone(profiles=[sides, ends | {"depth": 60.0}])
    assert worth
    assert all(each in said for each in ("the pick list alone", "discs 0 → 1", "wall profiles 0 → 1"))
    clearance, *others = seed()["defaults"]
    assert alone(defaults=[clearance | {"value": 8.0}, *others]) is None
    with opening.open_store(settings.load(site)).app_context():
        assert reissue.alone(reissue.built(unit.id, choices).packet, choices, reissue.built(unit.id, choices)) is None


def test_the_demo_has_its_makers_doors_and_says_that_they_are_invented(tmp_path):
    from fieldapp.places import folder

    rows, faults = catalogue_csv.read("doors", (folder("seed_data") / "demo_doors.csv").read_bytes())
    assert faults == []
    assert all("invented for the demo" in row["source"] for row in rows)
    doors = under(doors=rows)
    for wall, hand, name in (("corrugated end", "left", "E-4"), ("corrugated side", "right", "S-2"), ("smooth insulated", "right", "P-7")):
        chosen = {"wall": wall, "hand": hand, "door": name, "head_seal": {"kind": "bead", "thickness": 4}, "side_edges": {"kind": "sealant"}}
        made, wrong = filled(chosen, doors)
        assert wrong == []
        assert check(made, doors) == []
