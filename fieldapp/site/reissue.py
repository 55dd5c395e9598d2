"""A changed plan of one unit: built anew with who works now, and issued in the place of the one that stands."""

from typing import Any

from sqlalchemy.orm import Session

from fieldapp.plan import packet
from fieldapp.plan.change import editions_alone
from fieldapp.plan.choices import check
from fieldapp.plan.edition_change import editions_say
from fieldapp.site.editions import in_force, made_under
from fieldapp.site.load import known_person, who_works
from fieldapp.store import entries, packets, people, units
from fieldapp.store.base import read, write
from fieldapp.store.models import Unit

Json = dict[str, Any]


class Overtaken(Exception):
    """Another plan was issued since; `entry`: the `issue` that did it."""

    def __init__(self, entry: Json) -> None:
        super().__init__("another plan was issued meanwhile")
        self.entry = entry


def faults(choices: Json) -> list[str]:
    """The sentences of choices.check, under the catalogues' editions in force."""
    with read() as session:
        return check(choices, in_force(session))


def built(unit_id: str, choices: Json) -> packet.Built:
    """The packet of a unit that is here, with these choices, under the catalogues' editions in force.

    Raises ValueError with the sentences of choices.check.
    """
    with read() as session:
        unit = units.get(session, unit_id)
        assert unit is not None, unit_id
        crew = who_works([known_person(one) for one in people.everybody(session)], unit.crew_id)
        return packet.build(choices, _named(unit), crew, under=in_force(session))


def alone(packet_: Json, choices: Json, made: packet.Built) -> tuple[str, bool] | None:
    """(a sentence, whether it is worth an issue) where `made` differs from the plan in force by its editions alone.

    None where it differs otherwise, or in nothing.

    packet_: the packet in force; choices: what `made` was built with. For what is said of it: plan/edition_change.py.
    """
    names = editions_alone(packet_, made.packet)
    if not names:
        return None
    with read() as session:
        now = in_force(session)
        return editions_say(names, choices, made_under(session, packet_, now), now)


def _named(unit: Unit) -> Json:
    return {
        **{name: getattr(unit, name) for name in ("id", "number", "code", "short", "box")},
        "job": unit.job.name,
        "place": unit.job.place,
    }


def issue(unit_id: str, choices: Json, made: packet.Built, since: str | None, because: str, person_id: str) -> bool:
    """Put a packet in force and keep its choices: True; False where it is in force already, and nothing happens.

    since: hash of the packet that was in force when it was decided on; raises Overtaken where another one is now.
    """
    with write() as session:
        unit = entries.lock(session, [unit_id])[unit_id]
        if unit.packet == made.hash:
            return False
        if unit.packet != since:
            raise Overtaken(_standing(session, unit_id))
        packets.issue(session, unit, made.hash, made.packet_bytes, made.parts, because, person_id=person_id)
        units.choose(session, unit, choices)
    return True


def _standing(session: Session, unit_id: str) -> Json:
    standing = entries.standing_issues(session, unit_id)
    return next(one for one in entries.of_kind(session, unit_id, "issue") if one["id"] == standing[-1])
