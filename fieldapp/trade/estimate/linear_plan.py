"""Which corrections of a group, and by how much. Twin: static/phone/estimate_plan.js.

Moves are weighed by the chance that the group's quantities come inside together, the hand's error counted,
with a small share of each one's own chance (so that a frame built out of true is still set as well as it can
be). Of two plans the one with fewer moves is taken unless another gains the `price` of each. A plan is worth making at
all only when it gains `least` and `keep` of what there is, the price counted less `back` a move: what a move puts at
risk is the chance that all is right already, however many moves there are.
"""

from itertools import product
from math import floor
from typing import NamedTuple

from fieldapp.trade.estimate.linear_joint import joint
from fieldapp.trade.estimate.linear_judged import Judged
from fieldapp.trade.estimate.linear_table import Table, hand, total
from fieldapp.trade.estimate.linear_update import State, along

Wanted = tuple[str, float]  # which correction, and mm
CLEAR = 1e-9
WINDOW = 2  # steps either side of the least-squares amount


class Group(NamedTuple):
    """A group's known quantities as they are now, and what a millimetre of each correction does to them."""

    table: Table
    mean: list[float]
    covariance: list[list[float]]
    tolerance: list[float]
    effects: dict[str, list[float]]
    prices: dict[str, float]
    step: float


def group(
    table: Table,
    state: State,
    quantities: list[Judged],
    corrections: list[str],
    fixed: list[str],
    step: float,
) -> Group:
    """The group's numbers from the state of all unknowns; a correction that takes fixed corners along costs more."""
    across = [state.across(item.row) for item in quantities]
    covariance = [[along(item.row, one) for item in quantities] for one in across]
    effects = {do: [_effect(table, item, do) for item in quantities] for do in corrections}
    means, tolerances = [item.estimate for item in quantities], [item.tolerance for item in quantities]
    rule = table.sheet["worth"]
    prices = {do: rule["price"] + rule["unfix"] * _unfixed(table, do, fixed) for do in corrections}
    return Group(table, means, covariance, tolerances, effects, prices, step)


def _unfixed(table: Table, do: str, fixed: list[str]) -> int:
    return len([corner for corner in table.corrections[do]["takes"] if corner in fixed])


def _effect(table: Table, item: Judged, do: str) -> float:
    """What a millimetre of a correction does to a quantity."""
    column = dict(table.sparse(table.corrections[do]["column"]))
    return total(factor * column.get(at, 0.0) for at, factor in item.row)


def worth(at: Group, moves: list[Wanted]) -> float:
    """How good the group would be after these moves: from 0 to 1, less the sheet's price of each."""
    mean, covariance = list(at.mean), [list(row) for row in at.covariance]
    for do, by in moves:
        effect, variance = at.effects[do], hand(at.table.sheet, by)
        for i, one in enumerate(effect):
            mean[i] += one * by
            for j, other in enumerate(effect):
                covariance[i][j] += one * variance * other
    together, each = joint(mean, covariance, at.tolerance)
    share = at.table.sheet["worth"]["each"]
    value: float = (1.0 - share) * together
    for one in each:
        value += share * one / len(each)
    for do, _ in moves:
        value -= at.prices[do]
    return value


def best(at: Group, rows: list[list[str]]) -> list[Wanted]:
    """The best moves, at most one of each row, in the rows' order; none when nothing is worth making."""
    found: list[Wanted] = []
    rule = at.table.sheet["worth"]
    back = rule.get("back", 0.0)
    least, most = worth(at, []) * (1.0 + rule.get("keep", 0.0)) + rule["least"], 0.0
    for choice in product(*([None, *row] for row in rows)):
        chosen = [do for do in choice if do is not None]
        amounts = _amounts(at, chosen)
        if not chosen or min(amounts) <= 0:
            continue
        moves, value = _around(at, chosen, amounts)
        if value + back * len(moves) > least + CLEAR and (not found or value > most + CLEAR):
            found, most = moves, value
    return found


def _amounts(at: Group, chosen: list[str]) -> list[float]:
    """Amounts, mm, that bring the quantities nearest to 0 in units of their tolerances (least squares)."""
    rows = [[effect / t for effect, t in zip(at.effects[do], at.tolerance, strict=True)] for do in chosen]
    off = [-m / t for m, t in zip(at.mean, at.tolerance, strict=True)]
    if len(rows) == 1:
        return [_product(rows[0], off) / _product(rows[0], rows[0])]
    if len(rows) == 2:
        a, b, c = _product(rows[0], rows[0]), _product(rows[0], rows[1]), _product(rows[1], rows[1])
        p, q = _product(rows[0], off), _product(rows[1], off)
        whole = a * c - b * b
        return [(c * p - b * q) / whole, (a * q - b * p) / whole] if whole > CLEAR else [0.0, 0.0]
    return [0.0 for _ in rows]


def _product(one: list[float], other: list[float]) -> float:
    return total(a * b for a, b in zip(one, other, strict=True))


def _around(at: Group, chosen: list[str], amounts: list[float]) -> tuple[list[Wanted], float]:
    """The best whole steps near the amounts: the first in a window, the last climbed for each."""
    first = nearest(amounts[0] / at.step)
    if len(chosen) == 1:
        return _climb(at, [], chosen[0], first)
    found, most = _climb(at, [(chosen[0], first * at.step)], chosen[1], _follow(at, chosen, first))
    for steps in range(max(1, first - WINDOW), first + WINDOW + 1):
        if steps != first:
            moves, value = _climb(at, [(chosen[0], steps * at.step)], chosen[1], _follow(at, chosen, steps))
            if value > most + CLEAR:
                found, most = moves, value
    return found, most


def _follow(at: Group, chosen: list[str], steps: int) -> int:
    """Steps of the second move that fit best with so many of the first."""
    moved = [m + e * steps * at.step for m, e in zip(at.mean, at.effects[chosen[0]], strict=True)]
    return nearest(_amounts(at._replace(mean=moved), chosen[1:])[0] / at.step)


def nearest(value: float) -> int:
    """The nearest whole number, a half up, as the twin rounds."""
    return floor(value + 0.5)


def _climb(at: Group, before: list[Wanted], do: str, start: int) -> tuple[list[Wanted], float]:
    """The best number of steps, at least one, by climbing from `start`."""
    steps = max(1, start)
    found = [*before, (do, steps * at.step)]
    most = worth(at, found)
    for way in (1, -1):
        while True:
            tried = steps + way
            if tried < 1:
                break
            moves = [*before, (do, tried * at.step)]
            value = worth(at, moves)
            if value <= most + CLEAR:
                break
            found, most, steps = moves, value, tried
    return found, most
