"""The calculator `wheel`: may this disc turn on this tool."""

from fieldapp.trade import wheels
from fieldapp.work import shown_parts
from fieldapp.work.answers import Figure, Sentence, Truth, many, said, verdict
from fieldapp.work.calculator import Calculator
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice, Day, Flag, Month, Number
from fieldapp.work.shapes import Part, Shape


class Disc(Shape):
    marked_rpm = Number("speed printed on the disc; null: not legible", "/min", 1, 100_000, nullable=True)
    diameter = Length("diameter printed on the disc, however worn", 20, 600)
    marked_speed = Number("rim speed printed on the disc", "m/s", 1, 200, needed=False)
    expires = Month("month printed on the disc", needed=False)
    kind = Choice("kind of disc", ("cut-off", "grinding"), usual="cut-off")
    damaged = Flag("a crack, a chip, damp, no label", usual=False)


class Tool(Shape):
    rpm = Number("speed on the tool's plate", "/min", 1, 100_000)
    guard_for = Length("largest disc that the tool's own guard is for", 20, 600, needed=False)
    guard_on = Flag("guard on", usual=True)
    side_handle = Flag("side handle on", usual=True)


class Takes(Shape):
    disc = Part(Disc, "the disc")
    tool = Part(Tool, "the tool")
    today = Day("the day on which it is asked", needed=False)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")


class Gives(Shape):
    rim_speed = Figure("at the tool's speed, m/s")
    rim_speed_marked = Figure("at the marked speed, m/s", nullable=True)
    verdict = verdict()
    because = many(Sentence(), "words for what speaks against it")
    marking_agrees = Truth("printed speed and printed rim speed within 3 %", nullable=True)
    cautions = many(Sentence(), "said always")
    say = said()


CALCULATOR = Calculator(
    name="wheel", say="what speaks against this abrasive disc on this tool",
    run=wheels.wheel, takes=Takes(), gives=Gives(),
    measured=shown_parts.wheel,
    example={"disc": {"marked_rpm": 10200, "diameter": 150, "marked_speed": 80, "expires": "2027-09",
                      "kind": "cut-off", "damaged": False},
             "tool": {"rpm": 9000, "guard_for": 150, "guard_on": True, "side_handle": True}, "today": "2026-11-25"},
    formulas=("rim speed = π·D·n/60,000 m/s, D in mm, n per minute",
              "the tool's speed is compared with the speed printed on the disc, never with a computed one"),
    limits=("speeds 1 to 100,000 per minute, diameters 20 to 600 mm, rim speeds 1 to 200 m/s",
            "printed speeds round up: 150 mm at 10,200 is 80.1 m/s. A rim speed informs; it permits nothing"),
    sources=("Spindle speed not above the marked speed, look before mounting: 29 CFR 1910.243(c)(5)(i)",
             "A ring test does not decide about resin discs: Cal. T8 §3580, note",
             "Dates of resin discs: EN 12413, seen second-hand"))
