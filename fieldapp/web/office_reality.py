"""The record's comparison of plan and reality: drawing, frame as delivered, marks, cut; and what may be trimmed."""

from ..plan.asked import asked
from ..plan.choices import check, read
from ..plan.tables import table
from ..record import fold
from ..site.editions import in_force, made_under
from ..store import base, units
from ..trade import lengths, opening, trim
from ..trade.estimate.chance import INSIDE, judged
from ..trade.opening_say import NAMES, TERMS, room_says
from .office_unit import Json, Known
from .office_words import NM, signed

GROUPS = {"drawing": "Drawing", "measured": "Frame as delivered", "cut": "Cut"}
MARKS = {"mark": "Marks", "second-look": "Marks, second tape"}
DIAGONALS = ("diagonal_bl_tr", "diagonal_tl_br")


def page(known: Known) -> Json:
    """{"reality": rows, "advice": sentences}; empty where there is nothing to compare.

    A row: {"number", "group", "say", "plan", "is", "off", "verdict", "why"}.
    """
    found = _opening(known)
    if found is None:
        return {"reality": [], "advice": []}
    rows = _differences(found, "drawing") + _differences(found, "measured") + _marks(known) + _differences(found, "cut")
    for place, row in enumerate(rows, 1):
        row["number"] = f"P{place}"
    return {"reality": rows, "advice": [*_trims(known, found), *_room(found)]}


def _room(found: Json) -> list[str]:
    """What is left around the frame."""
    return room_says(found["rack"], found["square_room"], "mm")


def _opening(known: Known) -> Json | None:
    """What the opening's calculator answers to the plan and to all that was read; None where the choices do not fit."""
    choices = units.choices_of(known.unit)
    with base.read() as session:
        under = made_under(session, known.packet or None, in_force(session))
    if check(choices, under):
        return None
    given = asked(read(choices, under), under)["opening"]
    for path, value in _fed(known, "opening").items():
        group, name = path.split(".")
        given.setdefault(group, {})[name] = value
    for name in DIAGONALS:
        if (mm := _stands(known, "real-opening", name)) is not None:
            given.setdefault("cut", {})[name] = mm
    return opening.opening(given, table("opening"), table("doubt"))


def _fed(known: Known, sheet: str) -> Json:
    """{input: value} that stands for a sheet; what was not read is left out."""
    if known.held is None or sheet not in known.sheets:
        return {}
    given = fold.given(known.held, known.packets, known.parts, sheet) or {}
    return {path: value for path, value in given.get("inputs", {}).items() if value is not None}


def _stands(known: Known, step: str, field: str) -> float | None:
    """The one reading that stands in a field, mm; None where none does, or two."""
    now = next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), None)
    ids = now["values"].get(field, []) if now else []
    value = known.entries[ids[0]]["value"] if len(ids) == 1 and ids[0] in known.entries else {}
    return value["nm"] / NM if "nm" in value else None


def _row(group: str, say: str, real: float, by: float, verdict: str, why: str = "") -> Json:
    return {
        "group": group,
        "say": say,
        "plan": lengths.say(real - by, "mm"),
        "is": lengths.say(real, "mm"),
        "off": signed(by),
        "verdict": verdict,
        "why": why,
    }


def _differences(found: Json, group: str) -> list[Json]:
    rows = []
    for item in found["differences"]:
        of, side = item["of"], "width" if "width" in item["of"] else "height"
        if not of.startswith(f"{group}."):
            continue
        terms = found[f"{side}_terms"]
        planned = terms[0]["mm"] if group == "measured" else found["cut"][side]
        rows.append(_row(GROUPS[group], NAMES[of], planned + item["by"], item["by"], item["verdict"], _why(item)))
    return rows


def _why(item: Json) -> str:
    """`As if it left out the rise of the head kit.`; empty where no term explains it."""
    if not item["explained_by"]:
        return ""
    names = " and ".join(TERMS[each["term"]] for each in item["explained_by"])
    left_out = item["explained_by"][0]["how"] == "left out"
    return f"As if it left out {names}." if left_out else f"As if it counted {names} twice."


def _marks(known: Known) -> list[Json]:
    """The readings of the marks against the plan, judged by what the plan allows them."""
    rows = []
    for step, group in MARKS.items():
        for field in known.steps.get(step, {}).get("fields", []):
            real = _stands(known, step, field["id"])
            if real is None or "plan" not in field:
                continue
            by, expect = real - field["plan"] / NM, field.get("expect", {})
            limits = [expect[side] / NM - field["plan"] / NM if side in expect else None for side in ("from", "to")]
            verdict = judged("mark", by, expect.get("u", 0) / NM, *limits)["verdict"]
            rows.append(_row(group, field["say"], real, by, verdict))
    return rows


def _trims(known: Known, found: Json) -> list[str]:
    """For sill and head, where the cut is too narrow: what may come off each side and leaves the needed land."""
    sheet = known.sheets.get("cut_land")
    if sheet is None:
        return []
    spare = {one["what"]: one["estimate"] for one in known.answers.get("cut_land", {}).get("judged", [])}
    told = []
    for where in ("sill", "head"):
        item = next((d for d in found["differences"] if d["of"] == f"cut.width_{where}"), None)
        lack = item["by"] if item and item["verdict"] != INSIDE else 0.0  # within the tolerance nothing comes off
        told.append(trim.advice(where, max(0.0, -lack), spare.get(f"left_{where}"), spare.get(f"right_{where}")))
    return [text for text in told if text]
