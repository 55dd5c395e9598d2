"""What is measured at rivets, seals, joints, air and disc, drawn for the reference pages."""

from math import cos, pi, sin

from fieldapp.plan.pictures import area, dot, line, ring, text
from fieldapp.plan.scaled import hatched
from fieldapp.work.shown import Picture, Point, across, box, pointer, shown, upright


def rivet() -> Picture:
    """A section through the sheets, two rivets from the edge."""
    parts = []
    for name, top, foot in (("stack.0", 80, 96), ("stack.1", 120, 136)):
        parts += [hatched("hatch", (170, top), (342, foot), 10), box("ink", 170, top, 342, foot, 2),
                  upright(f"{name}.thickness", 156, top, foot, (148, foot - 1), "end")]
    for x in (220.0, 300.0):
        parts += [box("ink", x - 12, 74, x + 12, 142, 2),
                  area("paper", [(x - 11, 75), (x + 11, 75), (x + 11, 141), (x - 11, 141)]),
                  line("ink", [(x - 24, 80), (x - 12, 68), (x + 12, 68), (x + 24, 80)], 3, close=True),
                  line("ink", [(x - 12, 136), (x - 18, 146), (x - 12, 156), (x + 12, 156), (x + 18, 146),
                               (x + 12, 136)], 3, close=True)]
    parts += [upright("at.stand_off", 156, 96, 120, (148, 114), "end"),
              across("edge", 170, 220, 40), across("pitch", 220, 300, 40),
              *(line("hair", [(x, 32), (x, 68)], 1.5) for x in (170, 220, 300)),
              across("diameter", 208, 232, 178, (220, 200))]
    return shown("The stack", "Section through the sheets that a rivet clamps: each thickness with its paint, what the "
                 "seal holds them apart by, edge to the middle of the rivet, rivet to rivet.", 212, parts)


def fixings() -> Picture:
    """The opening with its holes: land, edge, ends, spacing."""
    parts = [area("card", [(64, 70), (100, 70), (100, 300), (64, 300)]), box("hair", 64, 70, 100, 300, 1.5),
             area("card", [(236, 70), (276, 70), (276, 300), (236, 300)]), box("hair", 236, 70, 276, 300, 1.5),
             *(line("hair", [(x, 40), (x, 330)], 1.5, "2 5") for x in (64, 276)),
             box("ink", 100, 70, 236, 300, 3, "10 5"),
             *(ring("ink", x, y, 5, 3) for x in (82, 254) for y in (90, 154, 218, 282)),
             *(ring("ink", x, 52, 5, 3) for x in (130, 168, 206)),
             *(ring("ink", x, 316, 5, 3) for x in (124, 168, 212)),
             across("land.left", 64, 100, 24, (60, 16)), across("land.right", 236, 276, 24, (290, 16)),
             across("edge", 236, 254, 120, (230, 126), "end"), upright("sides.pitch", 300, 154, 218, (344, 240), "end"),
             upright("sides.end", 300, 70, 90, (344, 112), "end"),
             text("chalk", 168, 90, "head.per_flat", size=16),
             across("opening.width", 100, 236, 346, (168, 368)), upright("opening.height", 36, 70, 300),
             text("chalk", 168, 292, "sill.count", size=16)]
    return shown("The fixings", "The opening with its holes, seen from outside: the land on both sides, edge to the "
                 "middle of the holes, the first hole from the corner, hole to hole.", 380, parts)


def seal() -> Picture:
    """The bulb, free and pressed."""
    def bulb(x: float, top: float, foot: float, wide: float) -> list[str]:
        middle, high = (top + foot) / 2, (foot - top) / 2
        turn = [(x + wide * cos(step * pi / 12), middle + high * sin(step * pi / 12)) for step in range(24)]
        return [line("ink", turn, 5, close=True)]

    parts = [text("pencil", 84, 22, "free", size=16), text("pencil", 282, 22, "pressed", size=16),
             line("ink", [(24, 40), (144, 40)], 4), *bulb(70, 43, 143, 40),
             upright("free_height", 134, 41, 145, (40, 170)),
             line("ink", [(188, 40), (332, 40)], 4), line("ink", [(188, 96), (332, 96)], 4), *bulb(240, 43, 93, 48),
             upright("gaps.value", 316, 40, 96, (346, 150), "end"), line("hair", [(316, 96), (316, 134)], 1.5),
             text("pencil", 192, 34, "wall", "start", 16), text("pencil", 192, 116, "frame's head", "start", 16)]
    return shown("The head seal", "The bulb when nothing presses it, and the gap it fills between wall and frame's "
                 "head, at each end and in the middle.", 180, parts)


