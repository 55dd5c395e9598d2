"""A job's pick list: a page to print, and the same as CSV."""

import re
from datetime import UTC, datetime
from itertools import groupby
from typing import Any

from flask import Blueprint, Response, render_template, request

from ..plan.catalogue import CATALOGUES
from ..plan.csv_text import written
from ..plan.documents import document
from ..plan.picks import KITS, picks
from ..site.editions import in_force, made_under
from ..store import packets, units
from ..store.base import read
from ..store.models import Unit
from . import office_paper
from .doors import door
from .office import SUPERVISOR, pages
from .problems import stop, told
from .sessions import person

Json = dict[str, Any]
office_picks = Blueprint("office_picks", __name__)
HEAD = (
    "line",
    "group",
    "part",
    "detail",
    "needed (pieces)",
    "needed (m)",
    "needed (mL)",
    "needed (m2)",
    "spare or waste (as needed)",
    "order",
    "order in",
    "units",
    "note",
)
MEASURES = ("pieces", "m", "mL", "m2")
PLACES = {"pieces": 0, "m": 2, "mL": 0, "m2": 2}


def _units(job: str) -> list[Unit]:
    """The job's units that this supervisor sees, by number; 404 where there is none."""
    with read() as session:
        found = [unit for unit in units.all_visible(session, person()) if unit.job_id == job]
    if not found:
        stop(404, "not_found", f"job {told(job)} is not here, or not for you")
    return sorted(found, key=lambda unit: (unit.number, unit.id))


def listed(found: list[Unit]) -> Json:
    """The list, each door under the catalogues' editions that its plan was made under; `under`: their numbers."""
    with read() as session:
        now = in_force(session)
        plans = packets.parsed(session, [unit.packet for unit in found if unit.packet])
        own = [made_under(session, plans.get(unit.packet or ""), now) for unit in found]
    made = picks(
        [
            {"number": unit.number, "choices": units.choices_of(unit), "under": under}
            for unit, under in zip(found, own, strict=True)
        ]
    )
    return made | {"under": {name: sorted({each.numbers[name] for each in own}) for name in CATALOGUES}}


def _figure(value: float, measure: str) -> float:
    return round(value, PLACES.get(measure, 1))


@door(office_picks, "/office/jobs/<job>/picks", who=SUPERVISOR)
def page(job: str) -> str:
    found = _units(job)
    made = listed(found)
    shown = dict(zip((unit.number for unit in found), found, strict=True))
    lines = numbered(made["lines"])
    return render_template(
        "office/picks.html",
        title=headline(made, found[0].job.name),
        job=found[0].job,
        groups=[(name, list(each)) for name, each in groupby(lines, key=lambda line: line["group"])],
        doors=[{**each, "unit": shown[each["number"]]} for each in made["doors"]],
        kits=made["kits"],
        under=[(CATALOGUES[name].say, " and ".join(map(str, numbers))) for name, numbers in made["under"].items()],
        person=person(),
        office_pages=pages("Units"),
    )


def numbered(lines: list[Json]) -> list[Json]:
    """Each line under its group's letter, figures as they are read."""
    made, letter, number, last = [], "@", 0, ""
    for line in lines:
        if line["group"] != last:
            letter, number, last = chr(ord(letter) + 1), 0, line["group"]
        number += 1
        figures = {name: _figure(line[name], line["measure"]) for name in ("need", "more")}
        made.append({**line, **figures, "order": _figure(line["order"], line["order_in"]), "line": f"{letter}{number}"})
    return made


def headline(made: Json, job: str) -> str:
    """The page's answer in a sentence: how many doors, and whether every kit fits its wall."""
    wrong = [each["number"] for each in made["doors"] if each["faults"]]
    count = len(made["doors"]) - len(wrong)
    doors = f"{job}: {count} door{'' if count == 1 else 's'}"
    if wrong:
        return f"{doors}; {', '.join(wrong)} not counted, the choices do not fit"
    bare = [each["number"] for each in made["doors"] if each["kit"] == "none" and each["notes"]]
    if bare:
        return f"{doors}; no head kit for {', '.join(bare)}"
    kits = " and ".join(f"{made['kits'][kit]} {kit}" for kit in KITS)
    return f"{doors}; head kits: {kits}, each fits its wall"


@door(office_picks, "/office/jobs/<job>/picks/paper.css", who=SUPERVISOR)
def paper(job: str) -> Response:
    """What every page of the printed list says in its title block."""
    found = _units(job)
    named = document([[unit.number, units.choices_of(unit)] for unit in found])[0][: office_paper.HASH_SHOWN]
    job_ = found[0].job
    rules = office_paper.margin_boxes(
        [job_.name, job_.place or "Pick list"], person().name, datetime.now(UTC), [f"Pick list, plan {named}"]
    )
    return Response(rules, mimetype="text/css")


@door(office_picks, "/office/jobs/<job>/picks.csv", who=SUPERVISOR)
def table(job: str) -> Response:
    """The list's lines as CSV, one a part; what is not counted has a line that says why."""
    found = _units(job)
    made = listed(found)
    rows: list[list[str | float | None]] = []
    for line in numbered(made["lines"]):
        amounts = [line["need"] if line["measure"] == measure else None for measure in MEASURES]
        told_ = [line["more"], line["order"], line["order_in"], " ".join(line["doors"]), line["note"]]
        detail = line["detail"].replace("\u00a0", " ")
        rows.append([line["line"], line["group"], line["what"], detail, *amounts, *told_])
    for each in made["doors"]:
        if each["faults"]:
            blank: list[str | float | None] = [None] * 7
            rows.append([None, "Not counted", None, None, *blank, each["number"], " ".join(each["faults"])])
    text = written(HEAD, rows, semicolons=request.args.get("parted") == "semicolons")
    answer = Response(text, content_type="text/csv; charset=utf-8; header=present")
    name = re.sub(r"[^a-z0-9]+", "-", found[0].job.name.casefold()).strip("-") or "job"
    answer.headers["Content-Disposition"] = f'attachment; filename="pick-list-{name[:60]}.csv"'
    return answer
