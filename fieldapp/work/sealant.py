"""The calculator `sealant`: how much, and does the joint move too far."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.trade import sealants
from fieldapp.work import shown_parts
from fieldapp.work.answers import Figure, Sentence, Whole, judged, many, said
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import LEAST, MOST, Choice, Number, Text
from fieldapp.work.shapes import Items, Part, Shape

CLASSES = (12.5, 25, 35, 50, "100/50")
MOVING = ("opens", "closes", "thermal")
DEPTH = Measured("depth; of a fillet its other leg; none for a bead; u 0", needed=False)
CLASS = Choice("movement class after ASTM C920; needed where a joint moves", CLASSES, needed=False)


class Thermal(Shape):
    length = Length("length that grows")
    change = Number("change of temperature", "K", 0, 1000)
    alpha = Number("growth of the material, 1e-6/K", "", LEAST, 1000, usual=12)


class Joint(Shape):
    where = Text("which joint")
    shape = Choice("its section", ("rectangle", "fillet", "bead"))
    length = Length("its length")
    width = Measured("width; of a fillet its leg, of a bead its thickness; u 0")
    depth = DEPTH
    opens = Length("by how much it opens", 0, needed=False)
    closes = Length("by how much it closes", 0, needed=False)
    thermal = Part(Thermal, "growth by heat, added to both", needed=False)

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _depth(self, data: Json, original: Json, **_: Any) -> None:
        kind = data.get("shape")
        if kind == "bead" and "depth" in original:
            raise ValidationError({"depth": ["given for a bead, which has none; leave it out"]})
        if kind in ("rectangle", "fillet") and "depth" not in original:
            raise ValidationError({"depth": [f"missing; for a {kind} {DEPTH.words()} would be right"]})


class _Moving(Shape):
    """A class is needed where something moves."""

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _class(self, data: Json, original: Json, **_: Any) -> None:  # noqa: ARG002
        joints = original.get("joints")
        moving = isinstance(joints, list) and any(name in joint for joint in joints if isinstance(joint, dict)
                                                  for name in MOVING)
        if moving and "class" not in original:
            raise ValidationError({"class": [f"missing; for a joint with {', '.join(MOVING)} {CLASS.words()} would be "
                                             "right"]})


# `class` is no name for an attribute
Takes = _Moving.from_dict({
    "joints": Items(Part(Joint), "the joints", 1, offered=2),
    "class": CLASS,
    "build": Length("what building takes of the width", 0, usual=0),
    "cartridge": Number("what one cartridge holds", "mL", LEAST, MOST, usual=298.7),
    "waste": Number("waste", "%", 0, 100, usual=0),
    "cure": Choice("how it cures", ("neutral", "acid"), needed=False),
    "show": Choice("how sentences say lengths; in: also fl oz", ("mm", "in"), usual="mm")})


class Movement(Shape):
    opens = Figure("% of the width")
    closes = Figure("% of the width")


class JointMade(Shape):
    where = Sentence("the joint")
    volume = Figure("mL")
    movement = Part(Movement, "null: nothing moves", nullable=True)
    width_needed = Figure("for the movement and for building, mm", nullable=True)
    depth_wanted = Figure("of a rectangle, mm", nullable=True)


class Gives(Shape):
    joints = many(Part(JointMade), "each joint, in order")
    volume = Figure("in all joints, mL")
    with_waste = Figure("mL")
    cartridges = Whole("rounded up")
    judged = judged()
    say = said()


CALCULATOR = Calculator(
    name="sealant", say="how much sealant, and whether a joint moves further than it takes",
    run=lambda given: sealants.sealant(given, table("sealant")),
    takes=Takes(), gives=Gives(),
    measured=shown_parts.sealant,
    example={"joints": [{"where": "sill", "shape": "rectangle", "length": 926, "width": 8, "depth": 6, "opens": 0.4,
                         "closes": 0.4},
                        {"where": "head", "shape": "fillet", "length": 926, "width": 10, "depth": 10},
                        {"where": "rivets", "shape": "bead", "length": 600, "width": 6}],
             "class": 25, "build": 1, "cartridge": 300, "waste": 15},
    formulas=("rectangle width·depth; fillet width·depth/2, its legs; bead π·width²/4; times length",
              "movement = 100·(opens or closes)/width, judged against the class: ±12.5, ±25, ±35, ±50, +100/−50 %",
              "heat adds length·change·alpha to both",
              "width needed = larger of 100·opens/S₊ and 100·closes/S₋, + build",
              "depth wanted = half the width, within 6 to 13 mm; width from 6 mm",
              "cartridges = volume·(1 + waste/100)/cartridge, rounded up"),
    limits=("1 to 200 joints; waste 0 to 100 %", "depth is judged for rectangles only",
            "coverage tables of 50 to 55 ft a cartridge for ¼ × ¼ in are about twice too high",
            "the maker's sheet beats all of it"),
    sources=("Movement classes: ASTM C920, seen second-hand, usmadesupply.com",
             "Least width: ASTM C1472, the formula from memory, check against your copy",
             "Half the width, 6 to 13 mm, joint from 6 mm: northernarchitecture.us, architectural "
             "detailing, j-jze.html",
             "Cartridge 10.1 US fl oz = 298.7 mL: midwestsealantsupply.com/FAQS",
             "Steel 12e-6/K: EN 1993, from memory; AISI 1010 12.2, 1020 11.7, amesweb.info",
             "Acid cure attacks zinc: allmetalsfab.com/galvanic-reaction-caulk"))
