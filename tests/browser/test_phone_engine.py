"""The phone's engine in a real browser against a real demo server: nothing is lost, nothing is sent twice."""

import random

import pytest
from phones import MAKE


@pytest.fixture(scope="module")
def lena(new_phone):
    return new_phone().start("lena")


@pytest.fixture(autouse=True)
def no_fault_left(request):
    yield
    if "lena" in request.fixturenames:
        phone = request.getfixturevalue("lena")
        phone.context.set_offline(False)
        phone.proxy.set(None)
        assert phone.errors == []


NONE_UNSENT = "(await store.counts()).every((c) => c.waiting === 0)"


def settled(phone):
    phone.context.set_offline(False)
    phone.proxy.set(None)
    phone.run("await sync.sendNow(true)")
    phone.until(f"await sync.sendNow(true); return sync.state().is === 'idle' && {NONE_UNSENT}")


def on_server(phone, ids):
    """How often the server holds each of `ids`, asked through the browser's own session."""
    return phone.run("""const unit = (await store.units()).sort((a, b) => a.number.localeCompare(b.number))[0];
        const found = {};
        for (let after = ''; after !== null;) {
          const path = `/api/units/${unit.id}/entries?limit=500${after && '&after=' + after}`;
          const page = await (await fetch(path)).json();
          for (const e of page.entries) found[e.id] = (found[e.id] ?? 0) + 1;
          after = page.next;
        }
        return args[0].map((id) => found[id] ?? 0);""", ids)


def test_a_kept_entry_survives_a_reload_and_an_offline_start(lena):
    lena.context.set_offline(True)
    ids = lena.keep("before the reload")
    lena.page.reload()
    lena.shows("open_unit")
    assert "1 on this phone" in lena.row_a()
    assert lena.run("return store.status(args[0])", ids[0])["is"] == "on this phone"
    again = lena.window()
    lena.open("", page=again)  # a window of its own, opened with no network at all
    lena.shows("open_unit", page=again)
    again.close()
    settled(lena)
    assert on_server(lena, ids) == [1]


def test_a_label_opens_its_unit_without_signal(lena):
    code, number = lena.run("return store.units().then((all) => [all[0].code, all[0].number])")
    lena.context.set_offline(True)
    lena.page.goto(f"{lena.proxy.address}/U/{code.lower()}")
    lena.page.wait_for_selector("body[data-screen=is_it], body[data-screen=unit]")
    assert number in lena.page.inner_text(".row-a .number")
    lena.page.goto(f"{lena.proxy.address}/u/0000000000")
    lena.shows("open_unit")
    assert "This unit is not on this phone" in lena.page.inner_text(".code-fault")


def test_a_cut_between_commit_and_reply_sends_nothing_twice(lena):
    settled(lena)
    lena.proxy.seen.clear()
    lena.proxy.set("cut", on="/api/sync")  # for good: a browser repeats by itself what dies on a kept connection
    ids = lena.keep("cut 1", "cut 2", "cut 3")
    lena.until("return sync.state().is === 'no signal'")
    assert lena.unsent() == 3, "no reply is no proof"
    settled(lena)
    assert on_server(lena, ids) == [1, 1, 1]
    tries = [[e["id"] for e in body["entries"]] for body in lena.proxy.sent()]
    assert len([batch for batch in tries if set(ids) <= set(batch)]) >= 2, "before the cut and after it"


def test_a_dropped_call_and_a_slow_server_are_tried_again(lena):
    settled(lena)
    lena.proxy.set("drop", on="/api/sync")
    first = lena.keep("dropped")
    lena.until("return sync.state().is === 'no signal'")
    lena.proxy.set("slow_down", on="/api/sync", times=1)
    lena.run("await sync.sendNow(true)")
    assert lena.run("return sync.state().is") == "later"
    calls = len(lena.proxy.seen)
    lena.run("await sync.sendNow(true)")
    assert len(lena.proxy.seen) == calls, "Retry-After is waited out, asked or not"
    lena.until(f"return {NONE_UNSENT}")
    assert on_server(lena, first) == [1]


def test_a_captive_page_is_no_answer(lena):
    settled(lena)
    lena.proxy.set("portal")
    ids = lena.keep("behind a portal")
    lena.until("return sync.state().is === 'not ours'")
    assert lena.unsent() == 1
    said = "() => document.querySelector('.row-a').innerText.includes('network wants something first')"
    lena.page.wait_for_function(said)
    settled(lena)
    assert on_server(lena, ids) == [1]


def test_a_stalled_call_is_given_up_after_eight_seconds(lena):
    settled(lena)
    lena.proxy.set("stall", on="/api/sync", times=1)
    ids = lena.keep("stalled")
    lena.until("return sync.state().is === 'no signal'", tries=150)
    assert lena.run("return store.status(args[0])", ids[0])["is"] == "on this phone"
    settled(lena)
    assert on_server(lena, ids) == [1]


