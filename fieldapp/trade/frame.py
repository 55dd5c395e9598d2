"""The frame: is it true, and what to do. This module makes its sheet; `estimate` evaluates it, here and on
the phone.

A linear sheet is plain JSON:
`unknowns` [{name, mean, sd, tool?}] in order; `tools` their default sd (mm a metre); `tilt` {names, u};
`kinds` the reading kinds in order; `readings` {kind: {row, constant, u, from, to, say; of a level kind also
u_reversed, side, zero, over_from, over_to}}, rows {unknown: factor} over the full side;
`judged` [{what, row, tolerance, say}]; `corrections`, `groups`, `hand`, `step`, `rooms` (frame_moves.py);
`suspects`, `built`, `next` (frame_doubts.py); `limits` of what is fed beside the readings.
Lengths mm, tolerances mm, tools and tilt mm a metre. Facts: facts of steel frames, ±1/16 in (1.6 mm) for
square, alignment, twist and plumb (State of Delaware specification 08 11 13, 3.02.B, as HMMA 840/841); lean
3.2 mm is our own.
"""

from typing import Any

from fieldapp.trade import frame_doubts, frame_moves, frame_rows
from fieldapp.trade.estimate import answer

TOLERANCE = {"square": 1.6, "plumb": 1.6, "twist": 1.6, "align": 1.6, "lean": 3.2}
TOOLS = {"tape": 0.25, "level": 0.29}
TOLERANCE_OF = {
    "square_head": "square",
    "square_sill": "square",
    "plumb_left": "plumb",
    "plumb_right": "plumb",
    "twist": "twist",
    "lean": "lean",
    "align_mid": "align",
}
SAY_JUDGED = {
    "square_head": "square at the head",
    "square_sill": "square at the sill",
    "plumb_left": "plumb of the left jamb",
    "plumb_right": "plumb of the right jamb",
    "twist": "twist",
    "lean": "lean",
    "align_mid": "width at mid height",
}
TILT_U = 0.3


def sheet(
    width: float,
    height: float,
    hinge: str,
    tolerance: dict[str, float] | None = None,
    tools: dict[str, float] | None = None,
    name: str = "frame",
) -> dict[str, Any]:
    """The linear sheet of a frame.

    width, height [mm] between the reference corners; hinge `left` or `right`, seen from outside; tolerance
    [mm] of square, plumb, twist, align, lean; tools [mm/m] standard deviations of tape scale and level zero;
    `name` is
    `frame_recheck` for the sheet of the re-check.
    """
    limit = {**TOLERANCE, **(tolerance or {})}
    rows = frame_rows.judged_rows(width, height, hinge)
    return {
        "name": name,
        "kind": "linear",
        "frame": {"width": width, "height": height, "hinge": hinge},
        "unknowns": frame_rows.unknowns(),
        "tools": {**TOOLS, **(tools or {})},
        "tilt": {"names": ["along", "through"], "u": TILT_U},
        "kinds": list(frame_rows.KINDS),
        "readings": frame_rows.readings(width, height, hinge),
        "judged": [
            {"what": what, "row": row, "tolerance": limit[TOLERANCE_OF[what]], "say": SAY_JUDGED[what]}
            for what, row in rows.items()
        ],
        **frame_moves.moves(width, height, hinge),
        "suspects": frame_doubts.suspects(),
        "built": frame_doubts.built(limit["square"], limit["plumb"]),
        "next": frame_doubts.following(),
        "limits": {
            "readings": 500,
            "rounds": 50,
            "room": [0, 500],
            "by": [0.01, 200],
            "tilt": [-500, 500],
            "tilt_over": [200, 20_000],
            "tilt_u": [0, 50],
            "tools": [0, 10],
            "u": [0.01, 100],
        },
    }


def frame(given: dict[str, Any]) -> dict[str, Any]:
    """The calculator: is the frame true, and what to do. `given` is what `frame_input.read` took from an input.

    Lengths in mm; the answer is the contract's: judged, corrections, after, expect, suspects, built, next, leave_alone.
    """
    made = sheet(**given["frame"], tolerance=given.get("tolerance"), tools=given.get("tools"))
    return answer(made, given)
