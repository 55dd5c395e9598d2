"""Who asks: the cookie, the session behind it, and the path wanted before signing in."""

from flask import current_app, g, redirect, request
from itsdangerous import BadData, URLSafeTimedSerializer
from werkzeug.wrappers import Response

from ..settings import Settings
from ..store import sign_ins
from ..store.base import read, write
from ..store.models import Person

_WANTED = "w."
_WANTED_SECONDS = 3600
_LONGEST = 1000
# Answers that no cache between keeps, so a cookie may go with them; these are also what counts as use.
_PERSONAL = ("/api/", "/office/")


def settings() -> Settings:
    """The running site's settings."""
    found: Settings = current_app.config["FIELDAPP_SETTINGS"]
    return found


def cookie_name() -> str:
    """`__Host-session` under https, else `session`."""
    return "__Host-session" if settings().https else "session"


def look() -> None:
    """Before each request: `g.visitor` is who carries the cookie, None where nobody does."""
    g.visitor = None
    token = request.cookies.get(cookie_name(), "")
    if not token or token.startswith(_WANTED) or len(token) > 200:
        return
    with read() as session:
        g.visitor = sign_ins.visitor(session, token)
    if g.visitor is not None and g.visitor.touch and request.path.startswith(_PERSONAL):
        with write() as session:
            sign_ins.touch(session, g.visitor.token)
        g.prolonged = token


def prolong(response: Response) -> None:
    """After each request: the browser keeps the cookie as long as the session lasts, 90 days from this use too."""
    token = g.get("prolonged")
    if token is not None and "Set-Cookie" not in response.headers:
        set_cookie(response, token)


def person() -> Person:
    """The person who asks; only behind a door that asks for a role."""
    found: Person = g.visitor.person
    return found


def set_cookie(response: Response, value: str, seconds: int = sign_ins.DAYS_90 // 1000) -> Response:
    """Give the cookie to the browser."""
    response.set_cookie(
        cookie_name(),
        value,
        max_age=seconds,
        secure=settings().https,
        httponly=True,
        samesite="Lax",
        path="/",
    )
    return response


def to_sign_in() -> Response:
    """303 to the sign-in page, which leads back to the page that was asked for."""
    return remember(redirect("/sign-in", 303))


def remember(response: Response) -> Response:
    """Who signs in after this answer comes to the page asked for now by GET; kept in the cookie, signed."""
    path = request.full_path.rstrip("?")
    if (
        request.method == "GET" and is_local(path) and g.visitor is None
    ):  # a revoked phone keeps its cookie: it may sync
        set_cookie(response, _WANTED + _signer().dumps(path), _WANTED_SECONDS)
    return response


def wanted_path() -> str | None:
    """The path that was asked for before signing in, None where there was none."""
    token = request.cookies.get(cookie_name(), "")
    if not token.startswith(_WANTED):
        return None
    try:
        path = _signer().loads(token.removeprefix(_WANTED), max_age=_WANTED_SECONDS)
    except BadData:
        return None
    return path if isinstance(path, str) and is_local(path) else None


def is_local(path: str) -> bool:
    """Whether a browser takes this for a path of ours: one slash, no backslash, nothing below a space."""
    return (
        path.startswith("/")
        and not path.startswith("//")
        and "\\" not in path
        and len(path) <= _LONGEST
        and all(c > " " for c in path)
    )


def _signer() -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(current_app.config["SECRET_KEY"], salt="wanted path")
