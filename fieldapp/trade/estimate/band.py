"""Band sheets, second half: values judged against their bands (band_values.py says what a sheet holds).

Beside "judged" a sheet may carry "rows" (band_rows.py), "terms" (band_terms.py), "shift" (band_shift.py)
and the sentences that band_say.py fills. Its twin is static/phone/estimate_band.js.
"""

from typing import Any

from fieldapp.trade.estimate.band_rows import pick
from fieldapp.trade.estimate.band_say import say
from fieldapp.trade.estimate.band_shift import shift
from fieldapp.trade.estimate.band_terms import explain
from fieldapp.trade.estimate.band_values import Known, inputs, limit, values
from fieldapp.trade.estimate.chance import NOT_KNOWN, OUTSIDE, judged

Json = dict[str, Any]


def _value(item: Json, read: dict[str, Known], known: dict[str, Known]) -> Known | None:
    """What the item judges; None while that, or an input that one of its limits rests on, is missing."""
    limits = [item.get(side) for side in ("from", "to")]
    needed = [path for spec in limits if isinstance(spec, dict) for path in spec["least"]]
    return read.get(item["value"]) if all(path in known for path in needed) else None


def _judged(item: Json, read: Known, known: dict[str, Known]) -> Json:
    return judged(item["what"], *read, limit(item.get("from"), known), limit(item.get("to"), known))


def _guarded(word: str, u: float, half: float | None) -> str:
    """`not known` where the doubt is wider than the tolerance and the value is not outside."""
    return NOT_KNOWN if half is not None and u > half and word != OUTSIDE else word


def judge(sheet: Json, given: Json) -> dict[str, str | None]:
    """{what: verdict} of every judged quantity of the sheet; None where an input is missing.

    given: {"inputs": {path: number or {"value", "u"}}}. The tolerance is half of from ... to, none where a
    side is open.
    """
    known = inputs(sheet, given)
    read = values(sheet, known)
    verdicts: dict[str, str | None] = {}
    for item in sheet["judged"]:
        value = _value(item, read, known)
        if value is None:
            verdicts[item["what"]] = None
        elif item.get("rows"):
            chosen = pick(sheet["rows"]["rows"], *value)
            verdicts[item["what"]] = _guarded(chosen["verdict"], value[1], chosen["half"])
        else:
            made = _judged(item, value, known)
            sides = made["from"], made["to"]
            half = None if None in sides else (made["to"] - made["from"]) / 2
            verdicts[item["what"]] = _guarded(made["verdict"], value[1], half)
    return verdicts


def _difference(sheet: Json, item: Json, made: Json) -> Json:
    """A judged difference with the terms that explain it, where it is beyond its tolerance and has any."""
    by = made["estimate"]
    found: list[Json] = []
    left = by
    if "terms" in item and not made["from"] <= by <= made["to"]:
        found, left = explain(by, made["u"], sheet["terms"]["of"][item["terms"]], sheet["terms"]["within"])
    return {"of": item["what"], "by": by, "u": made["u"], "verdict": made["verdict"],
            "explained_by": found, "left_over": left}


def answer(sheet: Json, given: Json) -> Json:
    """The sheet's answer: `judged` in the sheet's order (what has its inputs), `say`, and `missing` inputs.

    With rows also `row` (a name or None) and `pick`; with terms `differences`; with a shift `shift`, what
    band_shift.shift says; with `trim` items `trim`, mm to take away at each. given as in `judge`, and
    "show": "mm" or "in" for the sentences.
    """
    known = inputs(sheet, given)
    read = values(sheet, known)
    made: Json = {"judged": [], "missing": [item["name"] for item in sheet["inputs"]
                                            if item.get("needed", True) and item["name"] not in known]}
    for item in sheet["judged"]:
        value = _value(item, read, known)
        if value is None:
            continue
        if item.get("rows"):
            made["pick"] = {"value": value[0], "u": value[1], **pick(sheet["rows"]["rows"], *value)}
            made["row"] = made["pick"]["row"]
            continue
        one = _judged(item, value, known)
        made["judged"].append(one)
        if "terms" in sheet:
            made.setdefault("differences", []).append(_difference(sheet, item, one))
        if item.get("trim"):
            made.setdefault("trim", {})[item["what"]] = max(0.0, 0.0 - one["estimate"])
    if "shift" in sheet:
        made["shift"] = shift(sheet["shift"], known)
    made["say"] = say(sheet, given, made)
    return made


OWN = ("times", "what", "called")


def within(name: str, inputs: list[Json], low: float | None, high: float | None, *, unit: str = "mm",
           say: dict[str, str] | None = None, source: str | None = None) -> Json:
    """A band sheet that judges sums of its inputs against one band, low ... high (in `unit`; None: open).

    Each input is {"name": path, "say": text, "u": default, "from"?, "to"?, "times"?: 1, "what"?: name,
    "called"?: text}: inputs of one `what` (default: the sheet's name) make one sum, each times its factor;
    `called`, on the first of them, is what the sentences call it. So the toe of a jamb is the width behind,
    times 1, and the width in front, times -1, one `what` each for sill, mid and head.
    say: sentences by verdict (band_say.py) in place of the usual ones.
    """
    sums: dict[str, list[list[Any]]] = {}
    called: dict[str, str] = {}
    kept = []
    for item in inputs:
        what = str(item.get("what", name))
        sums.setdefault(what, []).append([item["name"], item.get("times", 1)])
        called.setdefault(what, str(item.get("called", item["say"])))
        kept.append({"unit": unit} | {key: item[key] for key in item if key not in OWN})
    judged = [{"what": what, "value": what, "from": low, "to": high, "say": called[what], "unit": unit}
              | ({"sentences": say} if say else {}) for what in sums]
    sheet: Json = {"name": name, "kind": "band", "inputs": kept, "judged": judged,
                   "values": [{"name": what, "plus": 0, "sum": terms} for what, terms in sums.items()]}
    return sheet | ({"source": source} if source else {})
