"""A unit seen through the plan in force: its fields with what stands on them, its sheets with their
rounds."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from fieldapp.record.entries import VALUE_KINDS, Json, suits
from fieldapp.record.plans import Plan, in_force
from fieldapp.record.rounds import ALONE, Round, Rounds, rounds_of
from fieldapp.record.standing import Index, index


@dataclass(frozen=True)
class Field:
    """A field of the packet: `values`, the standing entries that suit it, by id, no retract; `pair`: two of
    one round stand in a field that holds one; `rounds`: those of the sheet with rounds that it feeds."""

    step: str
    field: Json
    values: list[Json]
    by_round: dict[Round, list[Json]]
    pair: bool
    rounds: Rounds

    @property
    def repeat(self) -> bool:
        """Whether every standing reading counts."""
        return bool(self.field.get("repeat"))

    def now(self) -> list[Json]:
        """What stands for the field now: of the present round in a `repeat` field, else of the newest that
        has a value.

        Where two phones split, of each of the rounds without a follower.
        """
        if self.rounds is ALONE:
            return self.values
        if self.repeat or self.rounds.split:
            return self.of(self.rounds.heads)
        return self.newest(self.rounds.chain[::-1])

    def of(self, rounds: list[Round]) -> list[Json]:
        """The values of these rounds, by id."""
        wanted = set(rounds)
        return [entry for entry in self.values if entry.get("round") in wanted]

    def newest(self, rounds: list[Round]) -> list[Json]:
        """The values of the first of these rounds that has any."""
        return next(filter(None, (self.by_round.get(one) for one in rounds)), [])


@dataclass(frozen=True)
class View:
    """What the rest of the fold reads. `sheets`: by name, {} where the part is not at hand; `feeders`: sheet
    → (field, its name there), in the packet's order."""

    index: Index
    plan: Plan
    sheets: dict[str, Json]
    rounds: dict[str, Rounds]
    fields: dict[tuple[str, str], Field]
    feeders: dict[str, list[tuple[Field, str]]]
    steps: list[Json]
    elsewhere: list[str] = field(default_factory=list)


def has_rounds(sheet: Json) -> bool:
    """Only a sheet with corrections has rounds."""
    return sheet.get("kind") == "linear" and bool(sheet.get("corrections"))


def _is_pair(entries: list[Json]) -> bool:
    """Two of one round that stand, a retract among them."""
    rounds = [entry.get("round") for entry in entries]
    return len(set(rounds)) < len(rounds)


def _field(unit: Index, step: str, known: Json, rounds: dict[str, Rounds]) -> Field:
    here = unit.at(step, known["id"])
    values = [entry for entry in here if suits(entry, known)]
    taken_back = [entry for entry in here if entry["kind"] == "retract"]
    own = next((rounds[feed["sheet"]] for feed in known.get("feeds", []) if feed["sheet"] in rounds), ALONE)
    by_round: dict[Round, list[Json]] = {}
    for entry in values:
        by_round.setdefault(entry.get("round"), []).append(entry)
    pair = not known.get("repeat") and _is_pair(values + taken_back)
    return Field(step, known, values, by_round, pair, own)


def _elsewhere(unit: Index, steps: set[str], fields: dict[tuple[str, str], Field]) -> list[str]:
    """Standing entries on a step or field that the packet lacks, and values of a kind that does not suit the
    field."""
    found = []
    for entry in unit.standing:
        step, name = entry.get("step"), entry.get("field")
        if step is None and name is None:
            continue
        known = fields.get((step or "", name or ""))
        lacking = step not in steps or (name is not None and known is None)
        if lacking or (known and entry["kind"] in VALUE_KINDS and not suits(entry, known.field)):
            found.append(entry["id"])
    return found


def view(held: Json, packets: Mapping[str, Json], parts: Mapping[str, Json]) -> View:
    """The view of what is held under the plan in force."""
    unit = index(held)
    plan = in_force(unit, packets)
    steps = plan.packet.get("steps", [])
    sheets = {item["name"]: parts.get(item["part"], {}) for item in plan.packet.get("sheets", [])}
    rounds = {name: rounds_of(unit, name) for name, sheet in sheets.items() if has_rounds(sheet)}
    fields = {
        (step["id"], known["id"]): _field(unit, step["id"], known, rounds)
        for step in steps
        for known in step.get("fields", [])
    }
    feeders: dict[str, list[tuple[Field, str]]] = {name: [] for name in sheets}
    for each in fields.values():
        for feed in each.field.get("feeds", []):
            if feed["sheet"] in feeders:
                feeders[feed["sheet"]].append((each, feed["as"]))
    return View(
        unit,
        plan,
        sheets,
        rounds,
        fields,
        feeders,
        steps,
        _elsewhere(unit, {step["id"] for step in steps}, fields),
    )
