"""The catalogues in the office: each with its editions side by side, what changed, CSV out and in."""

from typing import Any

from flask import Blueprint, redirect, render_template, request
from sqlalchemy.orm import Session
from werkzeug.wrappers import Response

from ..plan import catalogue_csv
from ..plan.catalogue import CATALOGUES, edition
from ..plan.catalogue_changes import changes
from ..plan.catalogue_columns import Kind
from ..store import editions, facts, people
from ..store.base import read, write
from ..store.ids import rfc3339
from ..store.models import Edition
from .doors import door
from .office import pages
from .office_words import when
from .problems import stop, told
from .sessions import person

Json = dict[str, Any]
office_catalogues = Blueprint("office_catalogues", __name__)
KEEPERS = ("supervisor", "administrator")
NO_FILE = "Choose a CSV file first."
MOST_REASON = 200
MOST_SHOWN = 300  # rows of a long catalogue on its page; the CSV has them all


def _kind(name: str) -> Kind:
    found = CATALOGUES.get(name)
    if found is None:
        stop(404, "not_found", f"catalogue {told(name)}: {', '.join(CATALOGUES)} would be right")
    return found


def _names(session: Session) -> dict[str, str]:
    return {one.id: one.name for one in people.everybody(session)} | {facts.SITE_PERSON: "the program"}


def _line(each: Edition, names: dict[str, str]) -> Json:
    return {
        "number": each.number,
        "hash": each.hash[:12],
        "rows": len(editions.rows(each)),
        "who": names.get(each.person_id, "somebody"),
        "at": when(rfc3339(each.at)),
        "because": each.because,
    }


def _around() -> Json:
    return {"person": person(), "office_pages": pages("Catalogues")}


@door(office_catalogues, "/office/catalogues", who=KEEPERS)
def every() -> str:
    with read() as session:
        names = _names(session)
        newest = {name: editions.newest(session, name) for name in CATALOGUES}
    lines = [{"kind": CATALOGUES[name], **_line(each, names)} for name, each in newest.items() if each]
    return render_template("office/catalogues.html", title="What new plans are made from", lines=lines, **_around())


@door(office_catalogues, "/office/catalogues/<name>", who=KEEPERS)
def one(name: str) -> str:
    return _page(_kind(name))


def _page(kind: Kind, faults: list[str] | None = None, said: str = "", because: str = "") -> str:
    """A catalogue's page. faults: why a file was not taken; said: what came of one that was; because: as typed."""
    with read() as session:
        names = _names(session)
        every_one = editions.of(session, kind.name)
    by_number = {each.number: each for each in every_one}
    newest = every_one[0].number
    after = _asked("after", newest, by_number)
    before = _asked("before", max(after - 1, 0), by_number)
    rows = {number: editions.rows(by_number[number]) for number in (before, after)}
    differ = changes(kind.name, rows[before], rows[after])
    return render_template(
        "office/catalogue.html",
        title=_title(kind, newest, len(editions.rows(by_number[newest])), bool(faults)),
        kind=kind,
        editions=[_line(each, names) for each in every_one],
        newest=newest,
        before=before,
        after=after,
        rows=rows[after][:MOST_SHOWN],
        beyond=max(len(rows[after]) - MOST_SHOWN, 0),
        changed=_numbered(differ[:MOST_SHOWN]),
        differ_beyond=max(len(differ) - MOST_SHOWN, 0),
        faults=faults or [],
        said=said or _kept(newest),
        because=because,
        most=catalogue_csv.BIGGEST >> 20,
        **_around(),
    )


def _numbered(rows: list[Json]) -> list[Json]:
    return [{**row, "line": f"B{place}"} for place, row in enumerate(rows, 1)]


def _title(kind: Kind, newest: int, rows: int, faulty: bool) -> str:
    if faulty:
        return f"{kind.say}: the file was not taken, edition {newest} stays in force"
    count = f"{rows} row{'' if rows == 1 else 's'}" if rows else "no rows yet"
    return f"{kind.say}: {count}, edition {newest} in force"


def _kept(newest: int) -> str:
    """What the page before this one did."""
    if request.method == "GET" and request.args.get("kept") == str(newest):
        return f"Edition {newest} is in force for new plans. Plans that are issued keep their own."
    return ""


def _asked(key: str, usual: int, known: dict[int, Edition]) -> int:
    """The edition's number that the address asks for; 404 for one that is not there."""
    text = request.args.get(key) if request.method == "GET" else None
    if text is None:
        return usual
    if not (text.isascii() and text.isdecimal() and len(text) < 10 and int(text) in known):
        stop(404, "not_found", f"{key}: there is no edition {told(text)}; 0 to {max(known)} would be right")
    return int(text)


@door(office_catalogues, "/office/catalogues/<name>/<int:number>.csv", who=KEEPERS)
def taken_out(name: str, number: int) -> Response:
    kind = _kind(name)
    with read() as session:
        found = editions.numbered(session, name, number) if number < 1 << 31 else None
    if found is None:
        stop(404, "not_found", f"{kind.say} have no edition {number}")
    text = catalogue_csv.write(name, editions.rows(found), semicolons=request.args.get("parted") == "semicolons")
    answer = Response(text, content_type="text/csv; charset=utf-8; header=present")
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}-edition-{number}.csv"'
    return answer


@door(office_catalogues, "/office/catalogues/<name>", who=KEEPERS, methods=("POST",))
def brought_in(name: str) -> str | tuple[str, int] | Response:
    kind = _kind(name)
    because = " ".join(request.form.get("because", "").split())
    file = request.files.get("file")
    body = file.read() if file else b""
    if not body:
        return _page(kind, [NO_FILE], because=because), 422
    if len(because) > MOST_REASON:
        return _page(kind, [f"The reason has {len(because)} characters; {MOST_REASON} at most would be right."]), 422
    rows, faults = catalogue_csv.read(name, body)
    if faults:
        return _page(kind, faults, because=because), 422
    hash, packed = edition(name, rows)
    with write() as session:
        newest = editions.newest(session, name)
        assert newest is not None  # a site starts with edition 0
        number, same = newest.number, newest.hash == hash
        overtaken = request.form.get("since") != str(number)
        if not (same or overtaken):
            number = editions.add(session, name, hash, packed, person().id, because).number
    if same:
        return _page(kind, said=f"The file is edition {number}, which is in force: nothing was kept.")
    if overtaken:
        return _page(kind, [f"Edition {number} is in force meanwhile. Look at it, then bring yours in."]), 409
    return redirect(f"/office/catalogues/{name}?kept={number}", 303)


def shown(value: object) -> str:
    """A cell as it is read: numbers without a point where they are whole."""
    if value is None:
        return "–"
    return repr(value).removesuffix(".0") if isinstance(value, float) else str(value)


office_catalogues.add_app_template_filter(shown, "cell")
