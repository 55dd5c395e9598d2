"""The calculator `layout`: where the door may go."""

from typing import Any

from marshmallow import Schema, ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.plan.wall_drawing import wall_drawing
from fieldapp.trade import layout
from fieldapp.work import shown_wall
from fieldapp.work.answers import RANGE, VERDICTS, Figure, Sentence, Truth, Whole, judged, many, said
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice, Number, Text, number_words
from fieldapp.work.shapes import Items, Part, Shape
from fieldapp.work.wall import SMOOTH, Profile, drawn_profile, pitch_faults, profile_of, smooth_faults, wall

LONGEST = 30_000


def falling(low: float, high: float, name: str) -> str:
    """The problem of a stretch whose end stands before its start."""
    return f"{number_words(high)} mm given; at least {name}, {number_words(low)} mm, would be right"


class Edge(Shape):
    at = Length("where it stands, from the datum", None)
    edge = Choice("which edge of an outer flat", ("outer_start", "outer_end"))
    u = Length("standard uncertainty; 1 mm when left out", needed=False)
    z = Length("its height above the sill", None, usual=0)


class Opening(Shape):
    width = Length("the opening's width")
    height = Length("its height", usual=2000)


class Flange(Shape):
    covers = Length("how far it reaches beyond each cut", 0)
    needs_land = Length("outer flat that it needs beside each cut; nothing on a smooth wall", 0)


class Between(Items):
    """From and to, rising."""

    def take(self, value: Any) -> list[float]:
        made: list[float] = super().take(value)
        if made[0] > made[1]:
            raise ValidationError(f"{number_words(made[0])} to {number_words(made[1])} mm given; the lower first would "
                                  "be right")
        return made


class Stretch(Part):
    """An object with a stretch of the wall in it, start and end in the fields of these names."""

    def __init__(self, schema: type[Schema], start: str, end: str, say: str = "", **more: Any):
        self.start, self.end = start, end
        super().__init__(schema, say, **more)

    def take(self, value: Any) -> Json:
        made: Json = super().take(value)
        if made[self.start] > made[self.end]:
            raise ValidationError({self.end: [falling(made[self.start], made[self.end], self.start)]})
        return made


ZONE = Shape.from_dict({"from": Length("where it starts", None), "to": Length("where it ends", None),
                        "what": Text("what it is", needed=False)})


class Swing(Shape):
    hand = Choice("the side of the hinges, seen from outside", ("left", "right"))
    leaf = Length("the leaf's width")
    opens_to = Number("how far it opens", "degrees", 1, 180, usual=95)
    clear_from = Length("where the stretch starts that is clear for the leaf", None)
    clear_to = Length("where it ends", None)


class Takes(Shape):
    wall = wall()
    profile = Part(Profile, "the corrugation as drawn; else by the wall", needed=False)
    edges = Items(Part(Edge), "edges of outer flats, from one datum, at sill and head; a corrugated wall needs them",
                  offered=6, needed=False)
    wall_from = Length("where the wall starts", None)
    wall_to = Length(f"where it ends; at most {LONGEST} mm further", None)
    opening = Part(Opening, "the opening to cut")
    flange = Part(Flange, "the frame's flange")
    between = Between(Length("", None), "the opening stays between these two", 2, 2, needed=False)
    keep_clear = Items(Stretch(ZONE, "from", "to"), "what opening and flange must not overlap", 0, needed=False)
    wish = Length("where the centre is wanted; usual: the middle of between, else of the wall", None, needed=False)
    swing = Stretch(Swing, "clear_from", "clear_to", "the leaf's sweep", needed=False)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _wall_fits(self, data: Json, original: Json, **_: Any) -> None:
        faults: dict[str, Any] = smooth_faults(data, original, ("edges", "profile"))
        start, end = data.get("wall_from"), data.get("wall_to")
        if start is not None and end is not None:
            if start > end:
                faults["wall_to"] = [falling(start, end, "wall_from")]
            elif end - start > LONGEST:
                long = number_words(end - start)
                faults["wall_to"] = [f"{long} mm of wall given; at most {LONGEST} mm would be right"]
        if "wall" in data and data["wall"] != SMOOTH:
            faults |= _corrugated_faults(data, original)
        if faults:
            raise ValidationError(faults)


def _corrugated_faults(data: Json, original: Json) -> Json:
    """Problems of what a corrugated wall needs: its edges, a profile that can be one, land that a flat can give."""
    faults: Json = {}
    if "edges" not in original:
        faults["edges"] = ["missing; a corrugated wall needs 1 to 200 edges of outer flats"]
    profile = profile_of(data, original)
    faults |= pitch_faults(profile)
    needs = data.get("flange", {}).get("needs_land")
    if needs is not None and needs > profile.get("outer", needs):
        faults["flange"] = {"needs_land": [f"{number_words(needs)} mm given; at most the outer flat, "
                                           f"{number_words(profile['outer'])} mm, would be right"]}
    return faults


class Known(Shape):
    value = Figure("mm")
    u = Figure("standard uncertainty, mm")


