"""What a crew found in each field that is no frame reading: plausible values, from the plan and stories.toml."""

from typing import Any

from fieldapp.site import typed
from fieldapp.site.diary import Diary

Json = dict[str, Any]
SPREAD = 0.12  # of what is allowed, one standard deviation of how well a crew works
TAPE, CALLIPER = 0.5, 0.03  # mm, how a tape or a calliper scatters
SHORT = 30.0  # mm, below it a calliper is used


class Filling:
    """`own`: this story's values by field id, beside which `usual` says what any crew finds."""

    def __init__(self, diary: Diary, usual: Json, own: Json, habit: str) -> None:
        self.diary, self.usual, self.own, self.habit = diary, usual, own, habit

    def value(self, step: Json, field: Json) -> tuple[str, Json]:
        """(kind, value) of the entry for this field of the step."""
        for found in (self.own, self.usual["of"].get(step["id"], {}), self.usual["values"]):
            if field["id"] in found:
                return self.given(field, found[field["id"]])
        kind = field["type"]
        if kind == "tick":
            return "tick", {"ticked": True}
        if kind == "choice":
            return "choice", {"chosen": next(option["id"] for option in field["options"] if option["ok"])}
        if kind == "text" and field["id"] == "identification":
            return "note", {"text": self.diary.box}
        return self._planned(step, field)

    def given(self, field: Json, found: Any) -> tuple[str, Json]:
        """The entry for a value that is written down: a text is taken as typed, a number scatters a little."""
        kind = field["type"]
        if kind == "tick":
            return "tick", {"ticked": bool(found)}
        if kind == "choice":
            return "choice", {"chosen": found}
        if kind in ("text", "date"):
            return "note", {"text": str(found)}
        if kind == "number":
            return "reading", typed.number(float(found), field["ucum"])
        if field.get("level"):
            over = field["over"] / typed.NM
            return "reading", typed.level(found + self._scatter(0.3), found + self._scatter(0.3), over)
        if isinstance(found, str):
            return "reading", typed.length(found)
        mm = found + self._scatter(CALLIPER if abs(found) < SHORT else TAPE)
        return "reading", typed.length(typed.length_text(mm, self.habit))

    def _scatter(self, sd: float) -> float:
        return self.diary.rng.gauss(0, sd)

    def _planned(self, step: Json, field: Json) -> tuple[str, Json]:
        """Near the plan, or well inside what is expected."""
        expect, scale = field.get("expect", {}), typed.NM if field["type"] == "length" else 1
        low, high = (expect[side] / scale if side in expect else None for side in ("from", "to"))
        if low is not None and high is not None:
            middle, spread = (low + high) / 2, (high - low) * SPREAD / 2
        elif "plan" in field:
            middle = field["plan"] / scale
            spread = CALLIPER if middle < SHORT else TAPE
        else:
            raise KeyError(f"stories.toml says no usual value for {step['id']}.{field['id']}")
        value = middle + self._scatter(spread)
        if field["type"] == "length":
            return "reading", typed.length(typed.length_text(value, self.habit))
        return "reading", typed.number(round(value), field["ucum"])
