"""The calculator `panel`: what comes out of the wall, and when it falls."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.trade import panel
from fieldapp.work import shown_wall
from fieldapp.work.answers import Figure, Sentence, Whole, judged, many, said
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import LEAST, MOST, Choice, Count, Number, Text, number_words
from fieldapp.work.shapes import Items, Part, Shape
from fieldapp.work.wall import SMOOTH, Profile, smooth_faults, wall

STEEL_ONLY = ("starts", "profile", "thickness", "tabs", "yield", "tensile")
LEAST_TAB = 5


class Cut(Shape):
    width = Length("width of the cut")
    height = Length("height of the cut, without the strip")


class Tabs(Shape):
    count = Count("how many", 1, 1000, usual=2)
    width = Length("width of each; at most half the cut", LEAST_TAB, usual=40)


class Layer(Shape):
    what = Text("what it is", needed=False)
    thickness = Measured("thickness; u 0.05 mm")
    density = Number("density", "kg/m³", LEAST, MOST)


THICKNESS = Measured("thickness of the corrugated sheet; u 0.05 mm", 0.5, 6, needed=False)
LAYERS = Items(Part(Layer), "what a smooth wall is made of", 1, 8, needed=False)


class _Fits(Shape):
    """What must go together."""

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _belongs(self, data: Json, original: Json, **_: Any) -> None:
        faults: dict[str, Any] = dict(smooth_faults(data, original, STEEL_ONLY))
        if data.get("wall") == SMOOTH and "layers" not in original:
            faults["layers"] = [f"missing; for a {SMOOTH} wall {LAYERS.words()} would be right"]
        if data.get("wall") not in (None, SMOOTH):
            if "thickness" not in original:
                faults["thickness"] = [f"missing; for a {data['wall']} wall {THICKNESS.words()} would be right"]
            if "layers" in original:
                faults["layers"] = [f"given for a {data['wall']} wall, which has one sheet; give its thickness"]
            faults |= self._tab(data, original)
        if faults:
            raise ValidationError(faults)

    @staticmethod
    def _tab(data: Json, original: Json) -> Json:
        """The problem of a tab that is wider than half the cut."""
        asked = original.get("tabs", {})
        given = isinstance(asked, dict) and "width" in asked
        usual = table("panel")["tabs"]["width"] if isinstance(asked, dict) and not given else None
        wide, cut = data.get("tabs", {}).get("width", usual), data.get("cut", {}).get("width")
        if wide is None or cut is None or wide <= cut / 2:
            return {}
        return {"tabs": {"width": [f"{number_words(wide)} mm {'given' if given else 'is usual'}; a length, {LEAST_TAB} "
                                   f"mm to half the cut, {number_words(cut / 2)} mm, would be right"]}}


# `yield` is no name for an attribute
Takes = _Fits.from_dict({
    "wall": wall(),
    "cut": Part(Cut, "the cut"),
    "starts": Length("from the start of an outer flat to the cut's left edge; without it a mean is taken", 0,
                     needed=False),
    "profile": Part(Profile, "the corrugation as measured; else by the wall", needed=False),
    "thickness": THICKNESS,
    "layers": LAYERS,
    "strip": Length("steel left standing at the sill", 0, usual=4.8),
    "tabs": Part(Tabs, "steel left uncut at the foot", needed=False),
    "yield": Number("the sheet's yield strength", "N/mm²", LEAST, MOST, usual=345),
    "tensile": Number("the sheet's tensile strength", "N/mm²", LEAST, MOST, usual=480),
    "per_person": Number("what one person counts", "kg", LEAST, MOST, usual=23),
    "reduction": Number("share taken off that, for twist or haste", "", 0, 0.9, usual=0),
    "show": Choice("how sentences say lengths; in: also lb, lbf, mph", ("mm", "in"), usual="mm")})


class Past(Shape):
    low = Figure("degrees from upright, with the yield strength; null: the tabs outweigh it", nullable=True)
    high = Figure("with the tensile strength", nullable=True)


class CutAt(Shape):
    bottom = Figure("the sill line above the bottom rail, mm")
    head = Figure("the head line above the bottom rail, mm")


class Gives(Shape):
    developed_width = Figure("along the sheet's middle line, mm")
    ratio = Figure("that over the width")
    area = Figure("along the sheet, m²")
    mass = Figure("kg")
    u_mass = Figure("its standard uncertainty, from the thicknesses, kg")
    cut_at = Part(CutAt, "where to cut")
    people = Whole("the fewest for its mass; null: a lifting aid", nullable=True)
    falls_out_past = Part(Past, "outwards it goes by itself past that lean", nullable=True)
    falls_in_past = Part(Past, "inwards; below 0: as soon as it is free", nullable=True)
    push_out = Figure("at the top edge, starts it outwards, N", nullable=True)
    push_in = Figure("inwards, N; below 0: none is needed", nullable=True)
    wind_out = Figure("across the free panel, with the same moment, m/s", nullable=True)
    wind_in = Figure("inwards, m/s", nullable=True)
    reach = Figure("how far it reaches as it falls, mm")
    judged = judged()
    cautions = many(Sentence(), "said always")
    say = said()


CALCULATOR = Calculator(
    name="panel", say="what comes out of the wall: its mass, and when it falls",
    run=lambda given: panel.panel(given, table("panel"), table("profiles"), table("doubt")),
    takes=Takes(), gives=Gives(),
    measured=shown_wall.panel,
    example={"wall": "corrugated end", "cut": {"width": 926, "height": 2093}, "starts": 40,
             "thickness": {"value": 2.0, "u": 0.1}, "strip": "3/16 in", "tabs": {"count": 2, "width": 40},
             "yield": 345, "tensile": 480, "per_person": 23, "reduction": 0},
    formulas=("area = developed width·height; mass = area·thickness·density, layers summed; steel 7850 kg/m³",
              "2 people count 4/3·p, 3 people 3/2·p, p = per person·(1 − reduction); the fewest whose chance is 0.975",
              "M = count·strength·width·thickness²/4, the full plastic moment of the tabs",
              "h = height/2; e = depth·(inner + web)/(outer + inner + 2·web); r = √(h² + e²); β = atan(e/h)",
              "falls out past asin(M/(m·g·r)) + β, in past asin(M/(m·g·r)) − β; low by yield, high by tensile strength",
              "push out = (M + m·g·e)/height, push in = (M − m·g·e)/height, at the top edge, by yield strength",
              "wind = √(4·push/(1.25·1.2·width·height)), height and width in m"),
    limits=("sheet 0.5 to 6 mm; a tab 5 mm to half the cut wide; 1 to 8 layers",
            "one clean fold line a tab, each tab within one flat, no tearing, no jammed kerf",
            "a figure of when it falls, never of when it is safe: it counts as unsupported once the head is cut",
            "a smooth wall: mass only, no fall figures"),
    sources=("Steel 7850 kg/m³: shriramsteel; constants of EN 1993 in a public code",
             "Yield 345, tensile 480 N/mm², weathering steel: steelplate.co.in/corten-types-grades.php",
             "23 kg a person: NIOSH lifting equation (CCOHS), made for one person; the shares of a team: HSE L23, from "
             "memory. The mix is our own: it informs, the employer's assessment decides",
             "Profiles: factory group specifications, from memory, check against the wall",
             "Strip 4.8 mm: common practice, no source; two tabs of 40 mm: own figure",
             "Air 1.25 kg/m³ and force coefficient 1.2: from memory"))
