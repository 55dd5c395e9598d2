"""The worked example of state.md, byte for byte, in many orders, with repeats and in batches."""

import json
import random

import pytest

from fieldapp.record import fold
from fieldapp.trade import frame
from fieldapp.trade.estimate import answer

SHEETS = {"s1": frame.sheet(914.0, 2057.0, "left")}
PACKET = {
    "packet": 1,
    "lang": "en",
    "people": [
        {"id": "lena", "name": "lena", "release": True, "review": False},
        {"id": "omar", "name": "omar", "release": True, "review": False},
    ],
    "steps": [
        {
            "id": "hinge-jamb",
            "stage": "set-and-fix",
            "say": "Hinge jamb first",
            "cautions": [],
            "hold": False,
            "needs": [],
            "concession": True,
            "signed": True,
            "fields": [
                {
                    "id": "plumb_left",
                    "type": "length",
                    "required": True,
                    "say": "Plumb of the hinge jamb",
                    "repeat": True,
                    "feeds": [{"sheet": "frame", "as": "plumb_left"}],
                }
            ],
            "answers": [{"sheet": "frame", "judged": ["plumb_left"]}],
        },
        {
            "id": "stop",
            "stage": "set-and-fix",
            "say": "Stop",
            "cautions": [],
            "hold": True,
            "needs": [],
            "concession": False,
            "signed": True,
            "fields": [
                {
                    "id": "leaf_stays",
                    "type": "tick",
                    "required": True,
                    "say": "The leaf stays where it is left",
                }
            ],
            "answers": [],
        },
    ],
    "sheets": [{"name": "frame", "part": "s1"}],
    "drawings": [],
}


def entry(key, kind, value, *, step=None, field=None, round=None, replaces=(), person="lena", packet="p1"):
    return {
        "id": key,
        "v": 1,
        "unit": "u1",
        "step": step,
        "field": field,
        "round": round,
        "kind": kind,
        "value": value,
        "replaces": list(replaces),
        "packet": packet,
        "sheet": None,
        "person": person,
        "device": "d",
        "count": int(key),
        "at": "2026-11-25T10:42:07.120+01:00",
        "offset_ms": 0,
    }


def plumb(key, text, nm, **more):
    return entry(
        key,
        "reading",
        {"text": text, "nm": nm, "reversed": True},
        step="hinge-jamb",
        field="plumb_left",
        **more,
    )


ENTRIES = [
    entry("01", "issue", {"packet": "p1", "others": {}, "because": ""}, person="ruth", packet=None),
    plumb("02", "1/4 in", 6350000),
    plumb("03", "-1/4", -6350000, replaces=["02"]),
    plumb("04", "-6", -6000000),
    entry("05", "move", {"sheet": "frame", "do": "push_head_right", "nm": 6000000}, step="hinge-jamb"),
    entry("06", "round", {"sheet": "frame", "after": []}, step="hinge-jamb"),
    plumb("07", "0.5", 500000, round="06"),
    entry("08", "tick", {"ticked": True}, step="stop", field="leaf_stays"),
    entry("09", "release", {"second": "omar", "covers": ["08"], "sha256": "-"}, step="stop"),
]
CONFIRM = entry("10", "confirm", {"of": "09"}, step="stop", person="omar")
SECOND_ROUND = entry("11", "round", {"sheet": "frame", "after": []}, step="hinge-jamb")

# From state.md, "The result".
EXPECTED = json.loads("""
{"fold": 1, "is": "working", "packet": "p1", "stage": null, "waiting": ["hold:stop"], "elsewhere": [],
 "steps": [{"id": "hinge-jamb", "is": "done", "missing": [], "pairs": [], "outside": [], "unsettled": [], "hold": null, "values": {"plumb_left": ["03", "04", "07"]}},
           {"id": "stop", "is": "done", "missing": [], "pairs": [], "outside": [], "unsettled": [], "hold": "stated", "values": {"leaf_stays": ["08"]}}],
 "sheets": {"frame": {"rounds": ["06"], "split": [], "unusable": [], "verdicts": {"square_head": "not known", "square_sill": "not known", "plumb_left": "inside",
  "plumb_right": "not known", "twist": "not known", "lean": "not known", "align_mid": "not known"}}}, "signoffs": []}
""")  # noqa: E501 - as printed


def state_of(entries):
    return fold.state(entries, {"p1": PACKET}, SHEETS)


def test_the_example_byte_for_byte():
    assert fold.canonical(state_of(ENTRIES)) == fold.canonical(EXPECTED)


@pytest.mark.parametrize("seed", range(20))
def test_the_example_in_any_order_with_repeats_and_batches(seed):
    rng = random.Random(seed)
    drawn = ENTRIES + rng.choices(ENTRIES, k=5)
    rng.shuffle(drawn)
    held = None
    while drawn:
        size = rng.randint(1, 4)
        held, drawn = fold.gather(json.loads(json.dumps(held)), drawn[:size]), drawn[size:]
    assert fold.canonical(fold.result(held, {"p1": PACKET}, SHEETS)) == fold.canonical(EXPECTED)


def test_after_04_alone_the_jamb_is_outside():
    state = state_of(ENTRIES[:4])
    assert state["steps"][0]["is"] == "outside"
    assert state["steps"][0]["outside"] == ["plumb_left"]
    fed = fold.given(fold.gather(None, ENTRIES[:4]), {"p1": PACKET}, SHEETS, "frame")
    judged = {item["what"]: item for item in answer(SHEETS["s1"], fed)["judged"]}
    assert (judged["plumb_left"]["estimate"], judged["plumb_left"]["u"]) == (-6.17, 0.21)  # as state.md prints it


def test_confirmed_by_the_second_persons_own_entry():
    state = state_of([*ENTRIES, CONFIRM])
    assert state["steps"][1]["hold"] == "confirmed"
    assert state["waiting"] == []


def test_a_second_round_made_without_sight_of_the_first_splits():
    state = state_of([*ENTRIES, SECOND_ROUND])
    assert state["sheets"]["frame"]["split"] == ["06", "11"]
    assert set(state["sheets"]["frame"]["verdicts"].values()) == {None}
    assert state["steps"][0]["is"] == "open"
    assert "split:frame" in state["waiting"]


def test_a_round_naming_both_starts_afresh():
    both = entry("12", "round", {"sheet": "frame", "after": ["06", "11"]}, step="hinge-jamb")
    entries = [*ENTRIES, SECOND_ROUND, both]
    assert state_of(entries)["sheets"]["frame"] == {
        "rounds": ["06", "11", "12"],
        "split": [],
        "unusable": [],
        "verdicts": dict.fromkeys(EXPECTED["sheets"]["frame"]["verdicts"], "not known"),
    }
    given = fold.given(fold.gather(None, entries), {"p1": PACKET}, SHEETS, "frame")
    assert given["rounds"] == [{"readings": [], "done": []}]
