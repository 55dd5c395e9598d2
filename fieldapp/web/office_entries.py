"""Every entry of a unit, a line each."""

from .office_unit import Json, Known
from .office_words import NM, signed, value, when


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
        return f"{held['do'].replace('_', ' ')} {signed(held['nm'] / NM)}"
    if kind == "told":
        moves = "; ".join(f"{m['do'].replace('_', ' ')} {m['nm'] / NM:g} mm" for m in held.get("moves", []))
        verdicts = ", ".join(f"{what.replace('_', ' ')} {word}" for what, word in sorted(held["verdicts"].items()))
        return "; ".join(filter(None, [moves, f"chosen {held['chosen']}" if held.get("chosen") else "", verdicts]))
    if kind in ("release", "ask", "signoff"):
        second = f"{known.who(held['second'])} looked, " if kind == "release" else ""
        because = f", because {held['because']}" if held.get("because") else ""
        return f"{second}covers {len(held['covers'])}{because}"
    if kind == "review":
        return f"{held['is']}: {held['because']}"
    if kind == "issue":
        return f"plan {held['packet'][:12]}: {held.get('because') or ''}"
    return {
        "round": "next round opened",
        "confirm": "confirms the second look",
        "moved": "belongs to another unit",
    }.get(kind) or value(entry, field)
