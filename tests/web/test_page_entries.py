"""Entries made on a page: the same door as a phone's."""

import pytest
from flask import g

from fieldapp.record.entries import covers_hash
from fieldapp.store import entries, facts, people, sign_ins
from fieldapp.store.base import read
from fieldapp.web.page_entries import record


@pytest.fixture
def at_a_desk(yard):
    """As in a view, with ruth signed in."""
    with yard.app.test_request_context("/office/"):
        with read() as session:
            g.visitor = sign_ins.Visitor(people.by_name(session, "ruth"), None, False, "", False)
        yield yard


def test_kept_with_the_sites_device_and_counter(at_a_desk):
    unit = at_a_desk.units["07"]
    answers = [record(unit, "note", {"text": text}) for text in ("one", "two")]
    assert [answer["answer"] for answer in answers] == ["kept", "kept"]
    with read() as session:
        made = list(entries.wire(session, unit))[-2:]
        device = facts.site_device(session)
    assert [e["device"] for e in made] == [device, device]
    assert made[1]["count"] == made[0]["count"] + 1
    assert {e["person"] for e in made} == {at_a_desk.people["ruth"]}
    assert [e["offset_ms"] for e in made] == [0, 0]


def test_the_doors_rules_hold(at_a_desk):
    unit = at_a_desk.units["07"]
    own = record(unit, "signoff", {"covers": [], "sha256": covers_hash([])})
    refused = [
        record(unit, "review", {"of": own["id"], "is": "accepted", "because": "fine"}),
        record(unit, "ask", {"covers": [], "because": ""}),
        record(unit, "issue", {"packet": "a" * 64, "others": {}, "because": "x"}),
    ]
    assert [answer["why"]["code"] for answer in refused] == ["not_allowed", "bad_shape", "not_allowed"]
