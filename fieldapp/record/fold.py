"""The fold: a unit's state as a pure function of the set of its entries. state.md says what it is.

    held = gather(held, new_entries)      # JSON; brought up by the new entries alone
    state = result(held, packets, parts)  # packets and parts by hash, as plain data

Twin: static/phone/fold.js. Both give the same bytes.
"""

import json
from collections.abc import Callable, Iterable, Mapping

from fieldapp.record.entries import Json
from fieldapp.record.feeds import fed, given
from fieldapp.record.gather import FOLD, gather
from fieldapp.record.plans import Plan
from fieldapp.record.signoffs import signoffs
from fieldapp.record.standing import Index
from fieldapp.record.steps import Verdicts, steps
from fieldapp.record.view import View, view
from fieldapp.record.waiting import waiting
from fieldapp.trade.estimate import judge as estimate_judge

__all__ = ["FOLD", "canonical", "gather", "given", "result", "state"]

Judge = Callable[[Json, Json], dict[str, str | None]]


def _sheet(unit: View, name: str, judge: Judge) -> Json:
    """One sheet of the state. Where rounds are split every verdict is null; a sheet not at hand has none."""
    sheet, rounds = unit.sheets[name], unit.rounds.get(name)
    feed = fed(unit, name)
    made: Json = {"rounds": rounds.ids if rounds else [], "split": rounds.split if rounds else []}
    if feed is None:
        return {**made, "unusable": [], "verdicts": {item["what"]: None for item in sheet.get("judged", [])}}
    return {**made, "unusable": feed["unusable"], "verdicts": judge(sheet, feed)}


def _unit_is(index: Index, made: list[Json]) -> str:
    """The first that fits."""
    if all(entry["kind"] == "issue" for entry in index.counted.values()):
        return "planned"
    if not made:
        return "working"
    if any(signoff["review"] and signoff["review"]["is"] == "returned" for signoff in made):
        return "returned"
    if any(signoff["is"] == "stale" for signoff in made):
        return "stale"
    return "accepted" if any(signoff["review"] for signoff in made) else "signed"


def _stage(plan: Plan, steps_now: list[Json]) -> str | None:
    """The first stage with a step neither done nor passed, steps that no sign-off covers aside."""
    for step, now in zip(plan.packet.get("steps", []), steps_now, strict=True):
        if step.get("signed", True) and now["is"] not in ("done", "passed"):
            return str(step["stage"])
    return None


def result(
    held: Json, packets: Mapping[str, Json], parts: Mapping[str, Json], *, judge: Judge = estimate_judge
) -> Json:
    """The state of state.md from what `gather` holds.

    packets, parts: by hash; of packets those issued on the unit (plans.wanted names them), of parts the
    sheets of the one in force. What is not at hand is left out of the state, not guessed.
    """
    unit = view(held, packets, parts)
    sheets = {name: _sheet(unit, name, judge) for name in unit.sheets}
    verdicts: Verdicts = {name: sheet["verdicts"] for name, sheet in sheets.items()}
    now = steps(unit, verdicts)
    signed = signoffs(unit.index, unit.plan, packets, now)
    return {
        "fold": FOLD,
        "is": _unit_is(unit.index, signed),
        "packet": unit.plan.hash,
        "stage": _stage(unit.plan, now),
        "waiting": waiting(unit, now, sheets, signed),
        "elsewhere": unit.elsewhere,
        "steps": now,
        "sheets": sheets,
        "signoffs": signed,
    }


def state(
    entries: Iterable[Json],
    packets: Mapping[str, Json],
    parts: Mapping[str, Json],
    *,
    judge: Judge = estimate_judge,
) -> Json:
    """Both stages at once: the state of a set of wire entries."""
    return result(gather(None, entries), packets, parts, judge=judge)


def canonical(state: Json) -> bytes:
    """The state's bytes: JSON with sorted keys and no spaces, UTF-8."""
    return json.dumps(state, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()
