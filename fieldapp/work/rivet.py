"""The calculator `rivet`: which length bites."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.trade import rivets
from fieldapp.trade.rivets_say import METALS
from fieldapp.work import shown_parts
from fieldapp.work.answers import RANGE, Figure, Sentence, Truth, judged, many, said, verdict
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import Choice, Text, number_words
from fieldapp.work.shapes import Items, Part, Shape


class Layer(Shape):
    what = Text("what it is", needed=False)
    thickness = Measured("thickness, paint and all; u 0.05 mm", 0.2, 12)


class Place(Shape):
    place = Text("which place")
    stand_off = Measured("what the head seal holds the kit off the wall by; u 0.2 mm, of a plain 0 none", 0, 100,
                         needed=False)


class Row(Shape):
    name = Text("the row's name, as printed")
    grip_from = Length("least grip, as printed", 0)
    grip_to = Length("greatest grip, as printed")


class Rows(Items):
    """Rows of a grip table, rising and not overlapping."""

    def take(self, value: Any) -> list[Json]:
        rows: list[Json] = super().take(value)
        faults: dict[int, Json] = {}
        for i, row in enumerate(rows):
            if row["grip_to"] < row["grip_from"]:
                faults[i] = {"grip_to": [f"{number_words(row['grip_to'])} mm given; at least its grip_from, "
                                         f"{number_words(row['grip_from'])} mm, would be right"]}
            elif i and row["grip_from"] < rows[i - 1]["grip_to"]:
                faults[i] = {"grip_from": [f"{number_words(row['grip_from'])} mm given; at least the grip_to of the "
                                           f"row before, {number_words(rows[i - 1]['grip_to'])} mm, would be right"]}
        if faults:
            raise ValidationError(faults)
        return rows


class Hole(Part):
    """The least and the largest hole."""

    def take(self, value: Any) -> Json:
        hole: Json = super().take(value)
        if hole["to"] < hole["from"]:
            raise ValidationError({"to": [f"{number_words(hole['to'])} mm given; at least "
                                          f"{number_words(hole['from'])} mm, the least hole, would be right"]})
        return hole


HOLE = Shape.from_dict({"from": Length("least hole"), "to": Length("largest hole")})


class Metals(Shape):
    rivet = Choice("the rivet's metal", METALS, needed=False)
    sheet = Choice("the sheets' metal", METALS, needed=False)


class Replaces(Shape):
    hole = Measured("the hole after drilling out")


class Takes(Shape):
    diameter = Length("the rivet's diameter")
    stack = Items(Part(Layer), "the sheets, from the rivet's head on", 1, 8)
    at = Items(Part(Place), "where the rivets go")
    rows = Rows(Part(Row), "printed grip ranges; needed for diameters other than 3.2, 4, 4.8, 6.4 mm", 1, 100,
                needed=False)
    hole = Hole(HOLE, "hole to drill; needed for diameters other than 3.2, 4, 4.8, 6.4 mm", needed=False)
    edge = Measured("edge of the sheet to the middle of the rivet; u 0.6 mm", needed=False)
    pitch = Measured("rivet to rivet; u 0.6 mm", needed=False)
    metals = Part(Metals, "what rivet and sheets are of", needed=False)
    replaces = Part(Replaces, "where a rivet was drilled out", needed=False)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _known_size(self, data: Json, original: Json, **_: Any) -> None:
        diameter = data.get("diameter")
        lacking = [name for name in ("rows", "hole") if name not in original]
        if not isinstance(diameter, float) or rivets.size_of(table("rivets"), diameter) or not lacking:
            return
        raise ValidationError({name: [f"missing; for a diameter of {number_words(diameter)} mm it is needed "
                                      f"(3.2, 4, 4.8 and 6.4 mm have their own)"] for name in lacking})


class At(Shape):
    place = Sentence("the place")
    grip = Figure("sum of the stack and the stand-off, mm")
    u = Figure("its standard uncertainty, mm")
    row = Sentence("the row that serves; null: none", nullable=True)
    margin_below = Figure("grip less the row's least, mm", nullable=True)
    margin_above = Figure("the row's greatest less grip, mm", nullable=True)
    chance_inside = Figure("chance that the grip lies in what the row serves")
    verdict = verdict()
    measure_again = Truth("measure the stack again")
    other_row = Sentence("the other row, in doubt", nullable=True)
    because = Sentence("why")


class Gives(Shape):
    at = many(Part(At), "each place, in order")
    hole = Part(RANGE, "hole to drill")
    judged = judged()
    again = Choice("what replaces a drilled-out rivet", ("same", "next_diameter", "new_hole"), nullable=True)
    say = said()


CALCULATOR = Calculator(
    name="rivet", say="which length of blind rivet bites, at each place",
    run=lambda given: rivets.rivet(given, table("rivets"), table("doubt")),
    takes=Takes(), gives=Gives(),
    measured=shown_parts.rivet,
    example={"diameter": 4.8, "stack": [{"what": "flange", "thickness": 1.5},
                                        {"what": "wall", "thickness": {"value": 1.6, "u": 0.05}}],
             "at": [{"place": "sides", "stand_off": 0}, {"place": "head", "stand_off": {"value": 3.2, "u": 0.5}}],
             "edge": 12, "pitch": 30},
    formulas=("grip = sum of thicknesses + stand-off; u = root of the sum of squares",
              "a row serves from above the break before it up to its own greatest grip; where two rows lie less than "
              "0.1 mm apart the break is the shorter one's greatest grip",
              "chance = Φ((to − grip)/u) − Φ((from − grip)/u); inside from 0.975, outside up to 0.025",
              "edge: 2 d to 10 t; pitch: 3 d to 24 t; t the thinnest sheet"),
    limits=("1 to 8 sheets of 0.2 to 12 mm; stand-off up to 100 mm; 1 to 100 rows",
            "printed grip ranges only, never a length less a constant",
            "strength is not judged: the maker's sheet and the drawing decide"),
    sources=("Rows: US Army TM 10-5410-223-24 para 2-12 and TM 10-5410-221-14/1 Table 4-3; 82, 614, 616, 810, 814 and "
             "816 from memory, check against your copy",
             "Holes: ISO 15977 application data, from memory, check against your copy",
             "Edge and pitch: SOLAS/FAS Sheet Metalwork Phase 2, Module 1 Unit 12, p. 27 (text for solid rivets)",
             "Metals: carbon steel fastener in stainless, swextrav4-3 ssteel.zip:GALVANIC.TXT; the order of the "
             "others from memory"))
