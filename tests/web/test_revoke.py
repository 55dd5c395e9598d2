"""A revoked person or phone: shut out everywhere but sync, which keeps what it sends apart and gives nothing down."""

import pytest
from yard import uid

from fieldapp.site import revoke


@pytest.fixture
def lena(yard):
    return yard.client("lena", device=uid(41))


def shut(yard, **whom):
    assert revoke.run(yard.site, device=whom.get("device"), person=whom.get("person")) == 0


WAYS = [{"person": "lena"}, {"device": uid(41)}]


@pytest.mark.parametrize("whom", WAYS)
def test_401_everywhere_from_the_next_call_on(yard, lena, whom):
    unit = yard.units["07"]
    paths = [
        "/api/session",
        "/api/units",
        f"/api/units/{unit}",
        f"/api/units/{unit}/entries",
        f"/api/units/{unit}/packet",
        f"/api/packets/{yard.packets['07']}",
        "/api/photos/" + "a" * 64,
    ]
    assert lena.get("/api/units").status_code == 200
    shut(yard, **whom)
    for path in paths:
        answer = lena.get(path)
        assert (answer.status_code, answer.get_json()["type"]) == (401, "urn:fieldapp:sign_in"), path
    assert lena.send("PUT", "/api/photos/" + "a" * 64, data=b"x", content_type="image/jpeg").status_code == 401
    assert lena.get("/office/").headers["Location"] == "/sign-in"
    assert lena.get("/u/7K3MD9QX2P").status_code == 200
    assert "unit" in lena.get("/u/7K3MD9QX2P").get_data(as_text=True)
    answer = lena.post(
        "/api/session",
        {"name": "lena", "password": "four plain words here", "device": {"id": lena.device, "label": ""}},
    )
    assert answer.status_code == 401


@pytest.mark.parametrize("whom", WAYS)
def test_sync_takes_and_gives_nothing(yard, lena, whom):
    unit = yard.units["07"]
    shut(yard, **whom)
    entry = lena.entry("reading", {"text": "3", "nm": 3_000_000}, field="gap")
    answer = lena.sync([entry], {unit: None, yard.units["09"]: None}).get_json()
    assert answer["results"][0]["answer"] == "kept"
    assert (answer["units"], answer["assigned"], answer["gone"]) == ({}, [], {})
    assert lena.sync([entry]).get_json()["results"][0]["answer"] == "had_it"
    down = yard.client("omar").get(f"/api/units/{unit}/entries").get_json()["entries"]
    assert [(e["kind"], e["server"]["standing"]) for e in down] == [("issue", "kept"), ("reading", "quarantined")]


def test_a_quarantined_entry_counts_when_it_is_admitted(yard, lena):
    unit, ruth = yard.units["07"], yard.client("ruth")
    shut(yard, person="lena")
    entry = lena.entry("reading", {"text": "3", "nm": 3_000_000}, field="gap")
    lena.kept(entry)
    state = ruth.get(f"/api/units/{unit}").get_json()["state"]
    assert state["waiting"] == ["quarantined"]
    assert state["steps"][0]["values"] == {}
    ruth.kept(ruth.entry("review", {"of": entry["id"], "is": "admitted", "because": "seen on site"}, step=None))
    state = ruth.get(f"/api/units/{unit}").get_json()["state"]
    assert state["steps"][0]["values"] == {"gap": [entry["id"]]}
    assert state["waiting"] == []


def test_entries_of_a_revoked_phone_sent_from_another_are_kept_apart(yard, lena):
    """As when the unsent work of a lost phone is handed over by file."""
    shut(yard, device=uid(41))
    other = yard.client("lena", device=uid(42))
    old, new = other.entry(device=uid(41)), other.entry()
    other.kept(old, new)
    down = other.get(f"/api/units/{yard.units['07']}/entries").get_json()["entries"][1:]
    assert [e["server"]["standing"] for e in down] == ["quarantined", "kept"]


def test_a_session_from_a_desk_that_speaks_for_a_revoked_phone(yard, lena):
    shut(yard, device=uid(41))
    desk = yard.client("lena", device=uid(43))
    answer = desk.post("/api/sync", {"device": uid(41), "entries": [], "units": {yard.units["07"]: None}}).get_json()
    assert (answer["units"], answer["assigned"]) == ({}, [])


def test_a_phone_can_be_revoked_before_it_is_met(yard):
    shut(yard, device=uid(44))
    answer = yard.client().post(
        "/api/session", {"name": "lena", "password": "four plain words here", "device": {"id": uid(44), "label": ""}}
    )
    assert answer.status_code == 401


def test_nobody_of_that_name(yard, capsys):
    assert revoke.run(yard.site, device=None, person="nobody") == 1
    assert "nobody" in capsys.readouterr().err
