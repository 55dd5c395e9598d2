"""The calculator `frame`: is it true, and what to do. `frame_input` checks its input; the schemas say the same."""

from fieldapp.trade import frame, frame_input
from fieldapp.trade.frame_moves import CORNERS, DOES, ROOMS
from fieldapp.trade.frame_rows import KINDS
from fieldapp.work import shown_wall
from fieldapp.work.answers import Figure, Sentence, Truth, Whole, many, verdict
from fieldapp.work.calculator import Calculator
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice, Flag, Number
from fieldapp.work.shapes import Items, Part, Shape

CAUSES = ("one_inch", "half_inch", "ten_mm", "hundred_mm", "one_foot", "digits_swapped", "wrong_sign",
          "diagonals_swapped", "unknown")


class Frame(Shape):
    width = Length("between the reference corners", 300, 3000)
    height = Length("between the reference corners", 300, 4000)
    hinge = Choice("the side the hinges are on, seen from outside", ("left", "right"))


class Tolerance(Shape):
    square = Length("of both squarenesses", 0.1, 100, usual=1.6)
    plumb = Length("of both jambs, over the height", 0.1, 100, usual=1.6)
    twist = Length("of the twist", 0.1, 100, usual=1.6)
    align = Length("of the width at mid-height", 0.1, 100, usual=1.6)
    lean = Length("of the mean lean, own figure", 0.1, 100, usual=3.2)


class Tilt(Shape):
    along = Length("the box: + right end high", -500, 500, needed=False)
    through = Length("the box: + wall leans out", -500, 500, needed=False)
    over = Length("read over", 200, 20_000)
    u = Length("standard uncertainty of both, over the same length", 0, 50, usual=0.3)


class Tools(Shape):
    tape = Number("scale error of the tape, standard deviation", "mm/m", 0, 10, usual=0.25)
    level = Number("zero error of the level, standard deviation", "mm/m", 0, 10, usual=0.29)


class Room(Shape):
    left_bottom = Length("room there now", 0, 500, needed=False)
    right_bottom = Length("room there now", 0, 500, needed=False)
    left_top = Length("room there now", 0, 500, needed=False)
    right_top = Length("room there now", 0, 500, needed=False)
    head_left = Length("room above the head's left end", 0, 500, needed=False)
    head_right = Length("room above the head's right end", 0, 500, needed=False)
    strip_left = Length("steel that may still be dressed off the strip", 0, 500, usual=0)
    strip_right = Length("steel that may still be dressed off the strip", 0, 500, usual=0)


class Reading(Shape):
    of = Choice("which reading", KINDS)
    value = Length("as read; tapes 1 to 10,000, offsets ± 500, gaps 0 to 100, lands 0 to 300", -10_000, 10_000)
    over = Length("of a level kind: the length read over; the full side when left out", 200, 4200, needed=False)
    reversed = Flag("of a level kind: mean of two, turned end for end", usual=False)
    u = Length("standard uncertainty; by its kind when left out", 0.01, 100, needed=False)


class Done(Shape):
    do = Choice("which correction", DOES)
    by = Length("by how much", 0.01, 200)


class Round(Shape):
    readings = Items(Part(Reading), "readings of the round", 0, 500, offered=6)
    done = Items(Part(Done), "what was done after them", 0, needed=False)


class Takes(Shape):
    frame = Part(Frame, "the frame")
    rounds = Items(Part(Round), "rounds, the last is now; 500 readings in all", 1, 50)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")
    tolerance = Part(Tolerance, "tolerances", needed=False)
    tilt = Part(Tilt, "how the box stands, as read", needed=False)
    tools = Part(Tools, "the tools' own errors", needed=False)
    room = Part(Room, "room around the frame, now; a side not given is not limited", needed=False)
    can_read = Items(Choice("", KINDS), "what can be read next; all but gaps and lands when left out", 0, needed=False)
    fixed = Items(Choice("", tuple(CORNERS)), "corners already riveted", 0, needed=False)
    no_trim = Items(Choice("", tuple(ROOMS)), "places where nothing may be cut", 0, needed=False)


class JudgedHere(Shape):
    what = Choice("judged quantity", tuple(frame.TOLERANCE_OF))
    estimate = Figure("mm")
    u = Figure("mm")
    tolerance = Figure("mm")
    chance_inside = Figure("chance that it is within the tolerance")
    verdict = verdict()


class After(Shape):
    what = Choice("judged quantity", tuple(frame.TOLERANCE_OF))
    estimate = Figure("mm")
    u = Figure("mm")
    chance_inside = Figure("chance that it is within the tolerance")


