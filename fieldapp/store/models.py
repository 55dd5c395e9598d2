"""Tables. Ids are lower-case UUID text; times are whole milliseconds UTC; JSON is kept as text, byte for byte."""

from sqlalchemy import BigInteger, ForeignKey, Index, Integer, LargeBinary, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from .base import Model

_ID = String(36)
_HASH = String(64)


class Fact(Model):
    """A fact about the site itself: epoch, seed, the site's device counter."""

    __tablename__ = "fact"
    name: Mapped[str] = mapped_column(String(40), primary_key=True)
    value: Mapped[str] = mapped_column(Text)


class Crew(Model):
    __tablename__ = "crew"
    id: Mapped[str] = mapped_column(_ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(100), unique=True)


class Person(Model):
    """Somebody who may sign in. `roles`: words joined by a space; `crew_id` None sees every crew."""

    __tablename__ = "person"
    id: Mapped[str] = mapped_column(_ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(100), unique=True)
    roles: Mapped[str] = mapped_column(String(100))
    crew_id: Mapped[str | None] = mapped_column(ForeignKey("crew.id"))
    password: Mapped[str | None] = mapped_column(String(200))
    revoked: Mapped[int | None] = mapped_column(BigInteger)
    crew: Mapped[Crew | None] = relationship(lazy="joined")

    @property
    def role_set(self) -> frozenset[str]:
        return frozenset(self.roles.split())


class Device(Model):
    """A phone as its own random id names it; who used it last and how far its counter had come."""

    __tablename__ = "device"
    id: Mapped[str] = mapped_column(_ID, primary_key=True)
    label: Mapped[str] = mapped_column(String(100), default="")
    person_id: Mapped[str | None] = mapped_column(ForeignKey("person.id"))
    highest: Mapped[int] = mapped_column(BigInteger, default=0)
    contact: Mapped[int | None] = mapped_column(BigInteger)
    revoked: Mapped[int | None] = mapped_column(BigInteger)


