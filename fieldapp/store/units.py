"""Jobs and units: making them, and which of them a person sees."""

import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from . import codes
from .ids import uuid7
from .models import Job, Person, State, Unit


def add_job(
    session: Session,
    name: str,
    place: str = "",
    customer: str = "",
    facts: dict[str, Any] | None = None,
    id: str | None = None,
) -> Job:
    """A new job."""
    job = Job(
        id=id or uuid7(),
        name=name,
        place=place,
        customer=customer,
        facts=json.dumps(facts or {}, sort_keys=True),
    )
    session.add(job)
    session.flush()
    return job


def add_unit(
    session: Session,
    job_id: str,
    crew_id: str,
    number: str,
    box: str | None = None,
    choices: dict[str, Any] | None = None,
    seed: str | None = None,
    id: str | None = None,
) -> Unit:
    """A new unit with codes of its own: random, or from `seed` always the same."""
    unit = Unit(
        id=id or uuid7(),
        number=number,
        job_id=job_id,
        crew_id=crew_id,
        box=box,
        choices=json.dumps(choices or {}, sort_keys=True),
        code=_fresh(session, "code", seed),
        short=_fresh(session, "short", seed),
    )
    session.add(unit)
    session.flush()
    return unit


def _fresh(session: Session, name: str, seed: str | None) -> str:
    make = codes.new_code if name == "code" else codes.new_short
    turn = 0
    while True:
        code = make(None if seed is None else f"{seed} {turn}" if turn else seed)
        if session.scalar(select(Unit.id).where(getattr(Unit, name) == code)) is None:
            return code
        turn += 1


def get(session: Session, id: str) -> Unit | None:
    """The unit, whoever asks."""
    return session.get(Unit, id)


def sees(person: Person, unit: Unit) -> bool:
    """A person sees the units of her crew; one without a crew sees every crew's."""
    return person.crew_id is None or person.crew_id == unit.crew_id


def seen(session: Session, person: Person, id: str) -> Unit | None:
    """The unit where this person sees it, else None."""
    unit = session.get(Unit, id)
    return unit if unit is not None and sees(person, unit) else None


def by_code(session: Session, code: str) -> Unit | None:
    """The unit whose label carries this code, in any case, with look-alikes put right."""
    return session.scalar(select(Unit).where(Unit.code == codes.tidy(code)))


def by_short(session: Session, short: str) -> Unit | None:
    """The unit of a typed short code."""
    return session.scalar(select(Unit).where(Unit.short == codes.tidy(short)))


def _visible(person: Person) -> Select[Any]:
    query = select(Unit).order_by(Unit.id)
    return query if person.crew_id is None else query.where(Unit.crew_id == person.crew_id)


def visible(session: Session, person: Person, limit: int, after: str = "") -> list[Unit]:
    """At most `limit` units that the person sees, by id, after the id given."""
    return list(session.scalars(_visible(person).where(Unit.id > after).limit(limit)))


def all_visible(session: Session, person: Person) -> list[Unit]:
    """Every unit that the person sees, by id."""
    return list(session.scalars(_visible(person)))


def seen_of(session: Session, person: Person, ids: list[str]) -> dict[str, Unit]:
    """Those of these units that the person sees, by id."""
    found: dict[str, Unit] = {}
    for start in range(0, len(ids), 500):
        query = _visible(person).where(Unit.id.in_(ids[start : start + 500]))
        found.update({unit.id: unit for unit in session.scalars(query)})
    return found


def assigned(session: Session, person: Person) -> list[tuple[str, str | None]]:
    """(id, packet in force) of every unit that the person sees, by id."""
    query = select(Unit.id, Unit.packet).order_by(Unit.id)
    if person.crew_id is not None:
        query = query.where(Unit.crew_id == person.crew_id)
    return [(id, packet) for id, packet in session.execute(query)]


def in_job(session: Session, job_id: str) -> list[Unit]:
    """A job's units by number."""
    return list(session.scalars(select(Unit).where(Unit.job_id == job_id).order_by(Unit.number)))


def choices_of(unit: Unit) -> dict[str, Any]:
    """The plan's choices of this unit; {} where it was never planned."""
    found = json.loads(unit.choices)
    return found if isinstance(found, dict) else {}


def choose(session: Session, unit: Unit, choices: dict[str, Any]) -> None:
    """Put other choices in the place of a unit's. Inside a write transaction."""
    unit.choices = json.dumps(choices, sort_keys=True)
    session.flush()


def jobs(session: Session) -> list[Job]:
    """All jobs by name."""
    return list(session.scalars(select(Job).order_by(Job.name)))


def states(session: Session, ids: Iterable[str]) -> dict[str, State]:
    """State rows of these units as they stand (call states.bring_up before)."""
    wanted = list(ids)
    return {row.unit_id: row for row in session.scalars(select(State).where(State.unit_id.in_(wanted)))}
