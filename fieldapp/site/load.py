"""`fieldapp load`: people, crews, jobs, units and plans of a file into a site, and the packets issued."""

import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from fieldapp import settings
from fieldapp.plan import packet
from fieldapp.site import editions, order_file
from fieldapp.site.clashes import clashes
from fieldapp.site.making import Making
from fieldapp.site.order_file import Order
from fieldapp.store import codes, opening, packets, people, states, units
from fieldapp.store.base import read, write

Json = dict[str, Any]
BECAUSE = "first plan"


class LoadError(ValueError):
    """A file, or what it asks of this site, is at fault; `sentences`: one for each fault."""

    def __init__(self, sentences: list[str]) -> None:
        super().__init__("\n".join(sentences))
        self.sentences = sentences


@dataclass
class Loaded:
    """What was made: people by name, units' ids by (job, number), each unit's packet by the unit's id."""

    people: dict[str, Json] = field(default_factory=dict)
    units: dict[tuple[str, str], str] = field(default_factory=dict)
    packets: dict[str, packet.Built] = field(default_factory=dict)


def run(file: Path, site: Path) -> int:
    """The command: 0 and a line of what was loaded, or 1 and a sentence for each fault on standard error."""
    try:
        made = load(file, site)
    except LoadError as fault:
        print("\n".join(fault.sentences), file=sys.stderr)
        return 1
    except (opening.StoreError, settings.SettingsError) as fault:
        print(fault, file=sys.stderr)
        return 1
    print(f"Loaded {len(made.people)} people and {len(made.units)} units.")
    return 0


def load(file: Path, site: Path) -> Loaded:
    """Load a file into the site in that folder; raises LoadError, and then nothing is loaded."""
    if not Path(site).is_dir():
        raise LoadError([f"{site}: no such folder; right would be a site, made by `fieldapp new-site DIR`."])
    app = opening.open_store(settings.load(Path(site)))
    with app.app_context():
        editions.start()
        with read() as session:
            under = editions.in_force(session)
        order, faults = order_file.read(Path(file), under)
        if faults:
            raise LoadError(faults)
        return place(order, Making())


def place(order: Order, making: Making) -> Loaded:
    """Put an order into the site of the app context and issue the packets.

    Raises LoadError, and then nothing is kept. Hashes and packets are made before the transaction that others
    would wait for.
    """
    with read() as session:
        faults = clashes(session, order)
        if faults:
            raise LoadError(faults)
        ahead = _Ahead(session, order, making)
    made = Loaded(people={one["name"]: one for one in ahead.people})
    with write() as session:
        ahead.keep(session, made)
    states.bring_up(list(made.packets))
    return made


class _Ahead:
    """All that an order makes, worked out before it is written."""

    def __init__(self, session: Session, order: Order, making: Making) -> None:
        self.making, self.order, self.under = making, order, editions.in_force(session)
        self.crews = {crew.name: crew.id for crew in people.crews(session)}
        self.new_crews = {name: making.new_id(f"crew {name}") for name in order.crews if name not in self.crews}
        self.crews.update(self.new_crews)
        self.people = [self._person(one) for one in order.people]
        self.everybody = [*map(known_person, people.everybody(session)), *self.people]
        self.jobs = {job.name: job.id for job in units.jobs(session)}
        self.units = [self._unit(job, one) for job in order.jobs for one in job["units"]]

    def _person(self, one: Json) -> Json:
        name = one["name"]
        return {
            "id": self.making.new_id(f"person {name}"),
            "name": name,
            "roles": one["roles"],
            "crew": self.crews[one["crew"]] if one["crew"] else None,
            "revoked": False,
            "hash": one["password_hash"] or self.making.hashed(name, one["password"]),
        }

    def _unit(self, job: Json, one: Json) -> Json:
        known_as = f"unit {job['name']} {one['number']}"
        seed = self.making.seed(known_as)
        unit = {
            **one,
            "id": self.making.new_id(known_as),
            "seed": seed,
            "job": job["name"],
            "place": job["place"],
            "code": codes.new_code(seed),
            "short": codes.new_short(seed),
            "known_as": known_as,
        }
        return unit | {"built": self._built(unit)}

    def _built(self, unit: Json) -> packet.Built:
        crew = who_works(self.everybody, self.crews[unit["crew"]])
        return packet.build(unit["choices"], unit, crew, under=self.under)

    def keep(self, session: Session, made: Loaded) -> None:
        editions.keep_seeds(session, self.making.at_ms)
        for name, id_ in self.new_crews.items():
            people.add_crew(session, name, id_)
        for one in self.people:
            person = people.add_person(session, one["name"], one["roles"], one["crew"], id=one["id"])
            person.password = one["hash"]
        session.flush()
        for job in self.order.jobs:
            if job["name"] not in self.jobs:
                new = units.add_job(
                    session, job["name"], job["place"], job["customer"], id=self.making.new_id(f"job {job['name']}")
                )
                self.jobs[job["name"]] = new.id
        for unit in self.units:
            self._keep_unit(session, unit, made)

    def _keep_unit(self, session: Session, unit: Json, made: Loaded) -> None:
        kept = units.add_unit(
            session,
            self.jobs[unit["job"]],
            self.crews[unit["crew"]],
            unit["number"],
            unit["box"],
            unit["choices"],
            unit["seed"],
            unit["id"],
        )
        built = unit["built"]
        if (kept.code, kept.short) != (unit["code"], unit["short"]):  # a code was taken: its packet names the next
            built = self._built({**unit, "code": kept.code, "short": kept.short})
        packets.issue(
            session,
            kept,
            built.hash,
            built.packet_bytes,
            built.parts,
            BECAUSE,
            at_ms=self.making.at_ms,
            entry_id=self.making.issue_id(f"issue {unit['known_as']}"),
        )
        made.units[unit["job"], unit["number"]] = kept.id
        made.packets[kept.id] = built


def known_person(person: Any) -> Json:
    """What `who_works` asks of a person, from her row."""
    return {
        "id": person.id,
        "name": person.name,
        "roles": sorted(person.role_set),
        "crew": person.crew_id,
        "revoked": person.revoked is not None,
    }


def who_works(everybody: list[Json], crew_id: str) -> list[Json]:
    """The packet's people: who sees the unit and works or supervises; supervisors may review."""
    found = [
        {"id": one["id"], "name": one["name"], "release": True, "review": "supervisor" in one["roles"]}
        for one in everybody
        if one["crew"] in (None, crew_id) and not one["revoked"] and {"installer", "supervisor"} & set(one["roles"])
    ]
    return sorted(found, key=lambda one: str(one["name"]))
