"""Sign-offs: what one covers now, and whether one made before is waiting, stale or complete."""

from collections.abc import Mapping

from fieldapp.record.entries import Json, is_covered
from fieldapp.record.plans import Plan, differs
from fieldapp.record.reviews import verdict_on
from fieldapp.record.standing import Index, index

WAITING = "waiting"
STALE = "stale"
COMPLETE = "complete"


def covered(unit: Index, packet: Json) -> list[str]:
    """What a sign-off made now covers: ids, rising. Not what lies on steps with `"signed": false`."""
    aside = {step["id"] for step in packet.get("steps", []) if not step.get("signed", True)}
    return [entry["id"] for entry in unit.standing if is_covered(entry) and entry.get("step") not in aside]


def standing_ids(held: Json, packet: Json, step: str | None = None) -> list[str]:
    """Ids, rising, that a sign-off made now covers; with a step those that a release of it or an `ask`
    covers.

    held as from fold.gather; packet: the one in force.
    """
    unit = index(held)
    return covered(unit, packet) if step is None else [entry["id"] for entry in unit.on_step(step)]


def _is(plan: Plan, packets: Mapping[str, Json], entry: Json, now: list[str], missing: int) -> str:
    if missing:
        return WAITING
    covers = set(entry["value"]["covers"])
    late = any(key not in covers for key in now)
    return STALE if late or differs(plan, entry.get("packet"), packets) else COMPLETE


def signoffs(unit: Index, plan: Plan, packets: Mapping[str, Json], steps: list[Json]) -> list[Json]:
    """The sign-offs that stand, by id: {"id", "is", "missing", "review"}; `steps` as in the state.

    An acceptance counts on a complete one while no step that it covers is outside, open or shut. Of two that
    stand neither is accepted.
    """
    now = covered(unit, plan.packet)
    standing = unit.of_kind("signoff")
    aside = {step["id"] for step in plan.packet.get("steps", []) if not step.get("signed", True)}
    fit = len(standing) == 1 and all(step["is"] in ("done", "passed") for step in steps if step["id"] not in aside)
    made = []
    for entry in standing:
        missing = len([key for key in set(entry["value"]["covers"]) if key not in unit.counted])
        word = _is(plan, packets, entry, now, missing)
        review = verdict_on(unit, entry["id"], acceptable=fit and word == COMPLETE)
        made.append({"id": entry["id"], "is": word, "missing": missing, "review": review})
    return made
