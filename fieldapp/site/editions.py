"""The catalogues of a site: edition 0 kept from the seed tables, and the editions in force for new plans."""

from typing import Any

from sqlalchemy.orm import Session

from fieldapp.plan.catalogue import CATALOGUES, edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.store import editions, facts
from fieldapp.store.base import read, write

Json = dict[str, Any]
CAME_WITH = "came with the program"


def in_force(session: Session) -> InForce:
    """The newest edition of each catalogue; what was never kept is edition 0, of the seed tables."""
    found = {name: editions.newest(session, name) for name in CATALOGUES}
    rows = {name: editions.rows(each) for name, each in found.items() if each is not None}
    numbers = {name: each.number for name, each in found.items() if each is not None}
    hashes = {name: each.hash for name, each in found.items() if each is not None}
    return InForce.of({**seeded().rows, **rows}, numbers, {**seeded().hashes, **hashes})


def made_under(session: Session, packet: Json | None, now: InForce) -> InForce:
    """The editions that a packet was made under; edition 0 for what it does not name, and `now` where there is none."""
    if packet is None:
        return now
    named: dict[str, str] = seeded().hashes | packet.get("editions", {})
    other = {name: hash for name, hash in named.items() if name in CATALOGUES and hash != now.hashes[name]}
    found = {name: editions.of_hash(session, hash) for name, hash in other.items()}
    rows = {name: editions.rows(each) for name, each in found.items() if each is not None}
    numbers = {name: each.number for name, each in found.items() if each is not None}
    hashes = {name: named[name] for name in rows}
    return InForce.of({**now.rows, **rows}, {**now.numbers, **numbers}, {**now.hashes, **hashes}) if rows else now


def now() -> InForce:
    """`in_force` where no session is open: what a plan made now goes by. Needs an app context."""
    with read() as session:
        return in_force(session)


def keep_seeds(session: Session, at_ms: int | None = None) -> None:
    """Keep the seed's editions that are not here yet. Inside a write transaction."""
    for name, (hash, body) in missing(session).items():
        editions.add(session, name, hash, body, facts.SITE_PERSON, CAME_WITH, at_ms)


def missing(session: Session) -> dict[str, tuple[str, bytes]]:
    """(hash, bytes) of each seed that is to be kept: where a catalogue has no edition, or the newest came with an older
    program and is not what this one brings. What a shop brought in stays in force."""
    found = {}
    for name, rows in seed().items():
        last, made = editions.newest(session, name), edition(name, rows)
        if last is None or (last.person_id == facts.SITE_PERSON and last.hash != made[0]):
            found[name] = made
    return found


def start() -> None:
    """At a site's start: the seeds are there. Needs an app context."""
    with read() as session:
        wanted = bool(missing(session))
    if wanted:
        with write() as session:
            keep_seeds(session)
