"""A unit's choices as the fields of a form: what is asked, what a field says when left empty, and back to choices."""

import copy
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..plan.choices import SMOOTH_WALL
from ..plan.in_force import InForce, seeded
from .office_words import NBSP
from .plan_form_fields import GROUPS, Asked
from .plan_form_hints import hint

Json = dict[str, Any]
_NUMBER = re.compile(r"\d{1,9}([.,]\d{1,6})?", re.ASCII)
_SPAN = re.compile(r"\['?(.*?)'?, '?(.*?)'?\]; right would be two rising numbers of (.*), as \[.*\]\.")
_TABLES_OF = {
    "head_seal": {"bulb": ("kind", "free_height", "compression", "band"), "bead": ("kind", "thickness")},
    "side_edges": {"edge trim": ("kind", "thickness"), "sealant": ("kind",)},
}
_FIRST = ("head_kit.profile", "glass", "hardware.limit")  # left out of choices, the first option stands
LONGEST = 200


@dataclass(frozen=True)
class Shown:
    """A field as it is drawn: `text` what stands in it, `fault` what is wrong with it, `hint` what empty means,
    `source` where that figure is from; `options`: (value, words) of a list."""

    asked: Asked
    text: str
    fault: str
    hint: str
    source: str
    options: list[tuple[str, str]]


def texts(choices: Json) -> dict[str, str]:
    """{path: what the form says} of choices as they are kept."""
    found = {}
    for asked in every_field():
        value = at(choices, asked.path)
        if value is None and asked.path in _FIRST:
            value = asked.options[0]
        found[asked.path] = text_of(value)
    return found


def typed(form: Mapping[str, str]) -> dict[str, str]:
    """{path: text} of a form that was sent; what is not in it is empty."""
    return {asked.path: form.get(asked.path, "").strip()[: LONGEST + 1] for asked in every_field()}


def choices(kept: Json, given: Mapping[str, str], under: InForce | None = None) -> Json:
    """The choices that the form asks for; what it does not know stays as it is kept.

    under: the editions whose default stands for one end of a span where only the other is given; edition 0 when None.
    """
    made = copy.deepcopy(kept)
    if not isinstance(made.get("head_kit"), dict):
        made.pop("head_kit", None)
    for asked in every_field():
        _put(made, asked, given.get(asked.path, ""))
    return _fitted(made, under or seeded())


def shown(
    given: Mapping[str, str], faults: list[str], under: InForce
) -> tuple[list[tuple[str, list[Shown]]], list[str]]:
    """The form's groups with each fault beside its field, and the faults that belong to no field."""
    places: dict[str, str] = {}
    left = []
    for sentence in faults:
        path, _, rest = sentence.partition(": ")
        place = next((known for known in (path, f"{path}.0", f"{path}.profile") if known in given), None)
        if place is None:
            left.append(sentence)
        else:
            places[place] = _SPAN.sub(r"\1 to \2; right would be two rising numbers of \3.", rest)
    groups = [
        (say, [_shown(each, given.get(each.path, ""), places.get(each.path, ""), under) for each in fields])
        for say, fields in GROUPS
    ]
    return groups, left


def _shown(asked: Asked, text: str, fault: str, under: InForce) -> Shown:
    return Shown(asked, text, fault, *hint(asked, not text, under), _options(asked, under))


def _options(asked: Asked, under: InForce) -> list[tuple[str, str]]:
    """What a list offers: its own options, or the rows of a catalogue in force after `left open`."""
    if asked.kind != "row":
        return [(each, each) for each in asked.options]
    if asked.catalogue == "rivets":
        inches = {row["diameter"]: row["inch"] for row in under.rows["rivets"]}
        rows = [(text_of(size), f"{size:g}{NBSP}mm" + (f" ({inches[size]}{NBSP}in)" if inches[size] else ""))
                for size in under.diameters]
    else:
        rows = [(row["id"], _row_says(row)) for row in under.rows[asked.catalogue]]
    return [("", "left open"), *rows]


def _row_says(row: Json) -> str:
    """A row of profiles, sealants or discs: its name, and the wall or cure that it is for where that is not said."""
    more = row.get("wall") or row.get("cure")
    return f"{row['id']}, {more}" if more and more not in row["id"] else str(row["id"])


def every_field() -> list[Asked]:
    """The form's fields in their order."""
    return [asked for _, fields in GROUPS for asked in fields]


def at(choices: Json, path: str) -> Any:
    """What choices say under a path; None where they say nothing."""
    value: Any = choices
    for key in path.split("."):
        if isinstance(value, list):
            value = value[int(key)] if key.isdigit() and int(key) < len(value) else None
        else:
            value = value.get(key) if isinstance(value, dict) else None
    return value


def text_of(value: Any) -> str:
    """A value of choices as the form has it."""
    if value is None or value is False:
        return ""
    if value is True:
        return "yes"
    return f"{value:.10g}" if isinstance(value, int | float) else str(value)


def is_number(text: str) -> bool:
    """Whether a text is a plain number, without a unit."""
    return bool(_NUMBER.fullmatch(text))


def value_of(asked: Asked, text: str) -> Any:
    """What a text says: a plain number where one stands, else the text, which choices.check reads or refuses."""
    if asked.kind == "flag":
        return True
    if asked.kind in ("length", "number", "count") and _NUMBER.fullmatch(text):
        number = float(text.replace(",", "."))
        # a comma with three digits may be thousands: lengths asks back
        if not (asked.kind == "length" and re.search(r",\d{3}$", text)):
            return int(number) if number == int(number) else number
    if asked.numbers and _NUMBER.fullmatch(text):
        return float(text)
    return text


def _put(made: Json, asked: Asked, text: str) -> None:
    *tables, key = asked.path.split(".")
    if key.isdigit():
        _put_span(made, tables, int(key), value_of(asked, text) if text else None)
        return
    table = made
    for name in tables:
        if not isinstance(table.get(name), dict):
            table[name] = {}
        table = table[name]
    if text:
        table[key] = value_of(asked, text)
    else:
        table.pop(key, None)


def _put_span(made: Json, tables: list[str], at: int, value: Any) -> None:
    *outer, name = tables
    table = made
    for each in outer:
        table = table.setdefault(each, {})
    span = list(table.get(name) or [None, None])
    span[at] = value
    table[name] = span


def _fitted(made: Json, under: InForce) -> Json:
    """Without what the kinds chosen have no use for, and without tables that are left empty."""
    kit = made.get("head_kit", {})
    if kit.get("profile") in (None, "none"):
        made["head_kit"] = "none"
    for name, kinds in _TABLES_OF.items():
        wanted = kinds.get(str(made[name].get("kind")))
        if wanted:
            made[name] = {key: value for key, value in made[name].items() if key in wanted}
    for table, name, usual in (("head_seal", "band", "seal_band"), ("hardware", "limit_angle", "limit")):
        span = made[table].get(name)
        if span == [None, None]:
            del made[table][name]
        elif span:
            pairs = zip(span, under.default(usual), strict=True)
            made[table][name] = [end if given is None else given for given, end in pairs]
    made["holes"].pop("per_flat" if made.get("wall") == SMOOTH_WALL else "head", None)
    for name in ("clearance", "opening", "mass", "hardware", "holes", "tolerance"):
        if made.get(name) == {}:
            del made[name]
    return made
