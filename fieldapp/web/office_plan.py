"""A unit's plan in the office: its choices seen and changed, what a change would do, and the new plan issued."""

import json
from datetime import UTC, datetime

from flask import Blueprint, current_app, redirect, render_template, request
from werkzeug.wrappers import Response

from ..plan.change import changes
from ..plan.effect import effect
from ..plan.packet import Built
from ..site import editions, reissue
from ..store import units
from . import office_paper, office_unit, plan_form, plan_form_picks
from .doors import door
from .office import PLANNERS, pages
from .office_plan_words import overtaken, title, worked
from .office_unit import Json, Known
from .sessions import person

office_plan = Blueprint("office_plan", __name__)
LONGEST = 2000  # of a reason, as an issue's entry has it
NO_REASON = "Say why the plan changes; the crew reads this."
NONE_PICKED = "No row is chosen, so nothing was filled in: choose a door or a seal first."
PUT_BACK = "What stood before the rows were filled in is back."
UNSEEN = "This is not what you looked at: look at what it changes, then issue it."


@door(office_plan, "/office/units/<unit>/plan", who=PLANNERS)
def plan(unit: str) -> str:
    known = office_unit.known(person(), unit)
    return _page(known, plan_form.texts(_kept(known)))


@door(office_plan, "/office/units/<unit>/plan/paper.css", who=PLANNERS)
def paper(unit: str) -> Response:
    """What every printed page of a plan, or of who decides on it, says in its title block."""
    found = office_unit.known(person(), unit)
    plan_said = ["Plan", (found.unit.packet or "none issued")[: office_paper.HASH_SHOWN]]
    boxes = office_paper.margin_boxes(office_paper.named(found), person().name, datetime.now(UTC), plan_said)
    return Response(boxes, mimetype="text/css")


@door(office_plan, "/office/units/<unit>/plan", who=PLANNERS, methods=("POST",))
def change(unit: str) -> str | tuple[str, int] | Response:
    known = office_unit.known(person(), unit)
    given = plan_form.typed(request.form)
    if answer := _from_catalogue(known, given):
        return answer
    wanted = plan_form.choices(_kept(known), given, editions.now())
    if faults := reissue.faults(wanted):
        return _page(known, given, faults=faults), 422
    made = reissue.built(known.unit.id, wanted)
    if made.hash == known.unit.packet:
        return _page(known, given, told="Nothing changed: this is the plan in force. Nothing was issued.")
    said, worth = reissue.alone(known.packet, wanted, made) or ("", True)
    if not worth:
        return _page(known, given, told=said)
    if request.form.get("do") != "issue":
        return _page(known, given, made=made, told=said)
    return _issue(known, given, wanted, made)


def _from_catalogue(known: Known, given: dict[str, str]) -> str | tuple[str, int] | None:
    """The form with what was picked filled in, or put back; whatever else was asked for waits until that is seen."""
    form, do = request.form, request.form.get("do")
    if do == "back":
        return _page(known, plan_form_picks.put_back(given, form), told=PUT_BACK)
    chosen = plan_form_picks.picked(form)
    if not chosen:
        return (_page(known, given, fault=NONE_PICKED), 422) if do == "fill" else None
    filled = plan_form_picks.fill(given, chosen, editions.now())
    if filled.faults:
        return _page(known, given, faults=filled.faults, chosen=chosen), 422
    return _page(known, filled.texts, filled=filled)


def _issue(known: Known, given: dict[str, str], wanted: Json, made: Built) -> Response | tuple[str, int]:
    form = request.form
    because = form.get("because", "").strip()
    since = form.get("since") or None
    if since != known.unit.packet:
        issues = [one for one in known.entries.values() if one["kind"] == "issue"]
        return _page(known, given, made=made, fault=overtaken(known, issues[-1]) if issues else UNSEEN), 409
    if form.get("looked") != made.hash:
        return _page(known, given, made=made, fault=UNSEEN), 409
    if not 1 <= len(because) <= LONGEST:
        unsaid = f"The reason has {len(because)} characters; at most {LONGEST}." if because else NO_REASON
        return _page(known, given, made=made, unsaid=unsaid), 422
    try:
        reissue.issue(known.unit.id, wanted, made, since, because, person().id)
    except reissue.Overtaken as fault:
        known = office_unit.known(person(), known.unit.id)
        return _page(known, given, made=made, fault=overtaken(known, fault.entry)), 409
    current_app.extensions["fieldapp_folding"]([known.unit.id])
    return redirect(f"/office/units/{known.unit.id}/plan?issued={made.hash[:12]}", 303)


def _kept(known: Known) -> Json:
    return units.choices_of(known.unit)


def _page(
    known: Known,
    given: dict[str, str],
    faults: list[str] | None = None,
    made: Built | None = None,
    told: str = "",
    fault: str = "",
    unsaid: str = "",
    chosen: dict[str, str] | None = None,
    filled: plan_form_picks.Filled | None = None,
) -> str:
    """The page: the form with what was typed, and before it what a change would do, where one is looked at.

    chosen: rows that could not be filled in; filled: what came of rows that were.
    """
    under = editions.now()
    picks, left = plan_form_picks.shown(chosen or {}, faults or [], under)
    groups, left = plan_form.shown(given, left, under)
    return render_template(
        "office/plan.html",
        title=title(known, made, faults or [], filled is not None),
        known=known,
        unit=known.unit,
        person=person(),
        office_pages=pages("Units"),
        supervisor="supervisor" in person().role_set,
        groups=groups,
        picks=picks,
        filled=filled,
        left=left,
        faulty=bool(faults),
        unfilled=bool(chosen),
        told=told or _issued(known),
        fault=fault,
        unsaid=unsaid,
        because=request.form.get("because", ""),
        made=made,
        differs=changes(known.packet, made.packet) if made else None,
        does=_effect(known, made) if made else None,
        history=worked(known),
    )


def _issued(known: Known) -> str:
    asked = request.args.get("issued", "")
    return "The new plan is in force. Phones take it at their next signal." if (
        asked and (known.unit.packet or "").startswith(asked)
    ) else ""


def _effect(known: Known, made: Built) -> Json | None:
    """What the plan would do to the work that stands; None where nothing was folded."""
    if known.held is None:
        return None
    sheets = {name: json.loads(body) for name, body in made.parts.items()}
    found = effect(known.held, known.packets, known.parts, made.hash, made.packet, sheets)
    return {**found, "signoffs": [{**one, "who": _who(known, one["id"])} for one in found["signoffs"]]}


def _who(known: Known, id_: str) -> str:
    return known.who(known.entries[id_]["person"]) if id_ in known.entries else "somebody"
