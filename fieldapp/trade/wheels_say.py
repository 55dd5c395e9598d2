"""The words about discs and tools. None of them calls a disc safe or its use permitted."""

from typing import Any

INPUTS: list[dict[str, Any]] = [
    {"name": "disc.marked_rpm", "say": "Speed printed on the disc", "unit": "/min", "from": 1, "to": 100_000},
    {"name": "disc.diameter", "say": "Diameter printed on the disc", "unit": "mm", "from": 20, "to": 600},
    {"name": "disc.marked_speed", "say": "Rim speed printed on the disc", "unit": "m/s", "from": 1, "to": 200,
     "needed": False},
    {"name": "disc.expires", "say": "Month printed on the disc", "needed": False},
    {"name": "disc.kind", "say": "Kind of disc", "value": "cut-off"},
    {"name": "disc.damaged", "say": "Disc damaged", "value": False},
    {"name": "tool.rpm", "say": "Speed on the tool's plate", "unit": "/min", "from": 1, "to": 100_000},
    {"name": "tool.guard_for", "say": "Largest disc for the tool's guard", "unit": "mm", "from": 20,
     "to": 600, "needed": False},
    {"name": "tool.guard_on", "say": "Guard on", "value": True},
    {"name": "tool.side_handle", "say": "Side handle on", "value": True},
    {"name": "today", "say": "Today", "needed": False},
]
SAYS = {
    "no_marking": "No speed can be read on the disc: scrap it.",
    "too_fast": "The tool turns at {tool_rpm|n} a minute, the disc is marked {disc_marked_rpm|n}: not this "
                "disc on this tool.",
    "too_large": "The disc is {disc_diameter}, the tool's own guard is for {tool_guard_for}: take the disc "
                 "that fits under the guard.",
    "expired": "The disc's date, {disc_expires|text}, is past: scrap it.",
    "grinding_disc": "A grinding disc does not cut: take a cut-off disc.",
    "damaged": "The disc is damaged: scrap it.",
    "no_guard": "No guard: put the guard on, between you and the disc.",
    "no_side_handle": "No side handle: put it on. Both hands hold the tool.",
    "marking_disagrees": "The speeds printed on the disc do not belong together: at {disc_marked_rpm|n} a "
                         "minute the rim runs {rim_speed_marked|n} m/s, marked is {disc_marked_speed|n} "
                         "m/s. Read the disc again.",
}
ELSE = "Nothing asked here speaks against this disc on this tool. Look at the disc before you mount it."
RIM: list[dict[str, Any]] = [
    {"needs": ["rim_speed"], "say": "At the tool's speed the rim runs {rim_speed|n} m/s."},
    {"needs": ["rim_speed_marked"],
     "say": "At the marked speed it would run {rim_speed_marked|n} m/s. A rim speed informs; the printed "
            "speed decides."},
]
CAUTIONS = (
    "Look at the disc on both sides right before mounting: no crack, no chip, no damp, label on. A ring "
    "test does not prove a resin disc.",
    "Guard on, between you and the disc; side handle on; nobody in the plane of the disc.",
    "This list permits nothing: the maker's instructions, the employer and the rules in force on the site "
    "decide.",
)
