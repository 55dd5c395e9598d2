"""The phone's own pages: shell, worker, static files, manifest, a label's address."""

import json

from flask import Blueprint, current_app, g, make_response, redirect, render_template, request
from werkzeug.wrappers import Response

from ..store import units
from ..store.base import read
from .doors import ANYONE, door
from .problems import stop
from .sessions import remember
from .shell import Shell, kind_of

phone = Blueprint("phone", __name__)
_SUPERVISOR = "supervisor"


def the_shell() -> Shell:
    """The one version this process serves."""
    found: Shell = current_app.config["FIELDAPP_SHELL"]
    return found


@door(phone, "/", who=ANYONE)
def shell() -> Response:
    """The shell's page: the same bytes for everyone."""
    return _named(make_response(render_template("phone/shell.html")), the_shell().version)


@door(phone, "/shell.json", who=ANYONE)
def shell_files() -> Response:
    """What the worker keeps."""
    found = the_shell()
    return _json({"version": found.version, "files": found.kept, "later": found.later}, "application/json")


@door(phone, "/service-worker.js", who=ANYONE)
def worker() -> Response:
    """The service worker, a classic script."""
    response = make_response(the_shell().worker)
    response.content_type = "text/javascript; charset=utf-8"
    response.headers["Service-Worker-Allowed"] = "/"
    response.headers["Cache-Control"] = "no-cache"
    return response


@door(phone, "/manifest.webmanifest", who=ANYONE)
def manifest() -> Response:
    """What a phone needs to put the shell on its home screen."""
    address = the_shell().url
    icons = [
        {"src": address("phone/icon.svg"), "sizes": "any", "type": "image/svg+xml"},
        {"src": address("phone/icon.png"), "sizes": _png_size(), "type": "image/png"},
    ]
    body = {
        "name": "fieldapp",
        "short_name": "fieldapp",
        "id": "/",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#FFFFFF",
        "theme_color": "#FFFFFF",
        "icons": [icon for icon in icons if icon["src"].split("/", 3)[3] in the_shell().files],
    }
    return _json(body, "application/manifest+json")


def _png_size() -> str:
    """Width x height as a PNG's header says it (W3C PNG, 11.2.2)."""
    head = the_shell().files.get("phone/icon.png", b"")[16:24]
    return f"{int.from_bytes(head[:4], 'big')}x{int.from_bytes(head[4:], 'big')}"


@door(phone, "/static/<version>/<path:name>", who=ANYONE)
def static(version: str, name: str) -> Response:
    """A static file of this very version; another version's files are not here, so versions never mix."""
    found = the_shell()
    if version != found.version or name not in found.files:
        stop(404, "not_found", "no such file in the version served now")
    response = make_response(found.files[name])
    response.content_type = kind_of(name)
    response.headers["Cache-Control"] = "public, max-age=31536000, immutable"
    return response


@door(phone, "/u/<code>", who=ANYONE)
@door(phone, "/U/<code>", who=ANYONE)
def label(code: str) -> Response:
    """Where a unit's label leads: to its record or its screen for whoever sees it; else nothing about the unit."""
    if g.visitor is None or g.visitor.revoked:
        return remember(make_response(render_template("label_unknown.html")))
    with read() as session:
        unit = units.by_code(session, code)
        if unit is None or not units.sees(g.visitor.person, unit):
            stop(404, "not_found", "nothing here under that code, or not for you")
    office = _SUPERVISOR in g.visitor.person.role_set
    return redirect(f"/office/units/{unit.id}" if office else f"/#unit/{unit.id}", 303)


def _named(response: Response, tag: str) -> Response:
    """A page that changes with the version only: asked after every time, sent only when it is another."""
    response.headers["Cache-Control"] = "no-cache"
    response.set_etag(tag)
    return response.make_conditional(request)


def _json(body: object, kind: str) -> Response:
    response = make_response(json.dumps(body, ensure_ascii=False))
    response.content_type = kind
    response.headers["Cache-Control"] = "no-cache"
    return response
