"""`fieldapp load`: a file of people, crews, jobs, units and plans into a site; a file with faults loads nothing."""

import json

import pytest

from fieldapp import settings
from fieldapp.plan import packet
from fieldapp.site import load, order_file
from fieldapp.site.making import Making, always_the_same
from fieldapp.store import entries, opening, packets, people, states, units
from fieldapp.store.base import read

GOOD = """
[[crew]]
name = "east"

[[person]]
name = "nils"
roles = ["installer"]
crew = "east"
password = "eight letters or more"

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
place = "Lower field"
customer = "A farmer"

[[job.unit]]
number = "1"
crew = "east"
box = "CSQU3054383"
plan = "end"

[[job.unit]]
number = "2"
crew = "east"
plan = "end"
[job.unit.choices]
hand = "right"
head_seal = { kind = "bead", thickness = 4 }
"""


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    folder.mkdir()
    return folder


def written(tmp_path, text):
    file = tmp_path / "order.toml"
    file.write_text(text, "utf-8")
    return file


def looked(site, look):
    with opening.open_store(settings.load(site)).app_context(), read() as session:
        return look(session)


def counts(session):
    return len(people.everybody(session)), len(people.crews(session)), len(units.jobs(session))


def test_a_file_is_loaded_and_its_packets_issued(tmp_path, site):
    made = load.load(written(tmp_path, GOOD), site)
    assert len(made.units) == 2
    app = opening.open_store(settings.load(site))
    with app.app_context():
        states.bring_up(made.packets)
        with read() as session:
            assert counts(session) == (2, 1, 1)
            assert people.password_fits(people.by_name(session, "nils"), "eight letters or more")
            for unit_id, built in made.packets.items():
                unit = units.get(session, unit_id)
                assert unit.packet == built.hash
                assert packets.body(session, unit.packet) == built.packet_bytes
                said = json.loads(built.packet_bytes)["unit"]
                assert (said["code"], said["short"], said["box"]) == (unit.code, unit.short, unit.box)
                wire = list(entries.wire(session, unit_id))
                assert [entry["kind"] for entry in wire] == ["issue"]
                state = json.loads(states.state_of(session, unit_id).state)
                assert (state["is"], state["packet"]) == ("planned", built.hash)
            one, two = (made.packets[made.units["Barn", number]].packet for number in "12")
            assert [person["name"] for person in one["people"]] == ["nils", "vera"]
            assert [person["review"] for person in one["people"]] == [False, True]
            assert "Hinges left, end wall" in one["facts"]
            assert "Hinges right, end wall" in two["facts"]


def test_loaded_twice_each_unit_has_codes_of_its_own(tmp_path, site):
    load.load(written(tmp_path, GOOD), site)
    more = (
        GOOD[GOOD.index("[plan.end]") :].replace('number = "1"', 'number = "3"').replace('number = "2"', 'number = "4"')
    )
    load.load(written(tmp_path, more), site)
    codes = looked(
        site,
        lambda session: [
            (unit.code, unit.short) for job in units.jobs(session) for unit in units.in_job(session, job.id)
        ],
    )
    assert len(codes) == 4
    assert len({code for code, _ in codes}) == len({short for _, short in codes}) == 4


