"""What paper says on every page: the margin boxes of a record's print, as a style sheet of its own.

Page margin boxes (CSS Paged Media 3, 4) take text from `content` alone, and the Content-Security-Policy refuses text
that stands in a page's own styles: so each record has a small sheet of its own, beside the one that says how they look.
"""

from datetime import UTC, datetime

from ..store import codes
from . import office_proof
from .office_unit import Known

HASH_SHOWN = 12
LONGEST = 48


def stylesheet(known: Known, printed_by: str, now: datetime | None = None) -> str:
    """`@page` rules with the unit, its code, when and by whom it is printed, and the start of the sign-off's hash."""
    at = now or datetime.now(UTC)
    signed = office_proof.signed(known)
    hashes = ", ".join(str(each["sha256"])[:HASH_SHOWN] for each in signed) or "not signed"
    return margin_boxes(named(known), printed_by, at, ["Sign-off", hashes])


def named(known: Known) -> list[str]:
    """A unit in a title block: its job; its number and code."""
    return [known.unit.job.name, f"{_cut(known.unit.number)}, {codes.shown(known.unit.short)}"]


def margin_boxes(what: list[str], printed_by: str, at: datetime, last: list[str]) -> str:
    """`@page` rules: left what it is (lines), in the middle when and by whom it is printed, right what else and the
    page's number."""
    boxes = {
        "bottom-left": [_cut(line) for line in what],
        "bottom-center": [f"Printed {at.day} {at:%b %Y, %H:%M} UTC", f"by {_cut(printed_by)}"],
        "bottom-right": [_cut(line) for line in last],
    }
    rules = " ".join(f"@{box} {{ content: {_lines(lines)}{_PAGES.get(box, '')}; }}" for box, lines in boxes.items())
    return f"@page {{ {rules} }}\n"


# The number stands in the last box, so that three boxes have room for what is long.
_PAGES = {"bottom-right": ' "\\A page " counter(page) " of " counter(pages)'}


def _lines(lines: list[str]) -> str:
    return ' "\\A " '.join(_string(line) for line in lines)


def _string(text: str) -> str:
    """A CSS string (CSS Syntax 3, 4.3.5): quotes, backslashes and what is not printable by their code points."""
    return '"' + "".join(f"\\{ord(c):x} " if c in '"\\<' or not c.isprintable() else c for c in text) + '"'


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST else text[: LONGEST - 1].rstrip() + "…"
