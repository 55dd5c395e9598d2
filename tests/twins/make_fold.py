"""Makes tests/twins/fold.json, the cases that both twins of the fold are held to.

Run it from the top of the repository: `PYTHONPATH=tests python tests/twins/make_fold.py`. Packets and histories are
made up (tests/histories.py); the states are those of the Python twin, whose own rules are tested in tests/record.
"""

import json
import random
from pathlib import Path

from histories import PARTS, history, packets

from fieldapp.record import fold, offers

FILE = Path(__file__).with_name("fold.json")
CASES = 72
PLANS = 12  # pairs of packets that the cases share, so that the file stays small
KEPT = ("id", "step", "field", "round", "kind", "value", "replaces", "packet", "person", "server")


def given_of(held, packets_here, state):
    """What is given to each sheet of the packet in force."""
    names = [sheet["name"] for sheet in packets_here.get(state["packet"], {}).get("sheets", [])]
    return {name: fold.given(held, packets_here, PARTS, name) for name in names}


def case(seed, pairs):
    """One case: plans, entries in an order that means nothing, and all that the fold says of them."""
    rng = random.Random(seed)
    number = rng.randrange(len(pairs))
    entries = history(rng, pairs[number], rng.randint(1, 35))
    here = [name for name in pairs[number] if name != "p1" or rng.random() < 0.9]  # at times a packet is not here yet
    plans = {name: pairs[number][name] for name in here}
    rng.shuffle(entries)
    held = fold.gather(None, entries)
    state = fold.result(held, plans, PARTS)
    return {
        "pair": number,
        "here": here,
        "entries": [{key: entry[key] for key in KEPT if key in entry} for entry in entries],
        "state": fold.canonical(state).decode(),
        "given": given_of(held, plans, state),
        "offered": offers.offered(held, plans, PARTS, state, "lena"),
    }


def main():
    """Writes the file."""
    pairs = [packets(random.Random(seed)) for seed in range(PLANS)]
    made = {"parts": PARTS, "pairs": pairs, "cases": [case(seed, pairs) for seed in range(CASES)]}
    FILE.write_text(json.dumps(made, ensure_ascii=False, separators=(",", ":")) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
