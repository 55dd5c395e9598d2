"""The box's tilt as a linear sheet takes it: along and through over one length."""

from fieldapp.record.entries import Json
from fieldapp.record.limits import NM, holds, mm
from fieldapp.record.room import newest, places
from fieldapp.record.rounds import Round
from fieldapp.record.view import View


def _over(entry: Json, field: Json) -> float | None:
    """Length that the tilt was read over, mm: its own, else the one that the field asks for (`over`, nm)."""
    asked = field.get("over")
    own = mm(entry, "over")
    return asked / NM if own is None and asked else own


def _reads(entry: Json, over: float | None, limits: Json) -> bool:
    """Whether the sheet holds it. A tilt without its length says nothing: 0 for it would be a guess."""
    return (
        over is not None
        and holds(limits.get("tilt"), mm(entry, "nm"))
        and holds(limits.get("tilt_over"), over)
        and holds(limits.get("tilt_u"), mm(entry, "u"))
    )


def tilt(unit: View, name: str, back: list[Round], ids: dict[str, list[str]], aside: list[str]) -> Json:
    """Tilt of the newest round that has one, mm over `over` mm; what a fresh start left behind counts too.

    Of a pair the greatest id is taken: a tilt left out would be taken for exactly 0.
    """
    limits = unit.sheets[name].get("limits", {})
    found = places(unit, name, "tilt")
    made: Json = {}
    doubts: list[float] = []
    for way in ("along", "through"):
        fields = found.get(way, [])
        read_over = {entry["id"]: _over(entry, each.field) for each in fields for entry in each.of(back)}
        values = [entry for each in fields for entry in each.of(back)]
        usable = {entry["id"] for entry in values if _reads(entry, read_over[entry["id"]], limits)}
        aside += [entry["id"] for entry in values if entry["id"] not in usable]
        read = newest(fields, back, usable)
        over = read_over[read["id"]] if read else None
        if read is None or over is None:
            continue
        ids[f"tilt.{way}"] = [read["id"]]
        times = made.setdefault("over", over) / over  # both over one length, that of the first
        made[way] = read["value"]["nm"] / NM * times
        if "u" in read["value"]:
            doubts.append(read["value"]["u"] / NM * times)
    return {**made, "u": max(doubts)} if doubts else made