class SignIn(Model):
    """A session. Only the SHA-256 of its token is kept."""

    __tablename__ = "sign_in"
    token: Mapped[str] = mapped_column(_HASH, primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    device_id: Mapped[str | None] = mapped_column(ForeignKey("device.id"))
    made: Mapped[int] = mapped_column(BigInteger)
    used: Mapped[int] = mapped_column(BigInteger)
    person: Mapped[Person] = relationship(lazy="joined")
    device: Mapped[Device | None] = relationship(lazy="joined")


class Attempt(Model):
    """A sign-in that failed. `key`: `name:…` or `ip:…`."""

    __tablename__ = "attempt"
    id: Mapped[int] = mapped_column(Integer, primary_key=True, autoincrement=True)
    key: Mapped[str] = mapped_column(String(120))
    at: Mapped[int] = mapped_column(BigInteger)
    __table_args__ = (Index("ix_attempt_key_at", "key", "at"),)


class FirstLink(Model):
    """A one-time link for the first administrator; only its SHA-256 is kept."""

    __tablename__ = "first_link"
    token: Mapped[str] = mapped_column(_HASH, primary_key=True)
    ends: Mapped[int] = mapped_column(BigInteger)
    used: Mapped[int | None] = mapped_column(BigInteger)


class Job(Model):
    """An order: one customer, one place, one or more units. `facts`: further facts, a JSON object."""

    __tablename__ = "job"
    id: Mapped[str] = mapped_column(_ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(200), unique=True)
    place: Mapped[str] = mapped_column(String(200), default="")
    customer: Mapped[str] = mapped_column(String(200), default="")
    facts: Mapped[str] = mapped_column(Text, default="{}")


class Unit(Model):
    """One door in one container wall.

    `code`: on the label, 10 letters; `short`: for typing, 4 and a check character; `box`: the container, as the plan
    names it; `choices`: the plan's choices, a JSON object; `packet`: hash of the packet in force;
    `last_seq`: sequence of its newest entry, 0 before any.
    """

    __tablename__ = "unit"
    id: Mapped[str] = mapped_column(_ID, primary_key=True)
    number: Mapped[str] = mapped_column(String(100))
    code: Mapped[str] = mapped_column(String(10), unique=True)
    short: Mapped[str] = mapped_column(String(5), unique=True)
    job_id: Mapped[str] = mapped_column(ForeignKey("job.id"), index=True)
    crew_id: Mapped[str] = mapped_column(ForeignKey("crew.id"), index=True)
    box: Mapped[str | None] = mapped_column(String(100))
    choices: Mapped[str] = mapped_column(Text, default="{}")
    packet: Mapped[str | None] = mapped_column(_HASH)
    last_seq: Mapped[int] = mapped_column(BigInteger, default=0)
    job: Mapped[Job] = relationship(lazy="joined")
    crew: Mapped[Crew] = relationship(lazy="joined")
    __table_args__ = (UniqueConstraint("job_id", "number"),)


class Document(Model):
    """A packet or a part, named by the SHA-256 of its bytes; never changed."""

    __tablename__ = "document"
    hash: Mapped[str] = mapped_column(_HASH, primary_key=True)
    body: Mapped[bytes] = mapped_column(LargeBinary)


class Edition(Model):
    """An edition of a catalogue, only ever inserted. `number` rises from 0 in its catalogue.

    `body`: its rows, canonical JSON; `hash`: SHA-256 of body; `person_id`: who brought it in, the site's own for what
    came with the program.
    """

    __tablename__ = "edition"
    catalogue: Mapped[str] = mapped_column(String(20), primary_key=True)
    number: Mapped[int] = mapped_column(Integer, primary_key=True, autoincrement=False)
    hash: Mapped[str] = mapped_column(_HASH)
    body: Mapped[str] = mapped_column(Text)
    person_id: Mapped[str] = mapped_column(_ID)
    at: Mapped[int] = mapped_column(BigInteger)
    because: Mapped[str] = mapped_column(String(200), default="")
    __table_args__ = (Index("ix_edition_hash", "hash"),)


class Issued(Model):
    """Which documents were ever issued for which unit. `is_packet`: 1 a packet, 0 a part."""

    __tablename__ = "issued"
    unit_id: Mapped[str] = mapped_column(ForeignKey("unit.id"), primary_key=True)
    hash: Mapped[str] = mapped_column(ForeignKey("document.hash"), primary_key=True)
    is_packet: Mapped[int] = mapped_column(Integer)
    __table_args__ = (Index("ix_issued_hash", "hash"),)


class Entry(Model):
    """An entry, only ever inserted. `body`: the entry as it came, canonical JSON without `server`.

    `seq` rises by one an entry within the unit, in commit order.
    """

    __tablename__ = "entry"
    unit_id: Mapped[str] = mapped_column(ForeignKey("unit.id"), primary_key=True)
    seq: Mapped[int] = mapped_column(BigInteger, primary_key=True, autoincrement=False)
    id: Mapped[str] = mapped_column(_ID, unique=True)
    kind: Mapped[str] = mapped_column(String(20))
    person_id: Mapped[str] = mapped_column(_ID)
    standing: Mapped[str] = mapped_column(String(12))
    received: Mapped[int] = mapped_column(BigInteger)
    body: Mapped[str] = mapped_column(Text)


class State(Model):
    """What the fold made of a unit's entries up to `through_seq`.

    `held`: the fold's condensed set; `state`: its canonical result, byte for byte; `fold`: the fold's version;
    `fault`: a sentence when the fold failed at `through_seq`; `stage`, `waiting`, `stands`: lifted out for lists.
    """

    __tablename__ = "state"
    unit_id: Mapped[str] = mapped_column(ForeignKey("unit.id"), primary_key=True)
    fold: Mapped[int] = mapped_column(Integer)
    through_seq: Mapped[int] = mapped_column(BigInteger)
    held: Mapped[str | None] = mapped_column(Text)
    state: Mapped[str | None] = mapped_column(Text)
    stage: Mapped[str | None] = mapped_column(String(40))
    waiting: Mapped[str] = mapped_column(Text, default="[]")
    stands: Mapped[str] = mapped_column(String(20), default="planned")
    fault: Mapped[str | None] = mapped_column(Text)


class Photo(Model):
    """A photo: `sha256` of the bytes sent, `kept` of the re-encoded picture that is served."""

    __tablename__ = "photo"
    sha256: Mapped[str] = mapped_column(_HASH, primary_key=True)
    kept: Mapped[str] = mapped_column(_HASH)
    width: Mapped[int] = mapped_column(Integer)
    height: Mapped[int] = mapped_column(Integer)
    received: Mapped[int] = mapped_column(BigInteger)


class PhotoSender(Model):
    """Who sent a photo (and so may see it again)."""

    __tablename__ = "photo_sender"
    sha256: Mapped[str] = mapped_column(ForeignKey("photo.sha256"), primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), primary_key=True)


class PhotoNamed(Model):
    """Which units have an entry that names a photo; the photo itself may come later."""

    __tablename__ = "photo_named"
    sha256: Mapped[str] = mapped_column(_HASH, primary_key=True)
    unit_id: Mapped[str] = mapped_column(ForeignKey("unit.id"), primary_key=True)
