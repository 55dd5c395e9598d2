"""A calculator by hand: its fields as rows of a plain form, and what was typed there as the JSON that it takes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from marshmallow import Schema

from fieldapp.work.fields import MOST_ITEMS, Asked, Choice, Doubted, Flag, Json, Number
from fieldapp.work.shapes import ByKind, Fixed, Items, Part

_NOTHING = object()
BETWEEN = ";"
FURTHER = 6  # blank items that a touch of a list's button adds


@dataclass(frozen=True)
class Row:
    """One line of the form. control: head (a group's heading), text, choice, more (asks for blank items of a list)."""

    path: str
    say: str
    right: str
    control: str
    value: str = ""
    options: tuple[str, ...] = ()
    needed: bool = False
    usual: str = ""
    problems: tuple[str, ...] = ()
    item: int = 0  # of a list's item its number, from 1
    group: str = ""  # the path of what it stands in
    first: bool = False  # it follows a group that it is no part of


def rows(takes: Schema, data: Any, problems: Mapping[str, list[str]], more: str = "") -> list[Row]:
    """The form's rows, filled with `data`, each with its problems; of lists some blank items more than there are,
    and of the list at the path `more` further ones.
    """
    found = [row for name, field in _fields(takes).items()
             for row in _rows(field, name, data.get(name, _NOTHING), problems, more)]
    before = ["", *(row.group for row in found)]
    return [replace(row, first=len(prev) > len(row.group)) for prev, row in zip(before, found, strict=False)]


def built(takes: Schema, form: Mapping[str, str]) -> Json:
    """What was typed into the form, {path: text}, as the JSON object that the calculator takes; blanks left out."""
    return _object(_fields(takes), "", form)


def _fields(schema: Schema) -> dict[str, Asked]:
    return {name: field for name, field in schema.fields.items() if isinstance(field, Asked)}


def _inner(field: Asked) -> dict[str, Asked] | None:
    """The fields of an object; None where the field is none."""
    if isinstance(field, Fixed):
        return _inner(field.other)
    if isinstance(field, Part):
        return _fields(field.schema)
    if isinstance(field, ByKind):
        merged = {name: one for schema in field.kinds.values() for name, one in _fields(schema).items()}
        return merged | {"kind": Choice("which kind", tuple(field.kinds), needed=False)}
    return None


def _text(value: Any) -> str:
    if value is _NOTHING or value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"{BETWEEN} ".join(_text(one) for one in value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def _rows(field: Asked, path: str, value: Any, problems: Mapping[str, list[str]], more: str,
          must: bool = True) -> Iterator[Row]:
    """must: what it stands in has to be there; of what may be left out no part is needed."""
    found = tuple(problems.get(path, ()))
    inner = _inner(field)
    must = must and (field.required or value is not _NOTHING) and not (isinstance(field, Fixed) and value == field.word)
    if inner is not None:
        held = value if isinstance(value, dict) else {}
        yield Row(path, field.say, field.words(), "head", needed=field.required and must, problems=found)
        for name, one in inner.items():
            yield from _rows(one, f"{path}.{name}", held.get(name, _NOTHING), problems, more, must)
    elif isinstance(field, Items) and _inner(field.of) is not None:
        yield Row(path, field.say, field.words(), "head", needed=field.required and must, problems=found)
        items = value if isinstance(value, list) else []
        blank = field.offered + (FURTHER if path == more else 0)
        for i, item in enumerate([*items, *[{}] * blank][:field.most]):
            # of a list that must not be empty the first one is needed
            head, *rest = _rows(field.of, f"{path}.{i}", item, problems, more, must and (i < len(items) or i == 0))
            yield replace(head, item=i + 1, say=head.say if i < len(items) else "if there is one" if i else "")
            yield from rest
        if len(items) + blank < field.most:
            yield Row(path, field.say, "", "more", group=path)
    else:
        doubted = isinstance(field, Doubted) and isinstance(value, dict)
        yield _leaf(field, path, value["value"] if doubted and "value" in value else value, found, problems,
                    must)
        if isinstance(field, Doubted):
            of_it = _leaf(field.doubt, f"{path}.u", value.get("u", _NOTHING) if doubted else _NOTHING,
                          tuple(problems.get(f"{path}.u", ())), {}, must)
            yield replace(of_it, group=path.rpartition(".")[0])


def _leaf(field: Asked, path: str, value: Any, found: tuple[str, ...], problems: Mapping[str, list[str]],
          must: bool) -> Row:
    below = tuple(sentence for where, sentences in problems.items() for sentence in sentences
                  if where.startswith(path + ".") and not where.endswith(".u"))
    flags = ("true", "false") if isinstance(field, Flag) else ()
    options = tuple(map(str, field.of)) if isinstance(field, Choice) else flags
    right = field.plain.words() if isinstance(field, Doubted) else field.words()
    return Row(path, field.say, right, "choice" if options else "text", _text(value), options,
               field.required and must and not field.nullable, _text(field.usual), found + below,
               group=path.rpartition(".")[0])


def _object(fields: Mapping[str, Asked], path: str, form: Mapping[str, str]) -> Json:
    made = {name: _built(field, f"{path}{name}", form) for name, field in fields.items()}
    return {name: value for name, value in made.items() if value is not _NOTHING}


def _built(field: Asked, path: str, form: Mapping[str, str]) -> Any:
    inner = _inner(field)
    if inner is not None:
        made: Any = _object(inner, f"{path}.", form)
        if not field.required and all(one is None for one in made.values()):
            made = {}  # nothing was typed into what may be left out
        return made or (field.word if isinstance(field, Fixed) else _NOTHING)
    if isinstance(field, Items) and _inner(field.of) is not None:
        items = [_built(field.of, f"{path}.{i}", form) for i in _indexes(path, form)]
        return [item for item in items if item is not _NOTHING] or _NOTHING
    text = form.get(path, "").strip()
    doubt = form.get(f"{path}.u", "").strip() if isinstance(field, Doubted) else ""
    if not text and not doubt:
        return None if field.nullable and field.required else _NOTHING
    if isinstance(field, Items):
        return [_value(field.of, one.strip()) for one in text.split(BETWEEN) if one.strip()]
    value = _value(field, text)
    return {"value": value, "u": _value(field.doubt, doubt)} if isinstance(field, Doubted) and doubt else value


def _indexes(path: str, form: Mapping[str, str]) -> list[int]:
    """Which items of a list the form has."""
    found = {rest.split(".")[0] for key in form if key.startswith(f"{path}.") for rest in [key[len(path) + 1:]]}
    return sorted(int(one) for one in found if one.isascii() and one.isdigit() and len(one) < 4)[:MOST_ITEMS]


def _value(field: Asked, text: str) -> Any:
    """A typed text as JSON: numbers and truth values where the field takes them, else as typed."""
    if isinstance(field, Doubted):
        return _value(field.plain, text)
    if isinstance(field, Choice):
        return next((one for one in field.of if str(one) == text), text)
    if isinstance(field, Flag):
        return {"true": True, "false": False}.get(text, text)
    if isinstance(field, Number):
        try:
            number = float(text.replace(",", "."))
        except ValueError:
            return text
        return int(number) if number.is_integer() else number
    return text
