"""Readings that the others contradict, and the slip that explains each. Twin:
static/phone/estimate_suspects.js.

A reading is suspect when it lies more than `from` standard deviations off what the others say (a little more
where there are many readings, so that clean ones raise no more of them), and so are two of one round when taking them
in each other's place explains as much, though neither alone lies that far; who took two for each other once in a round
is believed to have done so again sooner (`again`). Which one, and what slip, is decided together: the fall of
chi-square when it is taken as off by the slip's amount, with the sheet's weight of that slip. Then again with it set
aside.
"""

from math import log
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fieldapp.trade.estimate.linear_others import Array, Others, Places
from fieldapp.trade.estimate.linear_table import Reading, Table

CLEAR = 1e-9  # of two scores closer than this the first is taken, so that both languages take the same
NEAR = 1e-6  # what lies further below the best than this cannot be taken


class Slip(NamedTuple):
    """A slip: how it is called, what it makes the reading off by (mm), its log weight, its words."""

    cause: str
    off: float
    weight: float
    likely: str


class Suspect(NamedTuple):
    """A reading set aside, and why."""

    reading: Reading
    off_by: float
    cause: str
    likely: str


class Found(NamedTuple):
    """Which readings (positions in Others) one slip explains, and how well (half of chi-square, plus log
    weight).
    """

    score: float
    at: tuple[int, ...]
    cause: str
    likely: str


def suspects(table: Table) -> list[Suspect]:
    """Readings set aside, in the order of the input."""
    rule = table.sheet["suspects"]
    if not any(table.rounds):
        return []
    search = Search(Others(table), rule)
    found: dict[int, Found] = {}
    for _ in search.others.readings:
        best = search.worst()
        if best is None:
            break
        for at in best.at:
            search.others.set_aside(at)
            found[at] = best
    readings, ats = search.others.readings, list(found)
    made = [
        Suspect(readings[at], off_by, found[at].cause, found[at].likely)
        for at, off_by in zip(ats, search.others.against(ats), strict=True)
    ]
    return sorted(made, key=lambda one: (one.reading.round, one.reading.position))


