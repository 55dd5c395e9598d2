"""Made-up histories of entries, of every kind, for tests of the fold and of its twin.

`rng` is a random.Random, or Hypothesis's own (`st.randoms()`), which then shrinks what fails.
"""

from made_packets import MOVES, NM, PARTS, PEOPLE, packets, value_of

from fieldapp.record import fold, signoffs

__all__ = ["PARTS", "history", "packets"]


class History:
    """Makes entries one after another; each may see what was made before, or not. `calm`: a crew that sees it all."""

    def __init__(self, rng, packets, calm):
        self.rng, self.packets, self.calm, self.entries = rng, packets, calm, []
        self.ids = rng.sample([f"{n:03x}" for n in range(1, 500)], 400)  # ids are for uniqueness, never for order

    def made(self, *kinds):
        return [entry["id"] for entry in self.entries if entry["kind"] in kinds]

    def some(self, ids, most=2):
        """A few of the ids, at times one that is not here (yet)."""
        pool = [*ids, self.rng.choice(self.ids)]
        return sorted(set(self.rng.sample(pool, min(len(pool), self.rng.randint(1, most)))))

    def add(self, kind, value, *, step=None, field=None, round=None, replaces=(), person=None):
        rng, number = self.rng, len(self.entries)
        named = "p1" if self.calm else rng.choice(["p1", "p1", "p1", "p2", None])
        entry = {
            "id": self.ids[number],
            "v": 1,
            "unit": "u",
            "step": step,
            "field": field,
            "round": round,
            "kind": kind,
            "value": value,
            "replaces": list(replaces),
            "packet": named,
            "sheet": None,
            "person": person or rng.choice(PEOPLE),
            "device": "d",
            "count": number,
            "at": "-",
            "offset_ms": None,
        }
        standing = rng.choice(
            [None, "kept", "kept"] if self.calm else [None, "kept", "kept", "kept", "kept", "quarantined"]
        )
        if standing:
            entry["server"] = {"standing": standing, "seq": number}
        self.entries.append(entry)

    def a_packet(self):
        return self.packets["p1" if self.calm else self.rng.choice(["p1", "p2"])]

    def field(self):
        """A step and one of its fields, of a packet that may not be the one in force."""
        step = self.rng.choice(self.a_packet()["steps"])
        return step, self.rng.choice(step["fields"])

    def replaced(self, step, field):
        """What a new entry on the field replaces: all that stands there, or only some of what ever did."""
        same = [e for e in self.entries if (e["step"], e["field"]) == (step, field) and e["kind"] != "round"]
        gone = {key for e in same for key in e["replaces"]}
        chance = self.rng.random()
        if self.calm or chance < 0.4:
            return [e["id"] for e in same if e["id"] not in gone][-50:]
        return self.some([e["id"] for e in same]) if chance < 0.5 else []

    def read(self, step=None, field=None):
        if step is None:
            step, field = self.field()
        kind, value = value_of(self.rng, field, self.calm)
        name = field["id"]
        if not self.calm and self.rng.random() < 0.06:
            kind, value, name = self.rng.choice([("tick", {"ticked": True}, name), (kind, value, "no_such_field")])
        on_frame = any(feed["sheet"] == "frame" for feed in field.get("feeds", []))
        rounds = self.made("round")[-1:] if self.calm else [None, *self.made("round")[-3:]]
        round = self.rng.choice(rounds or [None]) if on_frame and kind == "reading" else None
        replaces = [] if field.get("repeat") and self.rng.random() < 0.8 else self.replaced(step["id"], name)
        self.add(kind, value, step=step["id"], field=name, round=round, replaces=replaces)

    def move(self):
        rounds = self.made("round")[-1:] or [None] if self.calm else [None, *self.made("round")]
        self.add(
            "move",
            {
                "sheet": "frame",
                "do": self.rng.choice(MOVES if self.calm else [*MOVES, "no_such_move"]),
                "nm": self.rng.choice([1] if self.calm else [0, 2, 6, 300]) * NM,
            },
            step="frame",
            round=self.rng.choice(rounds),
        )

    def round(self):
        after = self.made("round")[-1:]
        if not self.calm:
            after = self.rng.choice([[], after, self.some(self.made("round"))])
        self.add("round", {"sheet": self.rng.choice(["frame", "frame", "frame", "toe"]), "after": after}, step="frame")

    def retract(self):
        of = self.rng.choice(self.entries[1:] or self.entries)
        self.add(
            "retract",
            {"because": "slip"},
            step=of["step"],
            field=of["field"],
            round=of["round"],
            replaces=[of["id"]] if self.calm else self.some([of["id"]], 1),
        )

    def release(self, step=None, second=None, person=None):
        step = step or self.field()[0]["id"]
        self.add(
            "release",
            {"second": second or self.rng.choice(PEOPLE), "covers": self.cover(step), "sha256": "-"},
            step=step,
            person=person,
            replaces=self.rng.choice([[], self.made("release")]) if not self.calm else [],
        )

    def cover(self, step=None):
        covers = signoffs.standing_ids(fold.gather(None, self.entries), self.a_packet(), step)
        chance = self.rng.random()
        if self.calm or chance < 0.8:
            return covers
        return self.some(covers, 5) if chance < 0.9 else sorted({*covers, *self.some([])})

    def others(self):
        """Entries about entries, and those that count for nothing."""
        rng = self.rng
        step = self.field()[0]["id"]
        which = rng.choice([0, 3, 6, 8]) if self.calm else rng.randrange(9)
        if which == 0:
            self.add("ask", {"covers": self.cover(step), "because": "binds"}, step=step)
        elif which in (1, 2):
            self.add(
                "signoff", {"covers": self.cover(), "sha256": "-"}, replaces=rng.choice([[], self.made("signoff")])
            )
        elif which == 3 and self.made("release"):
            self.add("confirm", {"of": rng.choice(self.made("release"))}, step=step)
        elif which in (4, 5, 6):
            self.review(step)
        elif which == 7:
            self.add(
                "issue",
                {"packet": rng.choice(["p1", "p2"]), "others": rng.choice([{}, {"es": "p1-es"}]), "because": ""},
                replaces=rng.choice([[], self.made("issue")]),
            )
        else:
            kind, value = rng.choice(
                [
                    ("moved", {"to": "other"}),
                    ("note", {"text": "a remark"}),
                    ("told", {"sheet": "frame", "from": [], "verdicts": {}}),
                ]
            )
            self.add(kind, value, replaces=self.some(self.made("reading", "tick")) if kind == "moved" else [])

    def review(self, step, word=None, person=None):
        of = self.rng.choice(self.made("signoff", "ask") or self.made("issue"))
        word = word or self.rng.choice(["accepted", "returned", "concession", "admitted"])
        if word == "admitted":
            of = self.rng.choice(
                [e["id"] for e in self.entries if e.get("server", {}).get("standing") == "quarantined"] or [of]
            )
        asked = next((e["step"] for e in self.entries if e["id"] == of), None)
        self.add(
            "review",
            {"of": of, "is": word, "because": "seen"},
            person=person,
            step=(asked or step) if word == "concession" else None,
        )

    def finish(self):
        """All is read, hold points are released, concessions asked for and granted, the unit signed and reviewed."""
        for step in self.packets["p1"]["steps"]:
            for field in step["fields"]:
                for _ in range(2 if field.get("repeat") else 1):
                    self.read(step, field)
            if step["hold"]:
                self.release(step["id"], "omar", "lena")
            if step["concession"] and self.rng.random() < 0.5:
                self.add("ask", {"covers": self.cover(step["id"]), "because": "binds"}, step=step["id"], person="lena")
                self.add(
                    "review",
                    {"of": self.made("ask")[-1], "is": "concession", "because": "seen"},
                    step=step["id"],
                    person="ruth",
                )
        self.add("signoff", {"covers": self.cover(), "sha256": "-"}, person="lena", replaces=self.made("signoff"))
        for _ in range(self.rng.randint(0, 2)):
            self.review(
                self.packets["p1"]["steps"][0]["id"], self.rng.choice(["accepted", "accepted", "returned"]), "ruth"
            )
        if self.rng.random() < 0.3:
            self.add("issue", {"packet": "p2", "others": {}, "because": ""}, replaces=self.made("issue"))
        for _ in range(self.rng.choice([0, 0, 1, 2])):
            self.rng.choice([self.read, self.others, self.retract])()


def history(rng, packets, size):
    """About `size` entries under the packets p1 and p2, in the order in which they were made."""
    made = History(rng, packets, rng.random() < 0.5)
    made.add("issue", {"packet": "p1", "others": {"es": "p1-es"}, "because": ""}, person="ruth")
    made.entries[0]["server"] = {"standing": "kept"}
    while len(made.entries) < size:
        what = rng.choice(
            [*[made.read] * 8, made.move, made.round, made.retract, made.release, made.others, made.others]
        )
        what()
    if made.calm and rng.random() < 0.8:
        made.finish()
    return made.entries
