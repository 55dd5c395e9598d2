"""What one door needs, for the crew at the box: the same list as the job's pick list, of this unit alone."""

from itertools import groupby

from flask import Blueprint, render_template

from ..plan.catalogue import CATALOGUES
from . import office_picks
from .doors import EVERYBODY, door
from .unit_works import at_box

unit_picks = Blueprint("unit_picks", __name__)


@door(unit_picks, "/units/<unit>/picks", who=EVERYBODY)
def page(unit: str) -> str:
    """Parts, fixings, seals, sealant, discs and primer of a unit that the person sees."""
    found, label = at_box(unit)
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
