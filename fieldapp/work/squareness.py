"""The figures of the page on squareness: what diagonals, level and tape can tell of a frame, and what they cannot.

`fieldapp figures` works them out; seed_data/squareness.json keeps them for the page, and a test holds the two alike
(tests/work/test_squareness.py). Everything is read as a true frame would be, by the tools of the frame's sheet, and
weighed by the engine that the phone has too. Lengths mm, to 0.01.
"""

import json
from math import hypot, sqrt
from typing import Any

from fieldapp.places import folder
from fieldapp.trade import frame
from fieldapp.trade.estimate import answer
from fieldapp.trade.estimate.linear_table import make, root
from fieldapp.trade.estimate.linear_update import State, now

Json = dict[str, Any]
FILE = "squareness.json"
WIDTH, HEIGHT = 914.0, 2057.0
NARROWER = 4.0  # the head of the worked example, mm: own choice
PARALLEL = 4.0  # how far the head of the pushed frame stands off square, mm: own choice
DIAGONALS = ("diagonal_bl_tr", "diagonal_tl_br")
SIDES = ("width_sill", "width_head", "height_left", "height_right")
LEVELS = ("plumb_left", "plumb_right", "level_sill", "level_head", "lean_left", "lean_right")
MOST = 28  # readings asked for, at most


def figures() -> Json:
    """Every figure of the page by name."""
    sheet = frame.sheet(WIDTH, HEIGHT, "left")
    return {
        "frame": {"width": WIDTH, "height": HEIGHT, "diagonal": _fine(hypot(WIDTH, HEIGHT))},
        "tolerance": {item["what"]: item["tolerance"] for item in sheet["judged"]},
        "tools": sheet["tools"],
        "diagonals": _diagonals(sheet),
        "read": _read(sheet),
        "level": _level(sheet),
        "tape": _tape(sheet),
        "asked": _asked(sheet),
    }


def text() -> str:
    """The figures as the file keeps them."""
    return json.dumps(figures(), ensure_ascii=False, indent=1) + "\n"


def kept() -> Json:
    """The figures that the page shows."""
    found: Json = json.loads((folder("seed_data") / FILE).read_text("utf-8"))
    return found


def _fine(value: float) -> float:
    return round(value, 2)


def _of(sheet: Json, kinds: tuple[str, ...], times: int = 1, turned: bool = False) -> list[Json]:
    """Readings of a true frame."""
    made: list[Json] = []
    for kind in kinds:
        one: Json = {"of": kind, "value": sheet["readings"][kind]["constant"]}
        if turned and kind in LEVELS:
            one["reversed"] = True
        made += [one] * times
    return made


def _state(sheet: Json, readings: list[Json]) -> tuple[Any, State]:
    table = make(sheet, {"rounds": [{"readings": readings}], "can_read": sheet["kinds"]})
    return table, now(table)


def _doubts(sheet: Json, readings: list[Json]) -> Json:
    """u of every judged quantity, and how many of the verdicts are settled."""
    said = answer(sheet, {"rounds": [{"readings": readings}]})["judged"]
    return {item["what"]: item["u"] for item in said} | {
        "settled": sum(item["verdict"] != "too close to call" for item in said)
    }


def _diagonals(sheet: Json) -> Json:
    """What the two diagonals miss: exact geometry of a head that is narrower, and of a head pushed to one side."""
    half = NARROWER / 2
    tall = sqrt(HEIGHT**2 - half**2)
    rising = sqrt((WIDTH + PARALLEL) ** 2 + HEIGHT**2 - PARALLEL**2)
    falling = sqrt((WIDTH - PARALLEL) ** 2 + HEIGHT**2 - PARALLEL**2)
    own = sheet["readings"]["diagonal_bl_tr"]["u"] * sqrt(2)
    return {
        "narrower": NARROWER,
        "both": _fine(hypot(WIDTH - half, tall)),
        "plumb": half,
        "pushed": PARALLEL,
        "differ": _fine(rising - falling),
        "own": _fine(own),
        "own_at_head": _fine(own * PARALLEL / (rising - falling)),
    }


def _read(sheet: Json) -> list[Json]:
    """More and more of a frame read: what is then known."""
    all_tapes = (*DIAGONALS, *SIDES, "width_mid")
    cases = [
        ("both diagonals", _of(sheet, DIAGONALS)),
        ("both diagonals, four times", _of(sheet, DIAGONALS, 4)),
        ("diagonals, widths, heights", _of(sheet, (*DIAGONALS, *SIDES))),
        ("the same, each twice", _of(sheet, (*DIAGONALS, *SIDES), 2)),
        ("everything once, the level as it lies", _of(sheet, (*all_tapes, *LEVELS, "string_gap"))),
        ("everything once, the level turned", _of(sheet, (*all_tapes, *LEVELS, "string_gap"), turned=True)),
        ("everything twice, the level turned", _of(sheet, (*all_tapes, *LEVELS, "string_gap"), 2, turned=True)),
    ]
    return [{"say": say, "readings": len(made)} | _doubts(sheet, made) for say, made in cases]


def _level(sheet: Json) -> list[Json]:
    """Plumb of a jamb and level of the head by the level alone: repeated, and turned end for end."""
    ways = (("once", 1, False), ("twice the same way", 2, False), ("four times the same way", 4, False),
            ("turned end for end", 1, True), ("turned, and again", 2, True))  # fmt: skip
    made = []
    for say, times, turned in ways:
        table, state = _state(sheet, _of(sheet, ("plumb_left", "level_sill"), times, turned))
        jamb, rail = table.sheet["readings"]["plumb_left"], table.sheet["readings"]["level_sill"]
        made.append({
            "say": say,
            "jamb": _fine(root(state.variance(table.sparse(jamb["row"])))),
            "rail": _fine(root(state.variance(table.sparse(rail["row"])))),
        })  # fmt: skip
    return made


def _tape(sheet: Json) -> list[Json]:
    """Length of a jamb, and by how much one is longer than the other, by one tape."""
    made = []
    for say, times in (("once", 1), ("twice", 2), ("four times", 4)):
        table, state = _state(sheet, _of(sheet, ("height_left", "height_right"), times))
        length, longer = table.sparse({"hl": 1.0}), table.sparse({"hr": 1.0, "hl": -1.0})
        made.append({"say": say, "length": _fine(root(state.variance(length))),
                     "longer": _fine(root(state.variance(longer)))})  # fmt: skip
    return made


def _asked(sheet: Json) -> list[Json]:
    """What the phone asks for on a true frame, one reading after another, until nothing is open."""
    readings: list[Json] = []
    made: list[Json] = []
    for _ in range(MOST):
        said = answer(sheet, {"rounds": [{"readings": readings}]})
        if said["next"] is None:
            break
        kind = said["next"]["of"]
        readings += _of(sheet, (kind,), turned=True)
        made.append({"of": sheet["readings"][kind]["say"], "settled": _doubts(sheet, readings)["settled"]})
    return made
