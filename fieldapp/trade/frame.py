"""The frame: is it true, and what to do. This module makes its sheet; `estimate` evaluates it, here and on the phone.

A linear sheet is plain JSON that its engine evaluates without knowing what a frame is:

    unknowns    [{name, mean, sd, tool?}] in order; `tool` takes its sd from `tools` {tape, level}, mm a metre
    tilt        {names, u}: unknowns that a tilt gives, read over its `over` with u mm; else exactly 0
    kinds       the kinds of reading, in order
    readings    {kind: {row, constant, u, from, to, say}}: value = constant + row · unknowns; a level kind also has
                its `side`, `u_reversed`, `zero` (what its zero error adds; none turned), and the range of `over`;
                its row is over the full side, and part of it over part of the side
    judged      [{what, row, tolerance, say}]
    corrections [{do, row, column, needs, gives, takes, say, instead?}]: of each `row` (of the table) at most one
                is made; `column` what a mm does to the unknowns; room it `needs` and `gives`, mm for each mm;
                corners it `takes` along; `instead` {do, where}: what is made in its place where those rooms lack
    groups      [{name, judged, known, rows}]: corrections tried together, and what must be known first
    worth       when a plan is worth making (estimate/linear_plan.py); `hand` {share, fixed} its error; `step` of `by`
    rooms       {places, say, means, none_unless_given}; `corners`, `say`: words of the sentences
    suspects, built, next   frame_doubts.py (next: once `enough` verdicts are settled, what a correction moves and
                whose u is at most `fit` of its tolerance is not asked for again)
    limits      of what is fed beside the readings; `frame` whose it is

Lengths and tolerances mm. ±1/16 in (1.6 mm) for square, alignment, twist and plumb: State of Delaware specification
08 11 13, 3.02.B, definitions as HMMA 840 and 841; lean 3.2 mm is our own, no source.
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
    `name` is `frame_recheck` for the sheet of the re-check.
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
