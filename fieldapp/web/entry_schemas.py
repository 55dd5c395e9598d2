"""The shape of an entry at the door (server.md, "An entry"): one schema for the whole, one for each kind's value."""

from collections.abc import Callable
from typing import Any

from marshmallow import RAISE, Schema

from ..record.entries import KINDS, REVIEWS, covers_hash
from . import entry_fields as f
from .problems import told

V = 1
COVERS_LIMIT = 1600
_NAME = (1, 100)
_IDS = 500


class Strict(Schema):
    """Unknown fields are refused."""

    class Meta:
        unknown = RAISE

    error_messages = {"unknown": "no field of that name is known here; leave it out"}  # noqa: RUF012


def _is_move(value: Any) -> bool:
    return (
        type(value) is dict
        and set(value) == {"do", "nm"}
        and f.is_text(value["do"], *_NAME)
        and f.is_whole(value["nm"])
    )


_WHOLE = {"type": "integer"}
_LENGTH = {
    "nm": f.Checked(f.is_whole, "whole nanometres, at most 15 digits", _WHOLE),
    "over": f.whole(1, required=False),
    "reversed": f.flag(required=False),
    "u": f.whole(0, required=False),
}
_NUMBER = {
    "number": f.Checked(f.is_number, "a finite number of at most 15 digits", {"type": "number"}),
    "ucum": f.text(0, 40),
}
_BECAUSE = f.reason()

_VALUES: dict[str, dict[str, f.Checked]] = {
    "tick": {"ticked": f.flag()},
    "choice": {"chosen": f.text(*_NAME)},
    "note": {"text": f.text(1, f.TEXT_LIMIT)},
    "photo": {"sha256": f.hash256(), "bytes": f.whole(1, 12 << 20)},
    "move": {"sheet": f.text(*_NAME), "do": f.text(*_NAME), "nm": _LENGTH["nm"]},
    "round": {"sheet": f.text(*_NAME), "after": f.uuids(_IDS)},
    "told": {
        "sheet": f.text(*_NAME),
        "from": f.uuids(_IDS),
        "verdicts": f.obj(
            f.nullable(lambda v: f.is_text(v, 1, 40)),
            "texts of 1 to 40 characters, or null",
            {"type": ["string", "null"]},
        ),
        "set_aside": f.uuids(_IDS),
        "moves": f.Each(_is_move, '{"do": text, "nm": whole nanometres}', {"type": "object"}, 100),
        "next": f.text(1, 100, null=True),
        "chosen": f.text(1, 100, null=True),
        "tools": f.Checked(
            f.nullable(
                lambda v: (
                    type(v) is dict
                    and set(v) <= {"tape", "level"}
                    and all(x is None or f.is_number(x) for x in v.values())
                )
            ),
            '{"tape": number, "level": number} or null',
            {"type": ["object", "null"]},
        ),
        "can_read": f.texts(100, 100, null=True),
    },
    "retract": {"because": _BECAUSE},
    "release": {"second": f.uuid(), "covers": f.uuids(COVERS_LIMIT), "sha256": f.hash256()},
    "confirm": {"of": f.uuid()},
    "ask": {"covers": f.uuids(COVERS_LIMIT), "because": _BECAUSE},
    "signoff": {"covers": f.uuids(COVERS_LIMIT), "sha256": f.hash256()},
    "review": {"of": f.uuid(), "is": f.one_of(REVIEWS), "because": _BECAUSE},
    "moved": {"to": f.uuid()},
    "issue": {
        "packet": f.hash256(),
        "others": f.obj(f.is_hash, "hashes", {"type": "string"}),
        "because": _BECAUSE,
    },
}
LENGTH_READING = Strict.from_dict({"text": f.text(1, f.TEXT_LIMIT), **_LENGTH}, name="LengthReading")()
NUMBER_READING = Strict.from_dict({"text": f.text(1, f.TEXT_LIMIT), **_NUMBER}, name="NumberReading")()
VALUES: dict[str, Schema] = {
    kind: Strict.from_dict(dict(fields), name=f"{kind.capitalize()}Value")() for kind, fields in _VALUES.items()
}

