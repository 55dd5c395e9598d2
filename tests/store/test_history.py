"""Entries and states in the store: sequence is commit order, two writers at once, many phones, nothing doubled."""

import json
import threading

from yard import uid

from fieldapp.record import fold
from fieldapp.store import codes, entries, packets, people, states, units
from fieldapp.store.base import read, write


def wire(yard, number, unit="07", kind="note", value=None, **more):
    return {
        "id": uid(number),
        "v": 1,
        "unit": yard.units[unit],
        "step": None,
        "field": None,
        "round": None,
        "kind": kind,
        "value": value or {"text": "x"},
        "replaces": [],
        "packet": None,
        "sheet": None,
        "person": yard.people["lena"],
        "device": uid(1),
        "count": number,
        "at": "2026-11-25T10:42:07.120Z",
        "offset_ms": None,
        **more,
    }


def test_of_two_writers_the_one_that_commits_last_comes_last(yard):
    """The second writer begins while the first holds the unit; no sequence is given twice, none is left out."""
    unit, order = yard.units["07"], []
    begun = threading.Event()

    def second():
        with yard.app.app_context():
            begun.set()
            with write() as session:
                entries.lock(session, [unit])
                entries.keep(session, [wire(yard, 101)])
            order.append("second")

    with write() as session:
        entries.lock(session, [unit])
        entries.keep(session, [wire(yard, 100)])
        thread = threading.Thread(target=second)
        thread.start()
        begun.wait()
        order.append("first")
    thread.join()
    assert order == ["first", "second"]
    with read() as session:
        assert [(e["id"], e["server"]["seq"]) for e in entries.wire(session, unit, 1)] == [(uid(100), 2), (uid(101), 3)]


def test_many_writers_leave_no_gap(yard):
    unit, faults = yard.units["07"], []

    def work(which):
        try:
            with yard.app.app_context():
                for n in range(10):
                    with write() as session:
                        entries.lock(session, [unit, yard.units["08"]])
                        entries.keep(
                            session,
                            [wire(yard, 1000 + which * 100 + n * 2), wire(yard, 1001 + which * 100 + n * 2, "08")],
                        )
        except Exception as fault:
            faults.append(fault)

    threads = [threading.Thread(target=work, args=(which,)) for which in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    with read() as session:
        for number in ("07", "08"):
            found = list(entries.wire(session, yard.units[number]))
            assert [e["server"]["seq"] for e in found] == list(range(1, 62))
            assert units.get(session, yard.units[number]).last_seq == 61


def test_states_brought_up_by_many_at_once_are_one(yard):
    faults = []

    def work(which):
        try:
            with yard.app.app_context():
                for n in range(5):
                    with write() as session:
                        entries.lock(session, [yard.units["07"]])
                        entries.keep(session, [wire(yard, 2000 + which * 10 + n)])
                    states.bring_up([yard.units["07"]])
        except Exception as fault:
            faults.append(fault)

    threads = [threading.Thread(target=work, args=(which,)) for which in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    states.bring_up([yard.units["07"]])
    with read() as session:
        row = states.state_of(session, yard.units["07"])
        assert row.through_seq == 21
        plans = {yard.packets["07"]: json.loads(packets.body(session, yard.packets["07"]))}
        whole = fold.state(list(entries.wire(session, yard.units["07"])), plans, {})
        assert row.state == fold.canonical(whole).decode()


def test_quarantined_stands_on_the_entry(yard):
    with write() as session:
        entries.keep(session, [wire(yard, 1), wire(yard, 2)], quarantined=frozenset({uid(2)}), received=0)
    with read() as session:
        found = entries.known(session, [uid(1), uid(2), uid(3)])
        assert {id: k.standing for id, k in found.items()} == {uid(1): "kept", uid(2): "quarantined"}
        last = list(entries.wire(session, yard.units["07"]))[-1]
        assert last["server"] == {"seq": 3, "received": "1970-01-01T00:00:00.000Z", "standing": "quarantined"}


def test_codes_are_the_units_own(yard):
    with read() as session:
        for unit in units.all_visible(session, people.by_name(session, "ruth")):
            assert units.by_code(session, unit.code.lower().replace("0", "o")) is unit
            assert units.by_short(session, codes.shown(unit.short)) is unit
            assert codes.short_adds_up(unit.short)


def test_a_seed_gives_the_same_codes_and_another_when_taken(yard):
    with write() as session:
        old = units.get(session, yard.units["07"])
        one, two = (units.add_unit(session, old.job_id, old.crew_id, n, seed="the same") for n in ("20", "21"))
        assert one.code == codes.new_code("the same")
        assert (one.code == two.code, one.short == two.short) == (False, False)
