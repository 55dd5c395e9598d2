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
    rows.append({"say": "Told", "cells": [_told(sheet, name, standing, one) for one in rounds]})
    rows.append({"say": "Made, by", "cells": [_made(known, sheet, name, standing, one) for one in rounds]})
    for place, row in enumerate(rows, 1):
        row["number"] = f"C{place}"
    heads = [str(place) for place in range(1, len(rounds) + 1)]
    heads[-1] += ", stands"
    return {"heads": heads, "rows": rows, "split": bool(state["split"])}


def _feeds(known: Known, name: str) -> dict[tuple[str, str], str]:
    return {
        (step["id"], field["id"]): feed["as"]
        for step in known.packet.get("steps", [])
        for field in step["fields"]
        for feed in field.get("feeds", [])
        if feed["sheet"] == name
    }


def _readings(known: Known, sheet: Json, name: str, standing: list[Json], rounds: list[str | None]) -> list[Json]:
    feeds = _feeds(known, name)
    cells: dict[str, dict[str | None, list[str]]] = {}
    for entry in sorted(standing, key=lambda each: str(each["id"])):
        kind = feeds.get((entry["step"], entry["field"]))
        if entry["kind"] == "reading" and kind in sheet["readings"]:
            cells.setdefault(str(kind), {}).setdefault(entry["round"], []).append(value(entry))
    return [
        {
            "say": sentence(sheet["readings"][kind].get("say", kind).removeprefix("the ")),
            "cells": [cells[kind].get(one) or ["–"] for one in rounds],
        }
        for kind in sheet["kinds"]
        if kind in cells
    ]


def _said(sheet: Json, do: str) -> str:
    for move in sheet["corrections"]:
        if move["do"] == do:
            return str(move["say"]["verb"])
    return do.replace("_", " ")


def _amount(sheet: Json, move: Json) -> str:
    return f"{_said(sheet, move['do'])} {lengths.say(move['nm'] / NM, 'mm')}"


def _told(sheet: Json, name: str, standing: list[Json], one: str | None) -> list[str]:
    told = [
        entry
        for entry in standing
        if entry["kind"] == "told" and entry["value"]["sheet"] == name and entry["round"] == one
    ]
    if not told:
        return ["–"]
    last = max(told, key=lambda entry: int(entry["server"]["seq"]))["value"]
    says = [_amount(sheet, move) for move in last.get("moves", [])] or [_no_move(last)]
    return says + ([f"{len(last['set_aside'])} set aside"] if last.get("set_aside") else [])


def _no_move(told: Json) -> str:
    """What an answer without moves said: a frame is left alone only where nothing more was asked for."""
    return f"read {told['next'].replace('_', ' ')} next" if told.get("next") else "leave it alone"


def _made(known: Known, sheet: Json, name: str, standing: list[Json], one: str | None) -> list[str]:
    moves = [
        entry
        for entry in standing
        if entry["kind"] == "move" and entry["value"]["sheet"] == name and entry["round"] == one
    ]
    return [
        f"{_amount(sheet, entry['value'])}, {when(entry['at'])}, {known.who(entry['person'])}" for entry in moves
    ] or ["–"]
