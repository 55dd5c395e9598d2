"""From a unit to the calculators: links that carry what its plan knows, so that only the rest is typed."""

from urllib.parse import urlencode

from flask import Blueprint, render_template, request

from ..plan import choices
from ..plan.asked import asked, goes_by
from ..site.editions import in_force, made_under
from ..store import packets, units
from ..store.base import read
from ..store.models import Unit
from ..work.by_hand import rows
from ..work.registry import CALCULATORS
from .calc_shop import written
from .doors import EVERYBODY, door
from .problems import stop
from .sessions import person

unit_works = Blueprint("unit_works", __name__)


@door(unit_works, "/units/<unit>/work", who=EVERYBODY)
def page(unit: str) -> str:
    """For the crew at the box, with a signal: what can be worked out for this unit, filled with what its plan knows."""
    found, label = at_box(unit)
    show = {"show": "in"} if request.args.get("show") == "in" else {}  # as the phone that opens it says lengths
    works = [(CALCULATORS[name], address) for name, address in links(found, show)]
    return render_template("work/unit.html", label=label, unit=unit, works=works)


def at_box(unit: str) -> tuple[Unit, str]:
    """(the unit, its job and number) where the person sees it; 404 where she does not."""
    with read() as session:
        found = units.seen(session, person(), unit)
        if found is None:
            stop(404, "not_found", "nothing here under that address, or not for you")
        return found, f"{found.job.name} / {found.number}"


def links(unit: Unit, more: dict[str, str] | None = None) -> list[tuple[str, str]]:
    """[(calculator, address)] for a unit, in the order of the work; [] where its choices do not fit.

    more: what else the addresses say, {name: text}.
    """
    chosen = units.choices_of(unit)
    with read() as session:
        packet = packets.parsed(session, [unit.packet]).get(unit.packet) if unit.packet else None
        under = made_under(session, packet, in_force(session))
    if choices.check(chosen, under):
        return []
    found = []
    plan = choices.read(chosen, under)
    for name, known in asked(plan, under).items():
        typed = {row.path: row.value for row in rows(CALCULATORS[name].takes, known, {})
                 if row.control != "head" and row.value}
        by = written((each, under.numbers[each]) for each in goes_by(name, plan))
        found.append((name, f"/work/{name}?{urlencode(typed | (more or {}) | {'editions': by})}"))
    return found
