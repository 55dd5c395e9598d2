"""Readings that the others contradict, and the slip that explains each. Twin:
static/phone/estimate_suspects.js.

A reading is suspect when it lies more than `from` standard deviations off what the others say (a little more
where there are many readings, so that clean ones raise no more of them). Which one,
and what slip, is decided together: the fall of chi-square when it is taken as off by the slip's amount, with
the sheet's weight of that slip. Then again with it set aside; one that the rest then predict comes back.
"""

from math import log
from typing import Any, NamedTuple

from fieldapp.trade.estimate.linear_others import Others
from fieldapp.trade.estimate.linear_table import Reading, Table

CLEAR = 1e-9  # of two scores closer than this the first is taken, so that both languages take the same


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
    others = Others(table)
    found: dict[int, Found] = {}
    for _ in others.readings:
        best = _worst(others, rule)
        if best is None:
            break
        for at in best.at:
            others.set_aside(at)
            found[at] = best
    return sorted(
        (_said(others, at, one) for at, one in found.items()),
        key=lambda one: (one.reading.round, one.reading.position),
    )


def _said(others: Others, at: int, found: Found) -> Suspect:
    return Suspect(others.readings[at], others.against(at), found.cause, found.likely)


def _worst(others: Others, rule: dict[str, Any]) -> Found | None:
    """The best explained of the readings that lie too far off; None when there is none."""
    left = [at for at in range(len(others.readings)) if at not in others.aside]
    limit = rule["from"] + rule["more"] * max(0.0, log(max(1, len(left)) / rule["of"]))
    far = [at for at in left if others.deviation(at) > limit]
    best: Found | None = None
    for at in far:
        for found in (*_single(others, at, rule), *_swapped(others, at, rule)):
            if best is None or found.score > best.score + CLEAR:
                best = found
    return best


def _single(others: Others, at: int, rule: dict[str, Any]) -> list[Found]:
    """Every slip of one reading, and an unknown one."""
    deviation = others.deviation(at)
    unknown = 0.5 * deviation * deviation + log(rule["unknown"]["weight"] * others.doubt(at) / rule["unknown"]["over"])
    return [
        Found(unknown, (at,), "unknown", rule["unknown"]["likely"]),
        *(
            Found(0.5 * others.gain(at, slip.off) + slip.weight, (at,), slip.cause, slip.likely)
            for slip in slips(others.readings[at], rule)
        ),
    ]


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


def _swapped(others: Others, at: int, rule: dict[str, Any]) -> list[Found]:
    """Both of a pair of the same round written in each other's place."""
    one = others.readings[at]
    made: list[Found] = []
    for cause in rule["causes"]:
        if cause["how"] != "pair" or one.kind not in cause["of"]:
            continue
        for other, two in enumerate(others.readings):
            if (
                two.round == one.round
                and two.kind in cause["of"]
                and two.kind != one.kind
                and other not in others.aside
            ):
                shift = float(one.given["value"]) - float(two.given["value"])
                score = 0.5 * others.gain_both(at, other, shift) + log(cause["weight"])
                made.append(Found(score, (at, other), cause["cause"], cause["likely"]))
    return made
