"""Everything the office knows of a unit, read once: plan, entries, state, and what the sheets answer."""

import dataclasses
import json
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from ..record import fold
from ..store import entries, people, states, units
from ..store.base import read
from ..store.models import Person, Unit
from ..trade import estimate
from .problems import stop

Json = dict[str, Any]


@dataclass
class Known:
    """A unit with its entries by id (each with `server`), the plan in force, its sheets and its state.

    `state` is None where the fold failed; `fault` says so then. `names`: people by id; `phones`: labels by id.
    """

    unit: Unit
    entries: dict[str, Json]
    packets: dict[str, Json]
    parts: dict[str, Json]
    held: Json | None
    state: Json | None
    fault: str | None
    names: dict[str, str] = dataclasses.field(default_factory=dict)
    phones: dict[str, str] = dataclasses.field(default_factory=dict)

    @property
    def packet(self) -> Json:
        """The plan in force, empty where none was issued."""
        hash = (self.state or {}).get("packet") or self.unit.packet or ""
        return self.packets.get(hash, {})

    @cached_property
    def steps(self) -> dict[str, Json]:
        """Steps of the plan in force by id."""
        return {step["id"]: step for step in self.packet.get("steps", [])}

    @cached_property
    def sheets(self) -> dict[str, Json]:
        """Sheets of the plan in force by name."""
        return {
            item["name"]: self.parts[item["part"]]
            for item in self.packet.get("sheets", [])
            if item["part"] in self.parts
        }

    @cached_property
    def answers(self) -> dict[str, Json]:
        """What each sheet answers to what stands, by name; a sheet with nothing to go by is left out."""
        found = {}
        for name, sheet in self.sheets.items():
            given = fold.given(self.held, self.packets, self.parts, name) if self.held else None
            if given and (given.get("inputs") or any(each["readings"] for each in given.get("rounds", []))):
                found[name] = estimate.answer(sheet, given)
        return found

    def who(self, person_id: str) -> str:
        """A person's name; of one who is gone, what is known of her."""
        return self.names.get(person_id, "the site" if person_id.startswith("00000000") else "somebody unknown")

    def phone(self, device_id: str) -> str:
        """A phone's label; of one without, the end of its id."""
        return self.phones.get(device_id) or f"phone …{device_id[-4:]}"

    def field(self, step: str | None, name: str | None) -> Json:
        """A field of the plan in force, empty where it has none of that name."""
        fields = self.steps.get(step or "", {}).get("fields", [])
        return next((each for each in fields if each["id"] == name), {})

    def label(self) -> str:
        """`Quay 3 / 04`."""
        return f"{self.unit.job.name} / {self.unit.number}"


def known(person: Person, unit_id: str) -> Known:
    """The unit as this person sees it, its state brought up; 404 where she does not."""
    with read() as session:
        if units.seen(session, person, unit_id) is None:
            stop(404, "not_found", "nothing here under that code, or not for you")
    states.bring_up([unit_id])
    with read() as session:
        unit = units.get(session, unit_id)
        assert unit is not None
        row = states.state_of(session, unit_id)
        packets, parts = states.documents(session, unit_id)
        return Known(
            unit=unit,
            entries={entry["id"]: entry for entry in entries.wire(session, unit_id)},
            packets=packets,
            parts=parts,
            held=json.loads(row.held) if row and row.held else None,
            state=json.loads(row.state) if row and row.state else None,
            fault=row.fault if row else None,
            names={each.id: each.name for each in people.everybody(session)},
            phones={each.id: each.label for each in people.devices(session)},
        )
