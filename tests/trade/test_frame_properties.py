"""What holds for every input of the frame calculator (Hypothesis)."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st
from twins.make_estimate_linear import FRAMES, one_case

from fieldapp.trade.estimate import answer, judge, linear
from fieldapp.trade.frame import sheet
from fieldapp.trade.frame_input import read

SHEETS = [sheet(**frame) for frame in FRAMES]
CASES = st.tuples(st.integers(0, 10**6), st.integers(0, len(FRAMES) - 1))
TEXT = st.text(max_size=50)
JSON = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False, allow_infinity=False) | st.integers() | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4),
    max_leaves=12,
)
FIELDS = ("frame", "rounds", "show", "tolerance", "tilt", "tools", "room", "can_read", "fixed", "no_trim")


def same_but_for_positions(said):
    """The answer without positions, suspects by what they are."""
    return {
        **said,
        "suspects": sorted((one["of"], one["round"], one["off_by"], one["cause"]) for one in said["suspects"]),
    }


@settings(max_examples=40, deadline=None)
@given(CASES, st.randoms(use_true_random=False))
def test_the_order_of_readings_within_a_round_changes_nothing(case, shuffler):
    seed, at = case
    asked = one_case(random.Random(seed), FRAMES[at])
    other = {**asked, "rounds": [dict(one) for one in asked["rounds"]]}
    for one in other["rounds"]:
        for name in ("readings", "done"):
            if name in one:
                one[name] = shuffler.sample(one[name], len(one[name]))
    assert same_but_for_positions(answer(SHEETS[at], asked)) == same_but_for_positions(answer(SHEETS[at], other))


@settings(max_examples=40, deadline=None)
@given(CASES)
def test_positions_of_suspects_are_those_of_the_input(case):
    seed, at = case
    asked = one_case(random.Random(seed), FRAMES[at])
    for one in answer(SHEETS[at], asked)["suspects"]:
        assert asked["rounds"][one["round"]]["readings"][one["reading"]]["of"] == one["of"]


@settings(max_examples=60, deadline=None)
@given(CASES)
def test_answers_keep_their_promises(case):
    seed, at = case
    asked = one_case(random.Random(seed), FRAMES[at])
    said = answer(SHEETS[at], asked)
    step = 25.4 / 32 if asked.get("show") == "in" else 0.5
    for item in said["judged"] + said["after"]:
        assert 0 <= item["chance_inside"] <= 1
        assert item["u"] >= 0
    for item in said["corrections"]:
        assert item["by"] >= 0
        assert abs(item["by"] / step - round(item["by"] / step)) < 1e-9
        assert not set(item.get("trim", {})) & set(asked.get("no_trim", []))
        assert set(item.get("unfix", [])) <= set(asked.get("fixed", []))
        assert item["by"] > 0 or "trim" in item or "ask the supervisor" in item["say"]
    if said["next"] is not None and "can_read" in asked:
        assert said["next"]["of"] in asked["can_read"]
    assert not (said["leave_alone"] and said["corrections"])
    verdicts = judge(SHEETS[at], asked)
    for item in said["judged"]:
        assert verdicts[item["what"]] in (item["verdict"], "not known")


@settings(max_examples=30, deadline=None)
@given(CASES)
def test_a_further_reading_never_makes_an_estimate_less_sure(case):
    seed, at = case
    asked = one_case(random.Random(seed), FRAMES[at])
    before = linear.figures(SHEETS[at], asked)
    more = {**asked, "rounds": [*asked["rounds"][:-1], {**asked["rounds"][-1]}]}
    more["rounds"][-1]["readings"] = [*more["rounds"][-1]["readings"], {"of": "string_gap", "value": 0.3}]
    after = linear.figures(SHEETS[at], more)
    if not before["suspects"] and not after["suspects"]:
        for one, other in zip(before["judged"], after["judged"], strict=True):
            assert other[1] <= one[1] * (1 + 1e-9)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(st.sampled_from(FIELDS) | TEXT, JSON, max_size=6))
def test_whatever_comes_in_is_named_and_never_raises(asked):
    _, problems = read(asked)
    assert ("frame" in problems) or any(path.startswith("frame.") for path in problems) or "frame" in asked
    for path, sentences in problems.items():
        assert isinstance(path, str)
        assert all(isinstance(one, str) and one and len(one) < 1000 for one in sentences)
