"""The supervisor's pages: what waits, the units, a unit's record, and what may be decided on it."""

from typing import Any

from flask import Blueprint, Response, redirect, render_template, request

from ..store import codes, states, units
from ..store.base import read
from . import (
    office_act,
    office_find,
    office_may,
    office_paper,
    office_questions,
    office_record,
    office_unit,
    office_waiting,
)
from .doors import door
from .office_unit import Known
from .problems import stop
from .sessions import person

office = Blueprint("office", __name__)
SUPERVISOR = ("supervisor",)
PLANNERS = ("supervisor", "administrator")


office.add_app_template_filter(codes.shown, "short_code")


def pages(here: str, waiting: int | None = None) -> list[dict[str, Any]]:
    """The title block's pages, those that are for whoever looks; `here` the one that is open."""
    known = [
        ("Waiting", "/office/", waiting, SUPERVISOR),
        ("Units", "/office/units", None, PLANNERS),
        ("Labels", "/office/labels", None, SUPERVISOR),
        ("Catalogues", "/office/catalogues", None, PLANNERS),
    ]
    roles = person().role_set
    return [
        {"say": say, "href": href, "count": count, "here": say == here}
        for say, href, count, who in known
        if roles & set(who)
    ]


def _all_known() -> list[Known]:
    """Every unit of this supervisor for which something waits."""
    who = person()
    with read() as session:
        ids = [unit.id for unit in units.all_visible(session, who)]
    states.bring_up(ids)
    with read() as session:
        rows = units.states(session, ids)
    wanted = [id for id in ids if id in rows and (rows[id].waiting != "[]" or office_questions.may_have(rows[id]))]
    return [office_unit.known(who, id) for id in wanted]


@door(office, "/office/", who=SUPERVISOR)
def waiting() -> str:
    found = [line for known in _all_known() for line in office_waiting.lines(known) + office_questions.lines(known)]
    return render_template(
        "office/waiting.html",
        title=office_waiting.headline(found),
        person=person(),
        groups=office_waiting.numbered(found),
        office_pages=pages("Waiting", len(office_waiting.open_ones(found))),
    )


@door(office, "/office/units", who=PLANNERS)
def unit_list() -> str:
    """The units: a supervisor opens a unit's record from here, an administrator its plan."""
    wanted = request.args.get("find", "")[:100].strip()
    who = person()
    with read() as session:
        mine = sorted(units.all_visible(session, who), key=lambda unit: (unit.job.name, unit.number))
    states.bring_up([unit.id for unit in mine])
    with read() as session:
        rows = units.states(session, [unit.id for unit in mine])
    lines = [office_find.line(unit, rows.get(unit.id)) for unit in mine if office_find.fits(unit, wanted)]
    return render_template(
        "office/units.html",
        title=office_find.headline(lines, wanted, near := [] if lines else office_find.near(mine, wanted)),
        lines=office_find.numbered(lines or [office_find.line(unit, rows.get(unit.id)) for unit in near]),
        find=wanted,
        person=who,
        supervisor="supervisor" in who.role_set,
        office_pages=pages("Units"),
    )


@door(office, "/office/units/<unit>", who=SUPERVISOR)
def record(unit: str) -> str:
    return _record(office_unit.known(person(), unit))


@door(office, "/office/units/<unit>/paper.css", who=SUPERVISOR)
def paper(unit: str) -> Response:
    """What every page of the printed record says in its title block."""
    return Response(office_paper.stylesheet(office_unit.known(person(), unit), person().name), mimetype="text/css")


def _record(known: Known, fault: str | None = None, tried: dict[str, Any] | None = None) -> str:
    """The record's page; `tried`: what was typed into the form that could not be taken, and which form it was."""
    return render_template(
        "office/record.html",
        person=person(),
        office_pages=pages("Units"),
        fault=fault,
        tried=tried or {},
        may=office_may.may(known, person()),
        **office_record.page(known),
    )


@door(office, "/office/units/<unit>/act", who=SUPERVISOR)
def acted(unit: str) -> Response:
    """Whoever loads the address of a decision again looks at the record."""
    return redirect(f"/office/units/{office_unit.known(person(), unit).unit.id}", 303)  # type: ignore[return-value]


@door(office, "/office/units/<unit>/act", who=SUPERVISOR, methods=("POST",))
def act(unit: str) -> Response | tuple[str, int]:
    known = office_unit.known(person(), unit)
    verb = office_act.VERBS.get(request.form.get("do", ""))
    if verb is None:
        stop(
            422,
            "bad_shape",
            f"do: {request.form.get('do', '')[:40]!r}; {', '.join(office_act.VERBS)} would be right",
            problems={"do": ["nothing known is asked for"]},
        )
    fault = verb(known, request.form)
    if fault:
        form = request.form
        tried = {"do": form["do"], "key": form.get("step") or form.get("of"), "because": form.get("because", "")}
        again = {"of": form.getlist("of"), "lines": form.getlist("line"), "settle": form.get("settle", "")}
        return _record(known, fault, {**tried, **again}), 422
    return redirect(f"/office/units/{known.unit.id}", 303)  # type: ignore[return-value]
