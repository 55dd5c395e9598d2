"""Misreadings: the search that skips what cannot be the best finds what trying everything finds.

`plain` tries every slip of every reading and every pair each time, as the docstring of linear_suspects says it.
"""

import random
from math import log

import pytest
from frame_world import LEVELS, USUAL, Frame

from fieldapp.trade.estimate.linear_others import Others
from fieldapp.trade.estimate.linear_suspects import CLEAR, slips, suspects
from fieldapp.trade.estimate.linear_table import make
from fieldapp.trade.frame import sheet
from fieldapp.trade.frame_moves import DOES
from fieldapp.trade.frame_rows import DIAGONALS, KINDS, range_of

SHEET = sheet(914, 2057, "left")


def plain(table):
    """{(round, position): (cause, off_by)} of the readings set aside, everything tried each time."""
    rule, others, found, taken = SHEET["suspects"], Others(table), {}, set()
    while best := _worst(others, rule, taken):
        if len(best[1]) > 1:
            taken.add(others.readings[best[1][0]].round)
        for at in best[1]:
            others.set_aside(at)
            found[at] = best[2]
    offs = others.against(list(found))
    places = [(others.readings[at].round, others.readings[at].position) for at in found]
    return dict(zip(places, zip(found.values(), offs, strict=True), strict=True))


def _worst(others, rule, taken):
    left = [at for at in range(len(others.readings)) if at not in others.aside]
    limit = rule["from"] + rule["more"] * max(0.0, log(max(1, len(left)) / rule["of"]))
    tried = []
    for at in left:
        one, far = others.readings[at], others.deviation(at) > limit
        if far:
            unknown = log(rule["unknown"]["weight"] * others.doubt(at) / rule["unknown"]["over"])
            tried.append((0.5 * others.deviation(at) ** 2 + unknown, (at,), "unknown"))
            tried += [(0.5 * others.gain(at, each.off) + each.weight, (at,), each.cause) for each in slips(one, rule)]
        for other in left:
            two = others.readings[other]
            if one.kind in DIAGONALS and two.kind in DIAGONALS and one.kind != two.kind and one.round == two.round:
                shift = one.given["value"] - two.given["value"]
                gain = others.gain_both(at, other, shift)
                if far or gain > (4.0 if one.round in taken else limit * limit):
                    tried.append((0.5 * gain, (at, other), "diagonals_swapped"))
    best = None
    for found in tried:
        if best is None or found[0] > best[0] + CLEAR:
            best = found
    return best


def readings(r, count, kinds, anywhere):
    """Readings of these kinds, all near what a true frame gives but a share that is anything."""
    made = []
    for _ in range(count):
        kind = r.choice(kinds)
        low, high = range_of(kind)
        constant = SHEET["readings"][kind]["constant"]
        value = constant + r.gauss(3.0 if constant == 0 else 0.0, 1.0)
        value = r.uniform(low, high) if r.random() < anywhere else min(max(value, low), high)
        made.append({"of": kind, "value": value})
    return made


@pytest.mark.parametrize("kinds", [KINDS, DIAGONALS, ("width_head",)], ids=["every kind", "diagonals", "one kind"])
@pytest.mark.parametrize("anywhere", [0.2, 1.0])
def test_many_contradictions_are_found_as_by_trying_everything(kinds, anywhere):
    r = random.Random(41)
    rounds = [{"readings": readings(r, 20, kinds, anywhere), "done": [{"do": r.choice(DOES), "by": 3.0}] * 4}
              for _ in range(3)]  # fmt: skip
    table = make(SHEET, {"rounds": rounds})
    wanted = plain(table)
    found = {(one.reading.round, one.reading.position): (one.cause, one.off_by) for one in suspects(table)}
    assert len(wanted) >= 5
    assert found.keys() == wanted.keys()
    for place, (cause, off_by) in wanted.items():
        assert found[place][0] == cause
        assert found[place][1] == pytest.approx(off_by, rel=1e-9, abs=1e-9)


def test_500_readings_that_contradict_each_other_are_all_judged():
    r = random.Random(8)
    table = make(SHEET, {"rounds": [{"readings": readings(r, 500, DIAGONALS, 1.0)}]})
    found = suspects(table)
    assert len(found) > 450
    assert [one.reading.position for one in found] == sorted(one.reading.position for one in found)


def test_diagonals_in_each_other_s_place_are_seen_though_neither_lies_far_off_by_itself():
    at = Frame(None, fault=dict.fromkeys(("turn", "ws", "wh", "hl", "hr", "lean", "twist", "bow"), 0.0) | {"rack": 2.8})
    values = {kind: at.exact(kind) for kind in USUAL}
    rising, falling = DIAGONALS
    values[rising], values[falling] = values[falling], values[rising]
    table = make(SHEET, {"rounds": [{"readings": [{"of": kind, "value": value} for kind, value in values.items()]}]})
    others = Others(table)
    assert max(others.deviation(i) for i in range(len(others.readings))) < 3.6
    found = suspects(table)
    assert [one.reading.kind for one in found] == list(DIAGONALS)
    assert {one.cause for one in found} == {"diagonals_swapped"}


@pytest.mark.parametrize(("rack", "off", "twice"), [(2.7, 0.6, True), (3.0, 0.3, False)])
def test_who_took_the_diagonals_for_each_other_once_in_a_round_is_soon_seen_to_have_done_so_twice(rack, off, twice):
    """Read twice, levels turned, the diagonals some 2 mm apart: the second pair is too near to be seen by itself. Where
    only one pair was swapped the other stays.
    """
    level = dict.fromkeys(("turn", "ws", "wh", "hl", "hr", "lean", "twist", "bow"), 0.0)
    at = Frame(None, fault=level | {"rack": rack})
    rising, falling = DIAGONALS
    made = []
    for less, swapped in ((off, True), (-off, twice)):
        values = {kind: at.exact(kind) for kind in USUAL}
        values |= {rising: values[rising] - less, falling: values[falling] + less}
        if swapped:
            values[rising], values[falling] = values[falling], values[rising]
        made += [{"of": kind, "value": value} | ({"reversed": True} if kind in LEVELS else {})
                 for kind, value in values.items()]  # fmt: skip
    found = suspects(make(SHEET, {"rounds": [{"readings": made}]}))
    assert [one.reading.kind for one in found] == list(DIAGONALS) * (2 if twice else 1)
    assert {one.cause for one in found} == {"diagonals_swapped"}
    assert twice or [one.reading.position for one in found] == [0, 1]
