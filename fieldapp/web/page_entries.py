"""Entries made on a page: the same door as a phone's, with the site's own device and counter."""

from collections.abc import Mapping, Sequence
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
    made = {
        "kind": kind,
        "value": value,
        "step": step,
        "field": field,
        "round": round,
        "replaces": list(replaces),
        "packet": packet,
        "sheet": sheet,
    }
    return record_all(unit_id, [made])[0]


def record_all(unit_id: str, made: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Keep entries of the signed-in person in one transaction, each {"kind", "value"} and of step, field, round,
    replaces, packet, sheet what there is; an answer for each, in order."""
    with write() as session:
        device, count = facts.site_device(session), facts.next_count(session, len(made))
    moment = now_ms()
    entries = [
        {
            "step": None,
            "field": None,
            "round": None,
            "replaces": [],
            "packet": None,
            "sheet": None,
            **one,
            "id": uuid7(moment),
            "v": 1,
            "unit": unit_id,
            "person": person().id,
            "device": device,
            "count": count + place,
            "at": rfc3339(moment),
            "offset_ms": 0,
        }
        for place, one in enumerate(made)
    ]
    rows = take(person(), entries, quarantine=False)
    if any(row.answer == "kept" for row in rows):
        current_app.extensions["fieldapp_folding"]([unit_id])
    return [row.result() for row in rows]
