"""The frame's linear model: unknowns, readings and judged quantities, as the rows of a sheet.

Signs: seen from outside, x right, z up, y out; plumb + top right, level + right end high, lean + top out,
rack + head right of square. Lengths mm; tape, level and tilt in mm a metre. The rows are first order: over a
door-sized frame they differ from exact geometry by less than 0.1 mm for faults up to 15 mm
(tests/trade/test_frame_exact.py).
"""

from math import hypot
from typing import Any

Row = dict[str, float]

LEVELS = ("plumb_left", "plumb_right", "lean_left", "lean_right", "level_sill", "level_head")
DIAGONALS = ("diagonal_bl_tr", "diagonal_tl_br")
TAPES = (*DIAGONALS, "width_sill", "width_head", "width_mid", "height_left", "height_right")
LANDS = ("land_left_sill", "land_left_head", "land_right_sill", "land_right_head")
GAPS = (
    "gap_hinge_top",
    "gap_hinge_bottom",
    "gap_latch_top",
    "gap_latch_bottom",
    "gap_head_hinge",
    "gap_head_latch",
)
KINDS = (*TAPES, *LEVELS, "string_gap", *LANDS, *GAPS)

TAPE_RANGE = (1.0, 10_000.0)
OFFSET_RANGE = (-500.0, 500.0)
LAND_RANGE = (0.0, 300.0)
GAP_RANGE = (0.0, 100.0)
OVER_FROM = 200.0
OVER_TO_SHARE = 1.05

SAY_KIND = {
    "diagonal_bl_tr": "the diagonal from bottom left to top right",
    "diagonal_tl_br": "the diagonal from top left to bottom right",
    "width_sill": "the width at the sill",
    "width_head": "the width at the head",
    "width_mid": "the width at mid height",
    "height_left": "the height at the left jamb",
    "height_right": "the height at the right jamb",
    "plumb_left": "plumb of the left jamb",
    "plumb_right": "plumb of the right jamb",
    "lean_left": "lean of the left jamb",
    "lean_right": "lean of the right jamb",
    "level_sill": "level of the sill",
    "level_head": "level of the head",
    "string_gap": "the gap between two strings, corner to corner",
    "land_left_sill": "the land left at the sill",
    "land_left_head": "the land left at the head",
    "land_right_sill": "the land right at the sill",
    "land_right_head": "the land right at the head",
    "gap_hinge_top": "the hinge gap at the top",
    "gap_hinge_bottom": "the hinge gap at the bottom",
    "gap_latch_top": "the latch gap at the top",
    "gap_latch_bottom": "the latch gap at the bottom",
    "gap_head_hinge": "the head gap at the hinge side",
    "gap_head_latch": "the head gap at the latch side",
}


def range_of(kind: str) -> tuple[float, float]:
    """Least and greatest value of a reading of this kind, mm."""
    if kind in TAPES:
        return TAPE_RANGE
    if kind in LANDS:
        return LAND_RANGE
    return GAP_RANGE if kind in GAPS else OFFSET_RANGE


def add(*rows: Row, times: float = 1.0) -> Row:
    """Sum of rows, times a factor; terms that cancel are dropped."""
    total: Row = {}
    for row in rows:
        for name, value in row.items():
            total[name] = total.get(name, 0.0) + value * times
    return {name: value for name, value in total.items() if value != 0.0}


def geometry(width: float, height: float) -> dict[str, Row]:
    """Rows of pl, pr (plumb of the jambs over their height), s, h (rise of sill and head over the width),
    mm.
    """
    whole = {"turn": 1.0, "rack": 1.0}
    taper = {"ws": 0.5, "wh": -0.5}
    sill = {"turn": -width / height}
    return {
        "pl": add(whole, taper),
        "pr": add(whole, add(taper, times=-1.0)),
        "s": sill,
        "h": add(sill, {"hr": 1.0, "hl": -1.0}),
    }


def unknowns() -> list[dict[str, Any]]:
    """Unknowns with mean and standard deviation of the prior (contract's table); `tool` takes the tool's
    figure.
    """
    table = [
        ("turn", 0, 8),
        ("rack", 0, 8),
        ("ws", 0, 1.5),
        ("wh", 0, 1.5),
        ("hl", 0, 1.5),
        ("hr", 0, 1.5),
        ("lean", 0, 8),
        ("twist", 0, 8),
        ("bow", 0, 2),
        ("along", 0, 0),
        ("through", 0, 0),
        ("tape", 0, 0),
        *((f"zero_{kind}", 0, 0) for kind in LEVELS),
        ("k_l", 30, 30),
        ("k_r", 30, 30),
        ("c_h", 3.2, 1),
        ("c_l", 3.2, 1),
        ("c_t", 3.2, 1),
        ("t", 0, 0.7),
        ("q", 0, 0.7),
    ]
    made: list[dict[str, Any]] = [{"name": name, "mean": float(mean), "sd": float(sd)} for name, mean, sd in table]
    for item in made:
        if item["name"] == "tape":
            item["tool"] = "tape"
        elif item["name"].startswith("zero_"):
            item["tool"] = "level"
    return made


