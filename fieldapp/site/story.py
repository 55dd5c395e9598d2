"""Plays a story of stories.toml: a crew works through a unit's steps up to where the story stops."""

from typing import Any

from fieldapp.site import typed
from fieldapp.site.diary import Diary, Phone
from fieldapp.site.filling import Filling
from fieldapp.site.true_frame import TrueFrame
from fieldapp.trade.estimate import answer

Json = dict[str, Any]
FRAME_STEP = "true-frame"
MOST_ROUNDS = 3


class Story:
    """One unit's history. `cast`: {name: Phone}; `desk`: the site's own device, for the supervisor's entries."""

    def __init__(self, diary: Diary, told: Json, usual: Json, cast: dict[str, Phone], desk: Phone) -> None:
        self.diary, self.told = diary, told
        self.lead, self.second = cast[told["lead"]], cast[told["second"]]
        self.desk = desk
        habit = usual["habits"].get(told["lead"], "mm")
        self.filling = Filling(diary, usual, told.get("values", {}), habit)
        self.frame = TrueFrame(diary, self.lead, habit, told.get("frame", {}))

    def play(self) -> None:
        """Every step in order up to `until`, then what the story says happened."""
        for step in self.diary.built.packet["steps"]:
            if step["signed"]:
                self._step(step)
            if step["id"] == self.told.get("until"):
                break
        self._happened()

    def _step(self, step: Json) -> None:
        self.diary.pause(self.told.get("minutes_a_step", 4))
        if step["id"] == FRAME_STEP:
            self._frame(step)
        kinds = {feed["as"] for field in step["fields"] for feed in field.get("feeds", []) if feed["sheet"] == "frame"}
        skip = set(self.told.get("leave_out", []))
        for field in step["fields"]:
            wanted = field["required"] or field["id"] in self.told.get("values", {})
            if wanted and field["id"] not in skip and not (field.get("repeat") and step["id"] == FRAME_STEP):
                self._field(step, field)
        for item in step["answers"]:
            if item["sheet"] != "frame":
                self._told(step, item["sheet"])
        if step["answers"] and step["id"] != FRAME_STEP and kinds and step["stage"] == "prove":
            self.frame.told(self.frame.answer(), step["id"])
        if step["hold"] and step["id"] != self.told.get("shut"):
            self._release(step)

    def _field(self, step: Json, field: Json) -> None:
        row_of = next((item["sheet"] for item in step["answers"] if field["id"] == "row"), None)
        if row_of:
            chosen = answer(self.diary.sheet(row_of), self.diary.given(row_of))["row"]
            self.diary.enter(self.lead, "choice", {"chosen": chosen}, step=step["id"], of="row")
            return
        kind, value = self.filling.value(step, field)
        round_id = self.frame.round if field.get("repeat") else None
        by = self.desk if field.get("office") else self.lead
        self.diary.enter(by, kind, value, step=step["id"], of=field["id"], round_id=round_id)

    def _told(self, step: Json, name: str) -> None:
        """Keep what a sheet without rounds said, once all that feeds it here has been read."""
        given, sheet = self.diary.given(name), self.diary.sheet(name)
        found = answer(sheet, given)
        judged = found.get("judged", []) or [
            {"what": item["what"], "verdict": found["verdict"]} for item in sheet["judged"] if found.get("verdict")
        ]
        if not judged:  # something that feeds it is read later
            return
        self.diary.enter(
            self.lead,
            "told",
            {
                "sheet": name,
                "from": given["ids"],
                "verdicts": {one["what"]: one["verdict"] for one in judged},
                "set_aside": [],
                "moves": [],
                "next": None,
                "chosen": found.get("row"),
                "tools": {},
                "can_read": [],
            },
            step=step["id"],
            sheet=name,
        )

    def _frame(self, step: Json) -> None:
        found = self.frame.read_round(first=True)
        self.frame.told(found, step["id"])
        for _ in range(self.told.get("rounds", MOST_ROUNDS) - 1):
            if not found["corrections"]:
                return
            self.frame.move(found, step["id"])
            found = self.frame.read_round()
            self.frame.told(found, step["id"])

    def _release(self, step: Json) -> None:
        covering = self.diary.covering(step["id"])
        made = self.diary.enter(self.lead, "release", {"second": self.second.person, **covering}, step=step["id"])
        if step["id"] not in self.told.get("stated", []):
            self.diary.pause(1)
            self.diary.enter(self.second, "confirm", {"of": made}, step=step["id"])

    def _happened(self) -> None:
        for one in self.told.get("asks", []):
            covers = self.diary.covers(one["step"])
            self.diary.enter(self.lead, "ask", {"covers": covers, "because": one["because"]}, step=one["step"])
        for one in self.told.get("pairs", []):
            self._again(one, self.second, replaces=False)
        if self.told.get("signed"):
            self.diary.pause(12)
            signed = self.diary.enter(self.lead, "signoff", self.diary.covering())
            for review in self.told.get("reviews", []):
                self.diary.pause(90)
                self.diary.enter(self.desk, "review", {"of": signed, **review})
        for one in self.told.get("afterwards", []):
            self.diary.pause(one.get("minutes", 60))
            self._again(one, self.lead, replaces=True)

    def _again(self, one: Json, phone: Phone, replaces: bool) -> None:
        """A field read once more: in place of what stands, or, by another phone, without sight of it."""
        step = self.diary.step(one["step"])
        field = next(field for field in step["fields"] if field["id"] == one["field"])
        kind, value = self.filling.given(field, one["value"])
        old = self.diary.latest(one["step"], one["field"]) if replaces else ()
        self.diary.enter(phone, kind, value, step=one["step"], of=one["field"], replaces=old)


__all__ = ["Story", "typed"]
