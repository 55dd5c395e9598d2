"""Bodies nobody would send: whatever comes, the answer is one of the contract's, never a 500."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from yard import KINDS

from fieldapp.web import entry_schemas

LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.integers(-(10**400), 10**400),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(),
    st.text(st.characters(codec=None, categories=["Cs", "Cc", "Lu", "So"]), max_size=6),
    st.sampled_from(
        ["", "0" * 64, "0199c0de-7a11-7000-8000-000000000001", "reading", "release", "review", "moved", "issue"]
    ),
)
JSON = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)
SLOW = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture(scope="module")
def lena(shared):
    return shared.client("lena")


@pytest.fixture(scope="module")
def ruth(shared):
    return shared.client("ruth")


def check(answer):
    assert answer.status_code in (200, 400, 413, 422), answer.get_data(as_text=True)
    body = answer.get_json()
    if answer.status_code == 200:
        for index, result in enumerate(body["results"]):
            assert result["index"] == index
            assert result["answer"] in ("kept", "had_it", "refused")
            assert ("why" in result) == (result["answer"] == "refused")
            if result.get("why", {}).get("code") == "bad_shape":
                assert result["why"]["problems"]
                assert all(path.startswith(f"entries.{index}") for path in result["why"]["problems"])
    else:
        assert body["type"].startswith("urn:fieldapp:")
    return body


@SLOW
@given(body=JSON)
def test_any_json_as_body(lena, body):
    check(lena.send("POST", "/api/sync", data=json.dumps(body), content_type="application/json"))


@SLOW
@given(raw=st.binary(max_size=200))
def test_any_bytes_as_body(lena, raw):
    check(lena.send("POST", "/api/sync", data=raw, content_type="application/json"))


@SLOW
@given(entries=st.lists(JSON, max_size=3))
def test_any_json_as_entries(lena, entries):
    good = lena.entry()
    body = check(lena.sync([*entries, good]))
    assert body["results"][-1]["answer"] == "kept"


@st.composite
def bent(draw):
    """(kind, value, where, name, something else): an entry that fits, with one thing replaced, added or taken away."""
    kind = draw(st.sampled_from([*KINDS, "release", "review"]))
    value = draw(st.sampled_from(KINDS.get(kind, [{"of": "0" * 8, "is": "accepted", "because": "x"}])))
    where = draw(st.sampled_from(["envelope", "value"]))
    names = list(entry_schemas.ENTRY.fields) if where == "envelope" else list(value)
    return kind, value, where, draw(st.sampled_from([*names, "other"])), draw(st.one_of(JSON, st.just(...)))


@SLOW
@given(case=bent())
def test_any_bend_in_an_entry_that_fits(lena, ruth, case):
    kind, value, where, name, other = case
    for client in (lena, ruth):
        entry = client.entry(kind, dict(value))
        target = entry if where == "envelope" else entry["value"]
        if other is ...:
            target.pop(name, None)
        else:
            target[name] = other
        check(
            client.send(
                "POST",
                "/api/sync",
                content_type="application/json",
                data=json.dumps({"device": client.device, "entries": [entry, client.entry()], "units": {}}),
            )
        )


@settings(max_examples=300, deadline=None)
@given(value=JSON, kind=st.sampled_from(sorted(entry_schemas.VALUES)))
def test_the_fast_check_and_the_slow_one_agree_on_values(value, kind):
    if type(value) is dict:
        schema = entry_schemas.value_schema(kind, value)
        assert entry_schemas._FAST[id(schema)](value) == (not schema.validate(value))


@settings(max_examples=300, deadline=None)
@given(name=st.sampled_from(sorted(entry_schemas.ENTRY.fields)), other=LEAVES)
def test_the_fast_check_and_the_slow_one_agree_on_entries(name, other):
    good = {
        "id": "0199c0de-7a11-7000-8000-000000000001",
        "v": 1,
        "unit": "0199c0de-7a11-7000-8000-000000000001",
        "step": None,
        "field": None,
        "round": None,
        "kind": "note",
        "value": {"text": "x"},
        "replaces": [],
        "packet": None,
        "sheet": None,
        "person": "0199c0de-7a11-7000-8000-000000000001",
        "device": "0199c0de-7a11-7000-8000-000000000001",
        "count": 1,
        "at": "2026-11-25T10:42:07.120Z",
        "offset_ms": None,
    }
    assert entry_schemas.entry_fits(good)
    entry = {**good, name: other}
    assert entry_schemas.entry_fits(entry) == (not entry_schemas.ENTRY.validate(entry))


@SLOW
@given(query=st.text(max_size=30), id=st.text(max_size=40))
def test_any_address(lena, query, id):
    from urllib.parse import quote

    for path in (
        f"/api/units?after={quote(query, errors='replace')}&limit={quote(query, errors='replace')}",
        f"/api/units/{quote(id, safe='', errors='replace')}",
        f"/api/packets/{quote(id, safe='', errors='replace')}",
    ):
        assert lena.get(path).status_code in (200, 404, 422)
