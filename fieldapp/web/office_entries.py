"""Every entry of a unit, a line each."""

from . import office_rounds
from .office_unit import Json, Known
from .office_words import things, value, when


def entries(known: Known) -> list[Json]:
    """Group G: every entry in order of arrival, what was replaced struck out in words."""
    replaced = {id: entry["id"] for entry in known.entries.values() for id in entry["replaces"]}
    rows: list[Json] = []
    for entry in known.entries.values():
        step = known.steps.get(entry["step"] or "", {})
        field = next((f for f in step.get("fields", []) if f["id"] == entry["field"]), None)
        place = " · ".join(filter(None, [step.get("say", entry["step"]), field["say"] if field else entry["field"]]))
        standing = entry["server"]["standing"]
        rows.append(
            {
                "number": f"G{len(rows) + 1}",
                "at": when(entry["at"]),
                "who": known.who(entry["person"]),
                "kind": entry["kind"],
                "place": place,
                "value": tells(known, entry, field),
                "note": "quarantined" if standing == "quarantined" else "replaced" if entry["id"] in replaced else "",
            }
        )
    return rows


def tells(known: Known, entry: Json, field: Json | None) -> str:
    """What an entry says, in a line."""
    held, kind = entry["value"], entry["kind"]
    if kind == "move":
        return office_rounds.amount(known.sheets.get(held["sheet"], {}), held)
    if kind == "told":
        return _told(known, held)
    if kind in ("release", "ask", "signoff"):
        second = f"{known.who(held['second'])} looked, " if kind == "release" else ""
        because = f", because {held['because']}" if held.get("because") else ""
        return f"{second}covers {things(len(held['covers']), 'entry', 'entries')}{because}"
    if kind == "review":
        return f"{held['is']}: {held['because']}"
    if kind == "issue":
        return f"plan {held['packet'][:12]}: {held.get('because') or ''}"
    return {
        "round": "next round opened",
        "confirm": "confirms the second look",
        "moved": "belongs to another unit",
    }.get(kind) or value(entry, field)


def _told(known: Known, held: Json) -> str:
    """An answer that was shown: the moves, the row, and each verdict once with what had it."""
    name = held["sheet"]
    sheet = known.sheets.get(name, {})
    moves = [office_rounds.amount(sheet, move) for move in held.get("moves", [])]
    chosen = [f"row {held['chosen']}"] if held.get("chosen") else []
    of: dict[str, list[str]] = {}
    for what, word in held["verdicts"].items():
        said = office_rounds.named(known, name, what) if sheet else what.replace("_", " ")
        of.setdefault(word or "not known", []).append(said)
    return "; ".join(moves + chosen + [f"{word}: {', '.join(said)}" for word, said in of.items()])