class Search:
    """The search for the worst reading. What does not change from one to the next is kept: each reading's slips,
    and the pairs that can have been swapped; and of 500 readings that contradict each other only those are
    looked at closely that can be the best explained.
    """

    def __init__(self, others: Others, rule: dict[str, Any]) -> None:
        self.others, self.rule = others, rule
        self.slips: dict[int, list[Slip]] = {}
        self.most = max((log(one["weight"]) for one in rule["causes"]), default=0.0)
        self.pairs = pairs(others.readings, rule)
        self.rounds = np.array([one.round for one in others.readings])
        self.taken: set[int] = set()  # rounds in which two readings were taken for each other

    def worst(self) -> Found | None:
        """The best explained of the readings that lie too far off; None when there is none."""
        others, rule = self.others, self.rule
        left = len(others.readings) - len(others.aside)
        limit = rule["from"] + rule["more"] * max(0.0, log(max(1, left) / rule["of"]))
        deviations = others.deviations()
        far = deviations > limit
        ats = np.flatnonzero(far)
        half = 0.5 * deviations[ats] * deviations[ats]  # what setting it aside saves: no slip of it explains more
        # near enough to tell which are worth a closer look; those are then scored as the twin does it
        unknown = half + np.log(rule["unknown"]["weight"] * others.doubts()[ats] / rule["unknown"]["over"])
        swapped = self._swapped(far, limit * limit)
        reached = max((*unknown.tolist(), *(one.score for one in swapped)), default=0.0)
        close = np.maximum(half + self.most, unknown) >= reached - NEAR
        tried: dict[int, list[Found]] = {}
        for at in ats[close].tolist():
            tried[at] = [self._unknown(at), *self._slipped(at)]
        for found in swapped:
            if found.score >= reached - NEAR:
                tried.setdefault(found.at[0], []).append(found)
        best: Found | None = None
        for at in sorted(tried):
            for found in tried[at]:
                if best is None or found.score > best.score + CLEAR:
                    best = found
        if best is not None and len(best.at) > 1:
            self.taken.add(int(self.rounds[best.at[0]]))
        return best

    def _unknown(self, at: int) -> Found:
        """The reading taken as off by anything."""
        deviation, rule = self.others.deviation(at), self.rule["unknown"]
        weight = log(rule["weight"] * self.others.doubt(at) / rule["over"])
        return Found(0.5 * deviation * deviation + weight, (at,), "unknown", rule["likely"])

    def _slipped(self, at: int) -> list[Found]:
        """Every slip of one reading."""
        if at not in self.slips:
            self.slips[at] = slips(self.others.readings[at], self.rule)
        return [
            Found(0.5 * self.others.gain(at, slip.off) + slip.weight, (at,), slip.cause, slip.likely)
            for slip in self.slips[at]
        ]

    def _swapped(self, far: NDArray[np.bool_], enough: float) -> list[Found]:
        """The best of the pairs by each cause: of those of which one lies too far off, or that explain `enough` of
        chi-square together (`again` where two of their round were taken for each other). Those set aside are dropped
        for good.
        """
        made: list[Found] = []
        standing = np.ones(len(far), dtype=np.bool_)
        standing[list(self.others.aside)] = False
        for i, (cause, ones, others, shifts) in enumerate(self.pairs):
            left = standing[ones] & standing[others]
            self.pairs[i] = cause, ones[left], others[left], shifts[left]
        for cause, ones, others, shifts in self.pairs:
            gains = self.others.gains_both(ones, others, shifts)
            again = np.isin(self.rounds[ones], list(self.taken))
            needed = np.where(again, min(enough, cause.get("again", enough)), enough)
            open_ = far[ones] | far[others] | (gains > needed)
            ones, others = ones[open_], others[open_]
            if not len(ones):
                continue
            scores = 0.5 * gains[open_] + log(cause["weight"])
            for i in np.flatnonzero(scores >= scores.max() - NEAR).tolist():
                at = (int(ones[i]), int(others[i]))
                made.append(Found(float(scores[i]), at if far[at[0]] else at[::-1], cause["cause"], cause["likely"]))
        return made


def pairs(readings: list[Reading], rule: dict[str, Any]) -> list[tuple[dict[str, Any], Places, Places, Array]]:
    """By cause, the readings of one round that can be written in each other's place: (cause, the one, the other,
    what the one is then off by in mm).
    """
    made = []
    for cause in rule["causes"]:
        if cause["how"] != "pair":
            continue
        of = [at for at, one in enumerate(readings) if one.kind in cause["of"]]
        both = [
            (one, other)
            for i, one in enumerate(of)
            for other in of[i + 1 :]
            if readings[one].round == readings[other].round and readings[one].kind != readings[other].kind
        ]
        if both:
            ones, others = np.array(both, dtype=np.intp).T
            values = np.array([float(one.given["value"]) for one in readings])
            made.append((cause, ones, others, values[ones] - values[others]))
    return made


def slips(reading: Reading, rule: dict[str, Any]) -> list[Slip]:
    """The slips that could have made this reading, each with what it is off by."""
    value = float(reading.given["value"])
    made: list[Slip] = []
    for cause in rule["causes"]:
        if reading.kind not in cause["of"]:
            continue
        if cause["how"] == "amount":
            made += [Slip(cause["cause"], off, log(cause["weight"]), cause["likely"]) for off in cause["off"]]
        elif cause["how"] == "sign":
            made.append(Slip(cause["cause"], 2.0 * value, log(cause["weight"]), cause["likely"]))
        elif cause["how"] == "digits":
            offs = swaps(value)
            made += [Slip(cause["cause"], off, log(cause["weight"] / len(offs)), cause["likely"]) for off in offs]
    return made


def swaps(value: float) -> list[float]:
    """What a value is off by when two neighbouring digits of its whole millimetres were swapped (a first 0 too)."""
    size, sign = abs(value), 1.0 if value >= 0 else -1.0
    made, unit = [], 1.0
    while unit <= size:
        low, high = int(size / unit) % 10, int(size / (unit * 10.0)) % 10
        if low != high:
            made.append(sign * 9.0 * unit * (high - low))
        unit *= 10.0
    return made
