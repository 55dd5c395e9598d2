"""One declaration a route: rule, methods, who may pass. `door` enters it, `guard` enforces it, `routes` prints it."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from flask import Blueprint, Flask, current_app, g, request
from flask.sansio.blueprints import Blueprint as AnyBlueprint
from werkzeug.wrappers import Response

from ..store.people import ROLES
from .problems import stop

View = TypeVar("View", bound=Callable[..., Any])
ANYONE = "anyone"
EVERYBODY: tuple[str, ...] = ROLES


def door(
    blueprint: Blueprint,
    rule: str,
    *,
    who: str | Sequence[str],
    methods: Sequence[str] = ("GET",),
    doc: dict[str, Any] | None = None,
    lets_revoked: bool = False,
    asks_origin: bool = True,
) -> Callable[[View], View]:
    """Decorator: the view answers `rule`.

    who: `"anyone"` or the roles let in; doc: its part of the API description (routes under /api/); lets_revoked: a
    revoked person or phone comes in too (sync alone); asks_origin: False for what changes nothing though it is a POST.
    """
    roles = who if isinstance(who, str) else tuple(role for role in ROLES if role in who)
    if (isinstance(roles, str) and roles != ANYONE) or (not isinstance(roles, str) and set(roles) != set(who)):
        raise ValueError(f"{rule}: who is {who!r}; 'anyone' or roles of {ROLES} would be right")

    def enter(view: View) -> View:
        endpoint = f"{view.__name__}.{len(_declared(blueprint))}".replace(".", "_")
        _declared(blueprint)[endpoint] = {
            "who": roles,
            "doc": doc,
            "lets_revoked": lets_revoked,
            "asks_origin": asks_origin,
        }
        blueprint.add_url_rule(rule, endpoint, view, methods=list(methods))
        return view

    return enter


def _declared(blueprint: AnyBlueprint) -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = blueprint.__dict__.setdefault("fieldapp_doors", {})
    return found


def declaration(app: Flask, endpoint: str) -> dict[str, Any]:
    """What `door` was told of an endpoint. Raises LookupError for a route that was not declared by it."""
    name, _, local = endpoint.rpartition(".")
    blueprint = app.blueprints.get(name)
    if blueprint is None or local not in _declared(blueprint):
        raise LookupError(f"route {endpoint!r} was not declared by `door`, so nobody knows who may pass")
    return _declared(blueprint)[local]


def guard() -> Response | None:
    """Before each request: the visitor's role fits the route, or 401, 403, 303."""
    if request.endpoint is None:
        return None
    wants = declaration(current_app, request.endpoint)
    if wants["who"] == ANYONE:
        return None
    visitor = g.visitor
    if visitor is None or (visitor.revoked and not wants["lets_revoked"]):
        return ask_to_sign_in()
    if not visitor.person.role_set & set(wants["who"]):
        roles = [f"{'an' if role[0] in 'aeiou' else 'a'} {role}" for role in wants["who"]]
        stop(
            403,
            "not_allowed",
            f"you are signed in as {visitor.person.name}: "
            f"{', '.join(sorted(visitor.person.role_set)) or 'nothing'}; {' or '.join(wants['who'])} would be right",
            title=f"This is for {' or '.join(roles)}.",
        )
    return None


def ask_to_sign_in() -> Response:
    """401 under /api/; elsewhere on to the sign-in page, which remembers the wanted path."""
    from .sessions import to_sign_in

    if request.path.startswith("/api/"):
        stop(401, "sign_in", "no session, or it has ended: sign in and ask again", retry="after_sign_in")
    return to_sign_in()


def routes(app: Flask) -> list[dict[str, Any]]:
    """The url map as `fieldapp routes --json` prints it."""
    rows = []
    for rule in app.url_map.iter_rules():
        who = declaration(app, rule.endpoint)["who"]
        methods = sorted((rule.methods or set()) - {"HEAD", "OPTIONS"})
        rows.append({"rule": rule.rule, "methods": methods, "who": who if isinstance(who, str) else list(who)})
    return sorted(rows, key=lambda row: (row["rule"], row["methods"]))
