"""Facts about the site itself: its epoch, its own device and that device's counter."""

import secrets

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from .ids import uuid7
from .models import Fact

# Carried by what the site itself records, as `issue` entries of a load.
SITE_PERSON = "00000000-0000-7000-8000-000000000000"


def get(session: Session, name: str) -> str | None:
    """The fact's value, None where it was never put."""
    return session.scalar(select(Fact.value).where(Fact.name == name))


def put(session: Session, name: str, value: str) -> None:
    """Set a fact."""
    session.merge(Fact(name=name, value=value))
    session.flush()


def started(session: Session) -> bool:
    """Whether the site has all that a first start makes."""
    return all(get(session, name) is not None for name in ("epoch", "device", "count"))


def first_start(session: Session) -> None:
    """Make what a new site needs, once."""
    for name, value in (("epoch", secrets.token_hex(8)), ("device", uuid7()), ("count", "0")):
        if get(session, name) is None:
            put(session, name, value)


def epoch(session: Session) -> str:
    """Changes only when an older backup is restored; cursors of another one start anew."""
    return get(session, "epoch") or ""


def site_device(session: Session) -> str:
    """Device id of entries made on a page or by the site."""
    return get(session, "device") or ""


def next_count(session: Session, how_many: int = 1) -> int:
    """The first of `how_many` fresh counts of the site's device. Inside a write transaction."""
    count = int(get(session, "count") or "0") + 1
    session.execute(update(Fact).where(Fact.name == "count").values(value=str(count + how_many - 1)))
    return count
