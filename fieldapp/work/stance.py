"""The calculator `stance`: does the box stand true."""

from fieldapp.plan.tables import table
from fieldapp.trade import stance
from fieldapp.work import shown_wall
from fieldapp.work.answers import Figure, judged, many, said
from fieldapp.work.calculator import Calculator
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import Choice
from fieldapp.work.shapes import Part, Shape


class Corners(Shape):
    near_left = Measured("near left corner casting; u 1 mm", None)
    near_right = Measured("near right; u 1 mm", None)
    far_left = Measured("far left; u 1 mm", None)
    far_right = Measured("far right; u 1 mm", None)


class Most(Shape):
    spread = Length("highest less lowest", usual=12)
    warp = Length("the sums of the two diagonal pairs", usual=6)


class Takes(Shape):
    corners = Part(Corners, "heights of the corner castings above any one level, seen from outside facing the wall "
                            "that gets the door")
    near = Length("between the castings along that wall")
    depth = Length("between the castings across the box")
    most = Part(Most, "the most that is allowed", needed=False)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")


class Tilt(Shape):
    along = Figure("+ when the right is high, mm over `over`")
    through = Figure("+ when the wall leans out, mm over `over`")
    over = Figure("mm")
    u = Figure("standard uncertainty, mm")


class Pack(Shape):
    corner = Choice("which corner casting", stance.CORNERS)
    by = Figure("mm")


class Level(Shape):
    near_left = Figure("mm")
    near_right = Figure("mm")
    far_left = Figure("mm")
    far_right = Figure("mm")


class Gives(Shape):
    spread = Figure("highest less lowest, mm")
    warp = Figure("near left + far right, less near right + far left, mm")
    tilt = Part(Tilt, "as `frame` takes it")
    pack = many(Part(Pack), "what to pack, where the box is twisted")
    level = Part(Level, "what each corner lacks to the highest")
    judged = judged()
    say = said()


CALCULATOR = Calculator(
    name="stance", say="does the box stand true: spread, twist and tilt of its corners, and what to pack",
    run=lambda given: stance.stance(given, table("stance"), table("doubt")),
    takes=Takes(), gives=Gives(),
    measured=shown_wall.stance,
    example={"corners": {"near_left": 0, "near_right": -18, "far_left": 2, "far_right": {"value": 0, "u": 1}},
             "near": 2438, "depth": 12192, "most": {"spread": 12, "warp": 6}},
    formulas=("spread = highest − lowest, u of those two",
              "warp = (near left + far right) − (near right + far left); u = root of the sum of squares",
              "along = near right − near left over near; through = (mean of far − mean of near)·near/depth",
              "pack: the lower corner of the low diagonal, by |warp|, when that is above its limit"),
    limits=("heights above any one level: laser or water level, all four from one set-up",
            "a twisted box has no single tilt: pack it under the casting, not mid-rail, and take every reading "
            "afterwards",
            "foundation, lashing and stacking are not judged: whoever may decide decides"),
    sources=("Spread 12 mm, twist 6 mm: common practice, no source",
             "Doubt of a laser or water level, 1 mm a corner: own figure",
             "Size of the example: ISO 668:2013, 12192 × 2438 mm, from a secondary copy; castings' centres stand a "
             "little closer, measure them"))
