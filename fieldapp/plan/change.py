"""What one plan changes against another: facts, figures, steps, rules, people; all from the two packets."""

from typing import Any

from fieldapp.trade import lengths
from fieldapp.trade.lengths import NM_PER_MM, Show

Json = dict[str, Any]
_TEXTS = {
    "say": "title",
    "cautions": "cautions",
    "purpose": "purpose",
    "shown": "what is shown",
    "look": "what to look at",
}
_ASKED = ("type", "required", "say", "how", "wrong", "options", "repeat", "feeds", "ucum")


def changes(old: Json, new: Json, show: Show = "mm") -> Json:
    """What differs, old to new; lists are empty where nothing does.

    {"facts": [{"was", "now"}], "figures": [{"id", "say", "was", "now"}], "steps": [{"id", "say", "is": "new" |
    "changed" | "gone", "of": [text]}], "rules": [names], "editions": [names of catalogues], "people": [text]}.
    A packet of before figures were listed in it says nothing of them.
    """
    return {
        "facts": _facts(old.get("facts", []), new.get("facts", [])),
        "figures": _figures(old.get("planned", []), new.get("planned", []), show),
        "steps": _steps(old.get("steps", []), new.get("steps", []), show),
        "rules": _rules(old.get("sheets", []), new.get("sheets", [])),
        "editions": _other(old.get("editions", {}), new.get("editions", {})),
        "people": _people(old.get("people", []), new.get("people", [])),
    }


def editions_alone(old: Json, new: Json) -> list[str]:
    """The catalogues of which the two packets name other editions, where they differ in nothing else; [] otherwise.

    Then nothing that was chosen, and nothing that the crew sees, changes by the new packet.
    """
    if {**old, "editions": None} != {**new, "editions": None}:
        return []
    return _other(old.get("editions", {}), new.get("editions", {}))


def said(found: Json) -> list[str]:
    """`changes` as sentences, the figures first: what a record says of a new plan."""
    lines = [f"{item['say']} {item['was']} → {item['now']}" for item in found["figures"]]
    lines += [" → ".join(filter(None, (item["was"], item["now"]))) for item in found["facts"]]
    words = {"new": "New step", "changed": "Step changed", "gone": "Step no longer there"}
    lines += [f"{words[item['is']]}: {item['say']}" for item in found["steps"]]
    lines += [f"Catalogue of {name}: another edition" for name in found["editions"]]
    return lines + [f"Second looks: {text}" for text in found["people"]]


def _facts(old: list[str], new: list[str]) -> list[Json]:
    """Lines in the place of each other are a pair, what is left over stands alone."""
    gone = [line for line in old if line not in new]
    come = [line for line in new if line not in old]
    rows = max(len(gone), len(come))
    return [
        {"was": gone[at] if at < len(gone) else "", "now": come[at] if at < len(come) else ""} for at in range(rows)
    ]


def _figure(item: Json, show: Show) -> str:
    return str(item["text"]) if "text" in item else lengths.say(item["nm"] / NM_PER_MM, show)


def _figures(old: list[Json], new: list[Json], show: Show) -> list[Json]:
    before = {item["id"]: item for item in old}
    return [
        {"id": item["id"], "say": item["say"], "was": _figure(was, show), "now": _figure(item, show)}
        for item in new
        if (was := before.get(item["id"])) is not None
        and any(was.get(key) != item.get(key) for key in ("nm", "text"))
    ]


def _steps(old: list[Json], new: list[Json], show: Show) -> list[Json]:
    before, after = ({step["id"]: step for step in steps} for steps in (old, new))
    made = []
    for key, step in after.items():
        if key not in before:
            made.append({"id": key, "say": step["say"], "is": "new", "of": []})
        elif before[key] != step:
            made.append({"id": key, "say": step["say"], "is": "changed", "of": _step(before[key], step, show)})
    return made + [
        {"id": key, "say": step["say"], "is": "gone", "of": []} for key, step in before.items() if key not in after
    ]


def _step(old: Json, new: Json, show: Show) -> list[str]:
    told = [word for key, word in _TEXTS.items() if old.get(key) != new.get(key)]
    before, after = ({field["id"]: field for field in step["fields"]} for step in (old, new))
    told += [f"asks also: {field['say']}" for key, field in after.items() if key not in before]
    told += [f"no longer asks: {field['say']}" for key, field in before.items() if key not in after]
    for key in (key for key in after if key in before):
        told += _field(before[key], after[key], show)
    ruled = ("hold", "needs", "concession", "signed", "answers", "stage")
    if any(old.get(key) != new.get(key) for key in ruled):
        told.append("what it takes to be done")
    return told or ["what is shown"]  # whatever else a step may carry


def _field(old: Json, new: Json, show: Show) -> list[str]:
    told = []
    if old.get("plan") != new.get("plan") or old.get("expect") != new.get("expect"):
        bare = _around(old) == _around(new)  # the limits lie about the plan as they did: the plan alone says it all
        was, now = (_allowed(field, show, bare) for field in (old, new))
        told.append(f"{new['say']}: {was} → {now}" if was != now else f"{new['say']}: where its limit is from")
    if old.get("over") != new.get("over"):
        was, now = (lengths.say(field["over"] / NM_PER_MM, show) if "over" in field else "any" for field in (old, new))
        told.append(f"{new['say']}, read over: {was} → {now}")
    if any(old.get(key) != new.get(key) for key in _ASKED) or (old != new and not told):
        told.append(f"{new['say']}: how it is asked")
    return told


def _around(field: Json) -> Json | None:
    """How far a field's limits lie from its plan; None where it has no plan."""
    if "plan" not in field:
        return None
    expect = field.get("expect") or {}
    return {side: expect[side] - field["plan"] for side in ("from", "to") if side in expect}


def _allowed(field: Json, show: Show, bare: bool) -> str:
    """`2090 mm, allowed from 2088 mm to 2092 mm`: the plan of a field and, unless `bare`, what is allowed."""
    length = field.get("type") == "length"

    def say(value: float) -> str:
        return lengths.say(value / NM_PER_MM, show) if length else f"{value:g} {field.get('ucum', '')}".strip()

    expect = field.get("expect") or {}
    sides = [f"{word} {say(expect[key])}" for word, key in (("from", "from"), ("to", "to")) if key in expect]
    told = [say(field["plan"])] if "plan" in field else []
    if told and bare:
        return told[0]
    return ", ".join(told + ([f"allowed {' '.join(sides)}"] if sides else [])) or "no limit"


def _rules(old: list[Json], new: list[Json]) -> list[str]:
    before, after = ({sheet["name"]: sheet["part"] for sheet in sheets} for sheets in (old, new))
    return _other(before, after)


def _other(before: Json, after: Json) -> list[str]:
    """The names that stand for something else, or in one of the two alone."""
    return [name for name in {**after, **before} if before.get(name) != after.get(name)]


def _people(old: list[Json], new: list[Json]) -> list[str]:
    before, after = ({one["id"]: one for one in people} for people in (old, new))
    made = [f"{one['name']} joins" for key, one in after.items() if key not in before]
    made += [f"{one['name']} leaves" for key, one in before.items() if key not in after]
    return made + [
        f"{one['name']} has other rights" for key, one in after.items() if key in before and before[key] != one
    ]
