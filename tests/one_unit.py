"""A unit for tests of the fold: a small plan, and entries made in one line each.

Ids are `01`, `02` … in the order of making, so that a test can name them; the fold itself never reads an order.
"""

from fieldapp.record import fold, offers
from fieldapp.record.entries import covers_hash
from fieldapp.trade import frame
from fieldapp.trade.estimate import band

MM = 1_000_000
PEOPLE = [
    {"id": "lena", "name": "Lena", "release": True, "review": False},
    {"id": "omar", "name": "Omar", "release": True, "review": False},
    {"id": "ruth", "name": "Ruth", "release": False, "review": True},
]
PARTS = {
    "frame-1": frame.sheet(914.0, 2057.0, "left"),
    "gap-1": band.within("gap", [{"name": "gaps.0.value", "say": "Gap", "u": 0.2, "from": 0, "to": 100}], 5.0, 8.0),
}


def field(key, kind="tick", required=True, **more):
    return {"id": key, "type": kind, "required": required, "say": key, **more}


def step(key, *fields, stage="set-and-fix", hold=False, needs=(), concession=False, signed=True, answers=()):
    return {
        "id": key,
        "stage": stage,
        "say": key,
        "cautions": [],
        "hold": hold,
        "needs": list(needs),
        "concession": concession,
        "signed": signed,
        "fields": list(fields),
        "answers": list(answers),
    }


def packet(*steps):
    return {
        "packet": 1,
        "lang": "en",
        "steps": list(steps),
        "people": PEOPLE,
        "drawings": [],
        "sheets": [{"name": "frame", "part": "frame-1"}, {"name": "gap", "part": "gap-1"}],
    }


class Unit:
    """The entries of one unit, made as if each were kept on the server at once."""

    def __init__(self, *steps, judge=None, **packets):
        self.packets = {"p1": packet(*steps), **packets}
        self.entries, self.more = [], {"judge": judge} if judge else {}
        self.issue("p1", replaces=[])

    def add(
        self, kind, value, *, by="lena", standing="kept", step=None, field=None, round=None, replaces=(), packet="p1"
    ):
        key = f"{len(self.entries) + 1:02}"
        self.entries.append(
            {
                "id": key,
                "v": 1,
                "unit": "u1",
                "step": step,
                "field": field,
                "round": round,
                "kind": kind,
                "value": value,
                "replaces": list(replaces),
                "packet": packet,
                "sheet": None,
                "person": by,
                "device": "d1",
                "count": len(self.entries),
                "at": "2026-11-25T10:42:07.120+01:00",
                "offset_ms": 0,
                "server": {"seq": len(self.entries), "received": "-", "standing": standing},
            }
        )
        return key

    def issue(self, named, others=None, **more):
        more.setdefault("replaces", self.of_kind("issue"))
        return self.add(
            "issue", {"packet": named, "others": others or {}, "because": ""}, by="ruth", packet=None, **more
        )

    def of_kind(self, kind):
        return [entry["id"] for entry in self.entries if entry["kind"] == kind]

    def tick(self, place, ticked=True, **more):
        return self._on(place, "tick", {"ticked": ticked}, more)

    def read(self, place, mm, *, over=None, u=None, reversed=None, **more):
        value = {"text": f"{mm} mm", "nm": round(mm * MM)}
        extras = {"over": over and round(over * MM), "u": None if u is None else round(u * MM), "reversed": reversed}
        return self._on(place, "reading", {**value, **{k: v for k, v in extras.items() if v is not None}}, more)

    def number(self, place, number, ucum="Cel", **more):
        return self._on(place, "reading", {"text": str(number), "number": number, "ucum": ucum}, more)

    def choose(self, place, chosen, **more):
        return self._on(place, "choice", {"chosen": chosen}, more)

    def note(self, place, text="dry", **more):
        return self._on(place, "note", {"text": text}, more)

    def retract(self, *ids, **more):
        first = next(entry for entry in self.entries if entry["id"] == ids[0])
        place = {key: first[key] for key in ("step", "field", "round")}
        return self.add("retract", {"because": "a slip"}, replaces=ids, **{**place, **more})

    def move(self, do="push_head_right", mm=6, *, step="frame", **more):
        return self.add("move", {"sheet": "frame", "do": do, "nm": round(mm * MM)}, step=step, **more)

    def round(self, *after, step="frame", **more):
        return self.add("round", {"sheet": "frame", "after": list(after)}, step=step, **more)

    def release(self, step, second="omar", covers=None, **more):
        covers = self.offers()["steps"][step]["covers"] if covers is None else covers
        return self.add(
            "release", {"second": second, "covers": covers, "sha256": covers_hash(covers)}, step=step, **more
        )

    def confirm(self, of, by="omar", **more):
        return self.add("confirm", {"of": of}, by=by, **more)

    def ask(self, step, covers=None, **more):
        covers = self.offers()["steps"][step]["covers"] if covers is None else covers
        return self.add("ask", {"covers": covers, "because": "the leaf binds"}, step=step, **more)

    def sign(self, covers=None, **more):
        signoff = self.offers()["signoff"]
        covers = signoff["covers"] if covers is None else covers
        more.setdefault("replaces", signoff["replaces"])
        return self.add("signoff", {"covers": covers, "sha256": covers_hash(covers)}, **more)

    def review(self, of, word, by="ruth", **more):
        return self.add("review", {"of": of, "is": word, "because": "seen"}, by=by, **more)

    def _on(self, place, kind, value, more):
        step, name = place.split(".")
        return self.add(kind, value, **{"step": step, "field": name, **more})

    def held(self):
        return fold.gather(None, self.entries)

    def state(self):
        return fold.result(self.held(), self.packets, PARTS, **self.more)

    def step(self, key):
        return next(each for each in self.state()["steps"] if each["id"] == key)

    def given(self, name="frame"):
        return fold.given(self.held(), self.packets, PARTS, name)

    def offers(self, person="lena"):
        return offers.offered(self.held(), self.packets, PARTS, self.state(), person)
