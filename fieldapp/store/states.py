"""State rows: brought up by the new entries alone, after the commit and before the next read.

The fold is pure and slow, so it runs outside any write transaction; the row is written where nobody came first. A
fault in the fold is logged and stands in the row; it costs no entry.
"""

import json
import logging
from collections.abc import Iterable
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from ..record import fold
from . import entries, packets
from .base import read, write
from .models import State, Unit

_log = logging.getLogger(__name__)


def bring_up(unit_ids: Iterable[str]) -> None:
    """Fold what came since into the state rows of these units. Needs an app context; takes its own transactions."""
    for unit_id in stale(unit_ids):
        _bring_up_one(unit_id)


def stale(unit_ids: Iterable[str]) -> list[str]:
    """Those of these units whose row is older than their newest entry, or made by another fold."""
    wanted = list(dict.fromkeys(unit_ids))
    found: list[str] = []
    with read() as session:
        for start in range(0, len(wanted), entries.CHUNK):
            query = (
                select(Unit.id)
                .outerjoin(State, State.unit_id == Unit.id)
                .where(
                    Unit.id.in_(wanted[start : start + entries.CHUNK]),
                    or_(State.unit_id.is_(None), State.through_seq < Unit.last_seq, State.fold != fold.FOLD),
                )
            )
            found += session.scalars(query.order_by(Unit.id))
    return found


def _bring_up_one(unit_id: str) -> None:
    with read() as session:
        unit = session.get(Unit, unit_id)
        if unit is None:
            return
        row = session.get(State, unit_id)
        # What a faulty or another fold left is no ground to build on.
        fresh = row is None or row.fold != fold.FOLD or row.fault is not None or row.held is None
        seen = 0 if fresh or row is None else row.through_seq
        held = None if fresh or row is None else json.loads(row.held or "null")
        news = list(entries.wire(session, unit_id, seen))
        through, (plans, parts) = unit.last_seq, documents(session, unit_id)
    try:
        held = fold.gather(held, news)
        state = fold.result(held, plans, parts)
        made = State(
            unit_id=unit_id,
            fold=fold.FOLD,
            through_seq=through,
            held=entries.canonical(held),
            state=fold.canonical(state).decode(),
            stage=state["stage"],
            stands=state["is"],
            waiting=json.dumps(state["waiting"]),
            fault=None,
        )
    except Exception:
        _log.exception("the fold of unit %s failed at entry %d", unit_id, through)
        made = State(
            unit_id=unit_id,
            fold=fold.FOLD,
            through_seq=through,
            held=None,
            state=None,
            stage=None,
            waiting="[]",
            stands="unknown",
            fault="The state of this unit could not be worked out. Its entries are all kept; it is noted.",
        )
    with write() as session:
        there = session.get(State, unit_id)
        if there is None or there.fold != fold.FOLD or there.through_seq < through:
            session.merge(made)


def documents(session: Session, unit_id: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """({hash: packet}, {hash: sheet}): every packet issued to the unit and the sheets that they name."""
    plans = packets.parsed(session, packets.issued_hashes(session, unit_id))
    return plans, packets.parsed(session, [sheet["part"] for plan in plans.values() for sheet in plan["sheets"]])


def state_of(session: Session, unit_id: str) -> State | None:
    """The row as it stands; call `bring_up` before. None where the unit has none yet."""
    return session.get(State, unit_id)
