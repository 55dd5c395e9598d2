"""What counts, what stands, and where: one pass over what is held, looked up by everything after it."""

from collections import defaultdict
from dataclasses import dataclass

from fieldapp.record.entries import Json, is_covered

Place = tuple[str | None, str | None]


@dataclass(frozen=True)
class Index:
    """Entries by what is asked of them; every list is in order of id, every entry has its "id"."""

    counted: dict[str, Json]
    standing: list[Json]
    quarantined: bool
    kinds: dict[str, list[Json]]
    places: dict[Place, list[Json]]
    steps: dict[str | None, list[Json]]
    rounds: dict[str, dict[str, Json]]
    stands: frozenset[str]

    def of_kind(self, kind: str) -> list[Json]:
        """Standing entries of this kind."""
        return self.kinds.get(kind, [])

    def at(self, step: str, field: str) -> list[Json]:
        """Standing entries on this field."""
        return self.places.get((step, field), [])

    def on_step(self, step: str) -> list[Json]:
        """The step's standing entries: those that a sign-off covers, releases aside."""
        return self.steps.get(step, [])


def _counted(entries: dict[str, Json]) -> dict[str, Json]:
    """Kept entries, and quarantined ones admitted by an entry that counts; nobody admits her own.

    An admission made on a revoked phone counts once it is admitted itself.
    """
    counted = {key: entry for key, entry in entries.items() if entry.get("server") != "quarantined"}
    fresh = list(counted.values())
    while fresh:
        review = fresh.pop()
        value = review.get("value", {})
        if review["kind"] != "review" or value.get("is") != "admitted":
            continue
        of = value.get("of")
        if of in entries and of not in counted and entries[of]["person"] != review["person"]:
            counted[of] = entries[of]
            fresh.append(entries[of])
    return counted


def index(held: Json) -> Index:
    """The index of what is held. A ring of replacements leaves none of its members standing."""
    entries: dict[str, Json] = held["entries"]
    counted = {key: {"id": key, **entry} for key, entry in sorted(_counted(entries).items())}
    replaced = {key for entry in counted.values() for key in entry.get("replaces", ())}
    kinds: dict[str, list[Json]] = defaultdict(list)
    places: dict[Place, list[Json]] = defaultdict(list)
    steps: dict[str | None, list[Json]] = defaultdict(list)
    rounds: dict[str, dict[str, Json]] = defaultdict(dict)
    standing = [entry for key, entry in counted.items() if key not in replaced]
    for entry in standing:
        kinds[entry["kind"]].append(entry)
        if entry.get("field") is not None:
            places[entry.get("step"), entry["field"]].append(entry)
        if is_covered(entry) and entry["kind"] != "release":
            steps[entry.get("step")].append(entry)
    for key, entry in counted.items():
        if entry["kind"] == "round":
            rounds[entry.get("value", {}).get("sheet", "")][key] = entry
    return Index(
        counted,
        standing,
        len(counted) < len(entries),
        dict(kinds),
        dict(places),
        dict(steps),
        dict(rounds),
        frozenset(entry["id"] for entry in standing),
    )
