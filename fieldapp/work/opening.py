"""The calculator `opening`: what to cut, and why a figure differs."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.trade import opening
from fieldapp.work import shown_wall
from fieldapp.work.answers import Figure, Sentence, judged, many, said, verdict
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import Choice, Number, wrong
from fieldapp.work.shapes import ByKind, Fixed, Part, Shape
from fieldapp.work.wall import wall


class Frame(Shape):
    width = Length("width of the frame, from the maker's drawing")
    height = Length("height of the frame, from the maker's drawing")


class Clearance(Shape):
    left = Length("at the left", 0, 500)
    right = Length("at the right", 0, 500)
    head = Length("at the head", 0, 500)
    sill = Length("at the sill", 0, 500)


class Kit(Shape):
    profile = Choice("which profile", ("angled", "straight"))
    rise = Length("the height that it needs", 0, 1000)


class Bulb(Shape):
    kind = Choice("bulb", ("bulb",))
    free_height = Length("height when nothing presses it", most=200)
    compression = Number("compression when shut", "%", 0, 95)


class Bead(Shape):
    kind = Choice("bead", ("bead",))
    thickness = Length("thickness of the bead", 0, 200)


class Drawing(Shape):
    width = Measured("opening's width on the drawing; u 0", needed=False)
    height = Measured("opening's height on the drawing; u 0", needed=False)


class FrameMeasured(Shape):
    frame_width = Measured("the frame's own width; u 0.6 mm", needed=False)
    frame_height = Measured("the frame's own height; u 0.6 mm", needed=False)


class Cut(Shape):
    width_head = Measured("opening's width at the head; u 0.6 mm", needed=False)
    width_mid = Measured("at mid-height; u 0.6 mm", needed=False)
    width_sill = Measured("at the sill; u 0.6 mm", needed=False)
    height_left = Measured("opening's height at the left; u 0.6 mm", needed=False)
    height_right = Measured("at the right; u 0.6 mm", needed=False)
    diagonal_bl_tr = Measured("diagonal, bottom left to top right", needed=False)
    diagonal_tl_br = Measured("diagonal, top left to bottom right", needed=False)


class Takes(Shape):
    wall = wall()
    frame = Part(Frame, "the frame")
    clearance = Part(Clearance, "room around the frame")
    head_kit = Fixed("none", Part(Kit), "what sheds water above the door: angled on a side wall, straight on an "
                                        "end wall, none on a smooth one")
    head_seal = Fixed("none", ByKind({"bulb": Bulb, "bead": Bead}), "what closes the top edge")
    edge_trim = Length("thickness of the edge trim, one side", 0, usual=0)
    drawing = Part(Drawing, "the opening as drawn", needed=False)
    measured = Part(FrameMeasured, "the frame as measured", needed=False)
    cut = Part(Cut, "the opening as cut", needed=False)
    tolerance = Length("either way, for each difference", usual=3)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")

    @validates_schema(skip_on_field_errors=False)
    def _kit_fits(self, data: Json, **_: Any) -> None:
        kit, side = data.get("head_kit"), data.get("wall")
        if side is None or not isinstance(kit, dict) or "profile" not in kit:
            return
        given, proper = kit["profile"], opening.kit_fits(side, kit)
        if proper == "none":
            raise ValidationError({"head_kit": [wrong(given, f"“none” on a {side} wall")]})
        if proper is not None:
            raise ValidationError({"head_kit": {"profile": [wrong(given, f"{proper} on a {side} wall")]}})


class Term(Shape):
    term = Sentence("the term")
    mm = Figure("mm")


class How(Shape):
    term = Sentence("the term")
    how = Choice("what happened to it", ("left out", "counted twice"))


class Difference(Shape):
    of = Sentence("which figure")
    by = Figure("given less planned, mm")
    u = Figure("its standard uncertainty, mm")
    verdict = verdict()
    explained_by = many(Part(How), "the terms that make it up")
    left_over = Figure("what they leave, mm")


class CutMade(Shape):
    width = Figure("mm")
    height = Figure("mm")


class Trim(Shape):
    width_head = Figure("mm", needed=False)
    width_mid = Figure("mm", needed=False)
    width_sill = Figure("mm", needed=False)
    height_left = Figure("mm", needed=False)
    height_right = Figure("mm", needed=False)


class SquareRoom(Shape):
    width = Figure("mm", nullable=True)
    height = Figure("mm", nullable=True)


class Gives(Shape):
    cut = Part(CutMade, "what to cut")
    width_terms = many(Part(Term), "the width's terms, in the order of the sum")
    height_terms = many(Part(Term), "the height's terms, in the order of the sum")
    differences = many(Part(Difference), "given less planned")
    trim = Part(Trim, "what to take away, of what was measured")
    rack = Figure("the opening's head right of square, mm", nullable=True)
    square_room = Part(SquareRoom, "room around a frame that is set square")
    judged = judged()
    say = said()


CALCULATOR = Calculator(
    name="opening", say="what to cut, term by term, and why a figure differs from it",
    run=lambda given: opening.opening(given, table("opening"), table("doubt")),
    takes=Takes(), gives=Gives(),
    measured=shown_wall.opening,
    example={"wall": "corrugated end", "frame": {"width": 914, "height": 2030},
             "clearance": {"left": 6, "right": 6, "head": 6, "sill": 0},
             "head_kit": {"profile": "straight", "rise": "2 in"},
             "head_seal": {"kind": "bulb", "free_height": 12, "compression": 45}, "edge_trim": 0,
             "drawing": {"width": 926, "height": 2042.6}, "measured": {"frame_width": 915, "frame_height": 2030},
             "cut": {"width_head": 926, "width_mid": 926, "width_sill": 925, "height_left": 2093, "height_right": 2094,
                     "diagonal_bl_tr": 2289, "diagonal_tl_br": 2288}, "tolerance": 3},
    formulas=("width = frame + clearance left + clearance right + 2 × edge trim",
              "height = frame + clearance head + clearance sill + rise of the head kit + head seal",
              "a bulb seal takes free height·(1 − compression/100), a bead its thickness",
              "rack = (d₁² − d₂²)/(4·mean width), d₁ from bottom left to top right",
              "room across, square = smallest width − |rack| − frame width"),
    limits=("clearances 0 to 500 mm, rise to 1000 mm, seal to 200 mm, compression 0 to 95 %",
            "a difference is explained by one or two terms, all left out or all counted twice, within 1 mm or 2 u"),
    sources=("Opening with kit and bulb seal 2 in taller than in a smooth wall without: common practice, no source",
             "Diagonals: d₁² − d₂² = 4·w·h·cos θ (parallelogram law, PlanetMath object 3031)",
             "Tolerance 3 mm: own figure; a tape's doubt 0.6 mm: own figure after MID 2014/32/EU class II"))
