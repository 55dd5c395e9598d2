"""What is said of corrections and of what is built out of true. Twin: static/phone/estimate_say.js."""

from typing import Any

from fieldapp.trade.estimate.linear_room import Cut
from fieldapp.trade.estimate.linear_table import Table
from fieldapp.trade.lengths import Show, fill


def correction(table: Table, made: Cut, given: dict[str, Any], show: Show) -> dict[str, Any]:
    """A correction as answered: what, mm, what to trim, what to unfix, and its sentence."""
    known = table.corrections[made.do]
    closed = set(given.get("no_trim") or [])
    fixed = set(given.get("fixed") or [])
    unfix = [corner for corner in known["takes"] if corner in fixed]
    trim = {place: lack for place, lack in made.lacks.items() if place not in closed}
    asked = [place for place in made.lacks if place in closed]
    said: dict[str, Any] = {"do": made.do, "by": made.by}
    if trim:
        said["trim"] = trim
    if unfix:
        said["unfix"] = unfix
    return {**said, "say": _sentence(table, made, unfix, trim, asked, show)}


def _sentence(table: Table, made: Cut, unfix: list[str], trim: dict[str, float], asked: list[str], show: Show) -> str:
    words, own = table.sheet["say"], table.corrections[made.do]["say"]
    places = table.sheet["rooms"]["say"]
    text = ""
    if unfix:
        corners = words["join"].join(table.sheet["corners"][corner] for corner in unfix)
        text += fill(words["unfix" if len(unfix) == 1 else "unfix_more"], {"corners": corners}, show)
    some = made.by > 0
    text += fill(own["move"], {"by": made.by}, show) if some else fill(words["none"], {"verb": own["verb"]}, show)
    if trim:
        parts = [fill(words["part"], {"by": lack, "place": places[at]}, show) for at, lack in trim.items()]
        text += fill(words["trim" if some else "trim_first"], {"parts": words["join"].join(parts)}, show)
    if asked:
        at = words["join"].join(places[place] for place in asked)
        text += fill(words["ask" if some or trim else "ask_first"], {"places": at}, show)
    return f"{text}. {own['hold']}"


def built(item: dict[str, Any], estimate: float, show: Show) -> str:
    """The sentence on what is built out of true, by the sign of its estimate."""
    return fill(item["say"]["+" if estimate > 0 else "-"], {"by": abs(estimate)}, show)
