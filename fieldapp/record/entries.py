"""What an entry is: its kinds, the shape of each kind's value, and what kind of entry suits a field.

An entry on the wire is a dict with id, v, unit, step, field, round, kind, value, replaces, packet, sheet,
person, device, count, at, offset_ms; one that has been on the server also has "server": {"standing": "kept"
or "quarantined", ...}. Lengths are whole nanometres.
"""

from collections.abc import Iterable
from hashlib import sha256
from typing import Any

Json = dict[str, Any]

# kind → {key of its value: (what it is, may be left out)}; "nm": whole nanometres; "id": an entry's id.
VALUES: dict[str, dict[str, tuple[str, bool]]] = {
    "reading": {
        "text": ("text", False),
        "nm": ("nm", True),
        "over": ("nm", True),
        "reversed": ("flag", True),
        "u": ("nm", True),
        "number": ("number", True),
        "ucum": ("text", True),
    },
    "tick": {"ticked": ("flag", False)},
    "choice": {"chosen": ("text", False)},
    "note": {"text": ("text", False)},
    "photo": {"sha256": ("hash", False), "bytes": ("count", False)},
    "move": {"sheet": ("text", False), "do": ("text", False), "nm": ("nm", False)},
    "round": {"sheet": ("text", False), "after": ("ids", False)},
    "told": {
        "sheet": ("text", False),
        "from": ("ids", False),
        "verdicts": ("words", False),
        "set_aside": ("ids", False),
        "moves": ("moves", False),
        "next": ("text or null", False),
        "chosen": ("text or null", False),
        "tools": ("numbers", False),
        "can_read": ("texts", False),
    },
    "retract": {"because": ("text", True)},
    "release": {"second": ("person", False), "covers": ("ids", False), "sha256": ("hash", False)},
    "confirm": {"of": ("id", False)},
    "ask": {"covers": ("ids", False), "because": ("text", False)},
    "signoff": {"covers": ("ids", False), "sha256": ("hash", False)},
    "review": {"of": ("id", False), "is": ("review", False), "because": ("text", True)},
    "moved": {"to": ("unit", False)},
    "issue": {"packet": ("hash", False), "others": ("hashes", True), "because": ("text", True)},
}
KINDS = tuple(VALUES)
REVIEWS = ("accepted", "returned", "concession", "admitted")

# Of a value only this reaches the state; what was typed, told or explained is read from the entry itself.
FOLDED = {
    "reading": ("nm", "over", "reversed", "u", "number", "ucum"),
    "tick": ("ticked",),
    "choice": ("chosen",),
    "note": ("text",),
    "move": ("sheet", "do", "nm"),
    "round": ("sheet", "after"),
    "release": ("second", "covers"),
    "confirm": ("of",),
    "ask": ("covers",),
    "signoff": ("covers",),
    "review": ("of", "is"),
    "issue": ("packet", "others"),
}

SUITS = {
    "length": "reading",
    "number": "reading",
    "tick": "tick",
    "choice": "choice",
    "text": "note",
    "date": "note",
    "photo": "photo",
}
VALUE_KINDS = frozenset(SUITS.values())
COVERED = frozenset({"reading", "tick", "choice", "photo", "note", "move", "round", "release", "retract", "moved"})


def covers_hash(ids: Iterable[str]) -> str:
    """SHA-256 in lower-case hex over the ids, sorted and joined by line feeds (server.md)."""
    return sha256("\n".join(sorted(ids)).encode()).hexdigest()


def is_covered(entry: Json) -> bool:
    """Whether a sign-off covers entries like this one while they stand: the kinds of COVERED, a note only
    with a field."""
    return entry["kind"] in COVERED and (entry["kind"] != "note" or entry.get("field") is not None)


def suits(entry: Json, field: Json) -> bool:
    """Whether the entry can be a value of the packet's field.

    A number in another unit than the field's (`ucum`) does not suit: it would be judged as if it were in the
    field's.
    """
    kind = field["type"]
    if SUITS.get(kind) != entry["kind"]:
        return False
    value = entry.get("value", {})
    if kind == "length":
        return "nm" in value
    if kind == "number":
        return "number" in value and field.get("ucum") in (None, value.get("ucum"))
    return True
