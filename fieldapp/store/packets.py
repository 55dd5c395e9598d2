"""Packets and parts: kept by their hash, never changed, issued to units."""

import json
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from . import entries, facts
from .base import now_ms
from .ids import rfc3339, sha256, uuid7
from .models import Document, Issued, Person, Unit

# Documents never change, so what was parsed once serves every unit and thread.
_read_before: dict[str, Any] = {}
_REMEMBERED = 500


def put(session: Session, hash: str, body: bytes) -> None:
    """Keep a document under its hash; kept before: nothing happens. Raises ValueError where the hash is not its own."""
    if sha256(body) != hash:
        raise ValueError(f"these bytes hash to {sha256(body)}, not to {hash}")
    if session.scalar(select(Document.hash).where(Document.hash == hash)) is None:
        session.add(Document(hash=hash, body=body))
        session.flush()


def issue(
    session: Session,
    unit: Unit,
    hash: str,
    body: bytes,
    parts: Mapping[str, bytes],
    because: str,
    *,
    person_id: str = facts.SITE_PERSON,
    others: Mapping[str, str] | None = None,
    at_ms: int | None = None,
    entry_id: str | None = None,
) -> dict[str, object]:
    """Issue a packet to a unit: document, parts and the `issue` entry, which replaces the one before.

    Returns the entry.

    at_ms: when, milliseconds; now when None. `others`: other languages, their documents put before.
    Inside a write transaction.
    """
    for name, content in ((hash, body), *parts.items()):
        put(session, name, content)
    for name, is_packet in ((hash, 1), *((h, 1) for h in (others or {}).values()), *((h, 0) for h in parts)):
        session.merge(Issued(unit_id=unit.id, hash=name, is_packet=is_packet))
    session.flush()
    moment = now_ms() if at_ms is None else at_ms
    entry: dict[str, object] = {
        "id": entry_id or uuid7(moment),
        "v": 1,
        "unit": unit.id,
        "step": None,
        "field": None,
        "round": None,
        "kind": "issue",
        "value": {"packet": hash, "others": dict(others or {}), "because": because},
        "replaces": entries.standing_issues(session, unit.id),
        "packet": hash,
        "sheet": None,
        "person": person_id,
        "device": facts.site_device(session),
        "count": facts.next_count(session),
        "at": rfc3339(moment),
        "offset_ms": 0,
    }
    entries.keep(session, [entry], received=moment)
    session.execute(update(Unit).where(Unit.id == unit.id).values(packet=hash))
    session.refresh(unit)
    return entry


def body(session: Session, hash: str) -> bytes | None:
    """The document's bytes, whoever asks."""
    return session.scalar(select(Document.body).where(Document.hash == hash))


def seen_body(session: Session, person: Person, hash: str) -> bytes | None:
    """The bytes of a packet or part that was ever issued for a unit this person sees, else None."""
    query = select(Document.body).join(Issued, Issued.hash == Document.hash).join(Unit, Unit.id == Issued.unit_id)
    if person.crew_id is not None:
        query = query.where(Unit.crew_id == person.crew_id)
    return session.scalar(query.where(Document.hash == hash).limit(1))


def packet(session: Session, unit: Unit, named: str | None) -> dict[str, Any] | None:
    """The packet that an entry names where it was issued to the unit, else the one in force; None: no plan yet."""
    plans = parsed(session, issued_hashes(session, unit.id))
    return plans.get(named or "") or plans.get(unit.packet or "")


def in_language(session: Session, unit: Unit, lang: str) -> str | None:
    """Hash of the packet in force in that language, the English one where it was not issued in it; None: no plan."""
    issues = {issue["id"]: issue for issue in entries.of_kind(session, unit.id, "issue")}
    standing = [issues[id]["value"] for id in entries.standing_issues(session, unit.id)]
    others: dict[str, str] = next((value["others"] for value in standing if value["packet"] == unit.packet), {})
    return others.get(lang) or unit.packet


def issued_hashes(session: Session, unit_id: str) -> list[str]:
    """Hashes of all packets ever issued to the unit."""
    return list(session.scalars(select(Issued.hash).where(Issued.unit_id == unit_id, Issued.is_packet == 1)))


def parsed(session: Session, hashes: list[str]) -> dict[str, Any]:
    """{hash: document as data} of those that are here. Shared by all who ask: to be read, never changed."""
    missing = [hash for hash in dict.fromkeys(hashes) if hash not in _read_before]
    fresh = {hash: json.loads(content) for hash, content in documents(session, missing).items()}
    if len(_read_before) + len(fresh) > _REMEMBERED:
        _read_before.clear()
    _read_before.update(fresh)
    found = {hash: _read_before.get(hash) or fresh.get(hash) for hash in hashes}
    return {hash: document for hash, document in found.items() if document is not None}


def documents(session: Session, hashes: list[str]) -> dict[str, bytes]:
    """The bytes of these documents, those that are here."""
    query = select(Document.hash, Document.body).where(Document.hash.in_(hashes))
    return {row.hash: row.body for row in session.execute(query)} if hashes else {}
