"""CSV as RFC 4180 has it: commas, lines ended by CR LF, quotes where needed; no cell that a spreadsheet would run.

A text that begins with = + - @, a tab, a return or an apostrophe is given an apostrophe before it; `unguarded` takes it
away again, so what is written is what is read back.
"""

import csv
import io
from collections.abc import Iterable, Sequence

MARK = "\ufeff"  # byte order mark
_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "'")


def guarded(text: str) -> str:
    """The text as a cell that no spreadsheet takes for a formula."""
    return f"'{text}" if text.startswith(_RUNS) else text


def unguarded(cell: str) -> str:
    """The text that `guarded` was given; a cell that somebody typed stays as it is."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(_RUNS) else cell


def written(head: Sequence[str], rows: Iterable[Sequence[str | float | None]], semicolons: bool = False) -> str:
    """The file's text; numbers as they are said shortest, None an empty cell.

    semicolons: as a spreadsheet opens it where the comma is the decimal mark: semicolons, decimal commas, and a byte
    order mark, without which it would not take the file for UTF-8.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=";" if semicolons else ",", lineterminator="\r\n")
    writer.writerow(map(guarded, head))
    writer.writerows([_cell(cell, "," if semicolons else ".") for cell in row] for row in rows)
    return (MARK if semicolons else "") + out.getvalue()


def _cell(cell: str | float | None, decimal: str) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return guarded(cell)
    return repr(int(cell)) if float(cell).is_integer() else repr(float(cell)).replace(".", decimal)
