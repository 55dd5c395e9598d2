"""The corrections to make: planned group by group, cut back by the room.

Twin: static/phone/estimate_moves.js.
"""

from typing import Any, NamedTuple

from fieldapp.trade.estimate.chance import INSIDE
from fieldapp.trade.estimate.linear_judged import Judged, judged
from fieldapp.trade.estimate.linear_plan import Wanted, best
from fieldapp.trade.estimate.linear_plan import group as plan_group
from fieldapp.trade.estimate.linear_room import Cut, Room, after, at_first, cut
from fieldapp.trade.estimate.linear_table import Move, Table, hand
from fieldapp.trade.estimate.linear_update import State


def corrections(table: Table, state: State, given: dict[str, Any]) -> tuple[list[Cut], State]:
    """The corrections in the sheet's order, and the state once they are made, the hand's error counted."""
    sheet = table.sheet
    step = float(sheet["step"][given.get("show") or "mm"])
    job = Job(table, list(given.get("fixed") or []), step)
    room, then, made = at_first(sheet, given), state.copy(), list[Cut]()
    for item in sheet["groups"]:
        room = _group(job, then, item, room, made)
    return made, then


class Job(NamedTuple):
    """What every group of corrections is planned with: the sheet, corners already fixed, and the step in mm."""

    table: Table
    fixed: list[str]
    step: float


def _group(job: Job, then: State, item: dict[str, Any], room: Room, made: list[Cut]) -> Room:
    """Plan a group and make its moves, planning the rest anew whenever one was cut back."""
    table = job.table
    rows = [[one["do"] for one in table.sheet["corrections"] if one["row"] == row] for row in item["rows"]]
    known = _known(job, then, item)
    plan = _plan(job, then, known, rows)
    for at, row in enumerate(rows):
        wanted = next((one for one in plan if one[0] in row), None)
        if wanted is None:
            continue
        possible = _possible(table, room, wanted, job.step)
        made.append(possible)
        _make(table, then, possible)
        room = after(table.sheet, room, table.corrections[possible.do], possible.by)
        if possible.by < possible.wanted:
            plan = _plan(job, then, known, rows[at + 1 :])
    return room


def _known(job: Job, then: State, item: dict[str, Any]) -> list[str]:
    """The group's quantities that a move may be built on; none unless those are known that every move needs."""
    known = [one.what for one in judged(job.table, then, item["judged"]) if one.known]
    return [what for what in item["judged"] if what in known] if all(what in known for what in item["known"]) else []


def _plan(job: Job, then: State, known: list[str], rows: list[list[str]]) -> list[Wanted]:
    """The best moves of these rows; none unless something known is not inside."""
    named = {one.what: one for one in judged(job.table, then, known)}
    quantities = [named[what] for what in known]
    if not rows or not _open(quantities):
        return []
    every = [do for row in rows for do in row]
    return best(plan_group(job.table, then, quantities, every, job.fixed, job.step), rows)


def _open(quantities: list[Judged]) -> bool:
    return any(one.verdict != INSIDE for one in quantities)


def _possible(table: Table, room: Room, wanted: Wanted, step: float) -> Cut:
    """The move as far as its room goes; or the one to make in its place where that goes further."""
    correction = table.corrections[wanted[0]]
    first = cut(table.sheet, room, correction, wanted[1], step)
    other = correction.get("instead")
    if other is None or not any(place in first.lacks for place in other["where"]):
        return first
    second = cut(table.sheet, room, table.corrections[other["do"]], wanted[1], step)
    return second if second.by > first.by else first


def _make(table: Table, then: State, possible: Cut) -> None:
    if possible.by > 0:
        column = table.sparse(table.corrections[possible.do]["column"])
        then.move(Move(possible.do, column, possible.by, hand(table.sheet, possible.by)))
