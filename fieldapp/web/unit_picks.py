"""What one door needs, for the crew at the box: the same list as the job's pick list, of this unit alone."""

from itertools import groupby

from flask import Blueprint, render_template

from ..plan.catalogue import CATALOGUES
from ..store import units
from ..store.base import read
from . import office_picks
from .doors import EVERYBODY, door
from .problems import stop
from .sessions import person

unit_picks = Blueprint("unit_picks", __name__)


@door(unit_picks, "/units/<unit>/picks", who=EVERYBODY)
def page(unit: str) -> str:
    """Parts, fixings, seals, sealant, discs and primer of a unit that the person sees."""
    with read() as session:
        found = units.seen(session, person(), unit)
        if found is None:
            stop(404, "not_found", "nothing here under that address, or not for you")
        label = f"{found.job.name} / {found.number}"
    made = office_picks.listed([found])
    lines = office_picks.numbered(made["lines"])
    return render_template(
        "work/picks.html",
        label=label,
        unit=unit,
        door=made["doors"][0],
        groups=[(name, list(each)) for name, each in groupby(lines, key=lambda line: line["group"])],
        under=[(CATALOGUES[name].say, " and ".join(map(str, numbers))) for name, numbers in made["under"].items()],
    )
