"""POST /api/sync: the cases of server.md, "Sync" and "An entry"."""

import gzip
import json

import pytest
from yard import FROM_HERE, KINDS, uid


@pytest.fixture
def lena(shared):
    return shared.client("lena")


def test_kept_then_had_it_then_id_taken(lena):
    entry = lena.entry("reading", {"text": "88 5/8 in", "nm": 2251075000}, field="gap")
    assert lena.answer_to(entry)[0] == "kept"
    assert lena.answer_to(entry)[0] == "had_it"
    assert lena.answer_to({**entry, "value": {"text": "88", "nm": 88_000_000}})[:2] == ("refused", "id_taken")


def test_the_same_entry_twice_in_a_call(lena):
    entry = lena.entry()
    answers = [r["answer"] for r in lena.sync([entry, entry]).get_json()["results"]]
    assert answers == ["kept", "had_it"]


def test_keys_in_another_order_are_the_same_content(lena):
    entry = lena.entry()
    lena.kept(entry)
    assert lena.answer_to(dict(reversed(entry.items())))[0] == "had_it"


@pytest.mark.parametrize(("kind", "value"), [(k, v) for k, values in KINDS.items() for v in values])
def test_every_kind_that_an_installer_enters_is_kept(lena, kind, value):
    assert lena.answer_to(lena.entry(kind, value))[0] == "kept"


def test_names_that_are_not_here_are_taken(lena):
    entry = lena.entry(
        replaces=[uid(5)],
        step="not-a-step",
        field="not_a_field",
        round=uid(6),
        packet="b" * 64,
        sheet="c" * 64,
        offset_ms=-93_600_000,
    )
    assert lena.answer_to(entry)[0] == "kept"


ENVELOPE = [
    ("id", "NOT-A-UUID"),
    ("id", uid(1).upper()),
    ("id", None),
    ("id", 7),
    ("unit", "x"),
    ("v", 0),
    ("v", "1"),
    ("v", True),
    ("step", ""),
    ("step", 5),
    ("field", "x" * 101),
    ("round", "r"),
    ("kind", "wish"),
    ("kind", None),
    ("value", []),
    ("value", None),
    ("replaces", None),
    ("replaces", ["x"]),
    ("replaces", [uid(n) for n in range(51)]),
    ("packet", "abc"),
    ("sheet", "Z" * 64),
    ("person", ""),
    ("device", None),
    ("count", -1),
    ("count", 1.5),
    ("count", 10**30),
    ("at", "yesterday"),
    ("at", "2026-13-01T00:00:00.000Z"),
    ("at", "2026-11-25T10:42:07.120"),
    ("at", 5),
    ("offset_ms", "0"),
    ("offset_ms", 0.5),
]


@pytest.mark.parametrize(("name", "value"), ENVELOPE)
def test_an_envelope_that_does_not_fit_is_named(lena, name, value):
    answer, code, result = lena.answer_to({**lena.entry(), name: value})
    assert (answer, code) == ("refused", "bad_shape")
    assert any(path.startswith(f"entries.0.{name}") for path in result["why"]["problems"]), result
    assert result["why"]["retry"] == "never"


VALUES = [
    ("reading", {"text": "1"}, "nm"),
    ("reading", {"nm": 1}, "text"),
    ("reading", {"text": "1", "nm": 1.5}, "nm"),
    ("reading", {"text": "1", "nm": True}, "nm"),
    ("reading", {"text": "1", "nm": 10**15}, "nm"),
    ("reading", {"text": "1", "nm": 1, "reversed": 1}, "reversed"),
    ("reading", {"text": "1", "nm": 1, "over": -1}, "over"),
    ("reading", {"text": "1", "number": 1}, "ucum"),
    ("reading", {"text": "1", "number": "1", "ucum": "mm"}, "number"),
    ("reading", {"text": "1", "number": 0.1234567890123456, "ucum": "mm"}, "number"),
    ("reading", {"text": "1", "number": 1, "ucum": "mm", "nm": 1}, "number"),
    ("tick", {"ticked": "yes"}, "ticked"),
    ("tick", {"ticked": True, "why": "x"}, "why"),
    ("choice", {"chosen": ""}, "chosen"),
    ("note", {"text": ""}, "text"),
    ("note", {"text": "a\0b"}, "text"),
    ("note", {"text": "\ud800"}, "text"),
    ("photo", {"sha256": "A" * 64, "bytes": 1}, "sha256"),
    ("photo", {"sha256": "a" * 64, "bytes": 0}, "bytes"),
    ("move", {"sheet": "frame", "do": "x", "nm": None}, "nm"),
    ("round", {"sheet": "frame", "after": ["x"]}, "after.0"),
    ("told", {"sheet": "frame"}, "verdicts"),
    *(("told", {k: v for k, v in KINDS["told"][0].items() if k != name}, name) for name in KINDS["told"][0]),
    *(("told", {**KINDS["told"][0], name: None}, name) for name in ("from", "verdicts", "set_aside", "moves")),
    ("told", {**KINDS["told"][0], "moves": [{"do": "x"}]}, "moves.0"),
    ("told", {**KINDS["told"][0], "tools": {"hammer": 1}}, "tools"),
    ("retract", {"because": ""}, "because"),
    ("retract", {"because": " \n"}, "because"),
    ("retract", {}, "because"),
    ("ask", {"covers": [], "because": ""}, "because"),
    ("confirm", {"of": "x"}, "of"),
    ("signoff", {"covers": [uid(1)], "sha256": "0" * 64}, "sha256"),
    ("signoff", {"covers": [uid(n) for n in range(1601)], "sha256": "0" * 64}, "covers"),
    ("moved", {"to": None}, "to"),
]


