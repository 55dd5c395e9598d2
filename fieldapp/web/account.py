"""People sign in and out: /api/session for the phone, /sign-in for the office, and the first administrator's link."""

from flask import Blueprint, Response, g, make_response, redirect, render_template, request
from marshmallow import ValidationError, fields, pre_load
from werkzeug.wrappers import Response as AnyResponse

from ..store import people, sign_ins
from ..store.base import read, write
from ..store.ids import sha256
from ..store.models import Person
from . import entry_fields as f
from .body import json_object
from .doors import ANYONE, EVERYBODY, door
from .entry_schemas import Strict, flat
from .headers import API
from .problems import stop
from .sessions import cookie_name, set_cookie, wanted_path

account = Blueprint("account", __name__)
WRONG = "Name or password is not right."
_LEAST_PASSWORD = 8


class DeviceBody(Strict):
    """The phone a session is for."""

    id = f.uuid()
    label = f.text(0, 100)


class SessionBody(Strict):
    """Who signs in, from which phone; null from a desk."""

    name = f.text(1, 100)
    password = f.text(1, 1000)
    device = fields.Nested(DeviceBody, allow_none=True, load_default=None)

    @pre_load
    def _device_is_object(self, data: dict[str, object], **_: object) -> dict[str, object]:
        if data.get("device") is not None and not isinstance(data["device"], dict):
            raise ValidationError({"device": ['{"id": uuid, "label": text} or null would be right']})
        return data


_BODY = SessionBody()


class TooMany(Exception):
    """This name or address must wait."""

    def __init__(self, seconds: int) -> None:
        self.seconds = seconds


def _who(name: str, password: str, device: str | None) -> Person | None:
    """The person of that name and password, None for a wrong one, a revoked one or a revoked phone. Raises TooMany."""
    address = request.remote_addr or ""
    tried = name.casefold()[:100]  # one name's limit, however it is written
    with read() as session:
        wait = sign_ins.wait_seconds(session, tried, address)
        found, revoked = (
            people.by_name(session, name),
            device is not None and people.is_revoked(session, device),
        )
    if wait:
        raise TooMany(wait)
    fits = people.password_fits(found, password)  # outside any transaction: slow on purpose
    good = found is not None and fits and found.revoked is None and not revoked
    with write() as session:
        if good:
            sign_ins.succeeded(session, tried)
        else:
            sign_ins.failed(session, tried, address)
    return found if good else None


def _open(person: Person, device: dict[str, str] | None = None) -> str:
    """A new session's token; the one before it on this browser ends."""
    with write() as session:
        if g.visitor is not None:
            sign_ins.end(session, g.visitor.token)
        if device is not None:
            people.meet_device(session, device["id"], device["label"], person.id)
        return sign_ins.start(session, person.id, device["id"] if device else None)


def _shown(person: Person) -> dict[str, object]:
    crew = person.crew and {"id": person.crew.id, "name": person.crew.name}
    return {
        "person": {"id": person.id, "name": person.name, "roles": sorted(person.role_set), "crew": crew},
        "api": API,
    }


@door(
    account,
    "/api/session",
    who=ANYONE,
    methods=["POST"],
    doc={"summary": "Sign in", "body": "SessionBody", "answer": "Session"},
)
def sign_in_api() -> AnyResponse:
    """A session and its cookie."""
    body = json_object()
    problems = flat(_BODY.validate(body))
    if problems:
        path, sentences = next(iter(problems.items()))
        stop(422, "bad_shape", f"{path}: {sentences[0]}", problems)
    device = body.get("device")
    try:
        person = _who(body["name"], body["password"], device and device["id"])
    except TooMany as fault:
        stop(
            429,
            "slow_down",
            f"too many tries with this name or from this address; try again in {fault.seconds} s",
            retry="later",
            headers={"Retry-After": str(fault.seconds)},
        )
    if person is None:
        stop(401, "sign_in", WRONG, retry="after_sign_in")
    response = make_response(_shown(person))
    return set_cookie(response, _open(person, device))


