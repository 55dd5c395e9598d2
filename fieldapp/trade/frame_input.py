"""What may be asked of the frame calculator, checked: every fault of a line by its dotted path.

Lengths are read as typed (`lengths.read`); ranges are the contract's. Pure: the registry's schemas say the same.
"""

from fieldapp.trade.frame_input_items import Json, Problems, Reader, rounds, tilt
from fieldapp.trade.frame_input_reader import length_words
from fieldapp.trade.frame_moves import CORNERS, ROOMS
from fieldapp.trade.frame_rows import KINDS

TOP = ("frame", "rounds", "show", "tolerance", "tilt", "tools", "room", "can_read", "fixed", "no_trim")
TOLERANCES = ("square", "plumb", "twist", "align", "lean")
SIDES = (("width", 300, 3000), ("height", 300, 4000))
FRAME = {**{name: length_words(low, high) for name, low, high in SIDES}, "hinge": "one of left, right"}
PLACES = tuple(place for place in ROOMS if not place.endswith("_mid"))


def read(asked: Json) -> tuple[Json, Problems]:
    """(what `frame.frame` takes, problems by dotted path) of an input as it came.

    Lengths become mm, tools mm a metre. What is taken is whole only where there are no problems.
    """
    at = Reader()
    at.fields(asked, "", TOP, {"frame": f"an object with {', '.join(FRAME)}", "rounds": "a list of 1 to 50 rounds"})
    made: Json = {"frame": _frame(at, asked)}
    if (show := at.choice(asked, "", "show", ("mm", "in"))) is not None:
        made["show"] = show
    made["tolerance"] = at.lengths(asked, "tolerance", TOLERANCES, 0.1, 100)
    made["tools"] = at.numbers(asked, "tools", ("tape", "level"), 0, 10)
    if "tilt" in asked:
        made["tilt"] = tilt(at, asked)
    made["room"] = at.lengths(asked, "room", PLACES, 0, 500)
    for name, among in (("can_read", KINDS), ("fixed", tuple(CORNERS)), ("no_trim", tuple(ROOMS))):
        if name in asked:
            made[name] = at.names(asked, name, among)
    made["rounds"] = rounds(at, asked, made["frame"])
    return made, at.problems


def _frame(at: Reader, asked: Json) -> Json:
    """Width, height [mm] and hinge."""
    frame: Json = {}
    inner = at.inner(asked, "", "frame")
    if inner is not None:
        at.fields(inner, "frame", FRAME, FRAME)
        for name, low, high in SIDES:
            at.length(inner, "frame", name, low, high, frame)
        if (hinge := at.choice(inner, "frame", "hinge", ("left", "right"))) is not None:
            frame["hinge"] = hinge
    return frame