def judged_rows(width: float, height: float, hinge: str) -> dict[str, Row]:
    """Row of each judged quantity, mm, in the contract's order."""
    at = geometry(width, height)
    jamb = at["pl"] if hinge == "left" else at["pr"]
    across = add(jamb, times=width / height)
    return {
        "square_head": add(across, at["h"]),
        "square_sill": add(across, at["s"]),
        "plumb_left": at["pl"],
        "plumb_right": at["pr"],
        "twist": {"twist": 1.0},
        "lean": {"lean": 1.0},
        "align_mid": {"bow": 1.0},
    }


def _tapes(width: float, height: float, at: dict[str, Row]) -> dict[str, tuple[float, Row, float]]:
    """Kind → (constant, row, default u) of the tape readings; every one carries the tape's scale error."""
    diagonal = hypot(width, height)
    across, up = width / diagonal, height / diagonal
    rising = add(add({"ws": 1.0}, at["pr"], times=across), add(at["s"], {"hr": 1.0}, times=up))
    falling = add(
        add({"ws": 1.0}, add(at["pl"], times=-1.0), times=across),
        add({"hl": 1.0}, add(at["s"], times=-1.0), times=up),
    )
    bare = {
        "diagonal_bl_tr": (diagonal, rising, 0.6),
        "diagonal_tl_br": (diagonal, falling, 0.6),
        "width_sill": (width, {"ws": 1.0}, 0.5),
        "width_head": (width, {"wh": 1.0}, 0.5),
        "width_mid": (width, {"ws": 0.5, "wh": 0.5, "bow": 1.0}, 0.5),
        "height_left": (height, {"hl": 1.0}, 0.5),
        "height_right": (height, {"hr": 1.0}, 0.5),
    }
    return {kind: (length, add(row, {"tape": length / 1000}), u) for kind, (length, row, u) in bare.items()}


def _levels(width: float, height: float, at: dict[str, Row]) -> dict[str, tuple[float, Row]]:
    """Kind → (its full side, row over that side without the level's zero)."""
    rail, wall = {"along": height / 1000}, {"through": height / 1000}
    sill = {"along": width / 1000}
    lean = {"lean": 1.0}
    return {
        "plumb_left": (height, add(at["pl"], add(rail, times=-1.0))),
        "plumb_right": (height, add(at["pr"], add(rail, times=-1.0))),
        "lean_left": (height, add(lean, {"twist": -0.5}, wall)),
        "lean_right": (height, add(lean, {"twist": 0.5}, wall)),
        "level_sill": (width, add(at["s"], sill)),
        "level_head": (width, add(at["h"], sill)),
    }


def _others(
    width: float, height: float, hinge: str, at: dict[str, Row]
) -> dict[str, tuple[Row, float, tuple[float, float]]]:
    """Kind → (row, default u, range) of string gap, lands and gaps."""
    head = judged_rows(width, height, hinge)["square_head"]
    sign = 1.0 if hinge == "left" else -1.0
    rows: dict[str, tuple[Row, float, tuple[float, float]]] = {"string_gap": ({"twist": 0.5}, 0.4, OFFSET_RANGE)}
    rows |= {
        kind: (row, 1.0, LAND_RANGE)
        for kind, row in zip(
            LANDS,
            (
                {"k_l": 1.0},
                add({"k_l": 1.0}, at["pl"]),
                {"k_r": 1.0},
                add({"k_r": 1.0}, add(at["pr"], times=-1.0)),
            ),
            strict=True,
        )
    }
    rows |= {
        kind: (row, 0.3, GAP_RANGE)
        for kind, row in zip(
            GAPS,
            (
                {"c_h": 1.0, "t": 0.5},
                {"c_h": 1.0, "t": -0.5},
                {"c_l": 1.0, "wh": 1.0, "t": -0.5},
                {"c_l": 1.0, "ws": 1.0, "t": 0.5},
                {"c_t": 1.0},
                add({"c_t": 1.0, "q": 1.0, "t": width / height}, add(head, times=sign)),
            ),
            strict=True,
        )
    }
    return rows


def readings(width: float, height: float, hinge: str) -> dict[str, dict[str, Any]]:
    """Kind → its reading in the sheet: row, constant, u, range; of a level kind also side, zero and range of
    `over`.
    """
    at = geometry(width, height)
    made: dict[str, dict[str, Any]] = {}
    for kind, (constant, row, u) in _tapes(width, height, at).items():
        made[kind] = {"row": row, "constant": constant, "u": u, "from": TAPE_RANGE[0], "to": TAPE_RANGE[1]}
    for kind, (side, row) in _levels(width, height, at).items():
        made[kind] = {
            "row": row,
            "constant": 0.0,
            "u": 0.4,
            "u_reversed": 0.3,
            "from": OFFSET_RANGE[0],
            "to": OFFSET_RANGE[1],
            "side": side,
            "zero": {f"zero_{kind}": side / 1000},
            "over_from": OVER_FROM,
            "over_to": OVER_TO_SHARE * side,
        }
    for kind, (row, u, (low, high)) in _others(width, height, hinge, at).items():
        made[kind] = {"row": row, "constant": 0.0, "u": u, "from": low, "to": high}
    for kind, reading in made.items():
        reading["say"] = SAY_KIND[kind]
    return made
