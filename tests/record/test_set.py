"""The state is a function of the set of entries: order, repetition and batching change no byte of it."""

import json

from histories import PARTS, history, packets
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fieldapp.record import fold

SLOW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def bytes_of(held, plans):
    return fold.canonical(fold.result(held, plans, PARTS))


@st.composite
def units(draw):
    """(packets, entries in the order of making, a source of chance)."""
    rng = draw(st.randoms(use_true_random=False))
    plans = packets(rng)
    return plans, history(rng, plans, rng.randint(1, 40)), rng


@SLOW
@given(units())
def test_any_order_and_any_repetition(unit):
    plans, entries, rng = unit
    expected = bytes_of(fold.gather(None, entries), plans)
    for _ in range(3):
        drawn = entries + rng.choices(entries, k=len(entries) // 2)
        rng.shuffle(drawn)
        assert bytes_of(fold.gather(None, drawn), plans) == expected


@SLOW
@given(units())
def test_brought_up_by_new_entries_alone(unit):
    """What is held goes through JSON between batches, as the state row does, and is the same as gathered at once."""
    plans, entries, rng = unit
    whole = fold.gather(None, entries)
    left = entries + rng.choices(entries, k=3)
    rng.shuffle(left)
    held = None
    while left:
        size = rng.randint(1, 9)
        before = json.dumps(held)
        after = fold.gather(held, left[:size])
        assert json.dumps(held) == before, "what is held was changed in place"
        held, left = json.loads(json.dumps(after)), left[size:]
        fold.result(held, plans, PARTS)  # every set of entries on the way has a state
    assert held == whole
    assert bytes_of(held, plans) == bytes_of(whole, plans)


@SLOW
@given(units())
def test_what_the_server_adds_changes_nothing_but_standing(unit):
    """Sequence, time of arrival, clock, counter and device are shown beside the state; none is in it."""
    plans, entries, rng = unit
    expected = bytes_of(fold.gather(None, entries), plans)
    other = []
    for entry in entries:
        changed = {
            **entry,
            "at": "2019-01-01T00:00:00.000+00:00",
            "offset_ms": rng.randint(0, 9),
            "count": rng.randint(0, 9),
            "device": "another",
            "sheet": None,
        }
        if "server" in entry:
            changed["server"] = {**entry["server"], "seq": rng.randint(0, 99), "received": "later"}
        other.append(changed)
    assert bytes_of(fold.gather(None, other), plans) == expected


@SLOW
@given(units())
def test_an_entry_on_the_phone_and_its_copy_from_the_server_are_one(unit):
    _, entries, rng = unit
    own = [{key: value for key, value in entry.items() if key != "server"} for entry in entries]
    drawn = own + entries
    rng.shuffle(drawn)
    served = [entry if "server" in entry else own[at] for at, entry in enumerate(entries)]
    assert fold.gather(None, drawn) == fold.gather(None, served)


@SLOW
@given(units())
def test_the_state_is_whole_numbers_words_and_lists_by_id(unit):
    plans, entries, _ = unit
    state = fold.result(fold.gather(None, entries), plans, PARTS)
    assert list(map(type, _leaves(state))).count(float) == 0
    assert [step["id"] for step in state["steps"]] == [
        step["id"] for step in plans.get(state["packet"], {"steps": []})["steps"]
    ]
    for values in _lists({**state, "steps": []}) + [one for step in state["steps"] for one in _lists(step)]:
        assert values == sorted(values)
        assert len(set(values)) == len(values)


def _leaves(what):
    below = what.values() if isinstance(what, dict) else what if isinstance(what, list) else []
    return [leaf for each in below for leaf in _leaves(each)] if isinstance(what, dict | list) else [what]


def _lists(what):
    """Every list of texts in it."""
    if isinstance(what, dict):
        return [found for each in what.values() for found in _lists(each)]
    return [what] if isinstance(what, list) and all(isinstance(each, str) for each in what) else []
