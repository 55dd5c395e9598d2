"""Whether the server lives, whether it can work, and the ping that a phone believes."""

import json
import os

from flask import Blueprint, Response, make_response

from ..store import facts, opening, sqlite
from ..store.base import db, now_ms, read
from ..store.ids import rfc3339
from .doors import ANYONE, door
from .headers import API, OLDEST
from .photo_files import folder
from .sessions import settings

health = Blueprint("health", __name__)


@door(health, "/api/ping", who=ANYONE, doc={"summary": "Is this the server, and which", "answer": "Ping"})
def ping() -> Response:
    """What tells our server from a captive portal."""
    with read() as session:
        epoch = facts.epoch(session)
    return _json({"app": "fieldapp", "api": API, "oldest": OLDEST, "time": rfc3339(now_ms()), "epoch": epoch})


@door(health, "/health/live", who=ANYONE)
def live() -> Response:
    """The process answers."""
    return _json({"live": True})


@door(health, "/health/ready", who=ANYONE)
def ready() -> Response:
    """Database, its settings and the photos' folder can be used."""
    because = _because()
    return _json({"ready": not because, "because": because}, 503 if because else 200)


def _because() -> list[str]:
    faults = []
    try:
        at, newest = opening.revision()
        if at != newest:
            faults.append(f"the database is at {at!r}; {newest!r} is needed")
        if db.engine.dialect.name == "sqlite":
            faults += sqlite.read_back(db.engine, settings().busy_ms)
    except Exception as fault:
        faults.append(f"the database does not answer: {type(fault).__name__}")
    try:
        writable = os.access(folder(), os.W_OK)
    except OSError:
        writable = False
    if not writable:
        faults.append("the photos' folder cannot be written")
    return faults


def _json(body: object, status: int = 200) -> Response:
    response = make_response(json.dumps(body), status)
    response.content_type = "application/json"
    return response
