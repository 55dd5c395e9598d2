"""Where the door may go on a wall: the corrugation fitted to the edges that were read, and every place for it.

Positions run along the wall from one stated datum, seen from outside, left to right; mm. A nominal pitch is never
multiplied: it is an observation beside the edges (seed_data/tables/layout.toml says how sure), and each place says
how surely its slopes are known. Land: the outer flat left between a cut and the next slope.
"""

from typing import Any

import numpy as np

from fieldapp.trade.corrugation import pitch as pitch_of
from fieldapp.trade.estimate.chance import judged
from fieldapp.trade.layout_fit import OUTER, PHASE, PITCH, PLUMB, Edges, Fit, Prior
from fieldapp.trade.layout_misfits import fitted
from fieldapp.trade.layout_places import on_corrugated, on_smooth
from fieldapp.trade.layout_rules import DUST, Rules, rules
from fieldapp.trade.layout_say import sentences
from fieldapp.trade.layout_slips import misfits
from fieldapp.trade.layout_widths import fits, short_by
from fieldapp.trade.lengths import Show

Json = dict[str, Any]

SMOOTH = "smooth insulated"
MM_PER_M = 1000


def layout(given: Json, table: Json, profiles: Json, doubt: Json) -> Json:
    """Every place on a wall, the best first; the fit, misfits and the widths that would land (contract: layout).

    given: wall, wall_from, wall_to, opening {width}, flange {covers, needs_land}, and where known profile, edges
    [{"at", "edge", "u", "z"}], between, keep_clear [{"from", "to"}], wish, swing, show; mm, opens_to in degrees.
    table, profiles, doubt: seed_data/tables/layout.toml, profiles.toml, doubt.toml.
    """
    show: Show = given.get("show", "mm")
    keep = rules(given, given["opening"]["width"], table["opens_to"])
    wish = given.get("wish", sum(given.get("between", (given["wall_from"], given["wall_to"]))) / 2)
    made = _smooth(given, keep, wish) if given["wall"] == SMOOTH else _corrugated(
        given, keep, wish, table, given.get("profile") or profiles[given["wall"]], doubt)
    return made | {"say": sentences(given, made, show)}


def _smooth(given: Json, keep: Rules, wish: float) -> Json:
    return {"fit": None, "misfits": [], "places": on_smooth(given, keep, wish), "short_by": 0.0, "fits": [],
            "judged": []}


def _corrugated(given: Json, keep: Rules, wish: float, table: Json, profile: Json, doubt: Json) -> Json:
    height = float(given["opening"].get("height", table["height"]))
    edges, leans = _edges(given["edges"], height, doubt["corrugation"])
    sure = table["doubt"]
    prior = Prior(pitch_of(profile), float(profile["outer"]), float(sure["pitch"]), float(sure["outer"]),
                  sure["plumb"] * height / MM_PER_M)
    fit, left_out = fitted(edges, prior, table["misfit"])
    width, needs = given["opening"]["width"], given["flange"]["needs_land"]
    pitch, outer = float(fit.x[PITCH]), float(fit.x[OUTER])
    said = _fit(fit, given["wall_from"], height if leans else None)
    plumb = said["plumb"]
    return {"fit": said, "misfits": misfits(edges, left_out, fit, profile["inner"], profile["slope"]),
            "places": on_corrugated(given, fit, keep, wish),
            "short_by": short_by(width, pitch, outer, needs),
            "fits": [{"from": low, "to": high} for low, high in fits(width, pitch, outer, needs)],
            "judged": [judged("plumb", plumb["value"], plumb["u"], -table["plumb_within"], table["plumb_within"])]
            if plumb else []}


def _edges(given: list[Json], height: float, usual: float) -> tuple[Edges, bool]:
    """The edges as arrays, and whether they say how the corrugation leans: not when all have one height."""
    z = np.array([float(edge.get("z", 0.0)) for edge in given])
    leans = bool(np.any(z != z[0]))
    return Edges(np.array([float(edge["at"]) for edge in given]),
                 np.array([float(edge.get("u", usual)) for edge in given]),
                 np.array([float(edge["edge"] == "outer_end") for edge in given]),
                 z / height if leans else np.zeros_like(z)), leans


def _fit(fit: Fit, wall_from: float, over: float | None) -> Json:
    """The fit as it is answered: phase is the start of the first outer flat at or after wall_from."""
    first = int(np.ceil((wall_from - fit.x[PHASE] - DUST) / fit.x[PITCH]))
    unit = np.eye(4)
    made = {name: dict(zip(("value", "u"), fit.of(row), strict=True)) for name, row in (
        ("pitch", unit[PITCH]), ("phase", unit[PHASE] + first * unit[PITCH]), ("outer", unit[OUTER]))}
    plumb = None if over is None else dict(zip(("value", "u"), fit.of(unit[PLUMB]), strict=True)) | {"over": over}
    return made | {"plumb": plumb}
