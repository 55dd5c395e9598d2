"""Rounds side by side: what was read, told and made, and what it did."""

from ..trade import lengths
from .office_unit import Json, Known
from .office_words import NM, sentence, value, when


def table(known: Known, name: str = "frame") -> Json | None:
    """The rounds of a sheet with corrections, None without any reading.

    {"heads", "rows": [{"number", "say", "cells": [the lines of each round]}], "split": two phones went two ways}.
    A reading that a later one replaced is left out here and stands among the entries.
    """
    state = (known.state or {}).get("sheets", {}).get(name)
    sheet = known.sheets.get(name)
    if state is None or sheet is None or not sheet.get("corrections"):
        return None
    rounds: list[str | None] = [None, *state["rounds"]]
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    standing = [entry for entry in known.entries.values() if entry["id"] not in replaced]
    rows = _readings(known, sheet, name, standing, rounds)
    if not rows:
        return None
    rows.append({"say": "Told", "cells": [_told(known, sheet, name, standing, one) for one in rounds]})
    rows.append({"say": "Made, by", "cells": [_made(known, sheet, name, standing, one) for one in rounds]})
    for place, row in enumerate(rows, 1):
        row["number"] = f"C{place}"
    heads = [str(place) for place in range(1, len(rounds) + 1)]
    heads[-1] += ", stands"
    return {"heads": heads, "rows": rows, "split": bool(state["split"])}


def feeding(known: Known, name: str) -> dict[str, list[tuple[str, Json]]]:
    """{kind: [(step, field)]} of the fields that feed a sheet, in the plan's order."""
    found: dict[str, list[tuple[str, Json]]] = {}
    for step in known.packet.get("steps", []):
        for field in step["fields"]:
            for feed in field.get("feeds", []):
                if feed["sheet"] == name:
                    found.setdefault(feed["as"], []).append((step["id"], field))
    return found


def named(known: Known, name: str, kind: str) -> str:
    """A reading or judged quantity as the field that asks for it on the phone is called, else as its sheet says."""
    fields = feeding(known, name).get(kind)
    if fields:
        return str(fields[0][1].get("short") or fields[0][1]["say"])
    sheet = known.sheets[name]
    judged = next((item["say"] for item in sheet["judged"] if item["what"] == kind), None)
    return sentence(str(judged or sheet.get("readings", {}).get(kind, {}).get("say", kind)).removeprefix("the "))


def _readings(known: Known, sheet: Json, name: str, standing: list[Json], rounds: list[str | None]) -> list[Json]:
    kinds = {(step, field["id"]): kind for kind, fields in feeding(known, name).items() for step, field in fields}
    cells: dict[str, dict[str | None, list[str]]] = {}
    for entry in sorted(standing, key=lambda each: str(each["id"])):
        kind = kinds.get((entry["step"], entry["field"]))
        if entry["kind"] == "reading" and kind in sheet["readings"]:
            cells.setdefault(str(kind), {}).setdefault(entry["round"], []).append(value(entry))
    return [
        {"say": named(known, name, kind), "cells": [cells[kind].get(one) or ["–"] for one in rounds]}
        for kind in sheet["kinds"]
        if kind in cells
    ]


def said(sheet: Json, do: str) -> str:
    """A correction in words."""
    for move in sheet.get("corrections") or []:
        if move["do"] == do:
            return str(move["say"]["verb"])
    return do.replace("_", " ")


def amount(sheet: Json, move: Json) -> str:
    """A correction in words and how far."""
    return f"{said(sheet, move['do'])} {lengths.say(move['nm'] / NM, 'mm')}"


def _told(known: Known, sheet: Json, name: str, standing: list[Json], one: str | None) -> list[str]:
    told = [
        entry
        for entry in standing
        if entry["kind"] == "told" and entry["value"]["sheet"] == name and entry["round"] == one
    ]
    if not told:
        return ["–"]
    last = max(told, key=lambda entry: int(entry["server"]["seq"]))["value"]
    says = [amount(sheet, move) for move in last.get("moves", [])] or [_no_move(known, name, last)]
    return says + ([f"{len(last['set_aside'])} set aside"] if last.get("set_aside") else [])


def _no_move(known: Known, name: str, told: Json) -> str:
    """What an answer without moves said: a frame is left alone only where nothing more was asked for."""
    return f"read next: {named(known, name, told['next'])}" if told.get("next") else "leave it alone"


def _made(known: Known, sheet: Json, name: str, standing: list[Json], one: str | None) -> list[str]:
    moves = [
        entry
        for entry in standing
        if entry["kind"] == "move" and entry["value"]["sheet"] == name and entry["round"] == one
    ]
    return [
        f"{amount(sheet, entry['value'])}, {when(entry['at'])}, {known.who(entry['person'])}" for entry in moves
    ] or ["–"]