TRIM = Shape.from_dict({place: Figure("mm to take away", needed=False) for place in ROOMS})


class Correction(Shape):
    do = Choice("which", DOES)
    by = Figure("mm")
    trim = Part(TRIM, "mm to take away at each place", needed=False)
    unfix = many(Choice("", tuple(CORNERS)), "corners whose fixing comes out first", needed=False)
    say = Sentence("in words")


class Expect(Shape):
    of = Choice("kind of reading", KINDS)
    value = Figure("mm")
    u = Figure("mm")


class Suspect(Shape):
    of = Choice("kind of reading", KINDS)
    round = Whole("position in the input")
    reading = Whole("position in the round")
    off_by = Figure("value less what the others say, mm")
    cause = Choice("likely cause", CAUSES)
    likely = Sentence("in words")


class Built(Shape):
    what = Choice("what", ("heights", "widths"))
    estimate = Figure("mm")
    u = Figure("mm")
    say = Sentence("what can mend it")


class Next(Shape):
    of = Choice("kind of reading", KINDS)
    reversed = Truth("turn the level end for end", needed=False)
    why = Sentence("what it decides")


class Gives(Shape):
    judged = many(Part(JudgedHere), "all seven")
    corrections = many(Part(Correction), "in the order in which they are made")
    after = many(Part(After), "all seven, after the corrections")
    expect = many(Part(Expect), "what each kind just read should read then")
    suspects = many(Part(Suspect), "readings that the others contradict, set aside")
    built = many(Part(Built), "what no shim mends")
    next = Part(Next, "the reading that does most", nullable=True)
    leave_alone = Truth("no correction, and every quantity known")


CALCULATOR = Calculator(
    name="frame", say="is a door's frame true, and what to do",
    run=frame.frame, read=frame_input.read, takes=Takes(), gives=Gives(),
    measured=shown_wall.frame,
    example={
        "frame": {"width": 914, "height": 2057, "hinge": "left"}, "show": "mm",
        "tolerance": {"square": 1.6, "plumb": "1/16 in", "twist": 1.6, "align": 1.6, "lean": 3.2},
        "tilt": {"along": 12, "through": 0, "over": 6000, "u": 0.5}, "tools": {"tape": 0.25, "level": 0.29},
        "room": {"left_bottom": 6, "right_bottom": 7, "left_top": 2, "right_top": 8, "head_left": 6, "head_right": 6},
        "can_read": ["plumb_left", "string_gap", "lean_left"], "fixed": [],
        "rounds": [
            {"readings": [{"of": "diagonal_bl_tr", "value": "88 13/16 in"}, {"of": "diagonal_tl_br", "value": 2246.5},
                          {"of": "plumb_left", "value": 3, "over": 1800, "reversed": True, "u": 0.3}],
             "done": [{"do": "push_head_left", "by": 6}]},
            {"readings": [{"of": "height_right", "value": 2082.5}, {"of": "height_left", "value": 2057},
                          {"of": "plumb_left", "value": -2, "reversed": True}, {"of": "level_sill", "value": 3},
                          {"of": "width_head", "value": "36 in"}]}]},
    formulas=("every reading is a linear row over turn, rack, built errors, lean, twist, bow, tape, level, tilt, "
              "lands and leaf; estimate and uncertainty by weighted least squares with a prior",
              "chance = Φ((T − m)/u) − Φ((−T − m)/u); inside from 0.975, outside up to 0.025",
              "square_head = W·(angle − 90°) at the hinge corner of the head, + head right of square",
              "a correction of v really moves v·(1 ± 0.15) ± 0.3 mm"),
    limits=("width 300 to 3000 mm, height 300 to 4000 mm, 1 to 50 rounds, 500 readings",
            "linear rows: within 0.1 mm of exact geometry for faults up to 15 mm",
            "a quantity whose doubt is wider than its tolerance is not known: no move is built on it",
            "it informs; the maker's drawing and the drawing of the box decide"),
    sources=("Square, plumb, twist, alignment ± 1/16 in: State of Delaware specification 08 11 13, 3.02.B (as HMMA "
             "840/841)",
             "Lean 3.2 mm, priors and the hand's error: own figures, no source",
             "Acceptance guarded both ways: JCGM 106:2012, formula from memory",
             "Tape: MID 2014/32/EU Annex X MI-008 class II; level ± 0.5 mm/m: sourcebyspec.com spirit level"))
