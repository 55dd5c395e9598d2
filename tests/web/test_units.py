"""Units, packets, entries down; pages of lists; the fold's result byte for byte; a fault in the fold."""

import json

import pytest
from yard import uid

from fieldapp.record import fold
from fieldapp.store import ids, packets, states, units
from fieldapp.store.base import read, write


def test_a_person_sees_the_units_of_her_crew(shared):
    for name, numbers in (
        ("lena", {"07", "08"}),
        ("pia", {"09"}),
        ("ruth", {"07", "08", "09"}),
        ("ada", {"07", "08", "09"}),
    ):
        answer = shared.client(name).get("/api/units").get_json()
        assert {unit["number"] for unit in answer["units"]} == numbers
        assert answer["next"] is None


def test_a_unit_as_lists_show_it(shared):
    [unit] = shared.client("pia").get("/api/units").get_json()["units"]
    assert set(unit) == {"id", "number", "code", "short", "job", "crew", "packet", "stage", "waiting"}
    assert unit["job"]["name"] == "Quay 3"
    assert unit["crew"]["name"] == "south"
    assert unit["packet"] == shared.packets["09"]
    assert (len(unit["code"]), len(unit["short"])) == (10, 5)
    assert (unit["stage"], unit["waiting"]) == ("set-and-fix", [])


def test_lists_by_pages(shared):
    ruth, seen, after = shared.client("ruth"), [], None
    for _ in range(3):
        answer = ruth.get("/api/units", query_string=None) if after is None else None
        answer = ruth.get(f"/api/units?limit=1{f'&after={after}' if after else ''}").get_json()
        seen += [unit["number"] for unit in answer["units"]]
        after = answer["next"]
    assert sorted(seen) == ["07", "08", "09"]
    assert after is None


@pytest.mark.parametrize(
    ("query", "path"),
    [
        ("limit=0", "limit"),
        ("limit=501", "limit"),
        ("limit=-1", "limit"),
        ("limit=x", "limit"),
        ("limit=", "limit"),
        ("limit=٣", "limit"),
        ("limit=1e2", "limit"),
        ("limit=" + "9" * 5000, "limit"),
        ("after=x", "after"),
        ("after=", "after"),
        ("after=%00", "after"),
        ("colour=red", "colour"),
        ("limit=1&limit=2", "limit"),
    ],
)
@pytest.mark.parametrize("rule", ["/api/units", "/api/units/{}/entries"])
def test_queries_that_do_not_fit(shared, query, path, rule):
    answer = shared.client("lena").get(f"{rule.format(shared.units['07'])}?{query}")
    assert (answer.status_code, list(answer.get_json()["problems"])) == (422, [path])


def test_entries_by_pages_in_order_of_arrival(yard):
    lena, unit = yard.client("lena"), yard.units["07"]
    sent = lena.kept(*[lena.entry() for _ in range(7)])
    seen, after = [], ""
    while after is not None:
        answer = yard.client("omar").get(f"/api/units/{unit}/entries?limit=3{after and f'&after={after}'}").get_json()
        seen += [e["id"] for e in answer["entries"]]
        after = answer["next"]
    assert seen[1:] == sent
    whole = lena.get(f"/api/units/{unit}/entries").get_json()
    assert [e["server"]["seq"] for e in whole["entries"]] == list(range(1, 9))
    assert whole["next"] is None


def test_an_entry_comes_down_as_it_went_up(yard):
    lena, unit = yard.client("lena"), yard.units["07"]
    entry = lena.entry(value={"text": '88 ½ “in” 🌧 \u2028 \\ " \x07'}, offset_ms=-93_600_000)
    lena.kept(entry)
    [down] = lena.get(f"/api/units/{unit}/entries").get_json()["entries"][1:]
    server = down.pop("server")
    assert down == entry
    assert set(server) == {"seq", "received", "standing"}


def test_state_is_the_folds_result_byte_for_byte(yard):
    """The same set of entries by two ways: other batches, other order of arrival, repeats."""
    lena, unit = yard.client("lena"), yard.units["07"]
    entries = [lena.entry("reading", {"text": f"{n}", "nm": n * 1_000_000}, field="gap") for n in range(1, 4)]
    entries.append(lena.entry("tick", {"ticked": True}, step="stop", field="stays"))
    for entry in reversed(entries):
        lena.kept(entry)
        lena.sync(entries[-1:])
    raw = lena.get(f"/api/units/{unit}").get_data()
    body = json.loads(raw)
    packet = json.loads(lena.get(f"/api/units/{unit}/packet").get_data())
    listed = lena.get(f"/api/units/{unit}/entries").get_json()["entries"]
    expected = fold.canonical(fold.state(listed, {yard.packets["07"]: packet}, {}))
    assert b'"state":' + expected + b"}" in raw
    assert body["state"]["is"] == "working"
    assert {**body, "state": None}.keys() == {
        "id",
        "number",
        "code",
        "short",
        "job",
        "crew",
        "packet",
        "stage",
        "waiting",
        "state",
    }


