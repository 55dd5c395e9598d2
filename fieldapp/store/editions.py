"""Editions of catalogues: added, never changed; the newest of each is in force."""

import json
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from .base import now_ms
from .ids import sha256
from .models import Edition

# The newest edition is asked for by every plan and list; a body never changes, so it is parsed once.
_read_before: dict[str, Any] = {}
_REMEMBERED = 100


def newest(session: Session, catalogue: str) -> Edition | None:
    """The edition in force; None where there is none yet."""
    query = select(Edition).where(Edition.catalogue == catalogue).order_by(Edition.number.desc()).limit(1)
    return session.scalar(query)


def of(session: Session, catalogue: str) -> list[Edition]:
    """All editions of a catalogue, the newest first."""
    query = select(Edition).where(Edition.catalogue == catalogue).order_by(Edition.number.desc())
    return list(session.scalars(query))


def numbered(session: Session, catalogue: str, number: int) -> Edition | None:
    """The edition of that number, None where there is none."""
    return session.get(Edition, (catalogue, number))


def of_hash(session: Session, hash: str) -> Edition | None:
    """The first edition with these rows."""
    return session.scalar(select(Edition).where(Edition.hash == hash).order_by(Edition.number).limit(1))


def add(
    session: Session,
    catalogue: str,
    hash: str,
    body: bytes,
    person_id: str,
    because: str = "",
    at_ms: int | None = None,
) -> Edition:
    """The next edition of a catalogue, in force from now on. Inside a write transaction.

    Two at once on PostgreSQL: the second meets the primary key and is to try again. Raises ValueError where the hash is
    not the body's own.
    """
    if sha256(body) != hash:
        raise ValueError(f"these bytes hash to {sha256(body)}, not to {hash}")
    last = session.scalar(select(func.max(Edition.number)).where(Edition.catalogue == catalogue))
    made = Edition(
        catalogue=catalogue,
        number=0 if last is None else last + 1,
        hash=hash,
        body=body.decode("utf-8"),
        person_id=person_id,
        at=now_ms() if at_ms is None else at_ms,
        because=because[:200],
    )
    session.add(made)
    session.flush()
    return made


def rows(edition: Edition) -> list[dict[str, Any]]:
    """The edition's rows, shared by all who ask: to be read, never changed."""
    if edition.hash not in _read_before:
        if len(_read_before) >= _REMEMBERED:
            _read_before.clear()
        _read_before[edition.hash] = json.loads(edition.body)["rows"]
    found: list[dict[str, Any]] = _read_before[edition.hash]
    return found
