"""What asks for the supervisor: the state's list `waiting`."""

from fieldapp.record.entries import Json
from fieldapp.record.view import View


def _of_step(step: Json, now: Json, asked: bool, signed: bool) -> list[str]:
    """`asked`: an `ask` stands on the step; `signed`: a sign-off stands that may cover it."""
    found = []
    if now["hold"] == "stated":
        found.append(f"hold:{step['id']}")
    if now["pairs"]:
        found.append(f"pair:{step['id']}")
    in_signoff = signed and step.get("signed", True)
    if step.get("concession", False) and now["is"] in ("open", "outside") and (asked or in_signoff):
        found.append(f"concession:{step['id']}")
    return found


def waiting(unit: View, steps: list[Json], sheets: dict[str, Json], signoffs: list[Json]) -> list[str]:
    """The list, sorted; arguments as they stand in the state."""
    asked = {entry.get("step") for entry in unit.index.of_kind("ask")}
    found = {
        word
        for step, now in zip(unit.steps, steps, strict=True)
        for word in _of_step(step, now, step["id"] in asked, bool(signoffs))
    }
    found |= {f"split:{name}" for name, sheet in sheets.items() if sheet["split"]}
    if any(signoff["is"] == "complete" and not signoff["review"] for signoff in signoffs):
        found.add("sign-off")
    if any(signoff["is"] == "stale" for signoff in signoffs):
        found.add("stale")
    if unit.index.quarantined:
        found.add("quarantined")
    return sorted(found)
