"""What is given to each sheet now: `given` of a linear sheet by feeds_linear.py, of the others here.

Beside what the sheet reads, what is given carries `behind`, the entries behind each input ({path: [ids]});
`ids`, all entries that it rests on, moves aside; and `unusable`, the readings set aside because the sheet's
range does not hold them or past 500.
"""

from collections.abc import Mapping
from typing import Any

from fieldapp.record.entries import Json
from fieldapp.record.feeds_linear import linear
from fieldapp.record.limits import NM, holds
from fieldapp.record.view import Field, View, view


def _reading(entry: Json) -> float:
    """A reading's value: mm, or the field's own unit."""
    value = entry["value"]
    return float(value["nm"] / NM if "nm" in value else value["number"])


def _within(limits: Json, x: float) -> bool:
    return holds((limits.get("from"), limits.get("to")), x)


def _mean(entries: list[Json]) -> float:
    total = 0.0
    for entry in entries:  # from the left, as the twin does it
        total += _reading(entry)
    return total / len(entries)


def _amount(entries: list[Json], banded: bool) -> Any:
    """The mean of readings, with the u of one; a u counts where each states one, the greatest, else the
    sheet's own.

    Only a band sheet reckons with doubt; a rule compares plain figures.
    """
    value = _mean(entries)
    if not banded:
        return value
    doubts = [entry["value"]["u"] / NM for entry in entries if "u" in entry["value"]]
    return {"value": value, "u": max(doubts)} if len(doubts) == len(entries) else {"value": value}


def _word(entry: Json) -> Any:
    """What a tick, choice or note gives to a sheet."""
    value = entry.get("value", {})
    return {"tick": value.get("ticked"), "choice": value.get("chosen"), "note": value.get("text")}.get(entry["kind"])


def _input(each: Field, limits: Json, banded: bool) -> tuple[Any, list[Json], list[Json]]:
    """Value, entries behind it, and entries set aside. A pair gives nothing: neither of the two is
    settled."""
    if each.pair:
        return None, [], []
    readings = [entry for entry in each.now() if entry["kind"] == "reading"]
    if not readings:
        last = each.now()[-1:]
        return (_word(last[0]) if last else None), last, []
    usable = [entry for entry in readings if _within(limits, _reading(entry))]
    aside = [entry for entry in readings if not _within(limits, _reading(entry))]
    return (_amount(usable, banded) if usable else None), usable, aside


def _inputs(unit: View, name: str) -> Json:
    """Given of a band, rule or digit sheet. Of two fields that feed one path the later in the plan is
    taken."""
    sheet = unit.sheets[name]
    limits = {item["name"]: item for item in sheet.get("inputs", [])}
    inputs: Json = {}
    ids: dict[str, list[str]] = {}
    unusable: list[str] = []
    for each, path in unit.feeders[name]:
        value, used, aside = _input(each, limits.get(path, {}), sheet.get("kind") == "band")
        unusable += [entry["id"] for entry in aside]
        if value is not None:
            inputs[path] = value
            ids[path] = [entry["id"] for entry in used]
    return {"inputs": inputs, "behind": ids, "unusable": sorted(set(unusable))}


def fed(unit: View, name: str) -> Json | None:
    """What is given to the sheet; None where its part is not at hand or its rounds are split."""
    sheet = unit.sheets.get(name)
    if not sheet or (name in unit.rounds and unit.rounds[name].split):
        return None
    made = linear(unit, name) if sheet.get("kind") == "linear" else _inputs(unit, name)
    ids = {entry for entries in made["behind"].values() for entry in entries}
    ids |= {read["id"] for each in made.get("rounds", []) for read in each["readings"]}
    return {**made, "ids": sorted(ids)}


def given(held: Json, packets: Mapping[str, Json], parts: Mapping[str, Json], name: str) -> Json | None:
    """What is given to the sheet `name` of the packet in force, from what fold.gather holds.

    None where the plan has no such sheet, its part is not at hand, or two phones split its rounds.
    """
    return fed(view(held, packets, parts), name)
