"""The calculator `cut`: the cut sheet, in order, with where tabs and bridge stand and when the panel falls."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.cut_drawing import cut_drawing
from fieldapp.plan.tables import table
from fieldapp.trade import cutting
from fieldapp.trade.cutting_say import BEHIND, FOAM, NOT_KNOWN
from fieldapp.work import panel, shown_wall, wheel
from fieldapp.work.answers import RANGE, VERDICTS, Figure, Sentence, Truth, judged, many, said
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice, Day, number_words
from fieldapp.work.shapes import Part, Shape
from fieldapp.work.wall import SMOOTH, drawn_profile, pitch_faults, profile_of, smooth_faults

LEAST_BRIDGE = 5
OF_DISC = ("disc", "tool", "today")
NOT_SMOOTH = (*OF_DISC, "behind")


class _Takes(panel.Takes):  # type: ignore[valid-type,misc]
    """What `panel` takes, and what the cut is made with."""

    bridge = Length("steel left in the middle of the head until the panel is held; at most half the cut",
                    LEAST_BRIDGE, usual=40)
    behind = Choice("what lies behind the sheet, both faces looked at; foam is cut cold", BEHIND, usual=NOT_KNOWN)
    disc = Part(wheel.Disc, "the disc, to check it; none where the wall is cut cold", needed=False)
    tool = Part(wheel.Tool, "the tool that it goes on", needed=False)
    today = Day("the day of the cut", needed=False)

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _disc_fits(self, data: Json, original: Json, **_: Any) -> None:
        faults: dict[str, Any] = smooth_faults(data, original, NOT_SMOOTH)
        if data.get("wall") not in (None, SMOOTH):
            faults |= pitch_faults(profile_of(data, original))
        if data.get("wall") != SMOOTH:
            for one, other in (("disc", "tool"), ("tool", "disc")):
                if one in original and other not in original:
                    faults[other] = [f"missing; with a {one} the {other} is needed"]
        if data.get("behind") == FOAM:
            faults |= {name: ["given where foam lies behind the sheet, which is cut cold; leave it out"]
                       for name in OF_DISC if name in original}
        bridge, width = data.get("bridge"), data.get("cut", {}).get("width")
        if bridge is not None and width is not None and bridge > width / 2:
            faults["bridge"] = [f"{number_words(bridge)} mm given; a length, {LEAST_BRIDGE} mm to half the cut, "
                                f"{number_words(width / 2)} mm, would be right"]
        if faults:
            raise ValidationError(faults)


class Hole(Shape):
    across = Figure("from the cut's left edge, mm")
    up = Figure("above the sill line, mm")


class Step(Shape):
    do = Choice("which", ("rig", "find", "stop_holes", "sill", "sides", "head", "bridge", "lower", "tabs", "close",
                          "watch"))
    say = Sentence("what to do")


class Disc(Shape):
    verdict = Choice("verdict", VERDICTS)
    because = many(Sentence(), "words for what speaks against it")
    rim_speed = Figure("at the tool's speed, m/s")
    marking_agrees = Truth("printed speed and printed rim speed within 3 %", nullable=True)


OF_PANEL = {name: field for name, field in panel.Gives._declared_fields.items()
            if name not in ("say", "cautions", "judged")}


class Gives(Shape):
    method = Choice("how the wall is cut", ("disc", "cold"))
    sequence = many(Part(Step), "what to do, in order")
    tabs = many(Part(RANGE), "each tab, from the cut's left edge; none where they cannot be placed")
    bridge = Part(RANGE, "from the cut's left edge, mm")
    hole = Part(Hole, "for the rigging, in the waste")
    panel = Part(Shape.from_dict(OF_PANEL), "what `panel` answers")
    disc = Part(Disc, "what `wheel` answers; null: not given", nullable=True)
    judged = judged()
    cautions = many(Sentence(), "said always, before any figure")
    say = said()


def drawn(given: Json, answer: Json) -> list[tuple[str, str]]:
    """The cut in elevation, and the panel from the side as it falls."""
    profile = drawn_profile(given)
    return [cut_drawing(given, answer, profile)]


CALCULATOR = Calculator(
    name="cut", say="the cut sheet: how to cut the panel out, in order, and when it falls",
    run=lambda given: cutting.cut(given, table("cutting"), table("panel"), table("profiles"), table("doubt")),
    takes=_Takes(), gives=Gives(), drawn=drawn, measured=shown_wall.panel,
    example={"wall": "corrugated end", "cut": {"width": 926, "height": 2093}, "starts": 93,
             "thickness": {"value": 2.0, "u": 0.1}, "strip": "3/16 in", "tabs": {"count": 2, "width": 40}, "bridge": 40,
             "behind": "nothing",
             "disc": {"marked_rpm": 13300, "diameter": 115, "marked_speed": 80, "expires": "2028-03"},
             "tool": {"rpm": 11000, "guard_for": 115}, "today": "2026-11-25"},
    formulas=("mass, people, angles, push and wind: as in panel; the disc: as in wheel",
              "pieces of outer flat inside the cut: n·pitch − starts to n·pitch − starts + outer, kept within 0 and "
              "the cut's width",
              "tabs: one in the middle of a piece that is wide enough, the choice nearest to (i + ½)·width/count by "
              "least squares",
              "bridge: the middle of the head; hole for the rigging: the middle, a tenth of the height below the head"),
    limits=("as panel and wheel",
            "once the head is cut the panel counts as unsupported: figures say when it falls, never when it is safe",
            "a smooth wall is cut cold, by saw or nibbler; no disc, no fall figures",
            "a corrugated wall with foam behind it is cut cold too; what is not known counts as foam"),
    sources=("Rigging first, sill line with tabs, sides, head with a bridge, lower out: common practice, no source; "
             "local code and the maker's sheet decide",
             "Fire watch half an hour at least: 29 CFR 1910.252(a)(2)(iii)(B), as greenyplace.com and WAC "
             "296-307-49503(3)(b) have it; editions of NFPA 51B since 2019 an hour, from memory",
             "Sparks light what lies behind a metal wall: 29 CFR 1910.252(a)(2)(iii)(A)(4), as WAC 296-307-49503 has "
             "it",
             "Organic foam burns, flame-retardant or not, and gives off carbon monoxide and hydrogen cyanide: OSHA "
             "bulletin HIB 19890510",
             "Bridge 40 mm, hole a tenth below the head: own figures",
             *panel.CALCULATOR.sources, *wheel.CALCULATOR.sources))
