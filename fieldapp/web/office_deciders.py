"""Who decides: structure, plate, way out, access, fire: answers given at the desk, so that no crew need type them."""

from flask import Blueprint, redirect, render_template, request
from werkzeug.wrappers import Response

from ..store import units
from ..store.base import read
from . import deciders_form, office_unit, page_entries
from .doors import door
from .office import SUPERVISOR, pages
from .office_unit import Json, Known
from .office_words import things
from .sessions import person

office_deciders = Blueprint("office_deciders", __name__)


@door(office_deciders, "/office/units/<unit>/deciders", who=SUPERVISOR)
def deciders(unit: str) -> str:
    known = office_unit.known(person(), unit)
    return _page(known, deciders_form.standing(known))


@door(office_deciders, "/office/units/<unit>/deciders", who=SUPERVISOR, methods=("POST",))
def decide(unit: str) -> Response | tuple[str, int]:
    known = office_unit.known(person(), unit)
    given = deciders_form.typed(known, request.form)
    ticked = request.form.getlist("also")
    faults = deciders_form.faults(known, given)
    if faults:
        return _page(known, given, faults, ticked), 422
    if other := deciders_form.meanwhile(known, given, request.form):
        return _page(known, given, {}, ticked, told=other), 409
    _keep(known, deciders_form.entries(known, given))
    also = [each for each in _others(known) if each.unit.id in ticked]
    for each in also:
        _keep(each, deciders_form.entries(each, deciders_form.fitting(each, given), only_open=True))
    return redirect(f"/office/units/{known.unit.id}/deciders?kept={len(also) + 1}", 303)


def _keep(known: Known, made: list[Json]) -> None:
    if made:
        page_entries.record_all(known.unit.id, made)


def _others(known: Known) -> list[Known]:
    """The other units of the job in which a question is still open."""
    who = person()
    with read() as session:
        ids = [one.id for one in units.in_job(session, known.unit.job_id) if units.sees(who, one)]
    found = [office_unit.known(who, id) for id in ids if id != known.unit.id]
    return [each for each in found if deciders_form.unanswered(each)]


def _page(
    known: Known, given: Json, faults: Json | None = None, ticked: list[str] | None = None, told: str = ""
) -> str:
    questions = deciders_form.shown(known, given, faults or {})
    return render_template(
        "office/deciders.html",
        title=_title(known, faults or {}),
        known=known,
        unit=known.unit,
        person=person(),
        office_pages=pages("Units"),
        questions=questions,
        cautions=list(dict.fromkeys(text for each in questions for text in each["step"]["cautions"])),
        faulty=bool(faults),
        told=told,
        kept=_kept(),
        others=[{"unit": each.unit, "ticked": each.unit.id in (ticked or [])} for each in _others(known)],
    )


def _title(known: Known, faults: Json) -> str:
    if faults:
        return f"{known.label()}: nothing was kept; what is wrong stands beside it"
    return f"{known.label()}: {deciders_form.summary(known)}"


def _kept() -> str:
    count = request.args.get("kept", "")
    if not count.isdigit():
        return ""
    return f"Kept for {things(int(count), 'unit')}. Phones have it at their next signal."

