# ruff: noqa: E501 - a row is read on one line
"""The shop's rows for a calculator by hand: each fills fields that the calculator takes, and the usual ones change nothing."""

import pytest

from fieldapp.places import folder
from fieldapp.plan import catalogue_csv
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.work.by_hand import built, rows
from fieldapp.work.registry import CALCULATORS
from fieldapp.work.shop_rows import OFFERED, filled, offers


def shop():
    doors, faults = catalogue_csv.read("doors", (folder("seed_data") / "demo_doors.csv").read_bytes())
    assert faults == []
    seals = [
        *seed()["seals"],
        {"id": "fat bulb", "kind": "bulb", "free height": 15.0, "thickness": None, "band from": 30.0, "band to": 40.0, "source": "x"},
        {"id": "trim 3", "kind": "edge trim", "free height": None, "thickness": 3.0, "band from": None, "band to": None, "source": "x"},
    ]
    return InForce.of({**seed(), "doors": doors, "seals": seals}, {"doors": 1, "seals": 2})


EVERY = [(name, offer.catalogue, value) for name in OFFERED for offer in offers(name, shop()) for value, _ in offer.options]


@pytest.mark.parametrize(("name", "catalogue", "value"), EVERY)
def test_every_row_fills_fields_that_the_calculator_takes(name, catalogue, value):
    made = CALCULATORS[name]
    line, gave = filled(name, made.example, {catalogue: value}, shop())
    assert gave == [catalogue]
    shown = {row.path: row.value for row in rows(made.takes, line, {}) if row.control != "head" and row.value}
    answer, problems = made.answer(built(made.takes, shown))
    # another wall than the example's may not go with the rest of it; what the row filled in is not at fault
    said = [path for path in problems if path.split(".")[0] in ("profile", "rows", "hole", "diameter", "frame", "band", "class", "cartridge")]
    assert said == []
    assert answer or catalogue in ("profiles", "rivets")


def test_the_usual_rows_give_the_usual_answer():
    """A plain input answers by the seed's rows; with the same rows filled in it answers the same."""
    for name in ("rivet", "fixings"):
        made = CALCULATORS[name]
        plain = {key: value for key, value in made.example.items() if key not in ("rows", "hole")} | {"diameter": 4.8}
        line, _ = filled(name, plain, {"rivets": "4.8"}, seeded())
        assert (len(line["rows"]), made.answer(line)) == (8, made.answer(plain))
    for name in ("layout", "panel", "cut", "seal"):
        made = CALCULATORS[name]
        plain = {key: value for key, value in made.example.items() if key != "profile"}
        line, _ = filled(name, plain, {"profiles": plain["wall"]}, seeded())
        assert made.answer(line) == made.answer(plain)


def test_what_a_row_says_and_no_more():
    assert filled("seal", {}, {"seals": "fat bulb"}, shop())[0] == {"free_height": 15, "band": [30, 40]}
    # at the head it is pressed to the middle of its band
    assert filled("opening", {}, {"seals": "fat bulb"}, shop())[0] == {"head_seal": {"kind": "bulb", "free_height": 15, "compression": 35}}
    assert filled("opening", {"edge_trim": 1}, {"seals": "trim 3"}, shop())[0] == {"edge_trim": 3}
    known = {"wall": "corrugated end", "clearance": {"left": 6}}
    door, gave = filled("opening", known, {"doors": "E-4", "seals": "no such", "profiles": "corrugated end"}, shop())
    assert (set(door), gave, door["head_kit"]["profile"]) == ({"wall", "clearance", "frame", "head_kit"}, ["doors"], "straight")
    assert filled("seal", {"free_height": 9}, {}, shop()) == ({"free_height": 9}, [])
    assert offers("wheel", shop()) == []
    assert [(one.catalogue, one.edition) for one in offers("opening", shop())] == [("doors", 1), ("seals", 2)]
    assert [one.catalogue for one in offers("frame", seeded())] == []  # no doors before a shop brings them in
