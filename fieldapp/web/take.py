"""Taking entries: shape, whose, which unit, what is on disk; then all of a call at once or none."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ..store import entries as store
from ..store import units
from ..store.base import write
from ..store.models import Person, Unit
from . import entry_rules, entry_schemas
from .entry_fields import TEXT_LIMIT, is_uuid
from .problems import told
from .refusals import Why, bad_shape

ENTRY_LIMIT = 64 << 10


@dataclass
class Taken:
    """One entry of a call on its way: `text` is its canonical body, `why` stands once it is refused."""

    index: int
    entry: Any
    text: str = ""
    why: Why | None = None
    answer: str = ""

    def result(self) -> dict[str, Any]:
        """As it goes down."""
        id = self.entry.get("id") if type(self.entry) is dict else None
        body = {
            "index": self.index,
            "id": id if is_uuid(id) else None,
            "answer": "refused" if self.why else self.answer,
        }
        return {**body, "why": self.why.wire()} if self.why else body


def take(
    person: Person, raw: Sequence[Any], quarantine: bool, revoked: frozenset[str] = frozenset()
) -> list[Taken]:
    """Keep what can be kept, in one transaction; an answer for each, in order.

    quarantine: all of them; revoked: devices whose entries are quarantined. Needs an app context.
    """
    rows = [_looked_at(person, index, entry) for index, entry in enumerate(raw)]
    hopeful = [row for row in rows if row.text]
    if hopeful:
        _keep(person, hopeful, quarantine, revoked)
    return rows


def _looked_at(person: Person, index: int, entry: Any) -> Taken:
    """All that can be said without the disk. `text` stays empty where there is no hope."""
    row = Taken(index, entry)
    if type(entry) is not dict or not entry_schemas.entry_fits(entry):
        row.why = _unfit(entry, index)
        return row
    if entry["person"] != person.id:
        row.why = Why(
            "other_person",
            f"made by {entry['person']}, and {person.name} is signed in; sign in as whoever made it",
        )
        return row
    if not entry_rules.may_enter(person.role_set, entry["kind"]):
        row.why = Why(
            "not_allowed", f"a {entry['kind']} is not for: {', '.join(sorted(person.role_set)) or 'you'}"
        )
    elif not entry_schemas.value_fits(entry):
        row.why = _unfit(entry, index)
        return row
    try:
        row.text = store.canonical(entry)
    except (ValueError, UnicodeEncodeError):
        row.why = bad_shape({"value": ["holds what JSON has no word for"]}, index)
        return row
    if len(row.text) > ENTRY_LIMIT or (not row.text.isascii() and _bytes(row.text) > ENTRY_LIMIT):
        row.why, row.text = _entry_too_big(_bytes(row.text)), ""
    return row


def _bytes(text: str) -> int:
    return len(text.encode("utf-8", "surrogatepass"))


def _entry_too_big(size: int) -> Why:
    return Why("too_big", f"the entry has {size} bytes; at most {ENTRY_LIMIT}")


def _unfit(entry: Any, index: int) -> Why:
    """Why an entry that does not fit is refused: newer than we know, too big, or of the wrong shape."""
    if type(entry) is dict and type(entry.get("v")) is int and entry["v"] > entry_schemas.V:
        return Why(
            "too_new",
            f"v is {told(entry['v'])}; this server knows up to {entry_schemas.V} and takes it once it is newer",
        )
    longest = _longest(entry)
    if longest > TEXT_LIMIT:
        return Why("too_big", f"a text has {longest} characters; at most {TEXT_LIMIT}")
    try:
        size = _bytes(store.canonical(entry))
    except ValueError:
        size = 0  # infinite numbers: the problems name them
    if size > ENTRY_LIMIT:
        return _entry_too_big(size)
    return bad_shape(entry_schemas.problems_of(entry), index)


def _longest(value: Any) -> int:
    """Characters of the longest text inside."""
    if type(value) is str:
        return len(value)
    if type(value) is dict:
        value = list(value.values())
    return max(map(_longest, value), default=0) if type(value) is list else 0


def _keep(person: Person, rows: list[Taken], quarantine: bool, revoked: frozenset[str]) -> None:
    with write() as session:
        there = store.lock(session, {row.entry["unit"] for row in rows})
        bodies = {
            id: body for id, (_, body) in store.bodies(session, [row.entry["id"] for row in rows]).items()
        }
        bench = entry_rules.Bench(session, there)
        fresh: list[Taken] = []
        for row in rows:
            _decide(person, row, there, bodies, bench)
            if row.answer == "kept":
                entry = row.entry
                standing = "quarantined" if quarantine or entry["device"] in revoked else "kept"
                bench.kept[entry["id"]] = store.Known(
                    entry["id"], entry["unit"], entry["kind"], entry["person"], standing
                )
                bodies[entry["id"]] = row.text
                fresh.append(row)
        held_back = frozenset(k.id for k in bench.kept.values() if k.standing == "quarantined")
        store.keep(
            session,
            [row.entry for row in fresh],
            quarantined=held_back,
            texts={row.entry["id"]: row.text for row in fresh},
        )


def _decide(
    person: Person, row: Taken, there: dict[str, Unit], bodies: dict[str, str], bench: entry_rules.Bench
) -> None:
    entry = row.entry
    before = bodies.get(entry["id"])
    if before is not None:
        row.why = None
        if before == row.text:
            row.answer = "had_it"
        else:
            row.why = Why(
                "id_taken",
                f"id {entry['id']} is on disk with other content; the entry needs an id of its own",
            )
        return
    if row.why is not None:
        return
    unit = there.get(entry["unit"])
    if unit is None or not units.sees(person, unit):
        row.why = Why(
            "not_yours",
            f"unit {entry['unit']} is not here, or not yours; one of your own units would be right",
        )
        return
    row.why = entry_rules.check(bench, entry, row.index)
    if row.why is None:
        row.answer = "kept"
