"""The frame's corrections: what stays, what moves, the room it takes and gives, and its sentence.

After the contract's table, in its order; of each row at most one is made. `column` is what a millimetre of
the move does to the unknowns; `needs` and `gives` are mm of room at a place for each mm; `takes` the corners
that go along. The error of the hand (0.15 of the move and 0.3 mm) is our own figure, no source.
"""

from typing import Any

from fieldapp.trade.frame_rows import Row

HAND = {"share": 0.15, "fixed": 0.3}
STEP = {"mm": 0.5, "in": 25.4 / 32}
CORNERS = {"bl": "bottom left", "br": "bottom right", "tl": "top left", "tr": "top right"}
ROOMS = {
    "left_bottom": "at the left bottom",
    "right_bottom": "at the right bottom",
    "left_top": "at the left top",
    "right_top": "at the right top",
    "head_left": "above the left end of the head",
    "head_right": "above the right end of the head",
    "strip_left": "off the strip at the left",
    "strip_right": "off the strip at the right",
    "left_mid": "at the left at mid height",
    "right_mid": "at the right at mid height",
}
MEANS = {"left_mid": ["left_bottom", "left_top"], "right_mid": ["right_bottom", "right_top"]}
NONE_UNLESS_GIVEN = ["strip_left", "strip_right"]
DOES = (
    *("raise_bl", "raise_br", "lower_bl", "lower_br", "push_head_right", "push_head_left", "head_out", "head_in"),
    *("twist_left_out", "twist_left_in", "twist_right_out", "twist_right_in", "spread_mid", "close_mid"),
)
TOP = ["tl", "tr"]
# Tuned on simulated frames (tests/bench/simulate_frame.py). True frames are left alone the most often, for the same
# number that come true, where what a plan must gain rises with the chance that all is right already (`keep`).
WORTH = {"each": 0.2, "price": 0.05, "back": 0.05, "least": 0.03, "keep": 0.15, "unfix": 0.02}

SAY = {
    "unfix": "First take out the fixing at the {corners|text} and look at the hole. ",
    "unfix_more": "First take out the fixings at the {corners|text} and look at the holes. ",
    "join": " and ",
    "part": "{by^} {place|text}",
    "trim": "; for the rest trim {parts|text}",
    "trim_first": ": first trim {parts|text}, then do it",
    "ask": "; for the rest ask the supervisor: nothing may be cut {places|text}",
    "ask_first": ": ask the supervisor, nothing may be cut {places|text}",
    "none": "There is no room to {verb|text}",
}

HOLD = "Hold it there while you fix it."
HOLD_AND_SEAL = "Hold it there while you fix it, then read the head seal again."


def moves(width: float, height: float, hinge: str) -> dict[str, Any]:
    """The sheet's corrections, their rows tried together, steps, the hand's error, and rooms."""
    jamb = "plumb_left" if hinge == "left" else "plumb_right"
    other = "plumb_right" if hinge == "left" else "plumb_left"
    square = ["square_head", "square_sill", jamb, other]
    return {
        "corrections": [*_sills(height / width), *_heads(), *_leans(), *_twists(), *_mids()],
        "groups": [
            {
                "name": "square and plumb",
                "judged": square,
                "known": ["square_head", jamb],
                "rows": ["sill", "head"],
            },
            {
                "name": "lean and twist",
                "judged": ["twist", "lean"],
                "known": ["twist", "lean"],
                "rows": ["lean", "twist"],
            },
            {
                "name": "width at mid height",
                "judged": ["align_mid"],
                "known": ["align_mid"],
                "rows": ["mid"],
            },
        ],
        "hand": HAND,
        "step": STEP,
        "worth": WORTH,
        "rooms": {
            "places": list(ROOMS),
            "say": ROOMS,
            "means": MEANS,
            "none_unless_given": NONE_UNLESS_GIVEN,
        },
        "corners": CORNERS,
        "say": SAY,
    }


