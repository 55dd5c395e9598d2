"""`layout` and `stance` by the registry: every problem of the contract by its path, lengths as typed, odd inputs."""

import json
from math import isfinite

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from fieldapp.work.registry import CALCULATORS

LAYOUT, STANCE = CALCULATORS["layout"], CALCULATORS["stance"]
SMOOTH = {key: value for key, value in LAYOUT.example.items() if key not in ("profile", "edges")} | {
    "wall": "smooth insulated"}


def paths(made, line):
    answer, problems = made.answer(line)
    assert (answer is None) == bool(problems)
    return set(problems)


@pytest.mark.parametrize(
    ("change", "found"),
    [
        ({"wall_from": 2000, "wall_to": 1999}, {"wall_to"}),
        ({"wall_from": -100, "wall_to": "30 m"}, {"wall_to"}),
        ({"between": [500, 400]}, {"between"}),
        ({"between": [500]}, {"between"}),
        ({"between": [500, "600 kg"]}, {"between.1"}),
        ({"keep_clear": [{"from": 0, "to": 60}, {"from": 9, "to": 8}]}, {"keep_clear.1.to"}),
        ({"keep_clear": [{"from": 0}]}, {"keep_clear.0.to"}),
        ({"keep_clear": [{"from": 0, "to": 1, "what": ""}]}, {"keep_clear.0.what"}),
        ({"keep_clear": [{"from": 0, "to": 1}] * 201}, {"keep_clear"}),
        ({"swing": {"hand": "left", "leaf": 750, "clear_from": 9, "clear_to": 8}}, {"swing.clear_to"}),
        ({"swing": {"hand": "up", "leaf": 0, "opens_to": 181}},
         {"swing.hand", "swing.leaf", "swing.opens_to", "swing.clear_from", "swing.clear_to"}),
        ({"flange": {"covers": 50, "needs_land": 110.1}}, {"flange.needs_land"}),
        ({"flange": {"covers": -1}}, {"flange.covers", "flange.needs_land"}),
        ({"edges": []}, {"edges"}),
        ({"edges": [{"at": 1, "edge": "outer_start"}] * 201}, {"edges"}),
        ({"edges": [{"at": 1, "edge": "inner_start", "u": 0, "z": "high"}]},
         {"edges.0.edge", "edges.0.u", "edges.0.z"}),
        ({"edges": [{"at": 1, "edge": "outer_start"}, {"edge": "outer_end"}]}, {"edges.1.at"}),
        ({"profile": {"outer": 110, "slope": 0, "inner": 104}}, {"profile.slope", "profile.depth"}),
        ({"profile": {"outer": 10, "slope": 1, "inner": 10, "depth": 5}, "flange": {"covers": 0, "needs_land": 5}},
         {"profile"}),
        ({"opening": {"width": 0, "height": -1}}, {"opening.width", "opening.height"}),
        ({"opening": {"width": "36 - 1/2"}}, {"opening.width"}),
        ({"wall": "brick"}, {"wall"}),
        ({"wall": "smooth insulated"}, {"profile", "edges"}),
        ({"wish": None, "show": "cm", "colour": 1}, {"wish", "show", "colour"}),
    ],
)
def test_problems_by_the_contract(change, found):
    assert paths(LAYOUT, LAYOUT.example | change) == found


def test_a_corrugated_wall_without_edges():
    line = {key: value for key, value in LAYOUT.example.items() if key != "edges"}
    assert paths(LAYOUT, line) == {"edges"}


def test_needed_fields_and_no_others():
    assert paths(LAYOUT, {}) == {"wall", "wall_from", "wall_to", "opening", "flange"}
    least = {"wall": "corrugated end", "edges": [{"at": 0, "edge": "outer_start"}], "wall_from": 0, "wall_to": 4000,
             "opening": {"width": 926}, "flange": {"covers": 50, "needs_land": 25}}
    assert paths(LAYOUT, least) == set()
    assert paths(LAYOUT, SMOOTH | {"keep_clear": []}) == set()
    assert paths(STANCE, {}) == {"corners", "near", "depth"}
    assert paths(STANCE, {key: STANCE.example[key] for key in ("corners", "near", "depth")}) == set()


