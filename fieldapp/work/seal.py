"""The calculator `seal`: is the head closed."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.tables import table
from fieldapp.trade import seals
from fieldapp.work import shown_parts
from fieldapp.work.answers import Figure, Sentence, Truth, judged, many, said, verdict
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import Choice, Number, Text, number_words
from fieldapp.work.shapes import Items, Part, Shape
from fieldapp.work.wall import Profile, smooth_faults, wall


class Gap(Shape):
    where = Text("which place", usual="head")
    value = Length("the gap that the seal fills", 0, 100)
    u = Length("its standard uncertainty, mm; 0.2 when left out", 0, needed=False)


class Band(Items):
    """From and to, in per cent, rising."""

    def take(self, value: Any) -> list[float]:
        band: list[float] = super().take(value)
        if band[0] > band[1]:
            raise ValidationError(f"{number_words(band[0])} to {number_words(band[1])} given; the lower first would "
                                  "be right")
        return band


class Takes(Shape):
    free_height = Measured("height of the seal when nothing presses it; u 0.2 mm", most=200)
    gaps = Items(Part(Gap), "gaps at the head", 1, 50, offered=2)
    band = Band(Number("", "%", 0, 100), "compression wanted, from and to", 2, 2, usual=[40, 50])
    wall = wall("the wall, for the length to order", needed=False)
    width = Length("width of the opening, for the length to order", needed=False)
    starts = Length("from the start of an outer flat to the cut's left edge; without it a mean is taken", 0,
                    needed=False)
    profile = Part(Profile, "the corrugation as measured; else by the wall", needed=False)
    waste = Number("waste", "%", 0, 100, usual=0)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _smooth(self, data: Json, original: Json, **_: Any) -> None:
        faults = smooth_faults(data, original, ("starts", "profile"))
        if faults:
            raise ValidationError(faults)


class GapMade(Shape):
    where = Sentence("the place")
    compression = Figure("%")
    u = Figure("its standard uncertainty, %")
    verdict = verdict()
    touches = Truth("the gap is less than the free height")


class Gives(Shape):
    gaps = many(Part(GapMade), "each gap, in order")
    gap_from = Figure("least gap that serves, mm")
    gap_to = Figure("greatest gap that serves, mm")
    shift = Figure("the smallest that serves, mm; − up", nullable=True)
    shift_best = Figure("the one that centres the gaps, mm; − up", nullable=True)
    tilt = Figure("widest gap less narrowest, mm")
    developed = Figure("length along the sheet, mm", nullable=True)
    ratio = Figure("developed over width", nullable=True)
    order_length = Figure("with waste, mm", nullable=True)
    judged = judged()
    say = said()


CALCULATOR = Calculator(
    name="seal", say="is the bulb seal at the head compressed enough, and what one shift would do",
    run=lambda given: seals.seal(given, table("seals"), table("profiles"), table("doubt")),
    takes=Takes(), gives=Gives(),
    measured=shown_parts.seal,
    example={"free_height": 12, "gaps": [{"where": "left", "value": 7.1}, {"where": "right", "value": 6.2, "u": 0.5}],
             "band": [40, 50], "wall": "corrugated end", "width": 926, "starts": 40, "waste": 10},
    formulas=("compression = 100·(free − gap)/free",
              "u = (100/free)·√(u_gap² + (gap/free)²·u_free²)",
              "gap from free·(1 − to/100) to free·(1 − from/100)",
              "a slope of the sheet counts √(slope² + depth²)"),
    limits=("1 to 50 gaps of 0 to 100 mm; free height to 200 mm",
            "a band of 40 to 50 % on 12 mm is 1.2 mm wide: a rule or a tape can never decide it, a calliper can"),
    sources=("Band 40 to 50 %: common practice, no source; the maker's sheet beats it",
             "Profiles: factory group specifications, from memory, check against the wall",
             "Doubt of a calliper or taper gauge, 0.2 mm: own figure"))