@door(account, "/api/session", who=EVERYBODY, doc={"summary": "Who is signed in", "answer": "Session"})
def session_api() -> Response:
    """The person behind the cookie."""
    return make_response(_shown(g.visitor.person))


@door(account, "/api/session", who=EVERYBODY, methods=["DELETE"], doc={"summary": "Sign out", "status": 204})
def sign_out_api() -> AnyResponse:
    """The session ends."""
    response = make_response("", 204)
    del response.headers["Content-Type"]
    return _closed(response)


def _closed(response: AnyResponse) -> AnyResponse:
    with write() as session:
        sign_ins.end(session, g.visitor.token)
    response.delete_cookie(
        cookie_name(), path="/", secure=cookie_name().startswith("__Host-"), httponly=True, samesite="Lax"
    )
    return response


@door(account, "/sign-in", who=ANYONE)
def sign_in_page() -> Response:
    """The form; with `?first=` the one for the first administrator."""
    first = request.args.get("first")
    if first is not None and not _first_good(first):
        return _page(
            status=404,
            fault="This link was used, or has ended. Ask for a new one: fieldapp new-site makes it.",
        )
    return _page(first=first)


def _first_good(token: str) -> bool:
    with read() as session:
        return people.first_link_good(session, _digest(token))


def _digest(token: str) -> str:
    return sha256(token.encode("utf-8", "replace"))


def _page(status: int = 200, fault: str = "", name: str = "", first: str | None = None) -> Response:
    signed_in = g.visitor.person if g.visitor is not None and not g.visitor.revoked else None
    page = render_template(
        "account/sign_in.html", fault=fault, name=name, first=first, person=signed_in, least=_LEAST_PASSWORD
    )
    response = make_response(page, status)
    response.headers["Cache-Control"] = "no-store"
    return response


@door(account, "/sign-in", who=ANYONE, methods=["POST"])
def sign_in_form() -> AnyResponse:
    """The form sent: on to the page that was wanted, else to where one's work is."""
    name, password = request.form.get("name", "").strip(), request.form.get("password", "")
    if not (f.is_text(name, 1, 100) and f.is_text(password, 1, 1000)):
        return _page(422, "Name and password are both needed.", first=request.form.get("first"))
    if "first" in request.form:
        return _first_administrator(request.form["first"], name, password)
    try:
        person = _who(name, password, None)
    except TooMany as fault:
        response = _page(429, f"Too many tries. Try again in {fault.seconds} seconds.", name)
        response.headers["Retry-After"] = str(fault.seconds)
        return response
    return _on(person) if person is not None else _page(401, WRONG, name)


def _on(person: Person) -> AnyResponse:
    response = redirect(wanted_path() or _home(person), 303)
    return set_cookie(response, _open(person))


def _home(person: Person) -> str:
    """The page where somebody's work is: what waits, the phone, or for who only plans the units."""
    if "supervisor" in person.role_set:
        return "/office/"
    return "/" if "installer" in person.role_set else "/office/units"


def _first_administrator(token: str, name: str, password: str) -> AnyResponse:
    if len(password) < _LEAST_PASSWORD:
        return _page(
            422,
            f"The password has {len(password)} characters; at least {_LEAST_PASSWORD} are needed.",
            name,
            token,
        )
    hashed = people.hashed(password)
    with write() as session:
        if not people.first_link_good(session, _digest(token)):
            person = None
        elif people.by_name(session, name) is not None:
            return _page(422, "Somebody has this name already; another one is needed.", name, token)
        else:
            people.use_first_link(session, _digest(token))
            person = people.add_person(session, name, ["administrator"])
            person.password = hashed
    if person is None:
        return _page(404, "This link was used, or has ended. Ask for a new one: fieldapp new-site makes it.")
    return _on(person)


@door(account, "/sign-out", who=EVERYBODY, methods=["POST"])
def sign_out_form() -> AnyResponse:
    """Out, and back to the sign-in page."""
    return _closed(redirect("/sign-in", 303))
