"""The list of units: what a search fits, which code was almost typed, and a line each."""

from collections.abc import Sequence
from typing import Any

from ..store import codes
from ..store.models import Unit
from .office_words import NO_PLAN, NO_STATE, UNIT_IS

Json = dict[str, Any]


def line(unit: Unit, state: Any) -> Json:
    """A unit's line; `state`: its row of states, None before the first plan."""
    words, shape = UNIT_IS.get(state.stands, NO_STATE) if state else NO_PLAN
    return {"unit": unit, "is": words, "shape": shape, "stage": state.stage if state else "no plan"}


def numbered(lines: Sequence[Json]) -> list[Json]:
    """The lines by job, as the page groups them, with the numbers it gives them."""
    ordered = sorted(lines, key=lambda line: (line["unit"].job.name, line["unit"].number))
    return [{**line, "number": number} for number, line in enumerate(ordered, 1)]


def _plain(text: str) -> str:
    return text.casefold().replace(" ", "").replace("-", "")


def fits(unit: Unit, wanted: str) -> bool:
    """Whether the words searched for stand in what the unit is known by; dashes and spaces are not asked for."""
    known = (unit.number, unit.job.name, unit.job.customer, unit.job.place, unit.box, unit.code, unit.short)
    text = " ".join(filter(None, known)).casefold()
    return wanted.casefold() in text or _plain(wanted) in _plain(text)


def near(units: Sequence[Unit], wanted: str) -> list[Unit]:
    """Units whose code, short or long, is one character off, or has two neighbours changed about."""
    typed = _plain(wanted)
    return [unit for unit in units if any(_one_off(typed, code.casefold()) for code in (unit.short, unit.code))]


def _one_off(typed: str, code: str) -> bool:
    if len(typed) != len(code):
        return False
    off = [place for place in range(len(code)) if typed[place] != code[place]]
    swapped = len(off) == 2 and off[1] == off[0] + 1 and typed[off[0]] == code[off[1]] and typed[off[1]] == code[off[0]]
    return len(off) == 1 or swapped


def headline(lines: Sequence[Json], wanted: str, close: Sequence[Unit]) -> str:
    """The page's answer in a sentence."""
    if lines:
        found = f"{len(lines)} unit{'' if len(lines) == 1 else 's'}"
        return f"{found} with “{wanted}”" if wanted else found
    if not wanted:
        return "No units yet"
    if not close:
        return f"No unit has “{wanted}”."
    named = " and ".join(codes.shown(unit.short) for unit in close)
    return f"No unit has {wanted}. {named} {'is' if len(close) == 1 else 'are'} one character off."