class Leaning(Shape):
    value = Figure("+ when the corrugation's head stands right of its foot, mm")
    u = Figure("standard uncertainty, mm")
    over = Figure("over this height, mm")


class Fitted(Shape):
    pitch = Part(Known, "pitch")
    phase = Part(Known, "start of the first outer flat at or after wall_from")
    outer = Part(Known, "outer flat")
    plumb = Part(Leaning, "how the corrugation leans; null when all edges have one height", nullable=True)


class Misfit(Shape):
    edge = Whole("which edge, counted from 0")
    off_by = Figure("its position less the nearest edge of its kind, mm")
    likely = Sentence("what explains it", nullable=True)


PLACE = Shape.from_dict({
    "centre": Figure("of the opening, mm"), "from": Figure("least possible centre, mm"),
    "to": Figure("greatest possible centre, mm"), "cut_left": Figure("mm"), "cut_right": Figure("mm"),
    "land_left": Figure("slope to cut, mm", nullable=True), "land_right": Figure("cut to slope, mm", nullable=True),
    "u_left": Figure("how surely the left slope is known, mm", nullable=True),
    "u_right": Figure("how surely the right one is, mm", nullable=True),
    "balance": Figure("land left less right, mm", nullable=True),
    "shift_for_balance": Figure("to make them equal, + to the right, mm", nullable=True),
    "verdict": Choice("of both lands", VERDICTS, nullable=True), "possible": Truth("every rule is kept"),
    "because": many(Choice("a rule that is broken", ("land", "wall", "between", "keep_clear", "swing")))})


class Gives(Shape):
    fit = Part(Fitted, "the corrugation as read; null on a smooth wall", nullable=True)
    misfits = many(Part(Misfit), "edges that the others contradict, left out")
    places = many(Part(PLACE), "every place, the best first")
    short_by = Figure("how much too wide the opening is for the nearest pair of flats, mm")
    fits = many(Part(RANGE), "widths with land both sides: those that hold this one, else the next ones")
    judged = judged()
    say = said()


MOST_DRAWN = 4


def drawn(given: Json, answer: Json) -> list[tuple[str, str]]:
    """The best place and the next possible ones on the wall; where none is possible the nearest to it."""
    profile = drawn_profile(given)
    opening = {"height": table("layout")["height"]} | given["opening"]
    possible = sum(place["possible"] for place in answer["places"])
    return [wall_drawing(given | {"opening": opening}, answer, profile, i)
            for i in range(min(max(1, possible), MOST_DRAWN))]


CALCULATOR = Calculator(
    name="layout", say="where the door may go: every place with land both sides, and what keeps the others out",
    run=lambda given: layout.layout(given, table("layout"), table("profiles"), table("doubt")),
    takes=Takes(), gives=Gives(), drawn=drawn,
    measured=shown_wall.layout,
    example={"wall": "corrugated end", "profile": {"outer": 110, "slope": 18, "inner": 104, "depth": 45.6},
             "edges": [{"at": 1234, "edge": "outer_start"}, {"at": 1344, "edge": "outer_end", "u": 1},
                       {"at": 1986, "edge": "outer_start", "z": 2000}],
             "wall_from": 0, "wall_to": 2260, "opening": {"width": 780, "height": 2000},
             "flange": {"covers": 50, "needs_land": 25}, "between": [400, 1900],
             "keep_clear": [{"from": 0, "to": 60, "what": "corner post"}], "wish": 1100,
             "swing": {"hand": "left", "leaf": 750, "opens_to": 95, "clear_from": 0, "clear_to": 2400}},
    formulas=("outer flat n runs at the sill from phase + n·pitch to phase + n·pitch + outer; z higher it stands "
              "plumb·z/height further right",
              "weighted least squares over the edges, with the profile's pitch (u 3 mm), its outer flat (u 2 mm) and "
              "plumb 0 (u 2 mm a metre) as further observations; u from the stated ones",
              "an edge beyond 3.5 standard uncertainties of what the others predict is left out and named",
              "land left = cut − slope, land right = slope − cut; shift for balance = −(left − right)/2",
              "widths that land: k·pitch − outer to k·pitch + outer − 2·needs_land",
              "hinge line: centre ∓ leaf/2; the sweep reaches one leaf towards the latch and "
              "leaf·max(0, −cos opens_to) beyond the hinge"),
    limits=("wall up to 30 m, 1 to 200 edges, pitch at least 50 mm",
            "measure, never multiply a nominal pitch: a place far from the edges that were read is too close to call",
            "places are those at the sill; the cut follows the corrugation up",
            "near posts, rails, sills and roof the box carries its loads: keep-clear zones come from whoever may "
            "decide"),
    sources=("Profiles: factory group specifications, from memory, check against the wall",
             "Doubt of a profile before it is measured, and of an edge (1 mm): own figures",
             "Plumb within 3 mm, leaf open at or just past 90°: common practice, no source",
             "Cut widths of the side profile with 25 mm of land, 762 to 856 and 1040 to 1134, of the end profile 890 "
             "to 1060: computed from those profiles"))