def test_a_refused_entry_stays_says_why_and_keeps_no_other_out(lena):
    settled(lena)
    bad, good = lena.run(f"""{MAKE} const bad = note('x'.repeat(4001)); const good = note('beside a refused one');
        await store.keep([bad, good]); return [bad.id, good.id];""")
    lena.until(f"return (await store.counts()).some((c) => c.refused) && {NONE_UNSENT}")
    assert on_server(lena, [bad, good]) == [0, 1]
    status = lena.run("return store.status(args[0])", bad)
    assert status["is"] == "refused"
    assert "4,000" in status["why"]["say"] or "4000" in status["why"]["say"]
    assert bad not in lena.run(f"{MAKE} return (await store.entries(unit.id)).map((e) => e.id)"), "it does not count"
    lena.open("#phone")
    lena.shows("phone_status")
    assert "The office did not take this" in lena.page.inner_text(".refusal")
    assert "refused: 1" in lena.row_a()
    lena.page.click("text=Keep and tell the office")  # a remark in its place puts it right
    lena.until("return (await store.counts()).every((c) => c.refused === 0)")
    settled(lena)
    lena.open("#open")


def test_a_call_refused_as_a_whole_is_halved_until_the_culprit_is_alone(lena):
    settled(lena)

    def poisoned(body):
        return 422 if body and any(e["value"].get("text") == "poison" for e in body["entries"]) else None

    lena.proxy.set(poisoned, on="/api/sync")
    ids = lena.keep("good 1", "good 2", "poison", "good 3", "good 4")
    lena.until(f"await sync.sendNow(true); return {NONE_UNSENT}")
    assert on_server(lena, ids) == [1, 1, 0, 1, 1]
    assert lena.run("return store.status(args[0])", ids[2])["is"] == "refused"
    lena.proxy.set(None)
    lena.keep("in its place")
    settled(lena)


def test_a_newer_plan_waits_until_it_is_taken(new_phone):
    """The open step stays on the plan it was begun under; what differs is said; taking it is one touch."""
    phone = new_phone().start("lena")
    old, shown, taken = phone.run(f"""{MAKE}
        const mine = await store.keep([note('begun under the first plan')]);
        await store.noteUnit(unit.id, {{inUse: unit.packet, seen: true}});
        const plan = await store.packet(unit.packet);
        const next = {{...plan, facts: ['Opening 2093, was 2099', ...plan.facts], steps: plan.steps.slice(1)}};
        const hash = 'f'.repeat(64);
        await db.write(['packets'], (at) => at('packets').put(next, hash));
        await store.noteUnit(unit.id, {{packet: hash, planSince: Date.now()}});
        const {{context}} = await part('context');
        const before = await context({{unit: unit.id}}, {{}});
        await before.takePlan();
        const after = await context({{unit: unit.id}}, {{}});
        const kept = [before.hash === unit.packet, before.fresh.changed, before.state.packet === unit.packet];
        return [plan.steps[0].say, kept, [after.hash === hash, after.fresh]];""")
    assert shown == [True, ["Opening 2093, was 2099", f"No longer: {old}"], True]
    assert taken == [True, None]


def test_an_ended_session_stops_sending_and_the_same_person_resumes(lena):
    settled(lena)
    lena.run("await fetch('/api/session', {method: 'DELETE', headers: {'Fieldapp-Api': '1'}})")
    ids = lena.keep("after the session ended")
    lena.until("return sync.state().is === 'sign in'")
    assert lena.unsent() == 1
    lena.page.wait_for_function("() => document.querySelector('.row-a').innerText.includes('sign in again to send')")
    lena.open("#sign-in")
    lena.sign_in("lena")
    lena.shows("open_unit")
    settled(lena)
    assert on_server(lena, ids) == [1]


def test_nobody_sends_or_sees_anothers_work(new_phone):
    phone = new_phone().start("lena")
    units = phone.run("return (await store.units()).map((unit) => unit.id)")
    phone.context.set_offline(True)
    ids = phone.keep("of lena, unsent")
    phone.open("#sign-out")
    assert "One entry is not sent" in phone.page.inner_text("main")
    phone.page.click("#leave")
    phone.shows("sign_in")
    phone.context.set_offline(False)
    phone.proxy.seen.clear()
    phone.sign_in("pia")
    phone.shows("open_unit")
    phone.until("return sync.state().is === 'idle' && (await store.units()).length > 0")
    assert not set(units) & set(phone.run("return (await store.units()).map((unit) => unit.id)")), "the other crew's"
    sent = [e["id"] for body in phone.proxy.sent() for e in body["entries"]]
    assert not set(ids) & set(sent)
    assert phone.run("return store.entries(args[0])", units[0]) == []
    phone.open("#sign-out")
    phone.page.click("#key-action")
    phone.shows("sign_in")
    assert "lena: one entry locked here" in phone.page.inner_text("main")
    phone.sign_in("lena")
    phone.shows("open_unit")
    settled(phone)
    assert on_server(phone, ids) == [1]
    assert phone.errors == []


