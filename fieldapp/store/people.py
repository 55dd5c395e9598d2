"""People, crews, phones: who there is, what they may do, and taking it back."""

from collections.abc import Iterable

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from .base import now_ms
from .ids import uuid7
from .models import Crew, Device, FirstLink, Person

ROLES = ("installer", "supervisor", "administrator")
_hasher = PasswordHasher()
# Checked where nobody has the name, so that the time taken does not tell.
_NOBODY = _hasher.hash("nobody has this password")


def add_crew(session: Session, name: str, id: str | None = None) -> Crew:
    """A new crew."""
    crew = Crew(id=id or uuid7(), name=name)
    session.add(crew)
    session.flush()
    return crew


def add_person(
    session: Session,
    name: str,
    roles: Iterable[str],
    crew_id: str | None = None,
    password: str | None = None,
    id: str | None = None,
) -> Person:
    """A new person; `roles` of ROLES; `crew_id` None sees every crew; without a password nobody signs in as it.

    Raises ValueError for a role that is none.
    """
    wanted = list(dict.fromkeys(roles))
    for role in wanted:
        if role not in ROLES:
            raise ValueError(f"role {role!r} is none; {', '.join(ROLES)} are")
    person = Person(id=id or uuid7(), name=name, roles=" ".join(sorted(wanted)), crew_id=crew_id)
    session.add(person)
    if password is not None:
        person.password = hashed(password)
    session.flush()
    return person


def hashed(password: str) -> str:
    """Argon2id hash; slow on purpose, so never inside a write transaction that others wait for."""
    return _hasher.hash(password)


def password_fits(person: Person | None, password: str) -> bool:
    """Whether it is the person's password; takes as long for nobody."""
    try:
        return _hasher.verify((person and person.password) or _NOBODY, password) and bool(person and person.password)
    except (VerificationError, InvalidHashError):
        return False


def by_name(session: Session, name: str) -> Person | None:
    """The person of that name. Capitals make no difference (phones set them by themselves), but where two names differ
    by nothing else, only the exact one is meant."""
    exact = session.scalar(select(Person).where(Person.name == name))
    if exact is not None:
        return exact
    alike = [person for person in everybody(session) if person.name.casefold() == name.casefold()]
    return alike[0] if len(alike) == 1 else None


def by_id(session: Session, id: str) -> Person | None:
    """The person of that id."""
    return session.get(Person, id)


def everybody(session: Session) -> list[Person]:
    """All people by name, revoked ones too."""
    return list(session.scalars(select(Person).order_by(Person.name)))


def crews(session: Session) -> list[Crew]:
    """All crews by name."""
    return list(session.scalars(select(Crew).order_by(Crew.name)))


def devices(session: Session) -> list[Device]:
    """All phones, last contact first."""
    return list(session.scalars(select(Device).order_by(Device.contact.desc(), Device.id)))


def meet_device(session: Session, id: str, label: str | None, person_id: str) -> Device:
    """The phone of that id, made known where it is new, with its label and who used it last."""
    device = session.get(Device, id)
    if device is None:
        device = Device(id=id, label="", highest=0)
        session.add(device)
    if label:
        device.label = label[:100]
    device.person_id, device.contact = person_id, now_ms()
    session.flush()
    return device


def revoke_person(session: Session, name: str) -> bool:
    """From now on this person is let in nowhere; False where nobody has the name."""
    return _revoked(session.execute(update(Person).where(Person.name == name).values(revoked=now_ms())))


def revoke_device(session: Session, id: str) -> bool:
    """From now on this phone is let in nowhere; a phone not met yet is refused when it comes."""
    if session.get(Device, id) is None:
        session.add(Device(id=id, label="", highest=0))
        session.flush()
    return _revoked(session.execute(update(Device).where(Device.id == id).values(revoked=now_ms())))


def _revoked(result: object) -> bool:
    return bool(getattr(result, "rowcount", 0))


def put_first_link(session: Session, token_hash: str, ends_ms: int) -> None:
    """A one-time link for the first administrator, good until `ends_ms`; older ones end."""
    session.execute(delete(FirstLink))
    session.add(FirstLink(token=token_hash, ends=ends_ms))


def first_link_good(session: Session, token_hash: str) -> bool:
    """Whether the link was given out, is not used and has not ended."""
    link = session.get(FirstLink, token_hash)
    return link is not None and link.used is None and link.ends > now_ms()


def use_first_link(session: Session, token_hash: str) -> None:
    """The link is used up."""
    session.execute(update(FirstLink).where(FirstLink.token == token_hash).values(used=now_ms()))


def is_revoked(session: Session, device_id: str) -> bool:
    """Whether this phone is revoked."""
    device = session.get(Device, device_id)
    return device is not None and device.revoked is not None
