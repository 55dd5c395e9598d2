"""What the reviewer should look at before anything else."""

from .office_entries import tells
from .office_far import kept_far
from .office_standing import after_signing, field_say, standing
from .office_unit import Json, Known
from .office_words import NM, UNITS, figured, sentence, value, when


def look_first(known: Known, rows: list[Json], holds: list[Json]) -> list[Json]:
    """What the reviewer should look at before anything else."""
    found = [
        {
            "vial": row["verdict"],
            "low": row["low"],
            "say": f"{row['number']} {row['say']}: {row['verdict']}",
            "tells": f"{row['is']} (19 of 20), allowed ± {row['allowed']}",
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
                        "tells": figure(known, now, name),
                    }
                )
        for name in now["unsettled"]:
            if name not in now["pairs"] and not any(row["what"] == name for row in rows):
                found.append(
                    {
                        "vial": "too close to call",
                        "say": f"{title}: {field_say(known, now['id'], name)} too close to call",
                        "tells": figure(known, now, name),
                    }
                )
        found += kept_far(known, now) + _other_row(known, now)
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
    order = ("outside", "two", "stale", "stated", "too close to call")  # what is wrong before what is in doubt
    return sorted(found, key=lambda item: order.index(item.get("vial") or item.get("mark") or "two"))


def _other_row(known: Known, now: Json) -> list[Json]:
    """A rivet row chosen beside the one that the sheet answers: it is taken, and looked at."""
    step = known.steps[now["id"]]
    rows = [known.answers.get(item["sheet"], {}).get("row") for item in step["answers"]]
    told = {str(row) for row in rows if row}
    chosen = [known.entries[id]["value"].get("chosen") for id in now["values"].get("row", []) if id in known.entries]
    return [
        {
            "vial": "outside",
            "say": f"{step['say']}: row {row} chosen",
            "tells": f"what was read answers row {', '.join(sorted(told))}",
        }
        for row in chosen
        if told and row not in told
    ]


def outside(known: Known, step: str) -> list[str]:
    """What is outside on a step: its name, what stands, and what is allowed."""
    now = next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), None)
    if now is None:
        return []
    return [f"{sentence(field_say(known, step, name))}: {figure(known, now, name)}" for name in now["outside"]]


def figure(known: Known, now: Json, name: str) -> str:
    """What stands in a field, or what a judged quantity comes to, and what is allowed."""
    field = known.field(now["id"], name)
    if field:
        return f"{_values(known, now, name)}{allowed(field)}"
    for sheet, answer in known.answers.items():
        item: Json = next((each for each in known.sheets[sheet]["judged"] if each["what"] == name), {})
        row = next((each for each in answer.get("judged", []) if each["what"] == name), None)
        if row and "estimate" in row:
            limit = item.get("tolerance")
            low, high = (-limit, limit) if limit else (row.get("from"), row.get("to"))
            unit = item.get("unit", "mm")
            return f"{figured(row['estimate'], unit)}{_sides(low, high, unit)}"
    return "not known"


def allowed(field: Json) -> str:
    """What a field's reading may be, as `, allowed from 2 mm to 5 mm`; empty where nothing is said."""
    expect, length = field.get("expect") or {}, field.get("type") == "length"
    unit = "mm" if length else UNITS.get(str(field.get("ucum")), str(field.get("ucum", "")))
    low, high = (None if expect.get(side) is None else expect[side] / (NM if length else 1) for side in ("from", "to"))
    return _sides(low, high, unit)


def _sides(low: float | None, high: float | None, unit: str) -> str:
    sides = [f"{word} {figured(limit, unit)}" for word, limit in (("from", low), ("to", high)) if limit is not None]
    return f", allowed {' '.join(sides)}" if sides else ""


def late(known: Known) -> list[Json]:
    """What came after signing, a row each: where, what stood when it was signed, what stands now, who and when."""
    entry = standing(known, "signoff")
    covered = [known.entries[id] for id in entry["value"]["covers"] if id in known.entries] if entry else []
    rows = []
    for one in after_signing(known):
        step, field = one["step"], known.field(one["step"], one["field"])
        before = [each for each in covered if (each["step"], each["field"]) == (step, one["field"]) and one["field"]]
        title = known.steps.get(step, {}).get("say", step or "the unit")
        rows.append(
            {
                "say": ": ".join(filter(None, [title, field.get("say") or one["kind"]])),
                "was": "; ".join(value(each, field) for each in before) or "nothing",
                "now": tells(known, one, field),
                "allowed": allowed(field),
                "who": known.who(one["person"]),
                "at": when(one["at"]),
            }
        )
    return rows


def _values(known: Known, now: Json, name: str) -> str:
    field = known.field(now["id"], name)
    told = [value(known.entries[id], field) for id in now["values"].get(name, []) if id in known.entries]
    return "; ".join(told)
