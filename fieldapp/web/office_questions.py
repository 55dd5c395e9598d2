"""Questions of structure, plate, way out, access and fire without an answer, as lines of what waits: one a unit."""

from typing import Any

from . import deciders_form
from .office_standing import standing
from .office_unit import Json, Known
from .office_waiting import Line

FINISHED = ("signed", "accepted")
STAGE = "plan"  # the questions stand in a plan's first stage: a unit that is past it has an answer to each


def may_have(row: Any) -> bool:
    """Whether a unit may have open questions, by its row of states alone: a list asks this of every unit."""
    return row.stage == STAGE and row.stands not in FINISHED


def lines(known: Known) -> list[Line]:
    """The unit's line, where a question has no answer and the work is not finished."""
    if (known.state or {}).get("is") in (None, *FINISHED):
        return []
    left = deciders_form.without_answer(known)
    if not left:
        return []
    issue = standing(known, "issue")
    still, begun = _holds_up(known, left), (known.state or {})["is"] != "planned"
    return [
        Line(
            "A" if still else "E",
            "question",
            "planned",
            known.label(),
            f"No answer yet: {', '.join(step['say'].partition(': ')[2] or step['say'] for step in left)}",
            _why(still, begun),
            known.who(issue["person"]) if issue else "",
            issue["at"] if issue else "",
            f"/office/units/{known.unit.id}/deciders",
            known.unit.crew.name,
            later=not begun,
        )
    ]


def _why(still: bool, begun: bool) -> str:
    if still:
        return "all else is done before the cut; the second look waits for this alone"
    return "the crew has begun; the second look before the cut waits" if begun else "nothing entered yet"


def _holds_up(known: Known, left: list[Json]) -> bool:
    """Whether a hold point waits for these questions and for no other step."""
    open_ones = {step["id"] for step in left}
    done = {now["id"] for now in (known.state or {})["steps"] if now["is"] in ("done", "passed")}
    waiting = (set(step["needs"]) - done for step in known.packet.get("steps", []) if step["hold"])
    return any(needs and needs <= open_ones for needs in waiting)
