"""What is given to a linear sheet: the readings and moves of its rounds, tilt, room and fixed corners."""

from fieldapp.record.entries import Json
from fieldapp.record.limits import NM, holds, mm
from fieldapp.record.room import carried
from fieldapp.record.rounds import ALONE, Round, Rounds
from fieldapp.record.tilt import tilt
from fieldapp.record.view import Field, View

MOST_READINGS = 500  # of all rounds together, where the sheet says nothing else


def _reading(entry: Json, kind: str, known: Json, u_range: list[float] | None) -> Json | None:
    """The entry as the sheet reads it, mm; None when the sheet's range does not hold it."""
    value = entry["value"]
    read: Json = {"id": entry["id"], "of": kind, "value": value["nm"] / NM}
    if "side" in known:  # a level kind: over part of its side, turned end for end
        over = mm(entry, "over")
        if over is not None:
            read["over"] = over
        if not holds((known.get("over_from"), known.get("over_to")), over):
            return None
        if value.get("reversed"):
            read["reversed"] = True
    if "u" in value:
        read["u"] = value["u"] / NM
    fits = holds((known.get("from"), known.get("to")), read["value"]) and holds(u_range, read.get("u"))
    return read if fits else None


def _readings(unit: View, name: str, rounds: Rounds) -> tuple[dict[Round, list[Json]], list[str]]:
    """Readings by round of the chain, each list by id, and the ids set aside, of too many the greatest."""
    sheet = unit.sheets[name]
    limits = sheet.get("limits", {})
    found: list[tuple[Round, Json]] = []
    aside: list[str] = []
    for each, kind in unit.feeders[name]:
        known = sheet.get("readings", {}).get(kind)
        if known is None or each.field["type"] != "length":
            continue
        for entry in _taken(each, rounds):
            read = _reading(entry, kind, known, limits.get("u"))
            if read is None:
                aside.append(entry["id"])
            else:
                found.append((None if rounds is ALONE else entry.get("round"), read))
    found.sort(key=lambda item: str(item[1]["id"]))
    most = limits.get("readings", MOST_READINGS)
    by_round: dict[Round, list[Json]] = {one: [] for one in rounds.chain}
    for one, read in found[:most]:
        by_round[one].append(read)
    return by_round, aside + [read["id"] for _, read in found[most:]]


def _taken(each: Field, rounds: Rounds) -> list[Json]:
    """What the field gives: of every round that counts; to a sheet without rounds what stands now."""
    return each.now() if rounds is ALONE else each.of(rounds.chain)


def _moves(unit: View, name: str) -> tuple[dict[Round, list[Json]], list[str]]:
    """The sheet's moves by the round that led to them, and the ids of those that it cannot reckon with."""
    sheet = unit.sheets[name]
    corrections = {item["do"] for item in sheet.get("corrections", [])}
    limit = sheet.get("limits", {}).get("by")
    done: dict[Round, list[Json]] = {}
    aside: list[str] = []
    for entry in unit.index.of_kind("move"):
        value = entry["value"]
        if value["sheet"] != name:
            continue
        if value["do"] in corrections and holds(limit, mm(entry, "nm")):
            done.setdefault(entry.get("round"), []).append({"do": value["do"], "by": value["nm"] / NM})
        else:
            aside.append(entry["id"])
    return done, aside


def _fixed(feeders: list[tuple[Field, str]], ids: dict[str, list[str]]) -> list[str]:
    """Corners ticked as riveted; where two ticks stand against each other, the one that says riveted."""
    corners = set()
    for each, path in feeders:
        ticked = [entry["id"] for entry in each.values if entry.get("value", {}).get("ticked")]
        if path.startswith("fixed.") and ticked:
            corners.add(path.removeprefix("fixed."))
            ids[path] = sorted(ids.get(path, []) + ticked)
    return sorted(corners)


def linear(unit: View, name: str) -> Json:
    """Given of a linear sheet, in mm; see feeds.py for `behind` and `unusable`."""
    rounds = unit.rounds.get(name, ALONE)
    readings, aside = _readings(unit, name, rounds)
    done, odd = _moves(unit, name)
    steps = [{"readings": readings[one], "done": done.get(one, [])} for one in rounds.chain]
    ids: dict[str, list[str]] = {}
    extras = {
        "tilt": tilt(unit, name, rounds.back, ids, aside),
        "room": carried(unit, name, steps, rounds.chain, ids, aside),
        "fixed": _fixed(unit.feeders[name], ids),
    }
    return {
        "rounds": steps,
        **{key: value for key, value in extras.items() if value},
        "behind": ids,
        "unusable": sorted({*aside, *odd}),
    }
