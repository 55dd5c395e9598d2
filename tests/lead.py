"""A lead who fits a door by touching the phone's keys: she reads the screen, and does what its main key asks for.

The figures that she types come from the plan, and for the frame from a world of exact geometry (frame_world.py) that
her moves really move. Nothing here writes an entry but by a key of the page.
"""

import json
import re
from dataclasses import dataclass, field

import frame_world
import numpy as np

# What the plan does not know because it is measured: mm, or the field's own unit. Invented, plausible.
FIGURES = {
    "flange": 1.5, "sheet": 2.0, "fold": 3.0, "stand_off": 6.6, "floor_above": -5.0,
    "near_left": 0, "near_right": 2, "far_left": 1, "far_right": 2, "tilt_along": 0, "tilt_through": 0,
    "marked_rpm": 10200, "diameter": 150, "tool_rpm": 9000, "guard_for": 150,
    "wind": 3, "dew_margin": 8, "watched": 60, "minutes": 12, "set": 22, "replaced": 0,
    "gap_left": 6.6, "gap_middle": 6.6, "gap_right": 6.6, "stop_angle": 92,
}
TEXTS = {"date": "2026-11-25", "text": "H. Quill, seen on paper"}
MOST_TOUCHES = 700


@dataclass
class Lead:
    """`phone`: tests/phones.py; `unit`: the unit's wire dict; `packet`, `sheets`: its plan; `log`: what was touched."""

    phone: object
    unit: dict
    packet: dict
    sheets: dict
    seconds: str = "omar"
    rng: np.random.Generator = field(default_factory=lambda: np.random.default_rng(7))
    log: list = field(default_factory=list)
    seen: dict = field(default_factory=dict)
    look: object = None

    def __post_init__(self):
        size = self.sheets["frame"]["frame"]
        self.steps = {step["id"]: step for step in self.packet["steps"]}
        fault = {"turn": 1.5, "rack": 5.0, "ws": 0.2, "wh": -0.1, "hl": 0.1, "hr": 0.0, "lean": 1.0, "twist": 3.0,
                 "bow": 0.4}
        self.frame = frame_world.Frame(self.rng, size["width"], size["height"], size["hinge"], fault, tape=0.1,
                                       zero=dict.fromkeys(frame_world.LEVELS, 0.1))
        self.moved = 0

    # What the screen says

    @property
    def page(self):
        return self.phone.page

    @property
    def screen(self):
        return self.page.get_attribute("body", "data-screen")

    @property
    def hash(self):
        return self.page.evaluate("location.hash")

    def action(self):
        return self.page.inner_text("#key-action")

    def touch(self, selector):
        """Touch a key, and wait until the screen has answered."""
        self.log.append((self.hash, selector))
        assert len(self.log) < MOST_TOUCHES, f"too many touches; the last: {self.log[-12:]}"
        drawn = self.page.get_attribute("body", "data-drawn")
        self.page.click(selector)
        self.settle(drawn)

    def settle(self, drawn=None):
        """Until the page has drawn what the touch led to, and nothing is being drawn any more."""
        self.page.evaluate("""drawn => new Promise(done => {
            let calm = 0, tries = 0;
            const look = () => {
              tries += 1;
              const body = document.body;
              calm = body.hasAttribute("aria-busy") || body.dataset.drawn === drawn ? 0 : calm + 1;
              if (calm > 1 || tries > 60) done(); else setTimeout(look, 20);
            };
            look();
        })""", drawn)
        if self.look:
            self.look(self)

    def state(self):
        return self.phone.run("""const {fold} = await part('fold');
            const unit = args[0]; const entries = await store.entries(unit); const packets = {}; const parts = {};
            for (const e of entries.filter(e => e.kind === 'issue')) {
              const p = await store.packet(e.value.packet); if (p) packets[e.value.packet] = p;
              for (const s of p?.sheets ?? []) parts[s.part] = await store.part(s.part); }
            return fold(entries, packets, parts);""", self.unit["id"])

    def entries(self):
        return self.phone.run("return await store.entries(args[0]);", self.unit["id"])

    # What she does

    def work(self, until="sign"):
        """Follow the main key until the screen named `until`."""
        while self.screen != until:
            before = (self.hash, len(self.log))
            getattr(self, f"on_{self.screen}", self.on_any)()
            if (self.hash, self.action()) == self.seen.get("stuck"):
                self.seen["times"] += 1
                assert self.seen["times"] < 40, f"nothing moves at {self.hash}: {self.page.inner_text('body')[:600]}"
            else:
                self.seen.update(stuck=(self.hash, self.action()), times=0)
            assert len(self.log) > before[1], f"nothing to touch at {before[0]}"

    def on_any(self):
        self.touch("#key-action")

    def on_step(self):
        """Ticks and choices of the step, then the main key."""
        step = self.steps[self.hash.split("/")[3]]
        for each in step["fields"]:
            if not each["required"]:
                continue
            if each["type"] == "tick" and self.page.get_attribute(f"#tick-{each['id']}-true", "aria-pressed") != "true":
                yes = each["id"] not in ("damaged",)
                if self.page.get_attribute(f"#tick-{each['id']}-false", "aria-pressed") == "true":
                    continue
                self.touch(f"#tick-{each['id']}-{'true' if yes else 'false'}")
                if self.screen != "step":
                    return
            if each["type"] == "choice" and each["id"] != "row":
                self._choose(each, next(o["id"] for o in each["options"] if o.get("ok", True)))
            if each["type"] == "choice" and each["id"] == "row":
                told = re.search(r"[Rr]ow (\d+)", self.page.inner_text("main"))
                self._choose(each, told[1] if told else each["options"][0]["id"])
        self.touch("#key-action")

    def _choose(self, each, option):
        where = f"#choice-{each['id']}-{option}"
        if self.page.get_attribute(where, "aria-checked") != "true" and not self.page.query_selector(
                f"[id^='choice-{each['id']}-'][aria-checked=true]"):
            self.touch(where)

    def on_read(self):
        _, _, _, step, name = self.hash.split("/")[:5]
        each = next(f for f in self.steps[step]["fields"] if f["id"] == name)
        if each["type"] in TEXTS:
            own = {"identification": self.packet["unit"]["box"], "expires": "2028-09"}
            self.page.fill("#written", own.get(name, TEXTS[each["type"]]))
            return self.touch("#key-action")
        if "length" in self.action():  # the first level reading: hers is a plumb line over the whole side
            self.touch(".pad [data-key='whole-side']")
        if again := self.page.query_selector(".ask .key:last-child"):  # two stand: another reading
            again.click()
        value = self.figure(each)
        level = "Turn it" in self.action()
        self.type_figure(value)
        self.touch("#key-action")
        if level and self.screen == "read" and self.hash.split("/")[4] == name:
            self.type_figure(value)
            self.touch("#key-action")
        return None

    def figure(self, each):
        """What she reads for a field, mm or the field's own unit."""
        for feed in each.get("feeds", []):
            if feed["sheet"] in ("frame", "frame_recheck") and feed["as"] in frame_world.USUAL:
                return self.read_frame(feed["as"])
        if each["id"] in FIGURES:
            return FIGURES[each["id"]]
        scale = 1e6 if each["type"] == "length" else 1
        expect = each.get("expect", {})
        known = [expect[side] for side in ("from", "to") if expect.get(side) is not None]
        if "plan" in each:
            return each["plan"] / scale
        if len(known) == 2:
            return sum(known) / 2 / scale
        # One-sided: well on the right side of the only limit.
        return known[0] / scale * (0.4 if expect.get("from") is None else 1.5) if known else 10

    def read_frame(self, kind):
        moves = [e["value"] for e in self.entries() if e["kind"] == "move" and e["value"]["sheet"] == "frame"]
        self.frame.do([{"do": move["do"], "by": move["nm"] / 1e6} for move in moves[self.moved:]])
        self.moved = len(moves)
        return self.frame.read(kind, reversed_=kind in frame_world.LEVELS)["value"]

    def type_figure(self, value):
        """A figure by the pad's keys, to half a millimetre as a tape is read, a tenth below 20."""
        text = f"{round(value * 2) / 2:g}" if abs(value) >= 20 else f"{round(value, 1):g}"
        keys = list(text.lstrip("-"))
        sign = "-" if float(text) < 0 else "+"  # nothing at all has no direction
        if self.page.query_selector(f".pad [data-key='{sign}']") and float(text):
            keys.insert(0, sign)
        elif sign == "-":
            keys.insert(0, "±")
        for key in keys:
            self.page.click(f".pad [data-key='{key}']")
            self.log.append((self.hash, key))

    def on_hold(self):
        if "She looked" not in self.action() and self.page.query_selector(".choices .choice"):
            self.touch(f".choices .choice:has-text('{self.seconds}')")
        self.touch("#key-action")


def lead_on(phone, number, job, **more):
    """The lead at a unit that her phone carries, by its number and job; the unit's screen is open."""
    units = phone.run("return await store.units();")
    unit = next(u for u in units if u["number"] == number and u["job"]["name"] == job)
    packet = phone.run("return await store.packet(args[0]);", unit["packet"])
    sheets = {s["name"]: phone.run("return await store.part(args[0]);", s["part"]) for s in packet["sheets"]}
    phone.page.evaluate("hash => { location.hash = hash; }", f"#unit/{unit['id']}")
    lead = Lead(phone, unit, json.loads(json.dumps(packet)), sheets, **more)
    lead.settle()
    return lead
