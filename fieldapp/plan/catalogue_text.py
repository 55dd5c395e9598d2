"""A catalogue's file as lines of cells: commas as RFC 4180 has them, or semicolons or tabs where a spreadsheet has
decimal commas."""

import csv
import io
from collections.abc import Container

BIGGEST = 1 << 20
MOST_ROWS = 5000
PARTS = {",": "commas", ";": "semicolons", "\t": "tabs"}
Lines = list[tuple[int, list[str]]]


def lines_of(body: bytes, known: Container[str]) -> tuple[str, Lines, list[str]]:
    """(what parts the cells, [(number of the line it begins on, its cells)], faults); empty lines are left out.

    known: headings, by which the separator is found out.
    """
    text, faults = _text(body)
    if faults:
        return ",", [], faults
    mark = _parted(text, known)
    found: Lines = []
    begins = 1
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells) and not (begins == 1 and _names_mark(cells)):
                found.append((begins, cells))
            begins = reader.line_num + 1
    except csv.Error as wrong:
        return mark, found, [f"line {begins}: {wrong}; right would be {PARTS[mark]}, and quotes as RFC 4180 has them."]
    if len(found) > MOST_ROWS + 1:
        return mark, found, [f"the file has {len(found) - 1} rows; right would be {MOST_ROWS} at most."]
    return mark, found, []


def heading(cell: str) -> str:
    """A heading as it is compared: spaces and capitals do not matter."""
    return " ".join(cell.split()).casefold()


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


def _names_mark(cells: list[str]) -> bool:
    """A first line `sep=;`, by which some spreadsheets name the separator."""
    return cells[0].casefold().startswith("sep=") and not any(cells[1:])


def _parted(text: str, known: Container[str]) -> str:
    """What parts most of the known headings; a comma where none does."""
    lines = [line for line in text.splitlines()[:20] if line.strip()]
    if lines and lines[0].casefold().startswith("sep="):
        lines = lines[1:]
    first = lines[0] if lines else ""

    def hits(mark: str) -> int:
        return sum(heading(cell.strip(' "')) in known for cell in first.split(mark))

    return max(PARTS, key=hits)
