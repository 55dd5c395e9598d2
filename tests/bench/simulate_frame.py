"""Simulated frames: do the frame calculator's verdicts hold, and do frames come true by its corrections?

`python tests/bench/simulate_frame.py [frames] [world ...]` prints what tests/trade/test_frame_simulated.py holds on a
small sample, for the usual frame or for other worlds (WORLDS). Exact 3-D frames, tape and level errors that repeats
do not average out, and hands that miss by 0.15 of the move and 0.3 mm (tests/frame_world.py); faults of sd 4 mm, built
errors of sd 0.5 mm: our own figures, no source.
"""

import sys
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
from frame_world import LEVELS, TAPES, USUAL, frame, true

from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE
from fieldapp.trade.estimate.linear_judged import judged
from fieldapp.trade.estimate.linear_moves import corrections
from fieldapp.trade.estimate.linear_next import following
from fieldapp.trade.estimate.linear_others import Others
from fieldapp.trade.estimate.linear_suspects import suspects
from fieldapp.trade.estimate.linear_table import make, reading
from fieldapp.trade.estimate.linear_update import now, prior
from fieldapp.trade.frame import sheet

# Other frames, noise and tools; what is not named is as usual. Tools are told to the sheet as they are.
WORLDS = {
    "usual": {},
    "right": {"width": 780.0, "height": 2000.0, "hinge": "right"},
    "low": {"width": 2400.0, "height": 1200.0, "hinge": "right"},
    "tall": {"width": 700.0, "height": 2600.0},
    "small": {"width": 600.0, "height": 600.0},
    "large": {"width": 3000.0, "height": 3500.0, "hinge": "right"},
    "far": {"faults": 8.0},
    "crooked": {"built": 1.5},
    "both": {"faults": 8.0, "built": 1.5},
    "near": {"faults": 2.0},
    "coarse": {"tape": 0.5, "level": 0.6},
    "fine": {"tape": 0.05, "level": 0.05},
}
SLIPS = {"one_inch": 25.4, "half_inch": 12.7, "ten_mm": 10.0, "hundred_mm": 100.0, "one_foot": 304.8}
CAUSES = (*SLIPS, "digits_swapped", "wrong_sign", "diagonals_swapped")
ENOUGH = 5  # of seven verdicts settled
MOST = 28  # readings, then it counts as that many


@dataclass
class Counts:
    """What happened, by name: (times it was so, times it could have been)."""

    so: Counter = field(default_factory=Counter)
    of: Counter = field(default_factory=Counter)

    def add(self, name, was):
        self.so[name] += bool(was)
        self.of[name] += 1

    def share(self, name):
        return self.so[name] / max(1, self.of[name])


def sheet_of(width=914.0, height=2057.0, hinge="left", tape=0.25, level=0.29, **_):
    """The sheet of a world's frame."""
    return sheet(width, height, hinge, tools={"tape": tape, "level": level})


def come_true(frames, seed, twice, rounds=3, **world):
    """Frames read, corrected as told, and read again: (Counts, moves a frame, deviations in u by round)."""
    rng, counts, moves, at_hand = np.random.default_rng(seed), Counts(), 0, sheet_of(**world)
    deviations = [[] for _ in range(rounds)]
    for _ in range(frames):
        one, given = frame(rng, **world), {"rounds": []}
        counts.add("true after 0", true(one.truth()))
        for at in range(rounds):
            given["rounds"].append({"readings": one.round(twice=twice)})
            table = make(at_hand, given)
            aside = suspects(table)
            state = now(table, frozenset(each.reading for each in aside))
            told, _ = corrections(table, state, given)
            counts.add("clean round raises a suspect", aside)
            deviations[at] += _verdicts(counts, judged(table, state), one.truth(), told)
            done = [{"do": each.do, "by": each.by} for each in told if each.by > 0]
            moves += len(done)
            one.do(done)
            given["rounds"][-1]["done"] = done
            counts.add(f"true after {at + 1}", true(one.truth()))
    return counts, moves / frames, deviations


def _verdicts(counts, items, truth, told):
    """Count how the verdicts held; the deviations of the estimates, in their own u."""
    for item in items:
        inside = abs(truth[item.what]) <= item.tolerance
        if item.verdict in (INSIDE, OUTSIDE):
            counts.add(f"wrongly {item.verdict}", inside != (item.verdict == INSIDE))
        if abs(truth[item.what]) < item.tolerance / 2:
            counts.add("under half called inside", item.verdict == INSIDE)
    if true(truth):
        counts.add("true left alone", not told)
    return [(item.estimate - truth[item.what]) / item.u for item in items]


