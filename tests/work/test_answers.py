"""Every calculator: its example runs, answers fit their own --schema, numbers are finite and never -0."""

import json
from math import copysign, isfinite

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from fieldapp.work.registry import CALCULATORS

NAMES = sorted(CALCULATORS)
DUE = {"stance", "layout", "frame", "opening", "panel", "rivet", "seal", "sealant", "dewpoint", "wheel", "container"}


def numbers(value):
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        return [number for inner in value for number in numbers(inner)]
    return [value] if isinstance(value, (int, float)) and not isinstance(value, bool) else []


def sound(name, line):
    """The answer or the problems of a line, checked for what holds of all of them."""
    made = CALCULATORS[name]
    answer, problems = made.answer(line)
    assert (answer is None) == bool(problems)
    if answer is None:
        assert all(isinstance(path, str) for path in problems)
        assert all(sentence.strip() for sentences in problems.values() for sentence in sentences)
        return None, problems
    Draft202012Validator(made.answer_schema).validate(json.loads(json.dumps(answer, allow_nan=False)))
    assert all(isfinite(number) for number in numbers(answer))
    assert not any(number == 0 and copysign(1, number) < 0 for number in numbers(answer))
    return answer, {}


def test_what_is_due_is_there():
    assert set(NAMES) >= DUE


@pytest.mark.parametrize("name", NAMES)
def test_the_example_runs_and_fits_both_schemas(name):
    made = CALCULATORS[name]
    for schema in (made.input_schema, made.answer_schema):
        Draft202012Validator.check_schema(schema)
    Draft202012Validator(made.input_schema).validate(made.example)
    answer, problems = sound(name, made.example)
    assert problems == {}
    assert answer


@pytest.mark.parametrize("name", NAMES)
def test_words_for_the_reference_page(name):
    made = CALCULATORS[name]
    assert made.say
    assert made.sources
    assert made.formulas
    assert made.limits


def wordless(value):
    """An answer without its sentences, at any depth."""
    if isinstance(value, dict):
        return {key: wordless(inner) for key, inner in value.items() if key not in ("say", "because")}
    return [wordless(inner) for inner in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", NAMES)
def test_showing_inches_changes_sentences_only(name):
    made = CALCULATORS[name]
    plain, _ = made.answer(made.example)
    inches, problems = made.answer(made.example | {"show": "in"})
    assert problems == {}
    if name != "frame":  # there the amounts of moves are multiples of 1/32 in
        assert wordless(plain) == wordless(inches)
    assert not any(" mm" in sentence.replace("\u00a0", " ") for sentence in inches.get("say", []))


LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**30), 10**30),
    st.floats(allow_nan=False),
    st.text(max_size=50),
    st.sampled_from(["914", "36 1/2", "1,234", "3' 6\"", "none", "CSQU3054383", "mm", "in", "2027-09"]),
)
ANYTHING = st.recursive(
    LEAVES,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.text(max_size=12), inner, max_size=4)),
    max_leaves=12,
)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(line=st.dictionaries(st.text(max_size=12), ANYTHING, max_size=5))
def test_no_object_whatever_makes_it_fall(name, line):
    sound(name, line)


def places(value, path=()):
    """The path of every value inside a JSON value."""
    found = [path] if path else []
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return found + [deeper for key, one in inner for deeper in places(one, (*path, key))]


def put(value, path, new):
    """A copy with what stands at `path` replaced."""
    copy = json.loads(json.dumps(value))
    holder = copy
    for key in path[:-1]:
        holder = holder[key]
    holder[path[-1]] = new
    return copy


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_one_field_of_the_example_replaced_by_anything(name, data):
    example = CALCULATORS[name].example
    path = data.draw(st.sampled_from(places(example)))
    sound(name, put(example, path, data.draw(ANYTHING)))


@pytest.mark.parametrize("name", NAMES)
def test_every_field_refuses_truth_values_null_and_nonsense_by_its_own_path(name):
    example = CALCULATORS[name].example
    for path in places(example):
        now = example
        for key in path:
            now = now[key]
        for bad in (
            ([None] if path[-1] != "marked_rpm" else []) + ([True] if not isinstance(now, bool) else [1]) + [{"x": []}]
        ):
            _, problems = sound(name, put(example, path, bad))
            dotted = ".".join(map(str, path))
            assert any(where == dotted or where.startswith(dotted + ".") for where in problems), (path, bad, problems)


@pytest.mark.parametrize("name", NAMES)
def test_an_unknown_field_is_named_wherever_it_stands(name):
    example = CALCULATORS[name].example
    for path in [(), *places(example)]:
        now = example
        for key in path:
            now = now[key]
        if isinstance(now, dict) and "what" not in now:
            changed = put(example, (*path, "surplus"), 1)
            _, problems = sound(name, changed)
            assert ".".join(map(str, (*path, "surplus"))) in problems, path


@pytest.mark.parametrize("name", NAMES)
def test_a_missing_required_field_is_named(name):
    made = CALCULATORS[name]
    _, problems = sound(name, {})
    assert sorted(problems) == sorted(made.input_schema["required"])
    assert all("missing" in sentence for sentences in problems.values() for sentence in sentences)
