"""What goes down: entries of a unit after a cursor, within what a call may carry."""

import re
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from ..store import entries
from ..store.ids import sha256
from ..store.models import Unit

ENTRIES_LIMIT = 500
# A full answer of ordinary entries is 0.4 MB; 500 of the largest would be 32.
_BYTES_LIMIT = 4 << 20
_CURSOR = re.compile(r"([0-9a-f]{16})\.([0-9]{1,15})", re.ASCII)


def cursor(epoch: str, unit_id: str, seq: int) -> str:
    """An opaque cursor: which site's history of which unit, and how far."""
    return f"{_mark(epoch, unit_id)}.{seq}"


def _mark(epoch: str, unit_id: str) -> str:
    return sha256(f"{epoch} {unit_id}".encode())[:16]


def is_cursor(text: object) -> bool:
    """Whether it has the shape of one of ours."""
    return isinstance(text, str) and _CURSOR.fullmatch(text) is not None


def place(epoch: str, unit: Unit, given: str | None) -> int:
    """The sequence a cursor stands at; 0, the start, for null and for one of another epoch, unit or future."""
    found = _CURSOR.fullmatch(given or "")
    if found is None or found[1] != _mark(epoch, unit.id):
        return 0
    seq = int(found[2])
    return seq if seq <= unit.last_seq else 0


@dataclass
class Budget:
    """How much a call may still carry down."""

    entries: int = ENTRIES_LIMIT
    bytes: int = _BYTES_LIMIT


@dataclass
class Page:
    """Entries of one unit, as JSON texts, and where they end."""

    texts: list[str] = field(default_factory=list)
    seq: int = 0
    more: bool = False


def page(session: Session, unit: Unit, after: int, budget: Budget) -> Page:
    """The unit's next entries within the budget, which they use up; at least one where the budget is whole."""
    found = Page(seq=after)
    for row in (
        entries.after(session, unit.id, after, budget.entries) if budget.entries and after < unit.last_seq else []
    ):
        size = len(row.text)
        if size > budget.bytes and budget.entries < ENTRIES_LIMIT:
            break
        found.texts.append(row.text)
        found.seq = row.seq
        budget.entries -= 1
        budget.bytes -= size
    found.more = found.seq < unit.last_seq
    return found
