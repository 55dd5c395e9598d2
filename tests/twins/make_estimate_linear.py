"""Makes tests/twins/estimate_linear.json, the cases that both linear engines are held to.

Run it from the top of the repository: `PYTHONPATH=tests python tests/twins/make_estimate_linear.py`. What is given is
invented; the figures are the Python engine's, whose own rules are tested against outside sources in tests/trade.
"""

import json
import random
from pathlib import Path

from fieldapp.trade.estimate import linear
from fieldapp.trade.frame import sheet
from fieldapp.trade.frame_moves import CORNERS, DOES, ROOMS
from fieldapp.trade.frame_rows import GAPS, KINDS, LANDS, LEVELS, TAPES

FILE = Path(__file__).with_name("estimate_linear.json")
SEED, CASES = 9106, 300
SLIPS = (25.4, -25.4, 12.7, 10.0, 100.0, -304.8, 3.7)
FRAMES = (
    {"width": 914, "height": 2057, "hinge": "left"},
    {"width": 780, "height": 2000, "hinge": "right"},
    {"width": 1000, "height": 2134, "hinge": "left", "tolerance": {"square": 2, "plumb": 3.2, "lean": 5}},
    {"width": 2400, "height": 1200, "hinge": "right", "tolerance": {"twist": 0.8, "align": 3}, "tools": {"tape": 0.1}},
)


def one_reading(r, at, kind):
    """A reading near what a frame a little out of true gives, now and then with a slip or typed to the millimetre."""
    known = at["readings"][kind]
    spread = {"tape": 2.0, "level": 6.0, "land": 12.0, "gap": 0.8, "string": 2.0}
    family = next(
        name
        for name, kinds in (("tape", TAPES), ("level", LEVELS), ("land", LANDS), ("gap", GAPS), ("string", KINDS))
        if kind in kinds
    )
    middle = known["constant"] + {"land": 30.0, "gap": 3.2}.get(family, 0.0)
    value = middle + r.gauss(0, spread[family]) + (r.choice(SLIPS) if r.random() < 0.04 else 0.0)
    made = {"of": kind, "value": round(min(max(value, known["from"]), known["to"]), r.choice((0, 1, 1, 6)))}
    if family == "level":
        if r.random() < 0.3:
            made["over"] = round(r.uniform(known["over_from"], known["over_to"]), 0)
        if r.random() < 0.5:
            made["reversed"] = True
    if r.random() < 0.15:
        made["u"] = r.choice((0.01, 0.2, 0.5, 1.5, 30.0))
    return made


def one_round(r, at, moves):
    kinds = r.choice((KINDS, KINDS[:14], KINDS[:14], KINDS[14:], (r.choice(KINDS),)))
    chosen = [kind for kind in kinds for _ in range(r.choice((0, 1, 1, 1, 2)))]
    r.shuffle(chosen)
    made = {"readings": [one_reading(r, at, kind) for kind in chosen]}
    if moves:
        made["done"] = [{"do": r.choice(DOES), "by": r.choice((0.5, 1.0, 3.0, 6.35, 0.79375))} for _ in range(moves)]
    return made


def one_case(r, frame):
    at = sheet(**frame)
    count = r.choice((1, 1, 1, 2, 3))
    given = {
        "rounds": [
            one_round(r, at, r.choice((0, 1, 2, 3)) if i + 1 < count or r.random() < 0.1 else 0) for i in range(count)
        ]
    }
    if r.random() < 0.5:
        given["room"] = {
            place: r.choice((0, 0.5, 1, 2, 4, 8)) for place in ROOMS if "mid" not in place and r.random() < 0.7
        }
    if r.random() < 0.3:
        given["tilt"] = {"along": r.choice((-9, 0, 4)), "over": 6000} | (
            {"through": 5, "u": 0.8} if r.random() < 0.5 else {}
        )
    if r.random() < 0.3:
        given["fixed"] = sorted(r.sample(list(CORNERS), r.choice((1, 2, 4))))
        given["no_trim"] = sorted(r.sample(list(ROOMS), 3))
    if r.random() < 0.3:
        given["can_read"] = sorted(r.sample(list(KINDS), r.choice((0, 2, 8))))
    if r.random() < 0.4:
        given["show"] = r.choice(("mm", "in"))
    if r.random() < 0.2:
        given["tools"] = {"tape": r.choice((0, 0.25, 1)), "level": r.choice((0, 0.29, 1))}
    return given


def cases(seed, count):
    """[(which frame, what is given)]."""
    r = random.Random(seed)
    return [(at % len(FRAMES), one_case(r, FRAMES[at % len(FRAMES)])) for at in range(count)]


def expected(frame, given):
    """What the engines must agree on: every figure unrounded, and of the words those that are decisions."""
    at = sheet(**FRAMES[frame])
    said = linear.answer(at, given)
    return {
        "figures": linear.figures(at, given),
        "judge": linear.judge(at, given),
        "next": said["next"],
        "causes": [one["cause"] for one in said["suspects"]],
    }


def written():
    """The case file's text."""
    made = [{"frame": frame, "given": given, **expected(frame, given)} for frame, given in cases(SEED, CASES)]
    body = ",\n".join(json.dumps(one, ensure_ascii=True, sort_keys=True, separators=(",", ":")) for one in made)
    return f'{{"frames": {json.dumps(FRAMES)},\n"cases": [\n{body}\n]}}\n'


if __name__ == "__main__":
    FILE.write_text(written(), encoding="ascii")
