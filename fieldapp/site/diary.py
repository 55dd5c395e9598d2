"""A unit's entries as a crew would have made them: ids, counts and times that are the same for the same seed."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from fieldapp.plan.packet import Built
from fieldapp.record import fold, signoffs
from fieldapp.record.entries import covers_hash
from fieldapp.store import ids

Json = dict[str, Any]
ZONE = timedelta(hours=1)
SECOND = 1000


@dataclass
class Phone:
    """A device, whose it is, and how far its counter has come."""

    id: str
    label: str
    person: str
    count: int = 0
    offset_ms: int = 0


@dataclass
class Diary:
    """Entries of one unit, in the order they were made; `clock` in ms since 1970 moves on with each."""

    unit: str
    box: str
    built: Built
    parts: dict[str, Json]
    rng: Random
    clock: int
    entries: list[Json] = field(default_factory=list)
    times: dict[str, int] = field(default_factory=dict)
    _held: Json | None = None
    _gathered: int = 0

    def start(self, issued: Json) -> None:
        """The `issue` that the site made: the fold needs it to know the plan."""
        self._held = fold.gather(None, [issued])

    def enter(
        self,
        phone: Phone,
        kind: str,
        value: Json,
        *,
        step: str | None = None,
        of: str | None = None,
        round_id: str | None = None,
        replaces: tuple[str, ...] = (),
        sheet: str | None = None,
    ) -> str:
        """Add one entry; returns its id. `of` is the field's id, `sheet` a sheet's name."""
        self.clock += round(self.rng.uniform(6, 40) * SECOND)
        phone.count += 1
        made = ids.seeded_uuid7(self.clock, f"{self.unit} {phone.id} {phone.count}")
        part = next((item["part"] for item in self.built.packet["sheets"] if item["name"] == sheet), None)
        self.times[made] = self.clock
        self.entries.append(
            {
                "id": made,
                "v": 1,
                "unit": self.unit,
                "step": step,
                "field": of,
                "round": round_id,
                "kind": kind,
                "value": value,
                "replaces": list(replaces),
                "packet": self.built.hash,
                "sheet": part,
                "person": phone.person,
                "device": phone.id,
                "count": phone.count,
                "at": local(self.clock),
                "offset_ms": phone.offset_ms,
            }
        )
        return made

    def pause(self, minutes: float) -> None:
        self.clock += round(minutes * 60 * SECOND)

    def held(self) -> Json:
        """What the fold gathers from the entries so far."""
        self._held = fold.gather(self._held, self.entries[self._gathered :])
        self._gathered = len(self.entries)
        return self._held

    def given(self, sheet: str) -> Json:
        found = fold.given(self.held(), {self.built.hash: self.built.packet}, self.parts, sheet)
        assert found is not None, sheet
        return found

    def sheet(self, name: str) -> Json:
        return next(self.parts[item["part"]] for item in self.built.packet["sheets"] if item["name"] == name)

    def step(self, name: str) -> Json:
        return next(step for step in self.built.packet["steps"] if step["id"] == name)

    def covers(self, step: str | None = None) -> list[str]:
        """What a release or ask of the step, or a sign-off, covers now."""
        return signoffs.standing_ids(self.held(), self.built.packet, step)

    def covering(self, step: str | None = None) -> Json:
        covers = self.covers(step)
        return {"covers": covers, "sha256": covers_hash(covers)}

    def latest(self, step: str, of: str) -> tuple[str, ...]:
        """What a new entry of the field replaces: the last one that this diary made of it."""
        found = [entry["id"] for entry in self.entries if entry["step"] == step and entry["field"] == of]
        return tuple(found[-1:])


def local(ms: int) -> str:
    """The moment as a phone one hour east of UTC writes it."""
    moment = datetime.fromtimestamp(ms // 1000, UTC) + ZONE
    return f"{moment:%Y-%m-%dT%H:%M:%S}.{ms % 1000:03d}+01:00"
