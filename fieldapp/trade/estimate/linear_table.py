"""A linear sheet and what is given to it, as rows of numbers. Twin: static/phone/estimate_table.js.

Rows are sparse: pairs (index of the unknown, factor) in the order of the sheet's unknowns, so that sums run
in the same order whatever order a JSON object was written in. Lengths mm, tilt and tools mm a metre.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import sqrt
from typing import Any

Sparse = list[tuple[int, float]]


@dataclass(frozen=True, eq=False)
class Reading:
    """One reading: its row, the value less the constant, its own variance, its place in the input."""

    kind: str
    row: Sparse
    value: float
    variance: float
    round: int
    position: int
    given: dict[str, Any]
    key: tuple[float, ...]


@dataclass(frozen=True, eq=False)
class Move:
    """What was done of one correction in a round: which, its column, the mm in all, and the variance of the hand."""

    do: str
    column: Sparse
    by: float
    variance: float


@dataclass
class Table:
    """A sheet made ready: unknowns in order, prior, which of them are errors of tools, and look-ups."""

    sheet: dict[str, Any]
    index: dict[str, int]
    mean: list[float]
    sd: list[float]
    tools: set[int]
    corrections: dict[str, dict[str, Any]]
    kinds: dict[str, int]
    judged: list[Sparse] = field(default_factory=list)
    rounds: list[list[Reading]] = field(default_factory=list)
    done: list[list[Move]] = field(default_factory=list)

    def sparse(self, row: dict[str, float], times: float = 1.0) -> Sparse:
        """The row as (index, factor) pairs in the unknowns' order."""
        index = self.index
        return sorted((index[name], value * times) for name, value in row.items() if name in index)


def make(sheet: dict[str, Any], given: dict[str, Any]) -> Table:
    """The table of a sheet and what is given: prior from tools and tilt, readings and moves of every round.

    Unknowns that nothing read, judged or to be read knows of are left out, and those known to be 0.
    """
    prior, used = _prior(sheet, given), _used(sheet, given)
    unknowns = [one for one in sheet["unknowns"] if one["name"] in used and prior[one["name"]] != (0.0, 0.0)]
    names = [one["name"] for one in unknowns]
    table = Table(
        sheet,
        {name: at for at, name in enumerate(names)},
        [prior[name][0] for name in names],
        [prior[name][1] for name in names],
        {at for at, one in enumerate(unknowns) if "tool" in one},
        {item["do"]: item for item in sheet["corrections"]},
        {kind: at for at, kind in enumerate(sheet["kinds"])},
    )
    table.judged = [table.sparse(item["row"]) for item in sheet["judged"]]
    for at, one in enumerate(given.get("rounds") or [{}]):
        table.rounds.append(readings(table, at, one.get("readings") or []))
        table.done.append(moves(table, one.get("done") or []))
    return table


def _prior(sheet: dict[str, Any], given: dict[str, Any]) -> dict[str, tuple[float, float]]:
    """Mean and standard deviation of every unknown: a tool's as given, a tilt's as read over its length."""
    tools, tilt = {**sheet["tools"], **(given.get("tools") or {})}, given.get("tilt") or {}
    prior = {
        one["name"]: (one["mean"], tools[one["tool"]] if "tool" in one else one["sd"]) for one in sheet["unknowns"]
    }
    u = sheet["tilt"]["u"] if tilt.get("u") is None else tilt["u"]
    for name in sheet["tilt"]["names"]:
        if tilt.get(name) is not None:
            prior[name] = (tilt[name] / tilt["over"] * 1000, u / tilt["over"] * 1000)
    return prior


def _used(sheet: dict[str, Any], given: dict[str, Any]) -> set[str]:
    """Names of the unknowns in any row that is needed."""
    rows = [item["row"] for item in (*sheet["judged"], *sheet["built"])]
    rows += [item["column"] for item in sheet["corrections"]]
    can_read = given.get("can_read")
    for kind in sheet["next"]["can_read"] if can_read is None else can_read:
        rows.append(whole(sheet, kind, kind in sheet["next"]["turned"]))
    for one in given.get("rounds") or []:
        rows += [whole(sheet, item["of"], bool(item.get("reversed"))) for item in one.get("readings") or []]
    return {name for row in rows for name in row}


def whole(sheet: dict[str, Any], kind: str, turned: bool) -> dict[str, float]:
    """Row of a kind over its full side: with its zero error unless turned end for end."""
    known = sheet["readings"][kind]
    return known["row"] if turned or "zero" not in known else {**known["row"], **known["zero"]}


def readings(table: Table, at: int, given: list[dict[str, Any]]) -> list[Reading]:
    """The readings of one round in an order that does not depend on how they were given."""
    made = [reading(table, at, position, one) for position, one in enumerate(given)]
    return sorted(made, key=lambda one: one.key)


def way(table: Table, kind: str, over: float | None, turned: bool) -> Sparse:
    """Row of a reading of this kind: a level over part of its side."""
    known = table.sheet["readings"][kind]
    part = over / known["side"] if over is not None and "side" in known else 1.0
    return table.sparse(whole(table.sheet, kind, turned), part)


def doubt(table: Table, kind: str, turned: bool) -> float:
    """Default standard uncertainty of a reading of this kind, mm."""
    known = table.sheet["readings"][kind]
    return float(known["u_reversed"] if turned and "u_reversed" in known else known["u"])


def reading(table: Table, at: int, position: int, given: dict[str, Any]) -> Reading:
    """One reading as a row."""
    kind = given["of"]
    known = table.sheet["readings"][kind]
    turned, over = bool(given.get("reversed")), given.get("over")
    u = doubt(table, kind, turned) if given.get("u") is None else given["u"]
    key = (
        table.kinds[kind],
        over if over is not None else known.get("side", 0.0),
        float(turned),
        u,
        given["value"],
    )
    return Reading(
        kind,
        way(table, kind, over, turned),
        given["value"] - known["constant"],
        u * u,
        at,
        position,
        given,
        key,
    )


def hand(sheet: dict[str, Any], by: float) -> float:
    """Variance, mm², of how far a correction of `by` mm really moves."""
    share, fixed = sheet["hand"]["share"], sheet["hand"]["fixed"]
    return float((share * by) * (share * by) + fixed * fixed)


def moves(table: Table, given: list[dict[str, Any]]) -> list[Move]:
    """What was done in one round, one move a kind of correction, in the sheet's order."""
    made = []
    by_do: dict[str, list[float]] = {}
    for one in given:
        by_do.setdefault(one["do"], []).append(float(one["by"]))
    for do, correction in table.corrections.items():
        amounts = sorted(by_do.get(do, []))
        if amounts:
            made.append(
                Move(
                    do,
                    table.sparse(correction["column"]),
                    total(amounts),
                    total(hand(table.sheet, by) for by in amounts),
                )
            )
    return made


def total(values: Iterable[float]) -> float:
    """Sum from the left, as the twin does it (Python's own sum of floats compensates from 3.12 on)."""
    result = 0.0
    for value in values:
        result += value
    return result


def dot(row: Sparse, values: list[float]) -> float:
    """Row times a vector."""
    result = 0.0
    for at, factor in row:
        result += factor * values[at]
    return result


def root(variance: float) -> float:
    """Standard deviation; rounding may leave a variance a hair below 0."""
    return sqrt(variance) if variance > 0 else 0.0
