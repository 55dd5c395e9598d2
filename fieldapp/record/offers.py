"""What may be signed, released, asked for or confirmed now: for the buttons of the phone and the office.

Every entry is always taken; this only says which buttons make sense.
"""

from collections.abc import Mapping

from fieldapp.record.entries import Json
from fieldapp.record.holds import STATED, good_releases
from fieldapp.record.signoffs import covered
from fieldapp.record.standing import Index
from fieldapp.record.view import View, view

DONE = ("done", "passed")


def _ids(entries: list[Json]) -> list[str]:
    return [entry["id"] for entry in entries]


def _on(index: Index, kind: str, step: str) -> list[str]:
    return [entry["id"] for entry in index.of_kind(kind) if entry.get("step") == step]


def _seconds(index: Index, packet: Json, step: str, person: str | None) -> list[str]:
    """Who may be named as the second person: of the packet's people those who release, and not the one who
    enters it where she made one of the step's standing entries."""
    own = any(entry["person"] == person for entry in index.on_step(step))
    return [
        each["id"] for each in packet.get("people", []) if each.get("release") and not (own and each["id"] == person)
    ]


def _step(index: Index, packet: Json, step: Json, is_of: dict[str, str], now: Json, person: str | None) -> Json:
    name = step["id"]
    concession = bool(step.get("concession", False))
    needs = [need for need in step.get("needs", []) if is_of.get(need, "done") not in DONE]
    ready = now["is"] == "shut" and (concession or not now["outside"])
    return {
        "covers": _ids(index.on_step(name)),
        "needs": needs,
        "release": ready and not needs,
        "seconds": _seconds(index, packet, name, person),
        "releases": _on(index, "release", name),
        "ask": concession and now["is"] in ("open", "outside"),
        "asks": _on(index, "ask", name),
    }


def _may_sign(step: Json, now: Json, asked: bool) -> bool:
    """Whether the step lets a sign-off be made. A pair never does: one of the crew can settle it, and while
    it stands no concession could let the step pass."""
    if now["is"] in DONE:
        return True
    if not step.get("concession", False):
        return False
    cannot_read = now["is"] == "open" and asked and not step.get("hold", False) and not now["pairs"]
    return now["is"] == "outside" or cannot_read


def _signoff(unit: View, state: Json) -> Json:
    index = unit.index
    asked = {entry.get("step") for entry in index.of_kind("ask")}
    because = [
        step["id"]
        for step, now in zip(unit.steps, state["steps"], strict=True)
        if step.get("signed", True) and not _may_sign(step, now, step["id"] in asked)
    ]
    split = sorted(name for name, sheet in state["sheets"].items() if sheet["split"])
    return {
        "offered": bool(unit.steps) and not because and not split,
        "steps": because,
        "split": split,
        "covers": covered(index, unit.plan.packet),
        "replaces": _ids(index.of_kind("signoff")),
    }


def offered(
    held: Json, packets: Mapping[str, Json], parts: Mapping[str, Json], state: Json, person: str | None = None
) -> Json:
    """What is offered now to `person`; held as from fold.gather, state as from fold.result over the same.

    {"signoff": {"offered", "steps": ids in the way, "split": sheets in the way, "covers", "replaces"},
     "steps": {id: {"covers": its standing entries, "release": may be released, "needs": steps to be done
     before,
       "seconds": who may be the second person, "releases": standing ones that a new release replaces,
       "ask": a concession may be asked for, "asks": standing ones}},
     "confirms": [{"release", "step", "second"}] stated releases that their second person may bear out}
    """
    unit = view(held, packets, parts)
    is_of = {now["id"]: now["is"] for now in state["steps"]}
    each = {
        step["id"]: _step(unit.index, unit.plan.packet, step, is_of, now, person)
        for step, now in zip(unit.steps, state["steps"], strict=True)
    }
    confirms = [
        {"release": key, "step": step["id"], "second": unit.index.counted[key]["value"]["second"]}
        for step in unit.steps
        if step.get("hold", False)
        for key, word in good_releases(unit.index, step["id"]).items()
        if word == STATED
    ]
    return {"signoff": _signoff(unit, state), "steps": each, "confirms": confirms}