def test_signed_out_with_nothing_unsent_leaves_nothing(new_phone):
    phone = new_phone().start("lena")
    phone.open("#sign-out")
    phone.page.click("#key-action")
    phone.shows("sign_in")
    left = phone.run("""const stores = ['units', 'entries', 'outbox', 'drafts', 'sessions', 'packets', 'parts'];
        return db.read(stores, (at) => Promise.all(stores.map((name) => at(name).count())));""")
    assert left == [0] * 7
    assert phone.errors == []


def test_a_page_killed_in_the_handler_leaves_pairs_that_match(lena):
    """The entry and its outbox row are one transaction; what was said to be saved is there."""
    settled(lena)
    lena.context.set_offline(True)
    said = []
    for _ in range(20):
        page = lena.window()
        lena.open("", page=page)
        heard = []
        page.expose_function("saved", lambda id_, heard=heard: heard.append(id_))
        script = """const kept = Array.from({length: 5}, (_, i) => note(`killed ${i}`));
            for (const one of kept) store.keep([one]).then(() => saved(one.id)); return null;"""
        lena.run(f"{MAKE} {script}", page=page)
        page.wait_for_timeout(random.Random(len(said)).uniform(0, 60))
        page.close()
        said += heard
    rows = lena.run("""return db.read(['entries', 'outbox'], async (at) => [
        (await at('entries').getAll()).filter((row) => row.entry.value.text?.startsWith('killed'))
          .map((row) => [row.id, row.entry.count]),
        (await at('outbox').getAll()).filter((row) => row.is !== 'put right').map((row) => [row.id, row.count])]);""")
    entries, outbox = (dict(found) for found in rows)
    assert outbox == entries, "what the server does not have has its row, and no row is without its entry"
    assert said, "some were said to be saved before the kill"
    assert set(said) <= set(outbox), "saved means on disk"
    assert len(set(outbox.values())) == len(outbox), "no count is given twice"
    settled(lena)
    assert set(on_server(lena, list(outbox))) == {1}


def test_a_newer_schema_opens_beside_an_old_window(new_phone):
    """Version 1 in A, the next in B: B opens within two seconds, A says what to do."""
    phone = new_phone().start("lena")
    other = phone.context.new_page()
    other.goto(f"{phone.proxy.address}/shell.json")
    opened = other.evaluate("""async () => {
        const asked = indexedDB.open('fieldapp', 99);
        const late = new Promise((done) => setTimeout(() => done('late'), 2000));
        const said = await Promise.race([late, new Promise((done) => { asked.onsuccess = () => done('opened'); })]);
        asked.result?.close();
        return said; }""")
    assert opened == "opened"
    phone.page.wait_for_selector("text=Load this page again")
    phone.open("#phone")  # and goes on saying so: an old page reads no newer store
    phone.page.wait_for_selector("text=Load this page again")
    assert phone.errors == []


def test_full_phone_keeps_the_figure_and_says_not_saved(new_phone):
    """A store that has no room: the promise of `keep` is false, nothing is half kept, the alert stands."""
    phone = new_phone().start("lena")
    phone.context.set_offline(True)
    phone.open("#open")
    outcome = phone.run(f"""{MAKE}
        const {{ context }} = await part('context');
        const ctx = await context({{}}, {{}});
        const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (...given) {{
          if (this.name === 'outbox') throw new DOMException('full', 'QuotaExceededError');
          return put.apply(this, given);
        }};
        const first = await ctx.keep([note('no room')]);
        const held = (await store.entries(unit.id)).filter((e) => e.value.text === 'no room').length;
        IDBObjectStore.prototype.put = put;
        const alarm = document.querySelector('.alerts').innerText + document.querySelector('.row-a').innerText;
        const second = await ctx.keep([note('room again')]);
        return [first, held, alarm, second, document.querySelector('.alerts').innerText];""")
    first, held, alarm, second, after = outcome
    assert (first, held, second) == (False, 0, True)
    assert alarm.count("NOT SAVED") == 2
    assert "Make room" in alarm
    assert after == ""


def test_an_answered_store_reopens_once_after_its_connection_is_lost(new_phone):
    """The connection dies in the background; the next call opens another one and works."""
    phone = new_phone().start("lena")
    phone.run("(await db.open()).close(); return null;")
    assert len(phone.keep("on a new connection")) == 1
    assert phone.errors == []
