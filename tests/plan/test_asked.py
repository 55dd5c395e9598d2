"""What a plan hands to the calculators: it is taken as it stands, and the opening comes out as the plan has it."""

import pytest
from plan.conftest import plan, some_plans

from fieldapp.plan.asked import asked
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.choices import read
from fieldapp.plan.dimensions import opening_size
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.work.registry import CALCULATORS

# what only the wall, the calliper and the disc can tell
MEASURED = {
    "opening": {},
    "layout": {"edges": [{"at": 500, "edge": "outer_start"}], "wall_from": 0, "wall_to": 5800},
    "cut": {"starts": 30, "thickness": 1.8},
    "fixings": {"land": {"left": 30, "right": 32}, "edge": 15, "stack": [{"thickness": 1.5}, {"thickness": 1.6}]},
    "seal": {"gaps": [{"value": 6.6}]},
}
SMOOTH = {"layout": ("edges",), "cut": ("starts", "thickness"), "fixings": ("land",)}


def completed(name, known, chosen):
    """The plan's part with what is measured beside it."""
    line = {**known, **{key: value for key, value in MEASURED[name].items()
                        if chosen.corrugated or key not in SMOOTH.get(name, ())}}
    if name == "cut" and not chosen.corrugated:
        line["layers"] = [{"thickness": 0.6, "density": 7850}, {"thickness": 80, "density": 40}]
    if name == "layout":
        line = {**line, "flange": {**known["flange"], "covers": 40},
                "swing": {**known["swing"], "clear_from": 0, "clear_to": 5800}}
    if name == "fixings":
        line = {**line, "sides": {"count": 7}, "head": {**known["head"], **({} if chosen.corrugated else {"count": 4})}}
    return line


@pytest.mark.parametrize("choices", some_plans())
def test_the_plans_part_is_taken_and_the_rest_alone_is_missing(choices):
    chosen = read(plan(**choices))
    for name, known in asked(chosen).items():
        answer, problems = CALCULATORS[name].answer(completed(name, known, chosen))
        assert problems == {}, name
        assert answer["say"]
        _, without = CALCULATORS[name].answer(known)
        assert all(one.startswith("missing") for faults in without.values() for one in faults), (name, without)
        if name == "opening":
            assert (answer["cut"]["width"], answer["cut"]["height"]) == pytest.approx(opening_size(chosen))


def test_holes_that_the_makers_sheet_shows_go_along():
    chosen = read(plan() | {"holes": {"side": 8, "per_flat": 2, "sill": 3}})
    found = asked(chosen)["fixings"]
    assert (found["sides"]["count"], found["head"]["per_flat"], found["sill"]["count"]) == (8, 2, 3)


def test_a_calculator_goes_by_the_editions_of_the_plan_and_only_what_is_unusual_is_filled_in():
    sides, ends = seed()["profiles"]
    rivets = [{**seed()["rivets"][0], "id": name, "diameter": 5.0, "inch": None, "grip from": low, "grip to": low + 3.0}
              for name, low in (("5-S", 1.0), ("5-L", 4.0))]
    clearance, *others = seed()["defaults"]
    others = [row | {"value": 50.0} if row["id"] == "width of a tab" else row for row in others]
    defaults = [clearance | {"value": 8.0}, *others]
    profiles = [sides, ends | {"depth": 48.0}]
    shop = InForce.of({**seed(), "profiles": profiles, "rivets": rivets, "defaults": defaults}, {})
    chosen = read(plan() | {"rivet": 5.0}, shop)
    found = asked(chosen, shop)
    assert {name: known["profile"]["depth"] for name, known in found.items() if "profile" in known} == {
        "layout": 48, "cut": 48, "fixings": 48, "seal": 48}
    assert [row["name"] for row in found["fixings"]["rows"]] == ["5-S", "5-L"]
    assert (found["cut"]["tabs"], found["opening"]["clearance"]["left"]) == ({"width": 50}, 8)
    for name, known in found.items():
        _, problems = CALCULATORS[name].answer(completed(name, known, chosen))
        assert problems == {}, name
    usual = asked(read(plan()))
    assert asked(read(plan()), seeded()) == usual
    assert not [name for name, known in usual.items() if {"profile", "rows", "hole", "tabs"} & set(known)]
