"""Taking entries: shape, whose, which unit, what is on disk; then all of a call at once or none."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ..store import entries as store
from ..store import units
from ..store.base import write
from ..store.models import Person
from . import entry_rules, entry_schemas
from .entry_fields import TEXT_LIMIT, is_uuid
from .problems import told
from .refusals import Why, bad_shape

ENTRY_LIMIT = 64 << 10


@dataclass(slots=True)
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


@dataclass(slots=True)
class Sender:
    """Who sends, looked up once a call."""

    id: str
    name: str
    enters: frozenset[str]
    roles: str

    @classmethod
    def of(cls, person: Person) -> "Sender":
        roles = person.role_set
        return cls(person.id, person.name, entry_rules.enters(roles), ", ".join(sorted(roles)) or "you")


def take(person: Person, raw: Sequence[Any], quarantine: bool, revoked: frozenset[str] = frozenset()) -> list[Taken]:
    """Keep what can be kept, in one transaction; an answer for each, in order.

    quarantine: all of them; revoked: devices whose entries are quarantined. Needs an app context.
    """
    sender = Sender.of(person)
    rows = [_looked_at(sender, index, entry) for index, entry in enumerate(raw)]
    hopeful = [row for row in rows if row.text]
    if hopeful:
        _keep(person, hopeful, quarantine, revoked)
    return rows


def _looked_at(sender: Sender, index: int, entry: Any) -> Taken:
    """All that can be said without the disk. `text` stays empty where there is no hope."""
    row = Taken(index, entry)
    if type(entry) is not dict or not entry_schemas.entry_fits(entry):
        row.why = _unfit(entry, index)
    elif entry["person"] != sender.id:
        say = f"made by {entry['person']}, and {sender.name} is signed in; sign in as whoever made it"
        row.why = Why("other_person", say)
    elif entry["kind"] not in sender.enters:
        row.why = Why("not_allowed", f"kind {entry['kind']} is not for: {sender.roles}")
        row.text = _text(entry) or ""  # it may be on disk from when it was
    elif not entry_schemas.value_fits(entry):
        row.why = _unfit(entry, index)
    else:
        row.text = store.canonical(entry)
        size = len(row.text)
        if size > ENTRY_LIMIT or (size > ENTRY_LIMIT // 4 and (size := _bytes(row.text)) > ENTRY_LIMIT):
            row.why, row.text = _entry_too_big(_bytes(row.text)), ""
    return row


def _text(entry: Any) -> str | None:
    """The canonical text, None where there is none."""
    try:
        return store.canonical(entry)
    except ValueError:  # infinite
        return None


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
    size = _bytes(_text(entry) or "")
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
        bodies = store.bodies(session, [row.entry["id"] for row in rows])
        bench = entry_rules.Bench(session, {id: unit for id, unit in there.items() if units.sees(person, unit)})
        fresh: list[Taken] = []
        for row in rows:
            _decide(row, bodies, bench)
            if row.answer == "kept":
                id = row.entry["id"]
                bench.kept[id], bodies[id] = row.entry, row.text
                if quarantine or row.entry["device"] in revoked:
                    bench.quarantined.add(id)
                fresh.append(row)
        store.keep(
            session,
            [row.entry for row in fresh],
            quarantined=frozenset(bench.quarantined),
            texts={row.entry["id"]: row.text for row in fresh},
        )


def _decide(row: Taken, bodies: dict[str, str], bench: entry_rules.Bench) -> None:
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
    if entry["unit"] not in bench.units:
        row.why = Why(
            "not_yours",
            f"unit {entry['unit']} is not here, or not yours; one of your own units would be right",
        )
        return
    row.why = entry_rules.check(bench, entry, row.index)
    if row.why is None:
        row.answer = "kept"
