"""A frame that is not true, read as its sheet asks, and moved as its answer says: for the demo's histories.

The frame is a point in the sheet's own unknowns; a reading is the sheet's row over it plus the tape's or level's
doubt, from the diary's generator; a move shifts it by the sheet's column, with the error of the hand.
"""

from typing import Any

from fieldapp.site import typed
from fieldapp.site.diary import Diary, Phone
from fieldapp.trade.estimate import answer

Json = dict[str, Any]
FIRST = ("diagonal_bl_tr", "diagonal_tl_br")
MOST_READINGS = 14
JAMB_LEVEL, SILL_LEVEL = 1800.0, 600.0  # mm, the two levels that the crews own


class TrueFrame:
    """The frame of one unit; `faults` are its unknowns (mm) where they are not small."""

    def __init__(self, diary: Diary, phone: Phone, habit: str, faults: dict[str, float], name: str = "frame") -> None:
        self.diary, self.phone, self.habit, self.name = diary, phone, habit, name
        self.sheet = diary.sheet(name)
        self.fields = _fields(diary, name)
        self.round: str | None = None
        self.at = {item["name"]: self._start(item, faults) for item in self.sheet["unknowns"]}

    def _start(self, item: Json, faults: dict[str, float]) -> float:
        small = {"turn", "rack", "lean", "twist"}
        usual = 0.6 if item["name"] in small else self.sheet["tools"].get(item.get("tool"), item["sd"]) * 0.3
        if item["name"].startswith(("c_", "k_")):
            usual = 0.3
        return float(faults.get(item["name"], item["mean"] + self.diary.rng.gauss(0, usual)))

    def _true(self, row: dict[str, float]) -> float:
        return float(sum(factor * self.at[name] for name, factor in row.items()))

    def read(self, kind: str) -> None:
        """One reading of this kind, as an entry."""
        known, rng = self.sheet["readings"][kind], self.diary.rng
        if "side" in known:
            over = JAMB_LEVEL if known["side"] > JAMB_LEVEL else SILL_LEVEL
            true = self._true(known["row"]) * over / known["side"]
            zero = self._true(known["zero"]) * over / known["side"]
            value = typed.level(true + zero + rng.gauss(0, 0.3), true - zero + rng.gauss(0, 0.3), over)
        else:
            mm = known["constant"] + self._true(known["row"]) + rng.gauss(0, 0.8 * known["u"])
            value = typed.length(typed.length_text(round(max(mm, known["from"]), 1), self.habit))
        step, field = self.fields[kind]
        self.diary.enter(self.phone, "reading", value, step=step, of=field, round_id=self.round)

    def read_round(self, first: bool = False) -> Json:
        """Read as far as it decides; returns the answer that stands then."""
        for kind in FIRST if first else ():
            self.read(kind)
        for _ in range(MOST_READINGS):
            found = self.answer()
            if found["next"] is None:
                return found
            self.read(found["next"]["of"])
        return self.answer()

    def answer(self) -> Json:
        return answer(self.sheet, self.diary.given(self.name))

    def told(self, found: Json, step: str) -> None:
        """Keep the answer that was shown."""
        given = self.diary.given(self.name)
        aside = [given["rounds"][one["round"]]["readings"][one["reading"]]["id"] for one in found["suspects"]]
        self.diary.enter(
            self.phone,
            "told",
            {
                "sheet": self.name,
                "from": given["ids"],
                "verdicts": {one["what"]: one["verdict"] for one in found["judged"]},
                "set_aside": aside,
                "moves": [{"do": one["do"], "nm": round(one["by"] * typed.NM)} for one in found["corrections"]],
                "next": found["next"]["of"] if found["next"] else None,
                "chosen": None,
                "tools": self.sheet["tools"],
                "can_read": [],
            },
            step=step,
            round_id=self.round,
            sheet=self.name,
        )

    def move(self, found: Json, step: str) -> None:
        """Make every move of an answer and open the next round."""
        for one in found["corrections"]:
            self.diary.enter(
                self.phone,
                "move",
                {"sheet": self.name, "do": one["do"], "nm": round(one["by"] * typed.NM)},
                step=step,
                round_id=self.round,
                sheet=self.name,
            )
            self._shift(one["do"], one["by"])
            self.diary.pause(2)
        before = [] if self.round is None else [self.round]
        self.round = self.diary.enter(
            self.phone, "round", {"sheet": self.name, "after": before}, step=step, sheet=self.name
        )

    def _shift(self, do: str, by: float) -> None:
        column = next(item["column"] for item in self.sheet["corrections"] if item["do"] == do)
        moved = by * (1 + self.diary.rng.gauss(0, 0.08)) + self.diary.rng.gauss(0, 0.2)
        for name, factor in column.items():
            self.at[name] += factor * moved


def _fields(diary: Diary, name: str) -> dict[str, tuple[str, str]]:
    """{kind: (step, field)} of the first field that feeds the sheet with it."""
    found: dict[str, tuple[str, str]] = {}
    for step in diary.built.packet["steps"]:
        for field in step["fields"]:
            for feed in field.get("feeds", []):
                if feed["sheet"] == name:
                    found.setdefault(feed["as"], (step["id"], field["id"]))
    return found
