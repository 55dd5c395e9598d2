"""A catalogue as CSV, out and in. What is read again after being written is the same edition, with the same hash.

Every fault is a sentence that names line and column, the value and what would be right; a file with any is not taken.
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.catalogue_columns import DECIMALS, LONGEST, Column, Kind, Row, fault
from fieldapp.plan.catalogue_text import BIGGEST as BIGGEST
from fieldapp.plan.catalogue_text import Lines, heading, lines_of
from fieldapp.plan.csv_text import unguarded, written

MOST_FAULTS = 50
MM_PER_INCH = Decimal("25.4")
_NUMBER = re.compile(rf"[0-9]{{1,9}}(?:\.[0-9]{{1,{DECIMALS}}})?")


def write(name: str, rows: list[Row], semicolons: bool = False) -> str:
    """The rows as a CSV file's text; semicolons: for a spreadsheet where the comma is the decimal mark."""
    columns = CATALOGUES[name].columns
    cells = ([row[column.name] for column in columns] for row in rows)
    return written([column.head for column in columns], cells, semicolons)


def read(name: str, body: bytes) -> tuple[list[Row], list[str]]:
    """(rows, faults) of a CSV file; where there are faults the rows are not to be used."""
    kind = CATALOGUES[name]
    known = {heading(said): (column, unit) for column in kind.columns for said, unit in _names(column)}
    parted, lines, faults = lines_of(body, known)
    if not lines:
        return [], faults or ["the file is empty; right would be a line of headings: " + _heads(kind) + "."]
    heads, more = _headings(kind, lines[0][1], known)
    if faults or more:
        return [], faults + more
    rows: list[tuple[int, Row]] = []
    decimal = _decimal(parted, lines[1:], heads)
    for line, cells in lines[1:]:
        row, found = _row(line, cells, heads, decimal)
        faults += found
        rows.append((line, row))
    faults += _together(kind, rows) if not faults else []
    if len(faults) > MOST_FAULTS:
        faults = [*faults[:MOST_FAULTS], f"and {len(faults) - MOST_FAULTS} more faults."]
    return [row for _, row in rows], faults


def _heads(kind: Kind) -> str:
    return ", ".join(column.head for column in kind.columns)


def _headings(
    kind: Kind, cells: list[str], known: Mapping[str, tuple[Column, str]]
) -> tuple[list[tuple[Column, str]], list[str]]:
    """[(column, unit its cells are in)] of the first line, in any order; lengths may be in mm or in."""
    found: list[tuple[Column, str]] = []
    faults = []
    for cell in _trimmed(cells, 1):
        said = " ".join(unguarded(cell).split())
        key = heading(said)
        if key not in known:
            near = [each for column in kind.columns for each, _ in _names(column) if column.name == key.split(" (")[0]]
            right = " or ".join(map(repr, near)) or "one of " + _heads(kind)
            faults.append(f"line 1: {said[:40]!r}; right would be {right}.")
        elif known[key][0] in [column for column, _ in found]:
            faults.append(f"line 1: {said!r} stands twice; right would be once.")
        else:
            found.append(known[key])
    there = {column.name for column, _ in found}
    said_wrong = {heading(cell).split(" (")[0] for cell in cells}
    faults += [
        f"line 1: no column {column.head!r}; right would be all of {_heads(kind)}."
        for column in kind.columns
        if column.name not in there | said_wrong
    ]
    return found, faults


def _trimmed(cells: list[str], most: int) -> list[str]:
    """Without the empty cells at the end that a spreadsheet writes beyond the `most` that are wanted."""
    end = len(cells)
    while end > most and not cells[end - 1].strip():
        end -= 1
    return cells[:end]


def _decimal(parted: str, lines: Lines, heads: list[tuple[Column, str]]) -> str:
    """The file's decimal mark: a comma where cells are parted otherwise and any number has one, else a point."""
    places = [at for at, (column, _) in enumerate(heads) if column.kind in ("number", "count")]
    if parted == ",":
        return "."
    return "," if any("," in cells[at] for _, cells in lines for at in places if at < len(cells)) else "."


def _names(column: Column) -> list[tuple[str, str]]:
    units = ("mm", "in") if column.unit == "mm" else (column.unit,)
    return [(f"{column.name} ({unit})" if unit else column.name, unit) for unit in units]


def _row(line: int, cells: list[str], heads: list[tuple[Column, str]], decimal: str) -> tuple[Row, list[str]]:
    cells = _trimmed(cells, len(heads))
    if len(cells) != len(heads):
        return {}, [f"line {line}: {len(cells)} cells; right would be {len(heads)}, one for each heading."]
    row, faults = {}, []
    for cell, (column, unit) in zip(cells, heads, strict=True):
        value = unguarded(cell).replace("\u00a0", " ").strip()
        right = column.right
        row[column.name], sound = _value(value, column, unit, decimal)
        if not sound:
            scale = f" (in {unit}; {column.low:g} mm to {column.high:g} mm)" if unit == "in" else ""
            if decimal == "," and column.kind in ("number", "count"):
                scale += "; this file's decimal mark is the comma"
            head = f"{column.name} ({unit})" if unit else column.name
            faults.append(fault(line, head, value, right + scale))
    return row, faults


def _value(text: str, column: Column, unit: str, decimal: str) -> tuple[Any, bool]:
    """(the value, whether it is right)."""
    if not text:
        return None, not column.needed
    if column.kind == "choice":
        chosen = next((each for each in column.choices if each.casefold() == text.casefold()), None)
        return chosen, chosen is not None
    if column.kind == "text":
        return text, len(text) <= LONGEST and text.isprintable()
    if decimal == ",":
        text = text.replace(".", "!").replace(",", ".")
    if not _NUMBER.fullmatch(text):
        return None, False
    exact = Decimal(text) * (MM_PER_INCH if unit == "in" else 1)
    value = float(round(exact, DECIMALS))
    whole = column.kind != "count" or value.is_integer()
    return value, whole and column.low <= value <= column.high


def _together(kind: Kind, rows: list[tuple[int, Row]]) -> list[str]:
    """What rows say about each other: ids once, pairs that rise, and the catalogue's own rules."""
    faults: list[str] = []
    lines: dict[str, int] = {}
    for line, row in rows:
        key = row["id"].casefold()
        if key in lines:
            faults.append(fault(line, "id", row["id"], f"an id used once; line {lines[key]} has it"))
        lines.setdefault(key, line)
        units = {column.name: column.head for column in kind.columns}
        for low, high in kind.rising:
            if row[low] is not None and row[high] is not None and row[low] > row[high]:
                faults.append(fault(line, units[high], row[high], f"{row[low]:g} or more, as {low} has it"))
    return faults + [said for check in kind.checks for said in check(rows)]