ENTRY = Strict.from_dict(
    {
        "id": f.uuid(),
        "v": f.whole(V, V),
        "unit": f.usual_uuid(),
        "step": f.text(*_NAME, null=True),
        "field": f.text(*_NAME, null=True),
        "round": f.uuid(null=True),
        "kind": f.one_of(KINDS),
        "value": f.Checked(lambda v: type(v) is dict, "an object", {"type": "object"}),
        "replaces": f.uuids(50),
        "packet": f.hash256(null=True),
        "sheet": f.hash256(null=True),
        "person": f.usual_uuid(),
        "device": f.usual_uuid(),
        "count": f.whole(0),
        "at": f.Checked(
            f.is_time,
            "an RFC 3339 time with milliseconds and zone",
            {"type": "string", "format": "date-time"},
        ),
        "offset_ms": f.whole(-(10**15) + 1, null=True),
    },
    name="Entry",
)()


def value_schema(kind: str, value: Any) -> Schema:
    """The schema of an entry's value; a reading's depends on whether it is a length or a number."""
    if kind == "reading":
        number = type(value) is dict and ("number" in value or "ucum" in value) and "nm" not in value
        return NUMBER_READING if number else LENGTH_READING
    return VALUES[kind]


def _compiled(schema: Schema) -> Callable[[dict[str, Any]], bool]:
    """The schema as a plain function: says whether an object fits, and nothing else, fast."""
    checks = {
        name: (field.fits, field.required) for name, field in schema.fields.items() if isinstance(field, f.Checked)
    }
    assert len(checks) == len(schema.fields)
    needed = [(name, fits) for name, (fits, required) in checks.items() if required]
    others = {name: fits for name, (fits, required) in checks.items() if not required}

    def fits_all(value: dict[str, Any]) -> bool:
        for name, fits in needed:
            if name not in value or not fits(value[name]):
                return False
        if len(value) == len(needed):
            return True
        left = value.keys() - checks.keys()
        return not left and all(fits(value[name]) for name, fits in others.items() if name in value)

    return fits_all


entry_fits = _compiled(ENTRY)
_FAST = {id(schema): _compiled(schema) for schema in (*VALUES.values(), LENGTH_READING, NUMBER_READING)}


def value_fits(entry: dict[str, Any]) -> bool:
    """Whether the value of an entry that fits suits its kind, its hash over `covers` included."""
    value = entry["value"]
    fast = _FAST[id(value_schema(entry["kind"], value))]
    return fast(value) and (
        "sha256" not in value or "covers" not in value or value["sha256"] == covers_hash(value["covers"])
    )


def problems_of(entry: Any) -> dict[str, list[str]]:
    """What is wrong with an entry, sentences by dotted path (`value.nm`); empty: it fits."""
    if type(entry) is not dict:
        return {"": [f"{told(entry)}: an object would be right"]}
    found = flat(ENTRY.validate(entry))
    kind, value = entry.get("kind"), entry.get("value")
    if type(kind) is str and kind in VALUES | {"reading": None} and type(value) is dict:
        wrong = value_schema(kind, value).validate(value)
        found.update(flat(wrong, "value."))
        if not wrong and not value_fits({"kind": kind, "value": value}):
            found["value.sha256"] = [
                f"{value['sha256'][:12]}… is not the SHA-256 over the {len(value['covers'])} ids of "
                "covers, sorted and joined by line feeds"
            ]
    return found


def flat(errors: Any, path: str = "") -> dict[str, list[str]]:
    """marshmallow's nested errors by dotted path."""
    if isinstance(errors, list):
        return {path.rstrip("."): [str(e) for e in errors]}
    found: dict[str, list[str]] = {}
    for name, below in errors.items():
        found.update(flat(below, f"{path}{told(str(name))}."))
    return found
