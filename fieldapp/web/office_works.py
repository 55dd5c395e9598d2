"""From a unit's record to the calculators: links that carry what its plan knows, so that only the rest is typed."""

from urllib.parse import urlencode

from ..plan import choices
from ..plan.asked import asked
from ..site.editions import in_force
from ..store import units
from ..store.base import read
from ..store.models import Unit
from ..work.by_hand import rows
from ..work.registry import CALCULATORS


def links(unit: Unit) -> list[tuple[str, str]]:
    """[(calculator, address)] for a unit, in the order of the work; [] where its choices do not fit."""
    chosen = units.choices_of(unit)
    with read() as session:
        under = in_force(session)
    if choices.check(chosen, under):
        return []
    found = []
    for name, known in asked(choices.read(chosen, under)).items():
        typed = {row.path: row.value for row in rows(CALCULATORS[name].takes, known, {})
                 if row.control != "head" and row.value}
        found.append((name, f"/work/{name}?{urlencode(typed)}"))
    return found