@pytest.mark.parametrize(("kind", "value", "path"), VALUES)
def test_a_value_that_does_not_fit_is_named(lena, kind, value, path):
    answer, code, result = lena.answer_to(lena.entry(kind, value))
    assert (answer, code) == ("refused", "bad_shape")
    assert f"entries.0.value.{path}" in result["why"]["problems"], result


@pytest.mark.parametrize(
    "missing",
    [
        "id",
        "v",
        "unit",
        "step",
        "field",
        "round",
        "kind",
        "value",
        "replaces",
        "packet",
        "sheet",
        "person",
        "device",
        "count",
        "at",
        "offset_ms",
    ],
)
def test_what_is_missing_is_named(lena, missing):
    entry = lena.entry()
    del entry[missing]
    answer, code, result = lena.answer_to(entry)
    assert (answer, code) == ("refused", "bad_shape")
    assert f"entries.0.{missing}" in result["why"]["problems"]


def test_an_unknown_field_is_named(lena):
    assert "entries.0.colour" in lena.answer_to({**lena.entry(), "colour": "red"})[2]["why"]["problems"]


@pytest.mark.parametrize("odd", [None, 5, "x", [], [[]], True])
def test_an_entry_that_is_no_object_keeps_none_of_the_others_out(lena, odd):
    answer = lena.sync([lena.entry(), odd, lena.entry()]).get_json()["results"]
    assert [r["answer"] for r in answer] == ["kept", "refused", "kept"]
    assert answer[1]["id"] is None
    assert list(answer[1]["why"]["problems"]) == ["entries.1"]


def test_1600_ids_are_covered_and_fit_in_64_kib(lena):
    covers = [uid(n) for n in range(1600)]
    assert lena.answer_to(lena.signoff(covers))[0] == "kept"


def test_other_codes(lena, shared):
    assert lena.answer_to(lena.entry(person=shared.people["omar"]))[1] == "other_person"
    assert lena.answer_to(lena.entry(person=shared.people["omar"]))[2]["why"]["retry"] == "after_sign_in"
    assert lena.answer_to(lena.entry(unit="09"))[1] == "not_yours"
    assert lena.answer_to(lena.entry(unit=uid(77)))[1] == "not_yours"
    assert lena.answer_to(lena.entry("review", {"of": uid(1), "is": "accepted", "because": "fine"}))[1] == "not_allowed"
    assert lena.answer_to(lena.entry("issue", {"packet": "a" * 64, "others": {}, "because": "x"}))[1] == "not_allowed"
    newer = lena.answer_to({**lena.entry(), "v": 2, "colour": "red"})
    assert (newer[1], newer[2]["why"]["retry"]) == ("too_new", "later")
    assert lena.answer_to(lena.entry(value={"text": "x" * 4001}))[1] == "too_big"
    assert lena.answer_to(lena.entry(value={"text": "x" * 4000}))[0] == "kept"
    assert lena.answer_to(lena.entry("reading", {"text": "1 " * 2000, "nm": 1}))[0] == "kept"
    assert lena.answer_to(lena.entry("reading", {"text": "1" * 4001, "nm": 1}))[1] == "too_big"
    assert lena.answer_to(lena.entry(value={"a": ["x" * 3000] * 30}))[1] == "too_big"


def test_roles(shared):
    ruth, ada = shared.client("ruth"), shared.client("ada")
    assert ada.answer_to(ada.entry())[1] == "not_allowed"
    assert ruth.answer_to(ruth.entry("issue", {"packet": "a" * 64, "others": {}, "because": "x"}))[1] == "not_allowed"
    assert ruth.answer_to(ruth.entry(unit="09"))[0] == "kept"  # without a crew she sees every crew


