"""What is measured at box, wall, frame and opening, drawn for the reference pages."""

from fieldapp.plan.pictures import area, dot, line, text
from fieldapp.plan.reading_pictures import reading_of
from fieldapp.plan.scaled import CUT_DASH, SWING_DASH, crow, hatched
from fieldapp.trade.frame_rows import KINDS
from fieldapp.work.shown import Picture, across, box, folds, pointer, shown, upright


def stance() -> Picture:
    """The four corner castings, their heights above one level."""
    corners = {"near_left": (60.0, 190.0, 46.0), "near_right": (230.0, 190.0, 30.0),
               "far_left": (120.0, 86.0, 40.0), "far_right": (290.0, 86.0, 44.0)}
    order = ("near_left", "near_right", "far_right", "far_left")
    plane = [(x, y) for x, y, _ in (corners[name] for name in order)]
    base = [(x, y - up) for x, y, up in (corners[name] for name in order)]
    parts = [line("hair", plane, 1.5, SWING_DASH, close=True), line("ink", base, 3, close=True),
             text("pencil", 190, 176, "one level, all round", size=16)]
    for name, (x, y, up) in corners.items():
        parts += [line("chalk", [(x, y), (x, y - up)], 4), dot("ink", x, y - up, 5),
                  text("chalk", x, y - up - 8, name, size=16)]
    parts += [across("near", 60, 230, 222, (145, 244)),
              line("chalk", [(246, 206), (306, 102)], 3), text("chalk", 288, 166, "depth", "start", 16)]
    return shown("Corner castings", "The box from outside, the wall with the door near. Heights of the four corner "
                 "castings above one level, and the distances between castings.", 256, parts)


def layout() -> Picture:
    """The wall from above and from outside, everything from one datum."""
    y = 84.0
    section = folds(20, 332, y, 36, 12, 18, 30)
    parts = [line("pencil", section, 3), text("pencil", 176, 24, "section, seen from above, outside below", size=16),
             dot("ink", 20, 118, 5), text("ink", 14, 140, "datum", "start", 16),
             across("edges.at", 20, 98, 118, (106, 124), "start"), line("hair", [(98, y), (98, 124)], 1.5),
             pointer("outer_start", (98, y), (84, 56), "middle"), pointer("outer_end", (134, y), (200, 56), "middle"),
             line("hair", [(134, y), (134, 104)], 1.5),
             hatched("hatch", (20, 160), (40, 330), 10), box("hair", 20, 160, 40, 330, 1.5),
             text("chalk", 46, 324, "keep_clear", "start", 16),
             box("pencil", 96, 172, 214, 300, 1.5), box("ink", 110, 186, 200, 300, 4, CUT_DASH),
             crow((110, 186), (-0.7, -0.7)), crow((200, 186), (0.7, -0.7)),
             line("hair", [(200, 186), (114, 243), (200, 300)], 2, SWING_DASH),
             text("chalk", 150, 248, "swing", size=16),
             across("flange.covers", 200, 214, 174, (224, 178), "start"), line("ink", [(20, 330), (332, 330)], 3),
             upright("opening.height", 346, 186, 300),
             across("opening.width", 110, 200, 350, (155, 372))]
    return shown("Where the door may go", "Edges of the outer flats from one datum, seen from outside, left to right; "
                 "the opening, how far the flange covers the wall beyond each cut, and what must stay clear.", 384,
                 parts)


def frame() -> list[Picture]:
    """One small picture a reading, as the phone shows it."""
    return [(kind, reading_of("left", kind)[1]) for kind in KINDS]


def opening() -> Picture:
    """The cut about the frame: the terms of both sums."""
    left, right, top, foot = 54, 202, 40, 330
    inner, outer = 74, 182
    parts = [box("ink", left, top, right, foot, 4, CUT_DASH), box("pencil", inner, 96, outer, 322),
             area("card", [(left, top), (right, top), (right, 62), (left, 62)]), box("hair", left, top, right, 62, 1.5),
             text("pencil", 128, 57, "head kit", size=16),
             *(line("pencil", [(x, 70), (x + 8, 62), (x + 16, 70), (x + 8, 78)], 2, close=True)
               for x in range(60, 192, 20)),
             upright("head_kit.rise", 214, top, 62, (224, 50)), upright("head_seal", 214, 62, 78, (224, 76)),
             upright("clearance.head", 214, 78, 96, (224, 102)), upright("frame.height", 214, 96, 322, (224, 216)),
             upright("clearance.sill", 214, 322, foot, (224, 334)), across("frame.width", inner, outer, 300),
             across("clearance.left", left, inner, 130, (80, 136), "start"),
             across("clearance.right", outer, right, 166, (176, 172), "end"),
             across("cut.width_head", left, right, 24, (128, 16)),
             across("cut.width_sill", left, right, 352, (128, 374)),
             upright("cut.height_left", 28, top, foot), line("chalk", [(left, foot), (right, top)], 1.5, "3 5"),
             text("chalk", 128, 232, "cut.diagonal_bl_tr", size=16)]
    return shown("The opening", "The cut about the frame, seen from outside: each term of width and height, and "
                 "what is measured of the cut once it is made.", 384, parts)


def panel() -> Picture:
    """What is cut out: section above, elevation below."""
    section = folds(24, 328, 66, 40, 14, 22, 66)
    parts = [line("pencil", section, 3), *(line("hair", [(x, 30), (x, 300)], 1.5) for x in (70, 270)),
             across("starts", 24, 70, 86, (46, 106)), pointer("thickness", (208, 66), (206, 22), "middle"),
             box("ink", 70, 124, 270, 300, 4, CUT_DASH), hatched("hatch", (76, 130), (264, 294), 36),
             *(line("ink", [(x, 300), (x + 30, 300)], 8) for x in (110, 200)),
             across("tabs.width", 110, 128, 284, (125, 274)), line("ink", [(24, 312), (328, 312)], 4),
             upright("strip", 290, 300, 312, (288, 292), "end"), upright("cut.height", 312, 124, 300),
             across("cut.width", 70, 270, 342, (170, 364))]
    return shown("The panel", "The panel in the wall, section above: the cut's width and height, where its left edge "
                 "lies in an outer flat, the steel left as tabs and as a strip under the sill line.", 376, parts)

