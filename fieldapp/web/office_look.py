"""What the reviewer should look at before anything else."""

from ..trade import lengths
from .office_unit import Json, Known
from .office_waiting import after_signing, field_say
from .office_words import NM, value


def look_first(known: Known, rows: list[Json], holds: list[Json]) -> list[Json]:
    """What the reviewer should look at before anything else."""
    found = [
        {
            "vial": row["verdict"],
            "low": row["low"],
            "say": f"{row['number']} {row['say']}: {row['verdict']}",
            "tells": f"{row['is']} of ± {row['allowed']} mm",
        }
        for row in rows
        if row["verdict"] in ("outside", "too close to call")
    ]
    for now in (known.state or {}).get("steps", []):
        title = known.steps[now["id"]]["say"]
        for name in now["outside"]:
            if not any(row["what"] == name for row in rows):
                found.append(
                    {
                        "vial": "outside",
                        "say": f"{title}: {field_say(known, now['id'], name)} outside",
                        "tells": _values(known, now, name),
                    }
                )
        if now["pairs"]:
            found.append({"two": True, "say": f"{title}: two accounts", "tells": "both stand; neither saw the other"})
    found += [
        {
            "mark": "stated",
            "say": f"{row['number']} {row['say']}: stated only",
            "tells": "not confirmed by the second person's own entry",
        }
        for row in holds
        if row["is"] == "stated"
    ]
    if late := after_signing(known):
        found.append(
            {
                "mark": "stale",
                "say": "Changed after signing",
                "tells": ", ".join(
                    dict.fromkeys(str(known.steps.get(e["step"], {}).get("say", e["kind"])) for e in late)
                ),
            }
        )
    return found


def outside(known: Known, step: str) -> list[str]:
    """What is outside on a step: its name, what stands, and what is allowed."""
    now = next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), None)
    if now is None:
        return []
    rows = []
    for name in now["outside"]:
        field: Json = next((each for each in known.steps[step]["fields"] if each["id"] == name), {})
        told = ": ".join(filter(None, [field_say(known, step, name), _values(known, now, name)]))
        rows.append(f"{told}{_allowed(field)}")
    return rows


def _allowed(field: Json) -> str:
    expect = field.get("expect") or {}
    length = field.get("type") == "length"

    def said(limit: float) -> str:
        return lengths.say(limit / NM, "mm") if length else f"{limit:g}"

    sides = [
        f"{word} {said(expect[side])}"
        for side, word in (("from", "from"), ("to", "to"))
        if expect.get(side) is not None
    ]
    return f", allowed {' '.join(sides)}" if sides else ""


def _values(known: Known, now: Json, name: str) -> str:
    field = next((f for f in known.steps[now["id"]]["fields"] if f["id"] == name), None)
    told = [value(known.entries[id], field) for id in now["values"].get(name, []) if id in known.entries]
    return "; ".join(told)
