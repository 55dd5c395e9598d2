"""What a plan hands to the calculators: it is taken as it stands, and the opening comes out as the plan has it."""

import pytest
from plan.conftest import plan, some_plans

from fieldapp.plan.asked import asked
from fieldapp.plan.choices import read
from fieldapp.plan.dimensions import opening_size
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
