"""What a plan would do to the work that stands, found by folding it: nothing is issued."""

from collections.abc import Mapping
from typing import Any

from fieldapp.record import fold
from fieldapp.record.standing import index

Json = dict[str, Any]
_LAST = "ffffffff-ffff-7fff-bfff-ffffffffffff"  # after every id that a clock can make


def effect(
    held: Json, packets: Mapping[str, Json], parts: Mapping[str, Json], hash_: str, packet: Json, sheets: Json
) -> Json:
    """What stands now and what would stand, were the packet `hash_` in force.

    held as from fold.gather, packets and parts by hash; `packet` the new one, `sheets` its parts by hash.
    {"is": [was, now] of the unit, "signoffs": [{"id", "was", "now"}] that change, "steps": [{"id", "say", "was",
    "now", "entries": n}] that carry work and change, "holds": [{"id", "say", "was", "now"}] that change,
    "homeless": entries that would no longer have a place in the plan}.
    """
    before = fold.result(held, packets, parts)
    standing = index(held)
    issue = {
        "id": _LAST,
        "kind": "issue",
        "person": "",
        "step": None,
        "field": None,
        "round": None,
        "sheet": None,
        "packet": hash_,
        "replaces": [entry["id"] for entry in standing.of_kind("issue")],
        "value": {"packet": hash_, "others": {}, "because": ""},
        "server": {"standing": "kept"},
    }
    after = fold.result(fold.gather(held, [issue]), {**packets, hash_: packet}, {**parts, **sheets})
    old = packets.get(before["packet"] or "", {})
    return {
        "is": [before["is"], after["is"]],
        "signoffs": _signoffs(before, after),
        "steps": _steps(before, after, old, packet, lambda step: len(standing.on_step(step))),
        "holds": _holds(before, after, packet),
        "homeless": len(set(after["elsewhere"]) - set(before["elsewhere"])),
    }


def _signoffs(before: Json, after: Json) -> list[Json]:
    now = {one["id"]: one["is"] for one in after["signoffs"]}
    return [
        {"id": one["id"], "was": one["is"], "now": now[one["id"]]}
        for one in before["signoffs"]
        if one["id"] in now and now[one["id"]] != one["is"]
    ]


def _steps(before: Json, after: Json, old: Json, new: Json, count: Any) -> list[Json]:
    """Steps with work on them that are another step in the new plan, or stand otherwise under it."""
    was, now = ({one["id"]: one["is"] for one in state["steps"]} for state in (before, after))
    texts, next_ = ({step["id"]: step for step in plan.get("steps", [])} for plan in (old, new))
    made = []
    for key, step in texts.items():
        entries = count(key)
        if entries and (was.get(key) != now.get(key) or step != next_.get(key)):
            made.append(
                {
                    "id": key,
                    "say": next_.get(key, step)["say"],
                    "was": was.get(key, ""),
                    "now": now.get(key, "no longer there"),
                    "entries": entries,
                }
            )
    return made


def _holds(before: Json, after: Json, packet: Json) -> list[Json]:
    says = {step["id"]: step["say"] for step in packet.get("steps", [])}
    was = {one["id"]: one["hold"] for one in before["steps"]}
    return [
        {"id": one["id"], "say": says[one["id"]], "was": was[one["id"]], "now": one["hold"] or "shut"}
        for one in after["steps"]
        if was.get(one["id"]) and was[one["id"]] != one["hold"]
    ]
