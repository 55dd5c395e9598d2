"""Steps: what is missing, a pair, outside or unsettled on each, and what the step is."""

from fieldapp.record.entries import Json
from fieldapp.record.holds import good_releases, standing_of
from fieldapp.record.reviews import concession_holds
from fieldapp.record.values import own_verdict
from fieldapp.record.view import Field, View
from fieldapp.trade.estimate.chance import NOT_KNOWN, OUTSIDE, TOO_CLOSE

Verdicts = dict[str, dict[str, str | None]]


def _judged(step: Json, verdicts: Verdicts) -> list[tuple[str, str | None]]:
    """(judged quantity, verdict) of what the step answers; None also where its sheet is not at hand."""
    return [
        (what, verdicts.get(answer["sheet"], {}).get(what))
        for answer in step.get("answers", [])
        for what in answer.get("judged", [])
    ]


def _is(step: Json, made: Json, settled: bool, conceded: bool) -> str:
    """The first that fits."""
    shut = step.get("hold", False) and made["hold"] is None
    if conceded and not made["pairs"] and not shut:
        return "passed"
    if made["missing"] or made["pairs"] or not settled:
        return "open"
    if shut:
        return "shut"
    return "outside" if made["outside"] else "done"


def _step(unit: View, step: Json, fields: list[Field], verdicts: Verdicts) -> Json:
    judged = _judged(step, verdicts)
    words = [(each.field["id"], own_verdict(unit, each)) for each in fields] + judged
    hold = standing_of(good_releases(unit.index, step["id"])) if step.get("hold", False) else None
    made: Json = {
        "id": step["id"],
        "hold": hold,
        "missing": sorted(each.field["id"] for each in fields if each.field.get("required") and not each.values),
        "pairs": sorted(each.field["id"] for each in fields if each.pair),
        "outside": sorted({name for name, word in words if word == OUTSIDE}),
        "unsettled": sorted({name for name, word in words if word == TOO_CLOSE}),
        "values": {each.field["id"]: [entry["id"] for entry in each.values] for each in fields if each.values},
    }
    settled = all(word not in (None, NOT_KNOWN) for _, word in judged)
    return {**made, "is": _is(step, made, settled, concession_holds(unit.index, step))}


def steps(unit: View, verdicts: Verdicts) -> list[Json]:
    """The state of every step, in the packet's order."""
    return [
        _step(unit, step, [unit.fields[step["id"], known["id"]] for known in step.get("fields", [])], verdicts)
        for step in unit.steps
    ]