def test_the_state_row_is_brought_up_by_the_new_entries_alone(yard, monkeypatch):
    lena, unit = yard.client("lena"), yard.units["07"]
    lena.kept(*[lena.entry() for _ in range(5)])
    lena.get("/api/units")
    given = []
    plain = fold.gather
    monkeypatch.setattr(fold, "gather", lambda held, news: plain(held, [given.append(e["id"]) or e for e in news]))
    new = lena.kept(lena.entry(), lena.entry())
    lena.get("/api/units")
    lena.get("/api/units")
    lena.get(f"/api/units/{unit}")
    assert given == new


def test_another_version_of_the_fold_folds_anew(yard, monkeypatch):
    lena, unit = yard.client("lena"), yard.units["07"]
    lena.kept(lena.entry())
    lena.get(f"/api/units/{unit}")
    monkeypatch.setattr(fold, "FOLD", fold.FOLD + 1)
    given = []
    plain = fold.gather
    monkeypatch.setattr(fold, "gather", lambda held, news: given.append(held) or plain(held, news))
    lena.get(f"/api/units/{unit}")
    assert given == [None]


def test_a_fault_in_the_fold_costs_no_entry(yard, monkeypatch, caplog):
    lena, unit = yard.client("lena"), yard.units["07"]
    lena.kept(lena.entry())

    def broken(*_args, **_more):
        raise RuntimeError("the fold fell over")

    monkeypatch.setattr(fold, "result", broken)
    sent = lena.kept(lena.entry())
    answer = lena.get(f"/api/units/{unit}")
    assert (answer.status_code, answer.get_json()["state"]) == (200, None)
    assert "could not be worked out" in answer.get_json()["fault"]
    assert lena.get("/api/units").status_code == 200
    assert "the fold fell over" in caplog.text
    assert lena.get(f"/api/units/{unit}/entries").get_json()["entries"][-1]["id"] == sent[0]
    monkeypatch.undo()
    lena.kept(lena.entry())
    body = lena.get(f"/api/units/{unit}").get_json()
    assert body["state"]["is"] == "working"
    assert "fault" not in body


def test_what_one_does_not_see_is_not_there(shared):
    pia, unit = shared.client("pia"), shared.units["07"]
    for path in ("", "/entries", "/packet"):
        assert pia.get(f"/api/units/{unit}{path}").status_code == 404
    assert pia.get(f"/api/packets/{shared.packets['07']}").status_code == 404
    assert pia.get(f"/api/packets/{shared.packets['09']}").status_code == 200


def test_the_packet_by_its_hash(shared):
    lena, hash = shared.client("lena"), shared.packets["07"]
    for path in (
        f"/api/units/{shared.units['07']}/packet",
        f"/api/packets/{hash}",
        f"/api/units/{shared.units['07']}/packet?lang=es",
    ):
        answer = lena.get(path)
        assert answer.headers["ETag"] == f'"{hash}"'
        assert ids.sha256(answer.get_data()) == hash
        assert answer.content_type == "application/json"
        again = lena.get(path, **{"If-None-Match": f'"{hash}"'})
        assert (again.status_code, again.get_data()) == (304, b"")
        assert lena.get(path, **{"If-None-Match": '"other"'}).status_code == 200
    packed = lena.get(f"/api/packets/{hash}", **{"Accept-Encoding": "gzip"})
    assert packed.headers["ETag"] == f'"{hash}"'


def test_a_new_plan_stands_and_the_old_one_stays(yard):
    lena, unit, before = yard.client("lena"), yard.units["07"], yard.packets["07"]
    with yard.app.app_context(), write() as session:
        found = units.get(session, unit)
        body = packets.body(session, before).replace(b"Hinge jamb first", b"Hinge jamb, first of all")
        part = b'{"a": "part"}'
        packets.issue(session, found, ids.sha256(body), body, {ids.sha256(part): part}, "clearer words")
    after = ids.sha256(body)
    answer = lena.sync([], {unit: None}).get_json()
    assert answer["units"][unit]["packet"] == after
    issues = [e for e in answer["units"][unit]["entries"] if e["kind"] == "issue"]
    assert issues[1]["replaces"] == [issues[0]["id"]]
    assert lena.get(f"/api/units/{unit}").get_json()["state"]["packet"] == after
    assert lena.get(f"/api/packets/{before}").status_code == 200
    assert lena.get(f"/api/packets/{ids.sha256(part)}").get_data() == part
    assert yard.client("pia").get(f"/api/packets/{ids.sha256(part)}").status_code == 404


def test_a_unit_without_a_plan(yard):
    with yard.app.app_context(), write() as session:
        old = units.get(session, yard.units["07"])
        bare = units.add_unit(session, old.job_id, old.crew_id, "10").id
    lena = yard.client("lena")
    assert lena.get(f"/api/units/{bare}/packet").status_code == 404
    assert lena.get(f"/api/units/{bare}").get_json()["state"]["is"] == "planned"
    assert lena.sync([], {bare: None}).get_json()["units"][bare]["packet"] is None


def test_ids_of_nowhere(shared):
    assert shared.client("ruth").get(f"/api/units/{uid(1)}").status_code == 404


def test_states_of_many_units_at_once(yard):
    with yard.app.app_context():
        states.bring_up(yard.units.values())
        with read() as session:
            assert set(units.states(session, yard.units.values())) == set(yard.units.values())
