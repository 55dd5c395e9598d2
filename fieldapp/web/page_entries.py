"""Entries made on a page: the same door as a phone's, with the site's own device and counter."""

from collections.abc import Sequence
from typing import Any

from flask import current_app

from ..store import facts
from ..store.base import now_ms, write
from ..store.ids import rfc3339, uuid7
from .sessions import person
from .take import take


def record(
    unit_id: str,
    kind: str,
    value: dict[str, Any],
    *,
    step: str | None = None,
    field: str | None = None,
    round: str | None = None,
    replaces: Sequence[str] = (),
    packet: str | None = None,
    sheet: str | None = None,
) -> dict[str, Any]:
    """Keep one entry of the signed-in person; the answer as a phone gets it: kept, or refused with why.

    The state is brought up after the answer of the page, or at the next read.
    """
    with write() as session:
        device, count = facts.site_device(session), facts.next_count(session)
    moment = now_ms()
    entry = {
        "id": uuid7(moment),
        "v": 1,
        "unit": unit_id,
        "step": step,
        "field": field,
        "round": round,
        "kind": kind,
        "value": value,
        "replaces": list(replaces),
        "packet": packet,
        "sheet": sheet,
        "person": person().id,
        "device": device,
        "count": count,
        "at": rfc3339(moment),
        "offset_ms": 0,
    }
    [row] = take(person(), [entry], quarantine=False)
    if row.answer == "kept":
        current_app.extensions["fieldapp_folding"]([unit_id])
    return row.result()
