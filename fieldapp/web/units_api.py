"""Units, packets, entries down (server.md, "Units, packets, entries down")."""

import json
from typing import Any, NoReturn

from flask import Blueprint, make_response, request
from werkzeug.wrappers import Response

from ..store import entries, facts, packets, states, units
from ..store.base import read
from ..store.models import State, Unit
from . import down, lists
from .doors import EVERYBODY, door
from .entry_fields import is_hash, is_uuid
from .problems import stop
from .sessions import person

units_api = Blueprint("units_api", __name__)


def _json(text: str | bytes) -> Response:
    response = make_response(text)
    response.content_type = "application/json"
    return response


def _nothing() -> NoReturn:
    stop(404, "not_found", "nothing here under that id, or not for you")


def item(unit: Unit, state: State | None) -> dict[str, Any]:
    """A unit as lists show it."""
    return {
        "id": unit.id,
        "number": unit.number,
        "code": unit.code,
        "short": unit.short,
        "job": {"id": unit.job.id, "name": unit.job.name},
        "crew": {"id": unit.crew.id, "name": unit.crew.name},
        "packet": unit.packet,
        "stage": state.stage if state else None,
        "waiting": json.loads(state.waiting) if state else [],
    }


@door(units_api, "/api/units", who=EVERYBODY, doc={"summary": "The units this person sees", "list": "units"})
def all_units() -> Response:
    """What this person may see, by id."""
    lists.only("limit", "after")
    limit, start = lists.limit(), lists.after(is_uuid) or ""
    with read() as session:
        found = units.visible(session, person(), limit + 1, start)
    shown = found[:limit]
    states.bring_up(unit.id for unit in shown)
    with read() as session:
        rows = units.states(session, [unit.id for unit in shown])
    return _json(
        json.dumps(
            {
                "units": [item(unit, rows.get(unit.id)) for unit in shown],
                "next": shown[-1].id if len(found) > limit else None,
            }
        )
    )


@door(units_api, "/api/units/<unit>", who=EVERYBODY, doc={"summary": "A unit and its state", "answer": "Unit"})
def one_unit(unit: str) -> Response:
    """The unit and the fold's result, byte for byte."""
    lists.only()
    _seen(unit)
    states.bring_up([unit])
    with read() as session:
        found, state = units.seen(session, person(), unit), states.state_of(session, unit)
    if found is None:
        _nothing()
    body = {**item(found, state), **({"fault": state.fault} if state and state.fault else {})}
    result = (state.state if state else None) or "null"
    return _json(f'{json.dumps(body)[:-1]},"state":{result}}}')


@door(
    units_api,
    "/api/units/<unit>/entries",
    who=EVERYBODY,
    doc={"summary": "A unit's entries", "list": "entries"},
)
def unit_entries(unit: str) -> Response:
    """In order of arrival."""
    lists.only("limit", "after")
    limit, start = lists.limit(), lists.after(down.is_cursor)
    found = _seen(unit)
    with read() as session:
        epoch = facts.epoch(session)
        rows = entries.after(session, unit, down.place(epoch, found, start), limit + 1)
    shown = rows[:limit]
    following = json.dumps(down.cursor(epoch, unit, shown[-1].seq) if len(rows) > limit else None)
    return _json(f'{{"entries":[{",".join(row.text for row in shown)}],"next":{following}}}')


@door(
    units_api,
    "/api/units/<unit>/packet",
    who=EVERYBODY,
    doc={"summary": "The packet in force", "answer": "Packet", "lang": True, "tagged": True},
)
def unit_packet(unit: str) -> Response:
    """The plan in force, in the language asked for where it is issued in it, else in English."""
    lists.only("lang")
    lang = request.args.get("lang", "en")
    found = _seen(unit)
    with read() as session:
        hash = packets.in_language(session, found, lang)
        body = packets.body(session, hash) if hash else None
    if hash is None or body is None:
        stop(404, "not_found", "this unit has no plan yet")
    return _named(body, hash)


@door(
    units_api,
    "/api/packets/<hash>",
    who=EVERYBODY,
    doc={"summary": "A packet or part by its hash", "answer": "Packet", "tagged": True},
)
def document(hash: str) -> Response:
    """Any packet or part ever issued for a unit this person may see."""
    lists.only()
    with read() as session:
        body = packets.seen_body(session, person(), hash) if is_hash(hash) else None
    if body is None:
        _nothing()
    return _named(body, hash)


def _named(body: bytes, hash: str) -> Response:
    response = _json(body)
    if body[:1] == b"<":
        response.content_type = "image/svg+xml"
    response.set_etag(hash)
    return response.make_conditional(request)


def _seen(id: str) -> Unit:
    with read() as session:
        found = units.seen(session, person(), id) if is_uuid(id) else None
    if found is None:
        _nothing()
    return found