@pytest.mark.parametrize(
    ("change", "found"),
    [
        ({"corners": {"near_left": 0, "near_right": True, "far_left": {"value": 2, "u": -1}}},
         {"corners.near_right", "corners.far_left.u", "corners.far_right"}),
        ({"near": 0, "depth": "1,234"}, {"near", "depth"}),
        ({"most": {"spread": 0, "warp": "6 kg", "tilt": 3}}, {"most.spread", "most.warp", "most.tilt"}),
        ({"most": None}, {"most"}),
    ],
)
def test_problems_of_stance(change, found):
    assert paths(STANCE, STANCE.example | change) == found


def test_lengths_as_typed():
    plain, _ = LAYOUT.answer(LAYOUT.example)
    typed = LAYOUT.example | {"opening": {"width": "78 cm", "height": "2 m"}, "between": ["400 mm", "1.9 m"],
                              "edges": [{"at": "1234", "edge": "outer_start"},
                                        {"at": "1344 mm", "edge": "outer_end", "u": "0.1 cm"},
                                        {"at": "1,986.0", "edge": "outer_start", "z": 2000}]}
    assert LAYOUT.answer(typed) == (plain, {})
    inches, _ = LAYOUT.answer(LAYOUT.example | {"opening": {"width": "30 1/2 in"}})
    assert inches["places"][0]["cut_right"] - inches["places"][0]["cut_left"] == pytest.approx(774.7)


LONG = st.one_of(st.integers(-100_000, 100_000), st.sampled_from(["36 1/2 in", "3'", 0, 0.01, 1e-3, "30 m", -0.0]))
SIZE = st.one_of(st.integers(1, 100_000).map(lambda tenths: tenths / 10), st.sampled_from([0.01, "1/64 in", "100 m"]))
SOME = {
    "profile": st.fixed_dictionaries(dict.fromkeys(("outer", "slope", "inner", "depth"), SIZE)),
    "between": st.lists(LONG, min_size=2, max_size=2).map(lambda two: sorted(two, key=str)),
    "keep_clear": st.lists(st.fixed_dictionaries({"from": LONG, "to": LONG}), max_size=3),
    "wish": LONG,
    "swing": st.fixed_dictionaries({"hand": st.sampled_from(["left", "right"]), "leaf": SIZE, "clear_from": LONG,
                                    "clear_to": LONG, "opens_to": st.floats(1, 180)}),
    "show": st.sampled_from(["mm", "in"]),
    "edges": st.lists(st.fixed_dictionaries({"at": LONG, "edge": st.sampled_from(["outer_start", "outer_end"])},
                                            optional={"u": SIZE, "z": LONG}), min_size=1, max_size=6),
}
NEEDED = {
    "wall": st.sampled_from(["corrugated side", "corrugated end", "smooth insulated"]),
    "wall_from": LONG, "wall_to": LONG,
    "opening": st.fixed_dictionaries({"width": SIZE}, optional={"height": SIZE}),
    "flange": st.fixed_dictionaries({"covers": SIZE, "needs_land": SIZE}),
}


@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.fixed_dictionaries(NEEDED, optional=SOME))
def test_odd_walls_are_answered_or_refused_and_never_fall(line):
    answer, problems = LAYOUT.answer(line)
    if answer is None:
        assert all(path.split(".")[0] in line or path == "edges" for path in problems)
        return
    Draft202012Validator(LAYOUT.answer_schema).validate(json.loads(json.dumps(answer, allow_nan=False)))
    assert answer["say"]
    for place in answer["places"]:
        assert all(isfinite(place[name]) for name in ("centre", "from", "to", "cut_left", "cut_right"))
        assert place["possible"] == (not place["because"])


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.fixed_dictionaries(
    {"corners": st.fixed_dictionaries(dict.fromkeys(("near_left", "near_right", "far_left", "far_right"), LONG)),
     "near": SIZE, "depth": SIZE},
    optional={"most": st.fixed_dictionaries({}, optional={"spread": SIZE, "warp": SIZE}),
              "show": st.sampled_from(["mm", "in"])}))
def test_odd_boxes_are_answered_or_refused_and_never_fall(line):
    answer, problems = STANCE.answer(line)
    assert (answer is None) == bool(problems)
    if answer is not None:
        Draft202012Validator(STANCE.answer_schema).validate(json.loads(json.dumps(answer, allow_nan=False)))
        assert answer["say"]
