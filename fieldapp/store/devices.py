"""Phones by their own random ids: revoked or not, last contact, highest count."""

from collections.abc import Iterable

from sqlalchemy import select
from sqlalchemy.orm import Session

from .base import read, write
from .models import Device

_HEARD_EVERY = 60_000


def revoked(session: Session, ids: Iterable[str]) -> frozenset[str]:
    """Those of these phones that are revoked."""
    return frozenset(session.scalars(select(Device.id).where(Device.id.in_(list(ids)), Device.revoked.is_not(None))))


def heard(id: str, person_id: str, highest: int, at_ms: int) -> None:
    """Note that a phone called and how far its counter has come; at most once a minute where nothing else is new.

    Takes its own transactions.
    """
    with read() as session:
        device = session.get(Device, id)
        if (
            device is not None
            and device.highest >= highest
            and device.person_id == person_id
            and at_ms - (device.contact or 0) < _HEARD_EVERY
        ):
            return
    with write() as session:
        device = session.get(Device, id)
        if device is None:
            device = Device(id=id, label="", highest=0)
            session.add(device)
        device.highest, device.contact, device.person_id = max(device.highest, highest), at_ms, person_id
