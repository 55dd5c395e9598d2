"""POST /api/sync: entries up, entries down (server.md, "Sync")."""

import json
import logging
from typing import Any

from flask import Blueprint, Flask, Response, current_app, g, make_response
from marshmallow import fields
from sqlalchemy.exc import SQLAlchemyError

from ..store import devices, facts, units
from ..store.base import now_ms, read
from ..store.ids import rfc3339
from ..store.models import Person
from . import down
from . import entry_fields as f
from .body import json_object
from .doors import EVERYBODY, door
from .entry_schemas import Strict, flat
from .problems import stop, told
from .take import Taken, take

_log = logging.getLogger(__name__)
sync = Blueprint("sync", __name__)
ENTRIES_LIMIT = 500
_UNITS_LIMIT = 2000


def _is_cursors(value: Any) -> bool:
    return type(value) is dict


class SyncBody(Strict):
    """The body; entries are looked at one by one, later."""

    device = f.uuid()
    entries: fields.Field[Any] = f.Checked(
        lambda v: type(v) is list,
        "a list of at most 500 entries",
        {"type": "array", "maxItems": ENTRIES_LIMIT, "items": {"$ref": "#/components/schemas/Entry"}},
    )
    units = f.Checked(
        _is_cursors,
        "an object: cursor or null by the unit's id",
        {"type": "object", "additionalProperties": {"type": ["string", "null"]}},
    )


_BODY = SyncBody()


@door(
    sync,
    "/api/sync",
    who=EVERYBODY,
    methods=["POST"],
    lets_revoked=True,
    doc={"summary": "Entries up, entries down", "body": "SyncBody", "answer": "SyncAnswer"},
)
def call() -> Response:
    """Take the call's entries, all on disk before the answer; then what is new of the units asked for."""
    body = json_object(packed=True)
    _check(body)
    visitor = g.visitor
    with read() as session:
        revoked = devices.revoked(session, _devices(body))
    shut_out = visitor.revoked or body["device"] in revoked
    rows = take(visitor.person, body["entries"], shut_out, revoked)
    kept = {row.entry["unit"] for row in rows if row.answer == "kept"}
    answer = _answer(visitor.person, rows, {} if shut_out else body["units"], shut_out)
    response = make_response(answer)
    response.content_type = "application/json"
    app, highest, at = _app(), _highest(body), now_ms()

    def afterwards() -> None:
        try:
            if not shut_out:
                with app.app_context():
                    devices.heard(body["device"], visitor.person.id, highest, at)
        except SQLAlchemyError:
            _log.exception("when phone %s called was not noted", body["device"])
        if kept:
            app.extensions["fieldapp_folding"](kept)

    response.call_on_close(afterwards)
    return response


def _app() -> Flask:
    return current_app._get_current_object()  # type: ignore[attr-defined,no-any-return]


def _check(body: dict[str, Any]) -> None:
    problems = flat(_BODY.validate(body))
    entries, cursors = body.get("entries"), body.get("units")
    if type(entries) is list and len(entries) > ENTRIES_LIMIT:
        sentence = f"{len(entries)} sent; at most {ENTRIES_LIMIT}"
        stop(413, "too_big", f"{sentence} entries in a call; nothing was kept", {"entries": [sentence]})
    if type(cursors) is dict:
        if len(cursors) > _UNITS_LIMIT:
            problems["units"] = [f"{len(cursors)} sent; at most {_UNITS_LIMIT}"]
        for id, given in cursors.items():
            if not f.is_uuid(id):
                problems[f"units.{told(id)}"] = ["a unit's id, a UUID in lower case, would be right"]
            elif given is not None and not down.is_cursor(given):
                problems[f"units.{id}"] = [f"{told(given)}: a cursor of an answer before, or null, would be right"]
    if problems:
        path, sentences = next(iter(problems.items()))
        stop(422, "bad_shape", f"{path}: {sentences[0]}; nothing was kept", problems)


def _devices(body: dict[str, Any]) -> set[str]:
    named = [entry.get("device") for entry in body["entries"] if isinstance(entry, dict)]
    return {str(device) for device in named if f.is_uuid(device)} | {body["device"]}


def _highest(body: dict[str, Any]) -> int:
    own = [e for e in body["entries"] if isinstance(e, dict) and e.get("device") == body["device"]]
    return max((int(e["count"]) for e in own if f.is_whole(e.get("count"))), default=0)


def _answer(person: Person, rows: list[Taken], cursors: dict[str, str | None], shut_out: bool) -> str:
    """The answer's JSON, put together from texts that are JSON already."""
    carried: list[str] = []
    gone: dict[str, str] = {}
    with read() as session:
        epoch = facts.epoch(session)
        assigned = [] if shut_out else units.assigned(session, person)
        seen = units.seen_of(session, person, list(cursors))
        budget = down.Budget()
        for id, given in cursors.items():
            unit = seen.get(id)
            if unit is None:
                gone[id] = "not here, or not one of your crew's units"
                continue
            page = down.page(session, unit, down.place(epoch, unit, given), budget)
            carried.append(
                f'"{id}":{{"entries":[{",".join(page.texts)}],"cursor":"{down.cursor(epoch, id, page.seq)}",'
                f'"more":{json.dumps(page.more)},"packet":{json.dumps(unit.packet)}}}'
            )
    head = json.dumps({"time": rfc3339(now_ms()), "epoch": epoch, "results": [row.result() for row in rows]})
    tail = json.dumps({"assigned": [{"id": id, "packet": packet} for id, packet in assigned], "gone": gone})
    return f'{head[:-1]},"units":{{{",".join(carried)}}},{tail[1:]}'
