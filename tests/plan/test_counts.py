"""What is asked of a crew: at most 70 figures and 40 ticks and choices, in every variant (work.md's budget).

Figures: required lengths and numbers, and of the frame what `next` asks until it is settled, in two rounds and at Stop.
Texts and dates stand beside them, few. What the office gives before a crew goes out (who decided, when and what) is not
asked of the crew: it is counted by itself. A frame is settled when nothing more is asked, or when every quantity is
known and there is a move to make. Frames are made from the sheet's own rows with a seeded generator.
"""

from functools import cache
from random import Random
from statistics import median

from plan.conftest import all_plans, plan

from fieldapp.plan import steps
from fieldapp.plan.choices import read
from fieldapp.plan.dimensions import plan_of
from fieldapp.trade import frame
from fieldapp.trade.estimate import answer

FIGURES, TICKS, TEXTS = 70, 40, 8
OFFICE = (0, 5, 10)  # five questions, each an answer, a name and a date
FRAMES = 9
CAP = 30  # readings a round; none of these frames comes near it, or the count below says so
FAULTS = {"turn": 3, "rack": 4, "lean": 3, "twist": 2, "ws": 0.5, "wh": 0.5, "hl": 0.5, "hr": 0.5, "bow": 0.8}
ROWS = {"rivet_sides": ["62", "64"], "rivet_head": ["64", "66"]}


def required(chosen, office=False):
    """(figures, ticks and choices, texts and dates) that a plan's steps require of the crew, or of the office; the
    re-check aside."""
    types = [
        field["type"]
        for step in steps.steps(plan_of(read(plan(**chosen))), ROWS)
        if step["signed"]
        for field in step["fields"]
        if field["required"] and field.get("office", False) == office
    ]
    return tuple(
        sum(kind in kinds for kind in types) for kinds in (("length", "number"), ("tick", "choice"), ("text", "date"))
    )


class Frame:
    """A frame out of true, read and moved through its own sheet."""

    def __init__(self, sheet, seed):
        self.sheet, self.rng = sheet, Random(seed)
        tools = sheet["tools"]
        self.at = {
            item["name"]: item["mean"]
            + self.rng.gauss(0, FAULTS.get(item["name"], tools.get(item.get("tool"), item["sd"])))
            for item in sheet["unknowns"]
        }
        self.rounds = [{"readings": [], "done": []}]
        self.count = 0

    def answer(self):
        tilt = {"along": 0, "through": 0, "over": 6000}
        return answer(self.sheet, {"rounds": self.rounds, "tilt": tilt})

    def read(self, kind):
        known = self.sheet["readings"][kind]
        value = known["constant"] + sum(factor * self.at[name] for name, factor in known["row"].items())
        level = "side" in known
        reading = {"of": kind, "value": value + self.rng.gauss(0, known["u_reversed" if level else "u"])}
        self.rounds[-1]["readings"].append(reading | ({"reversed": True} if level else {}))
        self.count += 1

    def read_round(self):
        for _ in range(CAP):
            found = self.answer()
            known = all(one["u"] <= one["tolerance"] for one in found["judged"])
            if found["next"] is None or (known and found["corrections"]):
                return found
            self.read(found["next"]["of"])
        return found

    def move(self, found):
        columns = {item["do"]: item["column"] for item in self.sheet["corrections"]}
        for one in found["corrections"]:
            self.rounds[-1]["done"].append({"do": one["do"], "by": one["by"]})
            moved = one["by"] * (1 + self.rng.gauss(0, 0.15)) + self.rng.gauss(0, 0.3)
            for name, factor in columns[one["do"]].items():
                self.at[name] += factor * moved
        self.rounds.append({"readings": [], "done": []})


def readings_of(sheet, seed):
    """How many readings one frame asks for: a round, its moves, the round after, which is the one at Stop too."""
    one = Frame(sheet, seed)
    found = one.read_round()
    if found["corrections"]:
        one.move(found)
        one.read_round()
    return one.count


@cache
def frame_readings(width):
    """The readings that the middle one of some frames asks for."""
    sheet = frame.sheet(width, 2006, "left")
    return round(median(readings_of(sheet, seed) for seed in range(FRAMES)))


def test_no_variant_asks_for_more_than_a_crew_gives():
    for chosen in all_plans():
        figures, ticks, texts = required(chosen)
        width = plan(**chosen)["corners"]["width"]
        assert figures + frame_readings(width) <= FIGURES, (chosen, figures, frame_readings(width))
        assert ticks <= TICKS, (chosen, ticks)
        assert texts <= TEXTS, (chosen, texts)
        assert required(chosen, office=True) == OFFICE


def test_a_standard_door_keeps_the_budget_even_where_the_office_gave_nothing():
    """A crew may take the deciders' answers from the paper itself: work.md's forty ticks and choices hold then too."""
    for wall in ("corrugated side", "corrugated end", "smooth insulated"):
        chosen = {"wall": wall}
        assert required(chosen)[1] + required(chosen, office=True)[1] <= TICKS


def test_a_smooth_wall_asks_for_fewer():
    smooth = max(sum(required(chosen)[:2]) for chosen in all_plans() if chosen["wall"] == "smooth insulated")
    corrugated = [sum(required(chosen)[:2]) for chosen in all_plans() if chosen["wall"] != "smooth insulated"]
    assert sum(required({"wall": "smooth insulated"})[:2]) < min(corrugated)
    assert smooth < max(corrugated)


def test_what_is_only_offered_is_not_required():
    """work.md: lands, rooms, flats beyond those that fix the place, and the door as delivered are offered."""
    for chosen in ({}, {"wall": "corrugated side"}):
        asked = {
            field["id"]
            for step in steps.steps(plan_of(read(plan(**chosen))), ROWS)
            if step["signed"]
            for field in step["fields"]
            if field["required"]
        }
        for name in asked:
            assert not name.startswith(
                ("land_", "mark_land_", "left_bottom", "right_bottom", "head_left", "head_right")
            )
        assert not asked & {"left_to", "right_from", "frame_width", "frame_height", "leaf_gap", "string_gap"}


def print_counts():
    """By hand: the counts of every wall with all that can be on a door."""
    for wall in ("corrugated side", "corrugated end", "smooth insulated"):
        for seal in ("bulb", "bead"):
            chosen = {"wall": wall, "seal": seal, "closer": True, "panic_bar": True, "mass": False}
            print(
                wall,
                seal,
                required(chosen),
                required({"wall": wall, "seal": seal}),
                frame_readings(plan(**chosen)["corners"]["width"]),
            )
