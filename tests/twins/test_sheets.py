"""Both engines of band, rule and digit sheets over one case file: the same words, figures to 1e-9."""

import json

import pytest
from twins.make_sheets import FILE, written

from fieldapp.trade.estimate import answer, judge

DATA = json.loads(FILE.read_text(encoding="ascii"))
CASES = [(DATA["sheets"][case["sheet"]], case) for case in DATA["cases"]]
MODULES = {
    "band": "phone/estimate_band.js",
    "rule": "phone/estimate_rules.js",
    "digit": "phone/estimate_digits.js",
}
SAME = 1e-9


def differences(one, other, path=""):
    """Where two JSON values differ: other words, or figures further apart than 1e-9, absolute and relative."""
    if isinstance(one, dict) and isinstance(other, dict):
        keys = sorted(set(one) | set(other))
        return [
            d for key in keys for d in differences(one.get(key, "—"), other.get(key, "—"), f"{path}.{key}")
        ]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [
            d
            for i, pair in enumerate(zip(one, other, strict=True))
            for d in differences(*pair, f"{path}.{i}")
        ]
    numbers = all(isinstance(x, (int, float)) and not isinstance(x, bool) for x in (one, other))
    same = abs(one - other) <= SAME * max(1, abs(one)) if numbers else one == other
    return [] if same else [f"{path}: {one!r} is not {other!r}"]


def test_the_case_file_is_what_its_generator_makes():
    assert not differences(json.loads(written()), DATA)


@pytest.mark.parametrize("kind", MODULES)
def test_the_cases_reach_every_verdict(kind):
    words = {word for sheet, case in CASES if sheet["kind"] == kind for word in case["judge"].values()}
    wanted = {
        "band": {"inside", "outside", "too close to call", "not known", None},
        "rule": {"inside", "outside", "too close to call", None},
        "digit": {"inside", "outside", "not known", None},
    }
    assert words == wanted[kind]


def test_python_answers_every_case():
    for sheet, case in CASES:
        assert not differences(judge(sheet, case["given"]), case["judge"])
        assert not differences(answer(sheet, case["given"]), case["answer"])


@pytest.mark.parametrize("kind", MODULES)
@pytest.mark.parametrize("name", ["judge", "answer"])
def test_the_phone_answers_every_case(module_page, kind, name):
    cases = [(sheet, case) for sheet, case in CASES if sheet["kind"] == kind]
    found = module_page.call(MODULES[kind], name, [[sheet, case["given"]] for sheet, case in cases])
    assert len(found) == len(cases) > 0
    for got, (sheet, case) in zip(found, cases, strict=True):
        assert not differences(got, case[name]), (sheet["name"], case["given"])
