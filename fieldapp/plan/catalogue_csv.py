"""A catalogue as CSV, out and in. What is read again after being written is the same edition, with the same hash.

Every fault is a sentence that names line and column, the value and what would be right; a file with any is not taken.
"""

import csv
import io
import re
from decimal import Decimal
from typing import Any

from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.catalogue_columns import DECIMALS, LONGEST, Column, Kind, Row, fault
from fieldapp.plan.csv_text import unguarded, written

BIGGEST = 1 << 20
MOST_ROWS = 5000
MOST_FAULTS = 50
MM_PER_INCH = Decimal("25.4")
_NUMBER = re.compile(rf"[0-9]{{1,9}}(?:\.[0-9]{{1,{DECIMALS}}})?")


def write(name: str, rows: list[Row]) -> str:
    """The rows as a CSV file's text."""
    columns = CATALOGUES[name].columns
    return written([column.head for column in columns], ([row[column.name] for column in columns] for row in rows))


def read(name: str, body: bytes) -> tuple[list[Row], list[str]]:
    """(rows, faults) of a CSV file; where there are faults the rows are not to be used."""
    kind = CATALOGUES[name]
    text, faults = _text(body)
    if faults:
        return [], faults
    lines, faults = _lines(text)
    if not lines:
        return [], faults or ["the file is empty; right would be a line of headings: " + _heads(kind) + "."]
    heads, more = _headings(kind, lines[0][1])
    if faults or more:
        return [], faults + more
    rows: list[tuple[int, Row]] = []
    for line, cells in lines[1:]:
        row, found = _row(line, cells, heads)
        faults += found
        rows.append((line, row))
    faults += _together(kind, rows) if not faults else []
    if len(faults) > MOST_FAULTS:
        faults = [*faults[:MOST_FAULTS], f"and {len(faults) - MOST_FAULTS} more faults."]
    return [row for _, row in rows], faults


def _heads(kind: Kind) -> str:
    return ", ".join(column.head for column in kind.columns)


def _text(body: bytes) -> tuple[str, list[str]]:
    """The file's text; a byte order mark is taken and dropped."""
    if len(body) > BIGGEST:
        return "", [f"the file has {len(body)} bytes; right would be {BIGGEST} (1 MiB) at most."]
    try:
        text = body.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        line = body[: wrong.start].count(b"\n") + 1
        return "", [f"line {line}: byte 0x{body[wrong.start]:02x} is not UTF-8; right would be a file saved as UTF-8."]
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        return "", [f"line {line}: a zero byte; right would be a text file saved as UTF-8."]
    return text, []


def _lines(text: str) -> tuple[list[tuple[int, list[str]]], list[str]]:
    """[(number of the line it begins on, its cells)] of all lines that are not empty."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    found, begins = [], 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                found.append((begins, cells))
            begins = reader.line_num + 1
    except csv.Error as wrong:
        return found, [f"line {begins}: {wrong}; right would be commas, and quotes as RFC 4180 has them."]
    if len(found) > MOST_ROWS + 1:
        return found, [f"the file has {len(found) - 1} rows; right would be {MOST_ROWS} at most."]
    return found, []


def _headings(kind: Kind, cells: list[str]) -> tuple[list[tuple[Column, str]], list[str]]:
    """[(column, unit its cells are in)] of the first line, in any order; lengths may be in mm or in."""
    if len(cells) == 1 and (";" in cells[0] or "\t" in cells[0]):
        parted = "semicolons" if ";" in cells[0] else "tabs"
        return [], [f"line 1: the columns are parted by {parted}; right would be commas (RFC 4180)."]
    known = {name: (column, unit) for column in kind.columns for name, unit in _names(column)}
    found: list[tuple[Column, str]] = []
    faults = []
    for cell in cells:
        said = " ".join(unguarded(cell).split())
        if said not in known:
            near = [each for each in known if each.split(" (")[0] == said.split(" (")[0]]
            right = " or ".join(map(repr, near)) or "one of " + _heads(kind)
            faults.append(f"line 1: {said[:40]!r}; right would be {right}.")
        elif known[said][0] in [column for column, _ in found]:
            faults.append(f"line 1: {said!r} stands twice; right would be once.")
        else:
            found.append(known[said])
    there = {column.name for column, _ in found}
    said_wrong = {" ".join(cell.split()).split(" (")[0] for cell in cells}
    faults += [
        f"line 1: no column {column.head!r}; right would be all of {_heads(kind)}."
        for column in kind.columns
        if column.name not in there | said_wrong
    ]
    return found, faults


def _names(column: Column) -> list[tuple[str, str]]:
    units = ("mm", "in") if column.unit == "mm" else (column.unit,)
    return [(f"{column.name} ({unit})" if unit else column.name, unit) for unit in units]


def _row(line: int, cells: list[str], heads: list[tuple[Column, str]]) -> tuple[Row, list[str]]:
    if len(cells) != len(heads):
        return {}, [f"line {line}: {len(cells)} cells; right would be {len(heads)}, one for each heading."]
    row, faults = {}, []
    for cell, (column, unit) in zip(cells, heads, strict=True):
        value = unguarded(cell).replace("\u00a0", " ").strip()
        right = column.right
        row[column.name], sound = _value(value, column, unit)
        if not sound:
            scale = f" (in {unit}; {column.low:g} mm to {column.high:g} mm)" if unit == "in" else ""
            head = f"{column.name} ({unit})" if unit else column.name
            faults.append(fault(line, head, value, right + scale))
    return row, faults


def _value(text: str, column: Column, unit: str) -> tuple[Any, bool]:
    """(the value, whether it is right)."""
    if not text:
        return None, not column.needed
    if column.kind == "choice":
        return text, text in column.choices
    if column.kind == "text":
        return text, len(text) <= LONGEST and text.isprintable()
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
