"""Unit labels: choosing units, and a page of labels to print at true size."""

from dataclasses import dataclass
from typing import Any

from flask import Blueprint, render_template, request
from markupsafe import Markup
from werkzeug.datastructures import MultiDict

from ..store import codes, units
from ..store.base import read
from ..store.models import Unit
from . import label_code
from .doors import door
from .office import SUPERVISOR, pages
from .problems import stop, told
from .sessions import person, settings

labels = Blueprint("labels", __name__)
PAPERS = {"a4": "A4", "letter": "Letter"}
A_PAGE = 6
MOST = 40 * A_PAGE
_TAKEN = ("unit", "job", "paper")


@dataclass(frozen=True)
class Label:
    """What one label shows: the symbol, the short code as it is typed, and lines cut to what has room."""

    svg: Markup
    short: str
    unit: str
    job: str
    place: str
    box: str


def _label(unit: Unit) -> Label:
    made = label_code.symbol(label_code.address(settings().address, unit.code))
    return Label(
        svg=made.svg,
        short=codes.shown(unit.short),
        unit=_cut(f"Unit {unit.number}", 24),
        job=_cut(unit.job.name, 36),
        place=_cut(unit.job.place, 40),
        box=_cut(unit.box or "", 22),
    )


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def _mine() -> list[Unit]:
    """Every unit that this supervisor sees, as a list of units is read: by job, then number."""
    with read() as session:
        found = units.all_visible(session, person())
    return sorted(found, key=lambda unit: (unit.job.name, unit.number, unit.id))


def _letters(place: int) -> str:
    """A group's letter: A to Z, then AA."""
    more, last = divmod(place, 26)
    return (_letters(more - 1) if more else "") + chr(ord("A") + last)


@door(labels, "/office/labels", who=SUPERVISOR)
def choose() -> str:
    return _choice()


def _choice(fault: str = "") -> str:
    groups: dict[str, list[Unit]] = {}
    for unit in _mine():
        groups.setdefault(unit.job_id, []).append(unit)
    return render_template(
        "labels/choose.html",
        groups=[(_letters(place), found) for place, found in enumerate(groups.values())],
        fault=fault,
        ticked=set(request.args.getlist("unit")),
        most=MOST,
        **_around(),
    )


@door(labels, "/office/labels/print", who=SUPERVISOR)
def sheet() -> str | tuple[str, int]:
    """Labels of `?unit=ID` (repeated) and of every unit of `?job=ID`, on `?paper=`."""
    _check_names(request.args)
    wanted = _wanted(request.args, _mine())
    if not wanted:
        return _choice("No unit is ticked. Tick the units whose labels you want, then show them."), 422
    if len(wanted) > MOST:
        return _choice(f"{len(wanted)} labels are too many at once; up to {MOST} are made."), 422
    try:
        made = [_label(unit) for unit in wanted]
    except label_code.LabelError as fault:
        stop(422, "bad_shape", str(fault))
    others = [(key, value) for key, value in request.args.items(multi=True) if key != "paper"]
    return render_template("labels/print.html", labels=made, a_page=A_PAGE, chosen=others, **_around())


def _check_names(args: MultiDict[str, str]) -> None:
    """422 for what nobody asked for, or a paper that is not known."""
    for name in args:
        if name not in _TAKEN:
            _refuse(name, f"{told(name)} is not asked for here; {', '.join(_TAKEN)} would be right")
    for value in args.getlist("paper"):
        if value not in PAPERS:
            _refuse("paper", f"paper is {told(value)}; {' or '.join(PAPERS)} would be right")


def _refuse(name: str, sentence: str) -> None:
    stop(422, "bad_shape", sentence, problems={told(name): [sentence]})


def _wanted(args: MultiDict[str, str], mine: list[Unit]) -> list[Unit]:
    """The units asked for, each once, in the list's order; 404 for one that is not there or not hers."""
    ids, jobs = set(args.getlist("unit")), set(args.getlist("job"))
    for name, asked, known in (
        ("unit", ids, {unit.id for unit in mine}),
        ("job", jobs, {unit.job_id for unit in mine}),
    ):
        for value in sorted(asked - known):
            stop(404, "not_found", f"{name} {told(value)} is not here, or not for you")
    return [unit for unit in mine if unit.id in ids or unit.job_id in jobs]


def _around() -> dict[str, Any]:
    """What both pages need: title block, paper, and where the labels lead."""
    origin = settings().address
    return {
        "person": person(),
        "office_pages": pages("Labels"),
        "paper": request.args.get("paper") if request.args.get("paper") in PAPERS else "a4",
        "papers": PAPERS,
        "origin": origin,
        "here_only": label_code.leads_here_only(origin),
        "secure": settings().https,
    }
