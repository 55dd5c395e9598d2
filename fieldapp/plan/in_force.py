"""The editions that a plan is made under: rows by catalogue, their hashes, and the tables that trade takes."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_columns import Row
from fieldapp.plan.catalogue_seed import Rows, profiles_table, rivets_table, seed
from fieldapp.plan.default_rows import defaults_table

Json = dict[str, Any]


@dataclass(frozen=True)
class InForce:
    """`rows`, `hashes`, `numbers` by catalogue's name; `rivets`, `profiles`: as trade takes them; `defaults`:
    {name: {"value", "origin", "source"}}."""

    rows: Rows
    hashes: dict[str, str]
    numbers: dict[str, int]
    rivets: Json
    profiles: Json
    defaults: dict[str, Json]

    @classmethod
    def of(cls, rows: Rows, numbers: dict[str, int], hashes: dict[str, str] | None = None) -> "InForce":
        """These rows; a catalogue without a number is at edition 0. hashes: those that are known already."""
        known = hashes or {}
        hashes = {name: known.get(name) or edition(name, each)[0] for name, each in rows.items()}
        every = {name: numbers.get(name, 0) for name in rows}
        return cls(rows, hashes, every, rivets_table(rows["rivets"]), profiles_table(rows["profiles"]),
                   defaults_table(rows["defaults"]))

    @property
    def diameters(self) -> tuple[float, ...]:
        """The rivets that a plan may choose, mm."""
        return tuple(sorted(size["diameter"] for size in self.rivets["sizes"]))

    def default(self, name: str) -> Any:
        """The value of one default; a KeyError means that there is none."""
        return self.defaults[name]["value"]

    def origin(self, name: str) -> dict[str, str]:
        """{"origin", "source"} of one default, as an `expect` of a packet carries them."""
        found = self.defaults[name]
        return {"origin": found["origin"], "source": found["source"]}

    def row(self, name: str, id_: str) -> Row | None:
        """The row of that id, capitals aside."""
        return next((row for row in self.rows[name] if row["id"].casefold() == id_.casefold()), None)


@cache
def seeded() -> InForce:
    """Edition 0 of everything."""
    return InForce.of(seed(), {})
