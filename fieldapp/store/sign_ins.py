"""Sessions and failed attempts. A token is kept as its SHA-256 alone, so the database gives nobody in."""

import secrets
from dataclasses import dataclass

from sqlalchemy import delete, func, or_, select, update
from sqlalchemy.orm import Session

from .base import now_ms
from .ids import sha256
from .models import Attempt, Person, SignIn

DAYS_90 = 90 * 86_400_000
_TOUCH_EVERY = 3_600_000
WINDOW = 5 * 60_000
_LIMITS = {"name": 10, "ip": 200}


@dataclass(frozen=True)
class Visitor:
    """Who asks: the person, the session's phone, and whether either was revoked."""

    person: Person
    device_id: str | None
    revoked: bool
    token: str
    touch: bool


def start(session: Session, person_id: str, device_id: str | None) -> str:
    """A new session; returns the token for the cookie. Ended ones are swept."""
    token, now = secrets.token_urlsafe(32), now_ms()
    session.execute(delete(SignIn).where(SignIn.used < now - DAYS_90))
    session.add(SignIn(token=sha256(token.encode()), person_id=person_id, device_id=device_id, made=now, used=now))
    return token


def visitor(session: Session, token: str) -> Visitor | None:
    """Who carries this token; None where the session is none or was not used for 90 days (server time)."""
    row = session.get(SignIn, sha256(token.encode("utf-8", "replace")))
    now = now_ms()
    if row is None or row.used < now - DAYS_90:
        return None
    revoked = row.person.revoked is not None or (row.device is not None and row.device.revoked is not None)
    return Visitor(row.person, row.device_id, revoked, row.token, row.used < now - _TOUCH_EVERY)


def touch(session: Session, token_hash: str) -> None:
    """The session was used now."""
    session.execute(update(SignIn).where(SignIn.token == token_hash).values(used=now_ms()))


def end(session: Session, token_hash: str) -> None:
    """The session is over."""
    session.execute(delete(SignIn).where(SignIn.token == token_hash))


def wait_seconds(session: Session, name: str, address: str) -> int:
    """How long this name or address must wait before it may try again, 0: not at all. Only failures count."""
    since, wait = now_ms() - WINDOW, 0
    for key in _keys(name, address):
        count, oldest = session.execute(
            select(func.count(), func.min(Attempt.at)).where(Attempt.key == key, Attempt.at > since)
        ).one()
        if count >= _LIMITS[key.partition(":")[0]]:
            wait = max(wait, (oldest - since) // 1000 + 1)
    return wait


def failed(session: Session, name: str, address: str) -> None:
    """One more failure for this name and address; old ones are swept."""
    now = now_ms()
    session.execute(delete(Attempt).where(or_(Attempt.at <= now - WINDOW, Attempt.at > now)))
    session.add_all(Attempt(key=key, at=now) for key in _keys(name, address))


def succeeded(session: Session, name: str) -> None:
    """The name's failures are forgotten."""
    session.execute(delete(Attempt).where(Attempt.key == _keys(name, "")[0]))


def _keys(name: str, address: str) -> tuple[str, str]:
    return f"name:{sha256(name.encode('utf-8', 'replace'))}", f"ip:{address[:60]}"