def _one(
    do: str,
    row: str,
    column: Row,
    say: str,
    verb: str,
    needs: dict[str, float] | None = None,
    gives: dict[str, float] | None = None,
    takes: list[str] | None = None,
    hold: str = HOLD,
) -> dict[str, Any]:
    return {
        "do": do,
        "row": row,
        "column": column,
        "needs": needs or {},
        "gives": gives or {},
        "takes": takes or [],
        "say": {"move": say, "verb": verb, "hold": hold},
    }


def _sills(slope: float) -> list[dict[str, Any]]:
    """Raise or lower an end of the sill; slope = H/W, what the head moves sideways for each mm."""
    made: list[dict[str, Any]] = []
    for do, row, turn, end, other, verb in (
        ("raise_bl", "sill", 1, "left", "right", "Raise"),
        ("raise_br", "sill", -1, "right", "left", "Raise"),
        ("lower_bl", "strip", -1, "left", "right", "Lower"),
        ("lower_br", "strip", 1, "right", "left", "Lower"),
    ):
        up = verb == "Raise"
        to, back = ("right_top", "left_top") if turn > 0 else ("left_top", "right_top")
        takes = ["bl", *TOP] if end == "left" else ["br", *TOP]
        say = (
            f"Raise the {end} end of the sill {{by}}; the {other} end stays"
            if up
            else f"Dress the strip and lower the {end} end of the sill {{by}}; the {other} end stays"
        )
        own = {f"head_{end}": 1.0} if up else {f"strip_{end}": 1.0}
        made.append(
            _one(
                do,
                row,
                {"turn": turn * slope},
                say,
                f"{verb.lower()} the {end} end of the sill",
                {**own, to: slope},
                {back: slope} if up else {f"head_{end}": 1.0, back: slope},
                takes,
                HOLD_AND_SEAL if up else HOLD,
            )
        )
    made[0]["instead"] = {"do": "lower_br", "where": ["head_left"]}
    made[1]["instead"] = {"do": "lower_bl", "where": ["head_right"]}
    return made


def _heads() -> list[dict[str, Any]]:
    return [
        _one(
            f"push_head_{to}",
            "head",
            {"rack": sign},
            f"Hold the sill. Push the head {{by}} to the {to}",
            f"push the head to the {to}",
            {f"{to}_top": 1.0},
            {f"{back}_top": 1.0},
            TOP,
        )
        for to, back, sign in (("right", "left", 1.0), ("left", "right", -1.0))
    ]


def _leans() -> list[dict[str, Any]]:
    return [
        _one(
            f"head_{to}",
            "lean",
            {"lean": sign},
            f"Hold the sill. Bring the head {{by}} {to}wards",
            f"bring the head {to}wards",
            takes=TOP,
        )
        for to, sign in (("out", 1.0), ("in", -1.0))
    ]


def _twists() -> list[dict[str, Any]]:
    made = []
    for side, other, corner, twist in (("left", "right", "tl", -1.0), ("right", "left", "tr", 1.0)):
        for to, sign in (("out", 1.0), ("in", -1.0)):
            made.append(
                _one(
                    f"twist_{side}_{to}",
                    "twist",
                    {"lean": sign * 0.5, "twist": sign * twist},
                    f"Hold the sill and the {other} jamb. Bring the top of the {side} jamb {{by}} {to}wards",
                    f"bring the top of the {side} jamb {to}wards",
                    takes=[corner],
                )
            )
    return made


def _mids() -> list[dict[str, Any]]:
    return [
        _one(
            "spread_mid",
            "mid",
            {"bow": 1.0},
            "Keep the corners. Spread the jambs at mid height until they are {by} wider apart",
            "spread the jambs at mid height",
            {"left_mid": 0.5, "right_mid": 0.5},
        ),
        _one(
            "close_mid",
            "mid",
            {"bow": -1.0},
            "Keep the corners. Bring the jambs together at mid height by {by}",
            "bring the jambs together at mid height",
        ),
    ]
