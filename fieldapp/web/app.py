"""The web application: `create_app` puts the rooms' blueprints behind one set of doors."""

import logging
from pathlib import Path

from flask import Flask, Response, request
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException
from werkzeug.middleware.proxy_fix import ProxyFix

from ..places import folder
from ..settings import Settings
from ..site import editions
from ..store import opening
from ..store import photos as photo_rows
from ..store.base import read
from . import doors, headers, photo_files, problems, sessions, shell
from .account import account
from .api_description import description
from .calc import calc
from .folding import Folding
from .health import health
from .labels import labels
from .office import office
from .office_catalogues import office_catalogues
from .office_deciders import office_deciders
from .office_picks import office_picks
from .office_plan import office_plan
from .phone import phone
from .photos import photos
from .sync import sync
from .unit_picks import unit_picks
from .unit_works import unit_works
from .units_api import units_api

_log = logging.getLogger(__name__)
JSON_LIMIT = 1 << 20


def create_app(site: Path, settings: Settings) -> Flask:
    """The application over a site's folder; makes the database and the secret at first start.

    Raises StoreError where the site cannot be used.
    """
    site.mkdir(mode=0o700, parents=True, exist_ok=True)
    app = bare_app()
    app.secret_key = opening.secret(site)
    opening.attach(app, settings)
    with app.app_context():
        editions.start()
    with app.app_context(), read() as session:
        photo_files.sweep(lambda kept: photo_rows.rows_of(session, kept))
    if settings.trusted_proxies:
        count = settings.trusted_proxies  # only whom the call comes from: host and scheme are the setting's
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=count, x_proto=0, x_host=0)  # type: ignore[method-assign]
    return app


def bare_app() -> Flask:
    """The application without a site: its routes and pages, nothing behind them."""
    app = Flask("fieldapp", static_folder=None, template_folder=str(folder("templates")))
    app.config.update(
        MAX_CONTENT_LENGTH=JSON_LIMIT,
        MAX_FORM_MEMORY_SIZE=100_000,
        MAX_FORM_PARTS=100,
        FIELDAPP_SHELL=shell.load(),
    )
    app.url_map.merge_slashes = False  # nothing under /api/ redirects
    checks = (headers.check_host, headers.check_version, headers.check_origin, sessions.look, doors.guard)
    for check in checks:
        app.before_request(check)
    app.after_request(headers.finish)
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(OperationalError, _busy)
    app.register_error_handler(Exception, _fault)
    found: shell.Shell = app.config["FIELDAPP_SHELL"]
    app.jinja_env.globals.update(static_url=found.url, shell_version=found.version, shell_first=found.first)
    _register(app)
    for rule in app.url_map.iter_rules():
        doors.declaration(app, rule.endpoint)
    return app


def _register(app: Flask) -> None:
    desk = (office, office_picks, office_plan, office_deciders, labels, office_catalogues)
    box = (calc, unit_works, unit_picks)
    for blueprint in (phone, account, sync, units_api, photos, health, description, *desk, *box):
        app.register_blueprint(blueprint)
    app.extensions["fieldapp_folding"] = Folding(app)


def _refused(fault: HTTPException) -> Response:
    """Errors of Werkzeug and Flask in our shape."""
    if fault.response is not None:
        return fault.response  # type: ignore[return-value]
    status = fault.code or 500
    if status >= 500:
        return _fault(fault)
    code = problems.code_of(status)
    methods = sorted(getattr(fault, "valid_methods", None) or [])
    detail = {
        404: "nothing here under that address, or not for you",
        405: f"{request.method} is not taken here; {', '.join(methods)} would be right",
        413: "the body is over what is taken here (1 MiB of JSON, 12 MiB a photo)",
    }.get(status, fault.description or "the request cannot be read")
    extra = {"Allow": ", ".join(methods)} if status == 405 and methods else None
    return problems.problem(status, code, detail, headers=extra)


def _busy(fault: OperationalError) -> Response:
    _log.warning("the database did not answer: %s", fault.orig)
    return _later("the database is busy; nothing of this call was kept")


def _fault(fault: Exception) -> Response:
    _log.error("a fault of ours at %s %s", request.method, request.path, exc_info=fault)
    return _later("we failed, not you; it is noted, and nothing of this call was kept")


def _later(detail: str) -> Response:
    return problems.problem(503, "not_now", detail, retry="later", headers={"Retry-After": "2"})
