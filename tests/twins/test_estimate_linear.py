"""Both linear engines over one case file, and over fresh cases: the same words, figures to 1e-9.

FIELDAPP_TWIN_CASES=5000 compares five thousand fresh cases; the seed is printed, so a difference can be seen again.
"""

import json
import os
import random

import pytest
from twins.make_estimate_linear import FILE, FRAMES, cases, written

from fieldapp.trade.estimate import linear
from fieldapp.trade.frame import sheet

DATA = json.loads(FILE.read_text(encoding="ascii"))
SHEETS = [sheet(**frame) for frame in FRAMES]
FRESH = int(os.environ.get("FIELDAPP_TWIN_CASES", "150"))
MODULE = "phone/estimate.js"
SAME = 1e-9


def differences(one, other, path=""):
    """Where two JSON values differ: other words, or figures further apart than 1e-9 mm and 1e-9 of their size."""
    if isinstance(one, dict) and isinstance(other, dict):
        keys = sorted(set(one) | set(other))
        return [d for key in keys for d in differences(one.get(key, "—"), other.get(key, "—"), f"{path}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [d for i, pair in enumerate(zip(one, other, strict=True)) for d in differences(*pair, f"{path}.{i}")]
    numbers = all(isinstance(x, (int, float)) and not isinstance(x, bool) for x in (one, other))
    same = abs(one - other) <= SAME * max(1, abs(one)) if numbers else one == other
    return [] if same else [f"{path}: {one!r} is not {other!r}"]


def on_the_phone(module_page, name, pairs, module="phone/estimate_linear.js"):
    """What the browser makes of [(frame, given)], in batches: each carries its sheet."""
    made = []
    for at in range(0, len(pairs), 100):
        made += module_page.call(module, name, [[SHEETS[frame], given] for frame, given in pairs[at : at + 100]])
    return made


def test_the_case_file_is_what_its_generator_makes():
    assert not differences(json.loads(written()), DATA)


def test_the_cases_reach_every_correction_verdict_cause_and_what_is_said_of_room():
    answers = [linear.answer(SHEETS[one["frame"]], one["given"]) for one in DATA["cases"]]
    words = {word for one in DATA["cases"] for word in one["judge"].values()}
    assert words == {"inside", "outside", "too close to call", "not known"}
    made = [one for said in answers for one in said["corrections"]]
    usual = {one["do"] for one in SHEETS[0]["corrections"]}
    assert {one["do"] for one in made} >= usual - {"lower_bl", "lower_br"}
    assert any(one["by"] == 0 for one in made)
    assert any("trim" in one for one in made)
    assert any("unfix" in one for one in made)
    assert any(said["built"] for said in answers)
    assert any(said["leave_alone"] for said in answers)
    assert any(said["next"] is None for said in answers)
    causes = {cause for one in DATA["cases"] for cause in one["causes"]}
    assert causes >= {"one_inch", "hundred_mm", "wrong_sign", "unknown"}


def test_the_phone_gives_the_file_s_figures(module_page):
    pairs = [(one["frame"], one["given"]) for one in DATA["cases"]]
    for name in ("figures", "judge"):
        for one, seen in zip(DATA["cases"], on_the_phone(module_page, name, pairs), strict=True):
            assert not differences(one[name], seen), one["given"]


@pytest.mark.parametrize("show", ["mm", "in"])
def test_the_phone_says_the_same_sentences(module_page, show):
    pairs = [(one["frame"], one["given"] | {"show": show}) for one in DATA["cases"][:80]]
    for (frame, given), seen in zip(pairs, on_the_phone(module_page, "answer", pairs, MODULE), strict=True):
        assert not differences(linear.answer(SHEETS[frame], given), seen), given


def test_fresh_cases_agree(module_page):
    seed = random.SystemRandom().randrange(10**6)
    print("seed", seed, "cases", FRESH)
    pairs = cases(seed, FRESH)
    for (frame, given), seen in zip(pairs, on_the_phone(module_page, "figures", pairs), strict=True):
        assert not differences(linear.figures(SHEETS[frame], given), seen), (seed, given)


def test_readings_that_all_contradict_each_other_agree(module_page):
    r = random.Random(77)
    kinds = ("diagonal_bl_tr", "diagonal_tl_br", "width_head")
    moves = [{"do": r.choice(SHEETS[0]["corrections"])["do"], "by": r.uniform(0.1, 200)} for _ in range(200)]
    rounds = [
        {"readings": [{"of": r.choice(kinds), "value": r.uniform(1, 10000)} for _ in range(30)], "done": moves}
        for _ in range(4)
    ]
    (seen,) = on_the_phone(module_page, "figures", [(0, {"rounds": rounds})])
    said = linear.figures(SHEETS[0], {"rounds": rounds})
    assert len(said["suspects"]) > 100
    assert not differences(said, seen)