def test_what_the_site_has_already_is_said_and_nothing_loaded(tmp_path, site):
    load.load(written(tmp_path, GOOD), site)
    before = looked(site, counts)
    with pytest.raises(load.LoadError) as caught:
        load.load(written(tmp_path, GOOD.replace('crew = "east"\nbox', 'crew = "west"\nbox')), site)
    assert caught.value.sentences == [
        "person.0.name: 'nils' is in this site; right would be another name.",
        "person.1.name: 'vera' is in this site; right would be another name.",
        "job.0.unit.0.crew: 'west'; right would be one of the crews 'east'.",
        "job.0.unit.0.number: '1' is in this job; right would be another number.",
        "job.0.unit.1.number: '2' is in this job; right would be another number.",
    ]
    assert looked(site, counts) == before


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('name = "east"', 'name = ""', "crew.0.name: ''; right would be a text of 1 to 200 characters."),
        (
            'roles = ["installer"]',
            'roles = ["boss"]',
            "person.0.roles: ['boss']; right would be a list of installer, supervisor, administrator.",
        ),
        (
            'roles = ["supervisor"]',
            'roles = "supervisor"',
            "person.1.roles: 'supervisor'; right would be a list of installer, supervisor, administrator.",
        ),
        ('name = "vera"', 'name = "nils"', "person.1.name: 'nils'; right would be a name used once in this file."),
        ('crew = "east"\npassword', "password", "person.0.crew: missing; right would be the crew of this installer."),
        (
            'password = "eight letters or more"\n\n[[person]]',
            'password = "seven"\n\n[[person]]',
            "person.0.password: '…'; right would be 8 characters or more.",
        ),
        (
            'password = "eight letters or more"\n\n[[person]]',
            "\n[[person]]",
            "person.0.password: missing; right would be password or password_hash, one of the two.",
        ),
        ('hand = "left"', 'hand = "up"', "job.0.unit.0.choices.hand: 'up'; right would be one of 'left', 'right'."),
        (
            'plan = "end"\n\n[[job.unit]]',
            'plan = "side"\n\n[[job.unit]]',
            "job.0.unit.0.plan: 'side'; right would be one of the plans 'end'.",
        ),
        ('box = "CSQU3054383"', 'box = "CSQU3054384"', "job.0.unit.0.box: 'CSQU3054384'; right would be CSQU3054383"),
        (
            'box = "CSQU3054383"',
            'box = "barn"',
            "job.0.unit.0.box: 'barn'; right would be a container number of ten or eleven characters (ISO 6346).",
        ),
        ('number = "2"', 'number = "1"', "job.0.unit.1.number: '1'; right would be a name used once in this file."),
        (
            'place = "Lower field"',
            'field = "lower"',
            "job.0.field: 'lower'; right would be one of name, place, customer, unit.",
        ),
        ('[[crew]]\nname = "east"', 'crew = "east"', "crew: 'east'; right would be tables, each as [[crew]]."),
        ("[[job]]", "[[job]", "order.toml: "),
    ],
)
def test_a_file_with_faults_says_each_and_loads_nothing(tmp_path, site, capsys, old, new, said):
    assert old in GOOD
    assert load.run(written(tmp_path, GOOD.replace(old, new, 1)), site) == 1
    told = capsys.readouterr().err.splitlines()
    assert any(line.startswith(said) for line in told), told
    assert "Traceback" not in "".join(told)
    assert looked(site, counts) == (0, 0, 0)


def test_all_faults_come_together(tmp_path):
    wrong = GOOD.replace('hand = "left"', 'hand = "up"').replace('name = "vera"', 'name = "nils"')
    _, faults = order_file.read(written(tmp_path, wrong))
    assert len(faults) == 2  # the second unit has a hand of its own


def test_a_file_that_is_not_there_and_a_site_that_is_not(tmp_path, site, capsys):
    assert load.run(tmp_path / "nothing.toml", site) == 1
    assert "nothing.toml: " in capsys.readouterr().err
    assert load.run(written(tmp_path, GOOD), tmp_path / "nowhere") == 1
    assert "no such folder" in capsys.readouterr().err


def test_a_code_that_is_taken_is_not_given_twice(tmp_path, site):
    """Two loads with the same seeds: the second unit's packet carries the code that it got, not the one wished for."""
    order, faults = order_file.read(written(tmp_path, GOOD))
    assert faults == []
    with opening.open_store(settings.load(site)).app_context():
        load.place(order, always_the_same(1_793_000_000_000))
        with read() as session:
            taken = {unit.code for job in units.jobs(session) for unit in units.in_job(session, job.id)}
        job = order.jobs[0]
        more = [{**unit, "number": f"{unit['number']}b"} for unit in job["units"]]
        making = Making(seed=lambda name: f"demo {name.removesuffix('b')}")
        made = load.place(order_file.Order(jobs=[{**job, "units": more}]), making)
        with read() as session:
            for unit_id, built in made.packets.items():
                assert built.packet["unit"]["code"] not in taken
                assert built.packet["unit"]["code"] == units.get(session, unit_id).code
                assert built.hash == packet.document(built.packet)[0] == units.get(session, unit_id).packet
