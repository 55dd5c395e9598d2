"""Abrasive discs: may this disc turn on this tool? Compared by what is printed on the disc, not by a
computation.

Rim speed = pi * diameter * rpm / 60,000 m/s (diameter mm). Spindle speed at or below the speed marked: 29 CFR
1910.243(c)(5)(i). Printed figures round up (150 mm at 10,200 is 80.1 m/s), so a rim speed informs and never
permits or refuses. Resin discs carry a date (EN 12413, seen second-hand).
"""

from math import pi
from typing import Any

from fieldapp.trade.estimate import rules
from fieldapp.trade.wheels_say import CAUTIONS, ELSE, INPUTS, RIM, SAYS

Json = dict[str, Any]
MM_PER_MIN = 60_000  # mm a minute in one m/s
MARKING_WITHIN = 0.03


def _line(because: str, left: str, compare: str, **right: Any) -> Json:
    word = "too close to call" if because == "marking_disagrees" else "outside"
    return {"left": left, "is": compare, **right, "verdict": word, "because": because, "say": SAYS[because]}


def sheet(name: str = "wheel", *, guard_for: float | None = None) -> Json:
    """The rule sheet of a disc on a tool; inputs by the calculator's paths, judged `disc`.

    guard_for: mm, where the plan knows the largest disc that the tool's guard is for. disc.marked_rpm
    recorded as null is not legible; `today` is the day on which it is asked, year-month-day. Needed:
    disc.marked_rpm, disc.diameter, tool.rpm; the rest stands as the calculator's defaults, or is not judged.
    """
    inputs = [dict(item) for item in INPUTS]
    if guard_for is not None:
        known = {"tool.guard_for": {"value": guard_for}}
        inputs = [item | known.get(item["name"], {}) for item in inputs]
    return {"name": name, "kind": "rule", "inputs": inputs, "cautions": list(CAUTIONS),
            "source": "29 CFR 1910.243(c)(5)(i); the disc's own marking",
            "judged": [{"what": "disc", "say": "Disc on this tool"}],
            "values": [{"name": "rim_speed", "times": pi / MM_PER_MIN, "of": ["disc.diameter", "tool.rpm"]},
                       {"name": "rim_speed_marked", "times": pi / MM_PER_MIN,
                        "of": ["disc.diameter", "disc.marked_rpm"]},
                       {"name": "marking", "times": pi / MM_PER_MIN,
                        "of": ["disc.diameter", "disc.marked_rpm"], "over": ["disc.marked_speed"]}],
            "rules": [_line("no_marking", "disc.marked_rpm", "missing"),
                      _line("too_fast", "tool.rpm", ">", right="disc.marked_rpm"),
                      _line("too_large", "disc.diameter", ">", right="tool.guard_for"),
                      _line("expired", "today", ">", right="disc.expires"),
                      _line("grinding_disc", "disc.kind", "is", constant="grinding"),
                      _line("damaged", "disc.damaged", "is", constant=True),
                      _line("no_guard", "tool.guard_on", "is", constant=False),
                      _line("no_side_handle", "tool.side_handle", "is", constant=False),
                      _line("marking_disagrees", "marking", ">", constant=1 + MARKING_WITHIN),
                      _line("marking_disagrees", "marking", "<", constant=1 - MARKING_WITHIN)],
            "else": {"verdict": "inside", "say": ELSE}, "always": RIM}


def wheel(given: Json) -> Json:
    """What speaks against a disc on a tool (contract: wheel).

    given: disc {marked_rpm or None (1/min), diameter (mm), marked_speed (m/s), expires (year-month), kind,
    damaged}, tool {rpm (1/min), guard_for (mm), guard_on, side_handle}, today (year-month-day), show.
    """
    inputs = {f"{part}.{name}": value for part in ("disc", "tool") for name, value in given[part].items()}
    if "today" in given:
        inputs["today"] = given["today"]
    found = rules.answer(sheet(), {"inputs": inputs, "show": given.get("show", "mm")})
    values = found["values"]
    agrees = None if values["marking"] is None else "marking_disagrees" not in found["because"]
    return {"rim_speed": values["rim_speed"], "rim_speed_marked": values["rim_speed_marked"],
            "verdict": found["verdict"], "because": found["because"], "marking_agrees": agrees,
            "cautions": list(CAUTIONS), "say": found["say"]}
