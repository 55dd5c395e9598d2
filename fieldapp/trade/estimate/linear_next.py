"""Which reading to take next. Twin: static/phone/estimate_next.js.

Each kind that can be read is weighed over the verdicts still open: the chance that the reading settles it,
and how much it narrows it (the logarithm of the doubt before and after). The doubt after a reading is known
before its value.
"""

from math import log, sqrt
from typing import Any

from fieldapp.trade.estimate.chance import TOO_CLOSE, phi
from fieldapp.trade.estimate.linear_judged import Judged
from fieldapp.trade.estimate.linear_room import Cut
from fieldapp.trade.estimate.linear_table import Sparse, Table, doubt, total, way
from fieldapp.trade.estimate.linear_update import State, along

Json = dict[str, Any]
SURE = 1.959963984540054  # 0.975 of the normal distribution
SURE_BOTH = 2.241402727604945  # 0.9875: both sides of a tolerance together leave 0.025
CLEAR = 1e-9
NOTICED = 0.01  # of the variance: a reading that takes less off it neither settles nor narrows anything


def following(
    table: Table, state: State, quantities: list[Judged], given: dict[str, Any], made: list[Cut]
) -> Json | None:
    """The kind to read next, and why; None when nothing is open, readable, or worth reading. `made`: the corrections
    of the same answer.
    """
    rule = table.sheet["next"]
    can_read = given["can_read"] if given.get("can_read") is not None else rule["can_read"]
    undecided = _undecided(table, quantities, made)
    found: tuple[str, list[float]] | None = None
    most = float(rule["least"])
    for kind in table.sheet["kinds"]:
        if undecided and kind in can_read:
            scores = _scores(table, state, undecided, kind)
            if total(scores) > most + CLEAR:
                found, most = (kind, scores), total(scores)
    return None if found is None else _said(table, undecided, *found)


def _undecided(table: Table, quantities: list[Judged], made: list[Cut]) -> list[Judged]:
    """The verdicts still open. Once enough are settled, those are left out that a correction moves in any case and
    whose doubt is small enough for it: they are read again after it.
    """
    rule = table.sheet["next"]
    undecided = [item for item in quantities if item.verdict == TOO_CLOSE]
    if len(quantities) - len(undecided) < rule["enough"]:
        return undecided
    columns = [dict(table.sparse(table.corrections[one.do]["column"])) for one in made if one.by > 0]
    return [
        item
        for item in undecided
        if item.u > rule["fit"] * item.tolerance
        or not any(total(factor * column.get(at, 0.0) for at, factor in item.row) != 0.0 for column in columns)
    ]


def _scores(table: Table, state: State, undecided: list[Judged], kind: str) -> list[float]:
    """What a reading of this kind would do for each open verdict."""
    turned = kind in table.sheet["next"]["turned"]
    row: Sparse = way(table, kind, None, turned)
    own = doubt(table, kind, turned)
    across = state.across(row)
    variance = along(row, across) + own * own
    rule = table.sheet["next"]
    made = []
    for item in undecided:
        shared = along(item.row, across)
        gained = min(shared * shared / variance, item.u * item.u)
        after = sqrt(item.u * item.u - gained)
        if gained <= NOTICED * item.u * item.u or after <= 0:
            made.append(0.0)
            continue
        made.append(rule["settle"] * settles(item, sqrt(gained), after) + rule["narrow"] * log(item.u / after))
    return made


def settles(item: Judged, moves: float, after: float) -> float:
    """Chance that the verdict is settled when the estimate will move by `moves` (sd) and its doubt be `after`, mm."""
    outer = item.tolerance + SURE * after
    chance = phi((-outer - item.estimate) / moves) + phi((item.estimate - outer) / moves)
    inner = item.tolerance - SURE * after
    if item.tolerance >= SURE_BOTH * after:
        chance += phi((inner - item.estimate) / moves) - phi((-inner - item.estimate) / moves)
    return chance


def _said(table: Table, undecided: list[Judged], kind: str, scores: list[float]) -> dict[str, Any]:
    rule = table.sheet["next"]
    says = {item["what"]: item["say"] for item in table.sheet["judged"]}
    decided = [says[item.what] for item, score in zip(undecided, scores, strict=True) if score > 0.5 * max(scores)]
    why = rule["why"] + rule["join"].join(decided)
    return {"of": kind, **({"reversed": True} if kind in rule["turned"] else {}), "why": why}
