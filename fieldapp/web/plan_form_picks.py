"""Rows of the catalogues picked on the plan's form: what a row fills in, what stood there, what it says nothing of."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..plan.catalogue_columns import Row
from ..plan.in_force import InForce
from ..plan.named import filled, rows_of
from ..trade import lengths
from . import plan_form
from .office_words import NBSP
from .plan_form_fields import Asked

Json = dict[str, Any]


@dataclass(frozen=True)
class Pick:
    """A list of a catalogue's rows. `name`: of the form's field; `path`: where plan/named.py takes the row's name;
    `kind`: rows of that kind alone; `fills`: the paths of choices that a row may fill in."""

    name: str
    say: str
    catalogue: str
    path: str
    fills: tuple[str, ...]
    kind: str = ""


_DOOR = ("drawing", "hand", "frame.width", "frame.height", "corners.width", "corners.height", "flange", "glass",
         "head_kit.profile", "head_kit.rise", "holes.side", "holes.per_flat", "holes.head", "holes.sill", "mass.leaf",
         "mass.total")
_BULB = ("head_seal.kind", "head_seal.free_height", "head_seal.band.0", "head_seal.band.1")
PICKS = (
    Pick("from.door", "Door", "doors", "door", _DOOR),
    Pick("from.head_seal", "Bulb seal at the head", "seals", "head_seal.name", _BULB, "bulb"),
    Pick("from.side_edges", "Edge trim at the sides", "seals", "side_edges.name",
         ("side_edges.kind", "side_edges.thickness"), "edge trim"),
)


@dataclass
class Filled:
    """The form's texts with the rows' figures in them. `rows`: what was picked, in words; `changed`: [{"say", "path",
    "was", "now", "text"}] of every field that says otherwise now, `text` as it stood; `kept`: what stands still because
    no row says anything of it; `faults`: sentences, and then nothing is filled in."""

    texts: dict[str, str]
    rows: list[str]
    changed: list[Json]
    kept: list[str]
    faults: list[str]


def picked(form: Mapping[str, str]) -> dict[str, str]:
    """{name: row} of the lists in which a row was chosen."""
    chosen = {pick.name: form.get(pick.name, "").strip()[: plan_form.LONGEST] for pick in PICKS}
    return {name: row for name, row in chosen.items() if row}


def fill(given: Mapping[str, str], chosen: Mapping[str, str], under: InForce) -> Filled:
    """The form as typed with the chosen rows' figures in it."""
    asked = {each.path: each for each in plan_form.every_field()}
    mine = [pick for pick in PICKS if pick.name in chosen]
    plain: Json = {key: given[key] for key in ("wall", "hand") if given.get(key)}
    for pick in mine:
        top, _, key = pick.path.partition(".")
        plain[top] = {key: chosen[pick.name]} if key else chosen[pick.name]
    made, faults = filled(plain, under)
    result = Filled(dict(given), [], [], [], [_beside(fault) for fault in faults])
    for pick in mine if not faults else ():
        row = under.row(pick.catalogue, chosen[pick.name])
        assert row  # else it were a fault
        result.rows.append(f"{pick.say.lower()}, “{row['id']}” ({pick.catalogue}, {_edition(pick, under)})")
        for path in pick.fills:
            _put(result, asked[path], plan_form.at(made, path))
    return result


def shown(chosen: Mapping[str, str], faults: list[str], under: InForce) -> tuple[list[Json], list[str]]:
    """Each list as it is drawn, with its fault, and the faults that are not of these lists."""
    lists, left = [], list(faults)
    for pick in PICKS:
        own = next((fault for fault in left if fault.startswith(f"{pick.name}: ")), "")
        left = [fault for fault in left if fault != own]
        rows = rows_of(under, pick.catalogue, pick.kind)
        lists.append(
            {
                "pick": pick,
                "options": [(row["id"], _row_says(pick, row)) for row in rows],
                "chosen": chosen.get(pick.name, ""),
                "fault": own.partition(": ")[2],
                "edition": _edition(pick, under),
            }
        )
    return lists, left


def put_back(given: Mapping[str, str], form: Mapping[str, str]) -> dict[str, str]:
    """The form's texts as they stood before rows were filled in: the form carries them as `was.PATH`."""
    before = {each.path: form.get(f"was.{each.path}") for each in plan_form.every_field()}
    return dict(given) | {path: text[: plan_form.LONGEST] for path, text in before.items() if text is not None}


def _beside(fault: str) -> str:
    """A fault of a row's name stands beside its list."""
    path, _, rest = fault.partition(": ")
    return next((f"{pick.name}: {rest}" for pick in PICKS if pick.path == path), fault)


def _put(result: Filled, asked: Asked, value: Any) -> None:
    was, now = result.texts.get(asked.path, ""), plan_form.text_of(value)
    if now and not _same(asked, was, now):
        result.texts[asked.path] = now
        said = {"was": _said(asked, was) or "empty", "now": _said(asked, now)}
        result.changed.append({"say": asked.say, "path": asked.path, "text": was, **said})
    elif was and not now and was != "none" and asked.path != "hand":
        result.kept.append(f"{asked.say}: {_said(asked, was)}")


def _same(asked: Asked, was: str, now: str) -> bool:
    """Whether two texts of a field say the same: 36 1/2 in is 927.1."""
    if was == now or asked.kind not in ("length", "number", "count"):
        return was == now
    before, after = plan_form.value_of(asked, was), plan_form.value_of(asked, now)
    if asked.kind != "length":
        return bool(before == after)
    try:
        return lengths.read(before) == lengths.read(after)
    except lengths.LengthError:
        return False


def _said(asked: Asked, text: str) -> str:
    unit = asked.unit if asked.kind in ("length", "number") and plan_form.is_number(text) else ""
    return f"{text}{NBSP}{unit}" if unit else text


def _edition(pick: Pick, under: InForce) -> str:
    return f"edition {under.numbers[pick.catalogue]}"


def _row_says(pick: Pick, row: Row) -> str:
    """A row in its list: its name and what tells it from the others."""
    if pick.catalogue == "doors":
        hand = "either hand" if row["hand"] == "either" else f"{row['hand']} hand"
        glass = "" if row["glass"] == "none" else f", {row['glass']} glass"
        return f"{row['id']}: {row['frame width']:g} × {row['frame height']:g}{NBSP}mm, {hand}{glass}"
    size = row["free height" if pick.kind == "bulb" else "thickness"]
    return row["id"] if size is None else f"{row['id']}: {size:g}{NBSP}mm"
