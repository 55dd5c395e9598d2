"""Entries: inserted together, never changed, read by sequence.

Within a unit `seq` is commit order: `lock` the units of a call first, in order of id, in a write transaction.
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Any

from sqlalchemy import bindparam, func, insert, select, update
from sqlalchemy.orm import Session

from .base import now_ms
from .ids import rfc3339
from .models import Entry, PhotoNamed, Unit

Wire = dict[str, Any]
CHUNK = 500

# One encoder for what is kept and what goes down: the same entry is the same text.
canonical = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False).encode


@dataclass(frozen=True)
class Known:
    """What is on disk of an entry, as far as another one may ask about it."""

    id: str
    unit: str
    kind: str
    person: str
    standing: str


@dataclass(frozen=True)
class Row:
    """An entry as it goes down: `text` is its JSON with `server`."""

    seq: int
    text: str


def lock(session: Session, unit_ids: Iterable[str]) -> dict[str, Unit]:
    """Lock these units in order of id until the transaction ends; those that are here, by id."""
    found: dict[str, Unit] = {}
    for some in _chunks(sorted(set(unit_ids))):
        query = select(Unit).where(Unit.id.in_(some)).order_by(Unit.id).with_for_update(of=Unit)
        found.update((unit.id, unit) for unit in session.scalars(query.execution_options(populate_existing=True)))
    return found


def bodies(session: Session, ids: Iterable[str]) -> dict[str, str]:
    """{id: canonical body} of those of these entries that are on disk."""
    found: dict[str, str] = {}
    for some in _chunks(list(ids)):
        query = select(Entry.id, Entry.body).where(Entry.id.in_(some))
        found.update((id, body) for id, body in session.execute(query))
    return found


def known(session: Session, ids: Iterable[str]) -> dict[str, Known]:
    """{id: Known} of those of these entries that are on disk."""
    found: dict[str, Known] = {}
    for some in _chunks(list(ids)):
        query = select(Entry.id, Entry.unit_id, Entry.kind, Entry.person_id, Entry.standing).where(Entry.id.in_(some))
        found.update((row[0], Known(*row)) for row in session.execute(query))
    return found


def keep(
    session: Session,
    entries: Sequence[Wire],
    *,
    received: int | None = None,
    standing: str = "kept",
    quarantined: frozenset[str] = frozenset(),
    texts: Mapping[str, str] | None = None,
) -> None:
    """Insert entries that are not here yet, in the order given; their units' sequences rise.

    entries: wire entries, checked before; received: server time, ms; standing: of all of them, but those whose id is
    in `quarantined`; texts: their canonical bodies by id, where made before. Inside a write transaction; the units
    must exist and, where others write too, be locked.
    """
    if not entries:
        return
    moment = now_ms() if received is None else received
    last = _last_seqs(session, {entry["unit"] for entry in entries})
    rows: list[tuple[Any, ...]] = []
    for entry in entries:
        unit, id = entry["unit"], entry["id"]
        last[unit] = seq = last[unit] + 1
        stands = "quarantined" if id in quarantined else standing
        text = texts[id] if texts else canonical(entry)
        rows.append((unit, seq, id, entry["kind"], entry["person"], stands, moment, text))
    _insert(session, rows)
    _raise_seqs(session, last)
    _name_photos(session, entries)


_COLUMNS = ("unit_id", "seq", "id", "kind", "person_id", "standing", "received", "body")


def _insert(session: Session, rows: list[tuple[Any, ...]]) -> None:
    """One statement for all rows, compiled for the database at hand; its values go to the driver as they are."""
    connection = session.connection()
    table = Entry.__table__
    compiled = insert(table).compile(dialect=connection.dialect, column_keys=list(_COLUMNS))  # type: ignore[arg-type]
    if compiled.positional:
        order = [_COLUMNS.index(name) for name in compiled.positiontup or ()]
        pick = itemgetter(*order)
        connection.exec_driver_sql(str(compiled), [pick(row) for row in rows])
    else:
        connection.exec_driver_sql(str(compiled), [dict(zip(_COLUMNS, row, strict=True)) for row in rows])


def _last_seqs(session: Session, unit_ids: set[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for some in _chunks(sorted(unit_ids)):
        rows = session.execute(select(Unit.id, Unit.last_seq).where(Unit.id.in_(some)))
        found.update((id, seq) for id, seq in rows)
    return found


def _raise_seqs(session: Session, last: Mapping[str, int]) -> None:
    table = Unit.__table__
    statement = update(table).where(table.c.id == bindparam("which")).values(last_seq=bindparam("newest"))  # type: ignore[arg-type]
    session.execute(statement, [{"which": id, "newest": seq} for id, seq in last.items()])


def _name_photos(session: Session, entries: Sequence[Wire]) -> None:
    named = {(entry["value"]["sha256"], entry["unit"]) for entry in entries if entry["kind"] == "photo"}
    for sha256, unit_id in sorted(named):
        session.merge(PhotoNamed(sha256=sha256, unit_id=unit_id))
    if named:
        session.flush()


def after(session: Session, unit_id: str, seq: int, limit: int) -> list[Row]:
    """At most `limit` entries of a unit after a sequence, in order of arrival, with `server`."""
    query = (
        select(Entry.seq, Entry.body, Entry.received, Entry.standing)
        .where(Entry.unit_id == unit_id, Entry.seq > seq)
        .order_by(Entry.seq)
        .limit(limit)
    )
    return [
        Row(seq, _with_server(body, seq, received, standing))
        for seq, body, received, standing in session.execute(query)
    ]


def _with_server(body: str, seq: int, received: int, standing: str) -> str:
    return f'{body[:-1]},"server":{{"received":"{rfc3339(received)}","seq":{seq},"standing":"{standing}"}}}}'


def wire(session: Session, unit_id: str, after_seq: int = 0) -> Iterator[Wire]:
    """All entries of a unit after a sequence as data, with `server`, in order of arrival."""
    while True:
        rows = after(session, unit_id, after_seq, CHUNK)
        if not rows:
            return
        yield from (json.loads(row.text) for row in rows)
        after_seq = rows[-1].seq


def of_kind(session: Session, unit_id: str, kind: str) -> list[Wire]:
    """A unit's entries of one kind as data, in order of arrival."""
    query = select(Entry.body).where(Entry.unit_id == unit_id, Entry.kind == kind).order_by(Entry.seq)
    return [json.loads(body) for body in session.scalars(query)]


def standing_issues(session: Session, unit_id: str) -> list[str]:
    """Ids of the `issue` entries that no other one replaces: at most one, where all went well."""
    issues = of_kind(session, unit_id, "issue")
    replaced = {id for issue in issues for id in issue["replaces"]}
    return [issue["id"] for issue in issues if issue["id"] not in replaced]


def newest_seq(session: Session, unit_id: str) -> int:
    """Sequence of the unit's newest entry on disk, 0 before any."""
    return session.scalar(select(func.max(Entry.seq)).where(Entry.unit_id == unit_id)) or 0


def _chunks(items: Sequence[str]) -> Iterator[Sequence[str]]:
    for start in range(0, len(items), CHUNK):
        yield items[start : start + CHUNK]