def misread(rng, readings, cause):
    """Make one slip of this cause in a round of readings; the positions it touched."""
    if cause == "diagonals_swapped":
        at = [rng.choice([i for i, one in enumerate(readings) if one["of"] == of]) for of in TAPES[:2]]
        readings[at[0]]["value"], readings[at[1]]["value"] = readings[at[1]]["value"], readings[at[0]]["value"]
        return [int(one) for one in at]
    kinds = (*LEVELS, "string_gap") if cause == "wrong_sign" else TAPES
    open_ = [i for i, one in enumerate(readings) if one["of"] in kinds]
    if cause == "digits_swapped":  # 777 has none to swap
        open_ = [i for i in open_ if len(set(str(int(readings[i]["value"])))) > 1]
    at = int(rng.choice(open_))
    value = readings[at]["value"]
    if cause == "wrong_sign":
        readings[at]["value"] = -value
    elif cause == "digits_swapped":
        whole = int(value)
        digits = list(str(whole))
        pairs = [k for k in range(len(digits) - 1) if digits[k] != digits[k + 1]]
        k = int(rng.choice(pairs))
        digits[k], digits[k + 1] = digits[k + 1], digits[k]
        readings[at]["value"] = int("".join(digits)) + value - whole
    else:
        readings[at]["value"] = value + SLIPS[cause] * rng.choice([-1, 1])
    return [at]


def misreadings(frames, seed, twice=False, **world):
    """One slip in each frame: Counts of those findable, named, and with the cause right; and the intervals' cover."""
    rng, counts, at_hand = np.random.default_rng(seed), Counts(), sheet_of(**world)
    for at in range(frames):
        one = frame(rng, **world)
        readings, cause = one.round(twice=twice), CAUSES[at % len(CAUSES)]
        table = make(at_hand, {"rounds": [{"readings": readings}]})
        counts.add("clean round raises a suspect", suspects(table))
        wrong = misread(rng, readings, cause)
        table = make(at_hand, {"rounds": [{"readings": readings}]})
        found = suspects(table)
        truth = one.truth()
        for item in judged(table, now(table, frozenset(each.reading for each in found))):
            counts.add("covered", abs(item.estimate - truth[item.what]) < 1.96 * item.u)
        if not _findable(table, wrong):
            continue
        named = [each for each in found if each.reading.position in wrong]
        counts.add("named", len(named) == len(wrong))
        counts.add("cause right", len(named) == len(wrong) and all(each.cause == cause for each in named))
    return counts


def _findable(table, wrong):
    """Five leave-one-out deviations, and no other reading within 16 units of chi-square."""
    others = Others(table)
    deviations = {each.position: others.deviation(i) for i, each in enumerate(others.readings)}
    most = max(deviations[at] for at in wrong)
    rest = max(value for at, value in deviations.items() if at not in wrong)
    return most >= 5 and most**2 - rest**2 >= 16


def readings_needed(frames, seed, how, **world):
    """Mean number of readings, levels turned, until five of seven verdicts are settled."""
    needed, at_hand = [], sheet_of(**world)
    for at in range(frames):
        rng = np.random.default_rng((seed, at))
        one, order = frame(rng, **world), list(rng.permutation(USUAL))
        levels = [{"of": kind, "value": 0, "reversed": True} for kind in LEVELS]
        table = make(at_hand, {"rounds": [{"readings": levels}]})
        state, count = prior(table), 0
        while count < MOST:
            items = judged(table, state)
            if sum(item.verdict != TOO_CLOSE for item in items) >= ENOUGH:
                break
            kind = {"fixed": USUAL[count % len(USUAL)], "random": order[count % len(USUAL)]}.get(how)
            if kind is None:
                asked = following(table, state, items, {}, corrections(table, state, {})[0])
                if asked is None:
                    count = MOST
                    break
                kind = asked["of"]
            taken = reading(table, 0, count, one.read(str(kind), reversed_=kind in LEVELS))
            state.read(taken.row, taken.value, taken.variance)
            count += 1
        needed.append(count)
    return float(np.mean(needed))


def spread(deviations):
    """(share within 1.96 u, the real error in units of u) of some deviations."""
    values = np.array(deviations)
    return float((abs(values) < 1.96).mean()), float(np.sqrt((values**2).mean()))


def main(frames, world):
    """Print everything of one world."""
    print(f"world {world}: {WORLDS[world]}")
    more = WORLDS[world]
    for twice in (False, True):
        counts, moves, deviations = come_true(frames, 1, twice, **more)
        print("read twice, level turned" if twice else "read once", f"{frames} frames, {moves:.2f} moves a frame")
        for name in sorted(counts.of):
            print(f"  {name}: {100 * counts.share(name):.1f} %")
        for at, each in enumerate(deviations):
            print(f"  round {at + 1}: %.3f within 1.96 u, real error %.3f of u" % spread(each))
    for twice in (False, True):
        counts = misreadings(frames, 2, twice, **more)
        print("misreadings,", "read twice:" if twice else "read once:",
              {name: (round(counts.share(name), 3), counts.of[name]) for name in counts.of})  # fmt: skip
    needed = {how: readings_needed(max(40, frames // 2), 3, how, **more) for how in ("next", "fixed", "random")}
    print("readings until five of seven verdicts are settled:", needed, "ratios", needed["next"] / needed["fixed"],
          needed["next"] / needed["random"])  # fmt: skip


if __name__ == "__main__":
    for name in sys.argv[2:] or ("usual",):
        main(int(sys.argv[1]) if len(sys.argv) > 1 else 200, name)
