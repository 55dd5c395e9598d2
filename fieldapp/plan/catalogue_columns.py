"""What a catalogue is made of: columns, each with what its cells may say, and the sentence for a cell that is wrong."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

Row = dict[str, Any]
LONGEST = 400
DECIMALS = 4


@dataclass(frozen=True)
class Column:
    """`kind`: text, number, count or choice; `unit` stands in the heading; `low` to `high` for numbers and counts."""

    name: str
    kind: str = "text"
    unit: str = ""
    low: float = 0.0
    high: float = 10_000.0
    needed: bool = True
    choices: tuple[str, ...] = ()

    @property
    def head(self) -> str:
        return f"{self.name} ({self.unit})" if self.unit else self.name

    @property
    def right(self) -> str:
        """What would be right in a cell of this column."""
        if self.kind == "choice":
            said = "one of " + ", ".join(map(repr, self.choices))
        elif self.kind == "text":
            said = f"a text of 1 to {LONGEST} characters on one line"
        else:
            what = "a whole number" if self.kind == "count" else f"a number with at most {DECIMALS} decimals"
            said = f"{what}, {self.low:g} to {self.high:g}"
        return said if self.needed else f"{said}, or nothing"


@dataclass(frozen=True)
class Kind:
    """A catalogue: what its page is called, its columns, and pairs (from, to) of them that must rise.

    `checks` look at all rows together; `note` is said to whoever brings in the next edition.
    """

    name: str
    say: str
    columns: tuple[Column, ...]
    rising: tuple[tuple[str, str], ...] = ()
    checks: tuple[Callable[[list[tuple[int, Row]]], list[str]], ...] = field(default=())
    note: str = "The whole catalogue is in the file: a row that it lacks is gone in the next edition."


def fault(line: int, column: str, value: Any, right: str) -> str:
    """One sentence: where, the value, what would be right."""
    shown = "nothing" if value is None or value == "" else repr(value)[:40]
    return f"line {line}, {column}: {shown}; right would be {right}."
