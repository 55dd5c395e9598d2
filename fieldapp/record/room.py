"""Room around a frame, carried on: what was read last, less what the moves since take and plus what they
give."""

from fieldapp.record.entries import Json
from fieldapp.record.limits import holds, mm
from fieldapp.record.rounds import Round
from fieldapp.record.view import Field, View


def _change(place: str, done: list[Json], corrections: dict[str, Json]) -> float:
    """What the moves of one round give at a place, mm; negative where they take."""
    total = 0.0
    for move in done:
        correction = corrections[move["do"]]
        each = correction.get("gives", {}).get(place, 0.0) - correction.get("needs", {}).get(place, 0.0)
        total += move["by"] * each
    return total


def _carried(place: str, read: float, after: list[list[Json]], corrections: dict[str, Json]) -> float:
    """The room now, mm. Never below none: a move that needed more had it cut free first, and stands at the
    edge.

    Counted so round by round, since within a round the order of moves changes nothing.
    """
    room = read
    for done in after:
        room = max(0.0, room + _change(place, done, corrections))
    return room


def newest(fields: list[Field], rounds: list[Round], usable: set[str]) -> Json | None:
    """Of the usable values (ids) of the newest round that has any the greatest id; a pair leaves its step
    open anyway."""
    for one in rounds:
        here = [entry for each in fields for entry in each.by_round.get(one, []) if entry["id"] in usable]
        if here:
            return max(here, key=lambda entry: str(entry["id"]))
    return None


def places(unit: View, name: str, prefix: str) -> dict[str, list[Field]]:
    """The fields that feed the sheet under `prefix.` something, by that something."""
    found: dict[str, list[Field]] = {}
    for each, path in unit.feeders[name]:
        if path.startswith(prefix + ".") and each.field["type"] == "length":
            found.setdefault(path.removeprefix(prefix + "."), []).append(each)
    return found


def carried(
    unit: View, name: str, rounds: list[Json], chain: list[Round], ids: dict[str, list[str]], aside: list[str]
) -> dict[str, float]:
    """Room by place, mm, as it is now; `rounds` are the sheet's given rounds, one for each of the chain."""
    sheet = unit.sheets[name]
    corrections = {item["do"]: item for item in sheet.get("corrections", [])}
    limit = sheet.get("limits", {}).get("room")
    room: dict[str, float] = {}
    for place, fields in places(unit, name, "room").items():
        values = [entry for each in fields for entry in each.of(chain)]
        usable = {entry["id"] for entry in values if holds(limit, mm(entry, "nm"))}
        aside += [entry["id"] for entry in values if entry["id"] not in usable]
        read = newest(fields, chain[::-1], usable)
        if read is None:
            continue
        ids[f"room.{place}"] = [read["id"]]
        after = [each["done"] for each in rounds[chain.index(read.get("round")) :]]
        room[place] = _carried(place, read["value"]["nm"] / 1_000_000, after, corrections)
    return room