def test_answers_stand_in_order_beside_each_other(lena):
    entries = [lena.entry(), lena.entry(value={}), lena.entry(unit="09"), lena.entry()]
    results = lena.sync(entries).get_json()["results"]
    assert [(r["index"], r["id"], r["answer"]) for r in results] == [
        (i, e["id"], a) for i, (e, a) in enumerate(zip(entries, ["kept", "refused", "refused", "kept"], strict=True))
    ]
    assert "entries.1.value.text" in results[1]["why"]["problems"]


@pytest.mark.parametrize(
    ("body", "path"),
    [
        ({}, "device"),
        ({"device": "x", "entries": [], "units": {}}, "device"),
        ({"entries": {}}, "entries"),
        ({"units": []}, "units"),
        ({"units": {"x": None}}, "units.x"),
        ({"units": {uid(1): 5}}, f"units.{uid(1)}"),
        ({"units": {uid(1): "no cursor"}}, f"units.{uid(1)}"),
        ({"more": 1}, "more"),
    ],
)
def test_a_body_that_does_not_fit(lena, body, path):
    whole = {"device": lena.device, "entries": [], "units": {}}
    answer = lena.post("/api/sync", {**whole, **body} if body else {})
    assert answer.status_code == 422
    problem = answer.get_json()
    assert problem["type"] == "urn:fieldapp:bad_shape"
    assert path in problem["problems"]


def _raw(client, raw, **headers):
    return client.send("POST", "/api/sync", data=raw, content_type="application/json", headers=headers)


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"{",
        b"[]",
        b"5",
        b"null",
        b'{"device": NaN}',
        b'{"device": Infinity}',
        b'{"device": 1, "device": 1}',
        b"\xff{}",
        b'{"a": {"b": 1, "b": 2}}',
        b'{"x":' + b"[" * 20 + b"]" * 20 + b"}",
        b"[" * 100_000,
        b"\xef\xbb\xbf{}",
        '{"device": "x"}'.encode("utf-16"),
    ],
)
def test_bad_json(lena, raw):
    answer = _raw(lena, raw)
    assert answer.status_code == 400
    assert answer.get_json()["type"] == "urn:fieldapp:bad_json"


def test_depth_20_is_read(lena):
    deep = json.loads("[" * 18 + "]" * 18)
    answer = lena.sync([deep])
    assert answer.get_json()["results"][0]["why"]["code"] == "bad_shape"


def test_a_huge_whole_number_stays_with_its_entry(lena):
    good = lena.entry()
    text = json.dumps({"device": lena.device, "entries": [{**lena.entry(), "count": 1}, good], "units": {}})
    raw = text.replace('"count": 1,', f'"count": {"9" * 5000},', 1).encode()
    assert [r["answer"] for r in _raw(lena, raw).get_json()["results"]] == ["refused", "kept"]
    raw = text.replace('"count": 1,', '"count": 1e999,', 1).encode()
    assert [r["answer"] for r in _raw(lena, raw).get_json()["results"]] == ["refused", "had_it"]


def test_over_500_entries_nothing_is_kept(lena):
    entries = [lena.entry() for _ in range(501)]
    answer = lena.sync(entries)
    assert answer.status_code == 413
    assert answer.get_json()["problems"] == {"entries": ["501 sent; at most 500"]}
    assert lena.answer_to(entries[0])[0] == "kept"


def test_too_many_bytes_nothing_is_kept(lena):
    entries = [lena.entry(value={"text": "x" * 3900}) for _ in range(300)]
    answer = lena.sync(entries)
    assert answer.status_code == 413
    assert answer.get_json()["type"] == "urn:fieldapp:too_big"
    body = json.dumps({"device": lena.device, "entries": entries, "units": {}}).encode()
    packed = _raw(lena, gzip.compress(body), **{"Content-Encoding": "gzip"})
    assert [r["answer"] for r in packed.get_json()["results"]] == ["kept"] * 300


def test_gzip(lena):
    bomb = gzip.compress(b" " * (9 << 20))
    assert _raw(lena, bomb, **{"Content-Encoding": "gzip"}).status_code == 413
    assert _raw(lena, b"no gzip", **{"Content-Encoding": "gzip"}).status_code == 400
    assert _raw(lena, gzip.compress(b"{}")[:-3], **{"Content-Encoding": "gzip"}).status_code == 400
    assert _raw(lena, b"{}", **{"Content-Encoding": "br"}).status_code == 415


def test_sync_needs_a_session_and_its_headers(yard):
    nobody = yard.client()
    assert nobody.sync([]).status_code == 401
    lena = yard.client("lena")
    assert lena.http.post("/api/sync", json={}).status_code == 403
    assert (
        lena.http.post("/api/sync", json={}, headers={**FROM_HERE, "Sec-Fetch-Site": "cross-site"}).status_code == 403
    )
