"""Readings far from the plan, or out of their range, that the phone asked about and that were kept as typed.

The phone's own rule (`static/phone/read_check.js: keptFar`), so that both name the same figures.
"""

import math

from .office_standing import field_say
from .office_unit import Json, Known
from .office_words import NM, value

FAR = 0.5  # of the plan, either way
FLOOR = 10 * NM  # a gap that is a finger's width off is found and not asked about
OFFSET = 150 * NM  # an offset from a level or a string
SIGNED = ("plumb_", "lean_", "level_", "string_gap", "tilt.")


def kept_far(known: Known, now: Json) -> list[Json]:
    """Lines of a step (`now`: its part of the state) for the office's "Look at these first"."""
    step = known.steps[now["id"]]
    found = []
    for field in step["fields"]:
        for id in now["values"].get(field["id"], []) if field["id"] not in now["outside"] else []:
            entry = known.entries.get(id)
            if entry and entry["kind"] == "reading" and _far(known, field, entry["value"]):
                found.append(
                    {
                        "vial": "outside",
                        "say": f"{step['say']}: {field_say(known, now['id'], field['id'])} far from the plan",
                        "tells": f"{value(entry, field)}, kept as typed",
                    }
                )
    return found


def _far(known: Known, field: Json, held: Json) -> bool:
    feed: Json = next(iter(field.get("feeds") or []), {})
    name = feed.get("as", "")
    size, unit = (held["nm"], NM) if "nm" in held else (held.get("number"), 1)
    if size is None:
        return False
    low, high = _sides(_reading(known.sheets.get(feed.get("sheet", ""), {}), name))
    if not low * unit <= size <= high * unit:
        return True
    expect = field.get("expect") or {}
    if "nm" not in held:
        return False
    if name.startswith(SIGNED) or field.get("ways") or field.get("key") == "signed" or (expect.get("from") or 0) < 0:
        return bool(abs(size) > OFFSET)
    plan = field.get("plan")
    if plan is None and None not in (expect.get("from"), expect.get("to")):
        plan = (expect["from"] + expect["to"]) / 2
    low, high = _sides(expect) if expect else (math.inf, -math.inf)
    return bool(plan and plan > 0 and not low <= size <= high and abs(size - plan) > max(FAR * plan, FLOOR))


def _reading(sheet: Json, name: str) -> Json:
    """What a sheet knows of a reading or an input, empty where nothing."""
    if sheet.get("kind") == "linear":
        return dict(sheet["readings"].get(name) or {})
    return next((each for each in sheet.get("inputs", []) if each["name"] == name), {})


def _sides(limits: Json) -> tuple[float, float]:
    low, high = limits.get("from"), limits.get("to")
    return -math.inf if low is None else low, math.inf if high is None else high
