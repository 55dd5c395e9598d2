"""A linear sheet evaluated: verdicts, and the whole answer. Twin: static/phone/estimate_linear.js.

Knows no trade: everything it says stands in the sheet (fieldapp/trade/frame.py says what a sheet holds).
"""

from math import floor, sqrt
from typing import Any

from fieldapp.trade.estimate import linear_say
from fieldapp.trade.estimate.linear_judged import judged, said
from fieldapp.trade.estimate.linear_moves import corrections
from fieldapp.trade.estimate.linear_next import following
from fieldapp.trade.estimate.linear_suspects import Suspect, suspects
from fieldapp.trade.estimate.linear_table import Reading, Table, make, root
from fieldapp.trade.estimate.linear_update import State, now
from fieldapp.trade.lengths import Show

Json = dict[str, Any]


def judge(sheet: Json, given: Json) -> dict[str, str | None]:
    """Verdict of each judged quantity; `not known` where its doubt is wider than its tolerance and it is not
    outside.
    """
    table = make(sheet, given)
    state = now(table, frozenset(one.reading for one in suspects(table)))
    return {item.what: said(item) for item in judged(table, state)}


def figures(sheet: Json, given: Json) -> Json:
    """The answer's figures as they are, unrounded, mm: for drawings, and to compare the twins by.

    `judged` and `after` [[estimate, u, chance]], `suspects` [[round, reading, off_by]], `moves` [[do, by]].
    """
    table = make(sheet, given)
    aside = suspects(table)
    state = now(table, frozenset(one.reading for one in aside))
    made, then = corrections(table, state, given)
    return {
        "judged": [[item.estimate, item.u, item.chance] for item in judged(table, state)],
        "after": [[item.estimate, item.u, item.chance] for item in judged(table, then)],
        "suspects": [[one.reading.round, one.reading.position, one.off_by] for one in aside],
        "moves": [[one.do, one.by] for one in made],
    }


def answer(sheet: Json, given: Json) -> Json:
    """The whole answer: lengths to 0.01 mm, chances to 0.0001 (a correction's `by` as it is)."""
    table = make(sheet, given)
    aside = suspects(table)
    state = now(table, frozenset(one.reading for one in aside))
    quantities = judged(table, state)
    made, then = corrections(table, state, given)
    show: Show = given.get("show") or "mm"
    return {
        "judged": [
            {"what": item.what, "estimate": hundredth(item.estimate), "u": hundredth(item.u), "tolerance":
             hundredth(item.tolerance), "chance_inside": fine(item.chance), "verdict": item.verdict}
            for item in quantities
        ],
        "corrections": [_rounded(linear_say.correction(table, one, given, show)) for one in made],
        "after": [
            {"what": item.what, "estimate": hundredth(item.estimate), "u": hundredth(item.u),
             "chance_inside": fine(item.chance)}
            for item in judged(table, then)
        ],
        "expect": _expect(table, then),
        "suspects": [_suspect(one) for one in aside],
        "built": _built(table, state, show),
        "next": following(table, state, quantities, given, made),
        "leave_alone": not made and all(item.known for item in quantities),
    }  # fmt: skip


def hundredth(value: float) -> float:
    """To 0.01, a half up, never -0; as the twin does it."""
    return floor(value * 100.0 + 0.5) / 100.0


def fine(value: float) -> float:
    """To 0.0001."""
    return floor(value * 10_000.0 + 0.5) / 10_000.0


def _rounded(said_: Json) -> Json:
    if "trim" in said_:
        said_["trim"] = {place: hundredth(lack) for place, lack in said_["trim"].items()}
    return said_


def _suspect(one: Suspect) -> Json:
    at = one.reading
    named = {"id": at.given["id"]} if "id" in at.given else {}
    return {"of": at.kind, "round": at.round, "reading": at.position, **named, "off_by": hundredth(one.off_by),
            "cause": one.cause, "likely": one.likely}  # fmt: skip


def _expect(table: Table, then: State) -> list[Json]:
    """What each kind just read should read once the corrections are made, read the same way."""
    ways: dict[str, Reading] = {}
    for one in table.rounds[-1]:
        if one.kind not in ways or _sharper(one, ways[one.kind]):
            ways[one.kind] = one
    made = []
    for kind, one in ways.items():
        value = then.value(one.row) + table.sheet["readings"][kind]["constant"]
        u = sqrt(then.variance(one.row) + one.variance)
        made.append({"of": kind, "value": hundredth(value), "u": hundredth(u)})
    return made


def _sharper(one: Reading, other: Reading) -> bool:
    """Turned end for end before not, the longer before the shorter, the surer before the less sure."""
    return (one.key[2], one.key[1], -one.variance) > (other.key[2], other.key[1], -other.variance)


def _built(table: Table, state: State, show: Any) -> list[Json]:
    """What exceeds both its tolerance and twice its doubt: no correction mends it."""
    made = []
    for item in table.sheet["built"]:
        row = table.sparse(item["row"])
        estimate, u = state.value(row), root(state.variance(row))
        if abs(estimate) > item["tolerance"] and abs(estimate) > 2.0 * u:
            made.append({"what": item["what"], "estimate": hundredth(estimate), "u": hundredth(u),
                         "say": linear_say.built(item, estimate, show)})  # fmt: skip
    return made
