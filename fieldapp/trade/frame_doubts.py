"""The frame sheet's misreadings worth suspecting, what is built out of true, and which reading to take next.

Amounts are definitions (1 in is 25.4 mm exactly); weights are our own figures, tuned on simulated frames
(tests/bench/simulate_frame.py), no source.
"""

from typing import Any

from fieldapp.trade.frame_rows import DIAGONALS, KINDS, LEVELS, TAPES, Row

INCH = 25.4
SIGNED = (*LEVELS, "string_gap")
DIGITS = "two digits written in each other's place"
AGAIN = "read it again"


def suspects() -> dict[str, Any]:
    """Limit, slips with what each makes a reading off by (mm), and their weights."""
    amounts = [
        ("one_inch", INCH, 1.0, "read from the 1 in mark"),
        ("one_inch", -INCH, 0.5, "an inch short"),
        ("half_inch", INCH / 2, 0.7, "half an inch too much"),
        ("half_inch", -INCH / 2, 0.7, "half an inch short"),
        ("ten_mm", 10.0, 0.7, "ten millimetres too much"),
        ("ten_mm", -10.0, 0.7, "ten millimetres short"),
        ("hundred_mm", 100.0, 1.0, "read from the 100 mm mark"),
        ("hundred_mm", -100.0, 0.5, "a hundred millimetres short"),
        ("one_foot", 12 * INCH, 0.7, "a foot too much"),
        ("one_foot", -12 * INCH, 0.7, "a foot short"),
    ]
    causes: list[dict[str, Any]] = [
        {"cause": cause, "how": "amount", "off": [off], "weight": weight, "likely": likely, "of": list(KINDS)}
        for cause, off, weight, likely in amounts
    ]
    causes.append({"cause": "digits_swapped", "how": "digits", "weight": 1.0, "likely": DIGITS, "of": list(KINDS)})
    causes.append(
        {
            "cause": "wrong_sign",
            "how": "sign",
            "weight": 1.0,
            "likely": "read to the wrong side",
            "of": list(SIGNED),
        }
    )
    causes.append(
        {
            "cause": "diagonals_swapped",
            "how": "pair",
            "weight": 1.0,
            "again": 4.0,
            "likely": "the two diagonals written in each other's place",
            "of": list(DIAGONALS),
        }
    )
    return {
        "from": 3.6,
        "more": 0.25,
        "of": 14,
        "causes": causes,
        "unknown": {"weight": 0.25, "over": 400.0, "likely": AGAIN},
    }


def built(square: float, plumb: float) -> list[dict[str, Any]]:
    """What no shim mends: jambs or rails of unequal length, mm, with the tolerance each eats."""
    heights: Row = {"hr": 1.0, "hl": -1.0}
    widths: Row = {"wh": 1.0, "ws": -1.0}
    ask = " Ask the supervisor: the maker changes the frame, or "
    jamb = " no shim mends that." + ask + "the longer jamb is cut at its foot."
    rail = " both jambs cannot stand plumb." + ask + "its corner is made again."
    return [
        {
            "what": "heights",
            "row": heights,
            "tolerance": square,
            "say": {
                "+": "The right jamb is {by} longer than the left:" + jamb,
                "-": "The left jamb is {by} longer than the right:" + jamb,
            },
        },
        {
            "what": "widths",
            "row": widths,
            "tolerance": plumb,
            "say": {
                "+": "The frame is {by} wider at the head than at the sill:" + rail,
                "-": "The frame is {by} narrower at the head than at the sill:" + rail,
            },
        },
    ]


def following() -> dict[str, Any]:
    """Which kinds may be asked for next, and how they are weighed."""
    return {
        "can_read": [kind for kind in KINDS if kind in (*TAPES, *LEVELS, "string_gap")],
        "turned": list(LEVELS),
        "settle": 1.0,
        "narrow": 0.15,
        "least": 0.01,
        "enough": 5,
        "fit": 0.4,
        "why": "it decides ",
        "join": " and ",
    }