def sealant() -> Picture:
    """The three sections of a joint."""
    quarter = [(318 + 26 * cos(step * pi / 12), 120 + 26 * sin(step * pi / 12)) for step in range(24)]
    parts = [box("ink", 18, 80, 44, 130, 3), box("ink", 96, 80, 122, 130, 3),
             area("card", [(46, 84), (94, 84), (94, 120), (46, 120)]), box("hair", 46, 84, 94, 120, 1.5),
             across("width", 44, 96, 66), upright("depth", 70, 84, 120, (70, 150), "middle"),
             line("ink", [(166, 56), (166, 130), (250, 130)], 4),
             area("card", [(168, 80), (218, 128), (168, 128)]), line("hair", [(168, 80), (218, 128)], 2),
             across("width", 168, 218, 150, (193, 174)),
             upright("depth", 154, 80, 128, (158, 70)),
             line("card", quarter, 3), line("ink", quarter, 3, close=True), across("width", 292, 344, 84),
             *(text("pencil", x, 24, name, size=16) for x, name in ((70, "rectangle"), (204, "fillet"), (312, "bead")))]
    return shown("Joints", "Three sections of a joint: a rectangle by width and depth, a fillet by its legs, a bead by "
                 "its width. Length runs along the joint.", 188, parts)


def dewpoint() -> Picture:
    """Where each figure is read."""
    parts = [hatched("hatch", (210, 30), (230, 190), 10), box("ink", 210, 30, 230, 190, 3),
             text("pencil", 220, 210, "wall", size=16), box("chalk", 182, 96, 209, 118, 3),
             pointer("steel", (190, 118), (150, 150), "middle"), line("chalk", [(90, 40), (90, 120)], 6),
             dot("chalk", 90, 126, 11), text("chalk", 90, 28, "air", size=16), ring("chalk", 38, 108, 24, 3),
             line("chalk", [(38, 108), (52, 92)], 3), text("chalk", 8, 74, "humidity", "start", 16),
             text("pencil", 58, 172, "in the shade,", size=16), text("pencil", 58, 190, "near the joint", size=16)]
    return shown("Air and steel", "Air and humidity in the shade beside the joint; the steel itself with a probe laid "
                 "on the face that gets the coat or the bead.", 220, parts)


def wheel() -> Picture:
    """The disc's own print, the tool's plate, guard and handle."""
    def arc(of: float, start: float, end: float, steps: int = 18) -> list[Point]:
        angles = [start + (end - start) * step / steps for step in range(steps + 1)]
        return [(110 + of * cos(angle), 120 + of * sin(angle)) for angle in angles]

    parts = [ring("ink", 110, 120, 74, 4), ring("ink", 110, 120, 14, 3), line("ink", arc(86, -pi, 0), 8),
             across("disc.diameter", 36, 184, 220, (110, 242)),
             *(line("hair", [(x, 120), (x, 226)], 1.5) for x in (36, 184)),
             text("chalk", 110, 92, "disc.marked_rpm", size=16), text("chalk", 110, 156, "disc.expires", size=16),
             text("chalk", 110, 176, "disc.marked_speed", size=16), box("ink", 200, 96, 336, 144, 3),
             text("chalk", 268, 126, "tool.rpm", size=16), pointer("tool.guard_for", (166, 56), (200, 30), "start"),
             line("ink", [(226, 144), (226, 196)], 8), text("chalk", 346, 216, "tool.side_handle", "end", 16)]
    return shown("Disc and tool", "What is printed on the disc, however worn it is, and what stands on the tool's "
                 "plate; the largest disc that the tool's own guard is for.", 254, parts)


def container() -> Picture:
    """The parts of an identification."""
    parts = [box("ink", 14, 18, 338, 92, 3)]
    for said, x in zip("CSQU", (40, 66, 92, 128), strict=True):
        parts.append(text("ink", x, 66, said, size=28))
    for i, said in enumerate("305438"):
        parts.append(text("ink", 166 + 22 * i, 66, said, size=28))
    parts += [text("ink", 312, 66, "3", size=28), box("ink", 296, 40, 328, 74, 3),
              *(line("chalk", [(a, 104), (a, 112), (b, 112), (b, 104)], 3)
                for a, b in ((30, 102), (118, 138), (156, 286), (300, 324))),
              text("chalk", 66, 134, "owner", size=16), text("chalk", 128, 154, "category", size=16),
              text("chalk", 220, 134, "serial", size=16), text("chalk", 346, 154, "check digit", "end", 16)]
    return shown("The identification", "The number as it stands on the box: three letters of the owner, the category, "
                 "six digits, and the check digit in its frame.", 166, parts)
