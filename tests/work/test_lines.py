"""Strict lines: what is refused as `line`, what is taken, and that nothing else is ever raised."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.work.lines import MOST_BYTES, LineError, parse


def nested(depth):
    return b'{"a":' + b"[" * (depth - 1) + b"]" * (depth - 1) + b"}"


@pytest.mark.parametrize(
    ("raw", "word"),
    [
        (b"", "nothing is not JSON"),
        (b"{", "not JSON"),
        (b'{"a":1}x', "not JSON"),
        (b"{'a':1}", "not JSON"),
        (b'{"a":01}', "not JSON"),
        (b'{"a":1,}', "not JSON"),
        (b'{"a":"\n"}', "not JSON"),
        (b"[1]", "no object"),
        (b'"a"', "no object"),
        (b"3", "no object"),
        (b"null", "no object"),
        (b'{"a":1,"a":1}', "twice"),
        (b'{"b":{"a":1,"a":2}}', "twice"),
        (b'{"a":NaN}', "NaN"),
        (b'{"a":-Infinity}', "-Infinity"),
        (b'{"a":[Infinity]}', "Infinity"),
        (b'{"a":"\\ud800"}', "half a surrogate pair"),
        (b'{"\\udfff":1}', "half a surrogate pair"),
        (b'{"a":"\xff"}', "UTF-8"),
        (nested(21), "deeper than 20"),
        (b'{"a":"' + b"x" * MOST_BYTES + b'"}', f"at most {MOST_BYTES}"),
    ],
)
def test_what_cannot_be_read(raw, word):
    with pytest.raises(LineError) as caught:
        parse(raw)
    assert word in str(caught.value)
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize(
    ("raw", "value"),
    [
        (b" {} ", {}),
        (b'{"a":"\\ud83d\\ude00"}', {"a": "\U0001f600"}),
        (b'{"a":"}{][\\"["}', {"a": '}{]["['}),
        (b'{"a":-0}', {"a": 0}),
        (b'{"a":1e999}', {"a": float("inf")}),
        (b'{"a":' + b"9" * 5000 + b"}", {"a": float("inf")}),
    ],
)
def test_what_can(raw, value):
    assert parse(raw) == value


def test_twenty_deep_and_a_mebibyte_are_taken():
    assert parse(nested(20))
    filled = b'{"a":"' + b"x" * (MOST_BYTES - 8) + b'"}'
    assert len(filled) == MOST_BYTES
    assert len(parse(filled)["a"]) == MOST_BYTES - 8


@pytest.mark.parametrize("raw", [b'{"a":"' + b'\\"' * 400_000, b"[" * 800_000, b'"' * 800_000])
def test_hostile_lines_are_refused_in_one_pass(raw):
    # read with a look-back at every quotation mark these would take hours
    with pytest.raises(LineError):
        parse(raw)


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.binary(max_size=60), st.text(alphabet='{}[]",:\\u0dabNaInfity 1e-', max_size=40).map(str.encode)))
def test_nothing_else_is_raised(raw):
    try:
        found = parse(raw)
    except LineError:
        return
    assert found == json.loads(raw)
