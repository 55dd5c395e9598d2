"""Selects the steps that a plan needs and fills their texts and figures: the `steps` of a packet."""

from typing import Any

from fieldapp.plan.dimensions import Plan
from fieldapp.plan.stages import fits, stages
from fieldapp.trade.lengths import NM_PER_MM

Json = dict[str, Any]
_KEPT = ("type", "required", "ucum", "repeat", "of_box", "level", "key", "fill", "office")


def steps(plan: Plan, rows: dict[str, list[str]]) -> list[Json]:
    """The packet's steps, in the order of the work. `rows`: the names of the rows of each rivet sheet."""
    chosen = _selected(plan)
    present = {raw["id"] for _, raw in chosen}
    return [_step(raw, stage, plan, rows, present) for stage, raw in chosen]


def stage_list(plan: Plan) -> list[Json]:
    """[{"id", "say"}] of the stages that have steps in this plan."""
    used = {stage for stage, _ in _selected(plan)}
    return [{"id": stage["stage"], "say": stage["say"]} for stage in stages() if stage["stage"] in used]


def _selected(plan: Plan) -> list[tuple[str, Json]]:
    return [(stage["stage"], raw) for stage in stages() for raw in stage["step"] if fits(raw, plan.flags)]


def _fill(text: str, plan: Plan) -> str:
    return text.format_map(plan.texts)


def _texts(raw: Json, name: str, plan: Plan) -> list[str]:
    kept = [item for item in raw.get(name, []) if fits(item, plan.flags)]
    return [_fill(item["say"] if isinstance(item, dict) else item, plan) for item in kept]


def _step(raw: Json, stage: str, plan: Plan, rows: dict[str, list[str]], present: set[str]) -> Json:
    step: Json = {
        "id": raw["id"],
        "stage": stage,
        "say": _fill(raw["say"], plan),
        "cautions": _texts(raw, "cautions", plan),
        "hold": raw.get("hold", False),
        "needs": [],
        "concession": raw.get("concession", not raw.get("hold", False)),
        "signed": raw.get("signed", True),
        "fields": [_field(field, plan, rows) for field in raw.get("field", []) if fits(field, plan.flags)],
        "answers": [_answer(item, plan) for item in raw.get("answers", []) if fits(item, plan.flags)],
        "purpose": " ".join(_texts(raw, "purpose", plan)),
    }
    for name in ("shown", "look"):
        if found := _texts(raw, name, plan):
            step[name] = found
    if step["hold"]:
        step["needs"] = [need for need in raw.get("needs", []) if need in present]
    if "drawing" in raw:
        step["drawing"] = raw["drawing"]
    return step


def _answer(item: Json, plan: Plan) -> Json:
    return {"sheet": item["sheet"], "judged": [_fill(what, plan) for what in item["judged"]]}


def _field(raw: Json, plan: Plan, rows: dict[str, list[str]]) -> Json:
    field: Json = {"id": _fill(raw["id"], plan), "say": _fill(raw["say"], plan), "required": False}
    field.update({name: raw[name] for name in _KEPT if name in raw})
    for name in ("how", "wrong", "yes", "no"):
        if name in raw:
            field[name] = _fill(raw[name], plan)
    if "ways" in raw:
        field["ways"] = raw["ways"]
    if "feeds" in raw:
        field["feeds"] = [
            {"sheet": sheet, "as": name}
            for sheet, name in (_fill(feed, plan).split(" ") for feed in raw["feeds"])
        ]
    if "options" in raw:
        field["options"] = [
            {"id": option["id"], "say": _fill(option["say"], plan), "ok": option.get("ok", True)}
            for option in raw["options"]
            if fits(option, plan.flags)
        ]
    if "rows_of" in raw:
        field["options"] = [{"id": row, "say": f"Row {row}", "ok": True} for row in rows[raw["rows_of"]]]
    if "over" in raw:
        field["over"] = _nm(_figure(raw["over"], plan))
    _add_figures(field, raw, plan)
    return field


def _add_figures(field: Json, raw: Json, plan: Plan) -> None:
    """`plan`, the planned figure, and `expect`, what is allowed: nm for a length, else the field's unit."""
    scale = _nm if raw["type"] == "length" else float
    if "plan" in raw:
        field["plan"] = scale(_figure(raw["plan"], plan))
    if "expect" not in raw:
        return
    wanted = raw["expect"]
    expect: Json = {}
    if "near" in wanted:
        planned, within = _figure(wanted["near"], plan), _figure(wanted["within"], plan)
        field["plan"] = scale(planned)
        expect = {"from": scale(planned - within), "to": scale(planned + within)}
    for side in ("from", "to"):
        if side in wanted:
            expect[side] = scale(_figure(wanted[side], plan))
    if "u" in wanted:
        expect["u"] = scale(wanted["u"])
    if "origin" in wanted:
        expect.update(origin=wanted["origin"], source=_fill(wanted["source"], plan))
    else:
        expect.update(plan.origin(wanted["default"], wanted.get("maker", "")))
    field["expect"] = expect


def _figure(given: Any, plan: Plan) -> float:
    """A number as it stands, or a planned figure, or a default, by name."""
    if not isinstance(given, str):
        return float(given)
    return plan.dims[given] if given in plan.dims else float(plan.under.default(given))


def _nm(mm: float) -> int:
    return round(mm * NM_PER_MM)
