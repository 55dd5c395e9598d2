"""The phone's fold against the server's: the same cases, byte for byte, in a real browser."""

import json
import random
from pathlib import Path

import pytest

from fieldapp.record import fold, offers

MADE = json.loads(Path(__file__).with_name("fold.json").read_text(encoding="utf-8"))
PARTS, CASES = MADE["parts"], MADE["cases"]

# What the browser says of one case; `orders` are seeds of other orders, with repeats.
SCRIPT = """async ([module, made]) => {
    const { canonical, fold, gather, given, offered, signoffCovers, stepStanding } = await import(module);
    const each = (names, say) => Object.fromEntries(names.map((name) => [name, say(name)]));
    return JSON.stringify(made.cases.map(({ pair, here, orders, given: fed, offered: offer }) => {
        const packets = each(here, (name) => made.pairs[pair][name]);
        const [entries] = orders;
        const states = orders.map((order) => fold(order, packets, made.parts));
        const packet = packets[states[0].packet] ?? {};
        const held = gather(null, entries);
        return { states: states.map(canonical), held,
            batched: gather(gather(null, entries.filter((_, at) => at % 2)), entries.filter((_, at) => at % 3 !== 1)),
            given: each(Object.keys(fed), (name) => given(entries, packet, made.parts, name)),
            offered: offered(entries, packet, made.parts, states[0], "lena"), covers: signoffCovers(entries, packet),
            standing: each(Object.keys(offer.steps), (step) => stepStanding(entries, packet, step)) };
    }));
}"""


def shuffled(entries, seed):
    """In another order, some of them twice."""
    rng = random.Random(seed)
    drawn = entries + rng.sample(entries, len(entries) // 3)
    rng.shuffle(drawn)
    return drawn


@pytest.fixture(scope="module")
def phone(module_page):
    """What the phone says of every case, in the order of the cases."""
    cases = [{**case, "orders": [case["entries"], shuffled(case["entries"], 1), shuffled(case["entries"], 2)]}
             for case in CASES]
    asked = {"parts": PARTS, "pairs": MADE["pairs"], "cases": cases}
    return json.loads(module_page.page.evaluate(SCRIPT, [f"{module_page.origin}/phone/fold.js", asked]))


def test_the_cases_reach_every_state():
    """Cases that never leave the beaten track would prove little."""
    states = [json.loads(case["state"]) for case in CASES]
    assert {state["is"] for state in states} == {"planned", "working", "returned", "stale", "accepted", "signed"}
    assert {step["is"] for state in states for step in state["steps"]} == {"passed", "open", "shut", "outside", "done"}
    assert {step["hold"] for state in states for step in state["steps"]} == {None, "stated", "confirmed"}
    assert {each["is"] for state in states for each in state["signoffs"]} == {"waiting", "stale", "complete"}
    words = {word for state in states for sheet in state["sheets"].values() for word in sheet["verdicts"].values()}
    assert words == {"inside", "outside", "too close to call", "not known", None}
    waits = {word.split(":")[0] for state in states for word in state["waiting"]}
    assert waits == {"hold", "sign-off", "stale", "concession", "pair", "split", "quarantined"}
    assert any(state["elsewhere"] for state in states)
    assert any(sheet["unusable"] for state in states for sheet in state["sheets"].values())


def test_the_server_says_what_the_file_says():
    for case in CASES:
        packets = {name: MADE["pairs"][case["pair"]][name] for name in case["here"]}
        held = fold.gather(None, case["entries"])
        state = fold.result(held, packets, PARTS)
        assert fold.canonical(state).decode() == case["state"]
        assert {name: fold.given(held, packets, PARTS, name) for name in case["given"]} == case["given"]
        assert offers.offered(held, packets, PARTS, state, "lena") == case["offered"]


def test_the_phone_gives_the_same_bytes_in_any_order(phone):
    for case, said in zip(CASES, phone, strict=True):
        assert said["states"] == [case["state"]] * 3


@pytest.mark.parametrize("what", ["given", "offered"])
def test_the_phone_says_the_same(phone, what):
    for case, said in zip(CASES, phone, strict=True):
        assert said[what] == case[what]


def test_the_phone_covers_the_same(phone):
    for case, said in zip(CASES, phone, strict=True):
        assert said["covers"] == case["offered"]["signoff"]["covers"]
        assert said["standing"] == {key: step["covers"] for key, step in case["offered"]["steps"].items()}


def test_the_phone_gathers_in_batches_with_repeats(phone):
    for case, said in zip(CASES, phone, strict=True):
        drawn = [entry for at, entry in enumerate(case["entries"]) if at % 2 or at % 3 != 1]
        assert said["held"] == fold.gather(None, case["entries"])
        assert said["batched"] == fold.gather(None, drawn)
