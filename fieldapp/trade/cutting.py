"""The cut sheet: what is cut in which order, where tabs and bridge stand, when the panel falls, whether the disc may.

Positions run from the cut's left edge and from the sill line, seen from outside, mm. Tabs lie in outer flats, one in
each, so that each folds along one line (panel_fall.py): the flats nearest to an even spread.
"""

from itertools import combinations
from math import floor
from typing import Any

from fieldapp.trade.corrugation import pitch as pitch_of
from fieldapp.trade.cutting_say import FOAM, NOT_KNOWN, cautions, sentences, sequence
from fieldapp.trade.lengths import Show
from fieldapp.trade.panel import panel
from fieldapp.trade.wheels import wheel

Json = dict[str, Any]

OWN = ("bridge", "behind", "disc", "tool", "today")
MOST_COMBINED = 12  # flats that are tried for tabs; nobody leaves more


def flats(profile: Json, starts: float, width: float) -> list[tuple[float, float]]:
    """The pieces of outer flat inside a cut: from, to; starts: from the start of an outer flat to the cut's left."""
    pitch = pitch_of(profile)
    first, last = floor((starts - profile["outer"]) / pitch), floor((starts + width) / pitch)
    found = [(max(0.0, n * pitch - starts), min(width, n * pitch - starts + profile["outer"]))
             for n in range(first, last + 1)]
    return [one for one in found if one[1] > one[0]]


def tabs(profile: Json, starts: float, width: float, count: int, wide: float) -> list[tuple[float, float]]:
    """(from, to) of each tab, rising: one in the middle of a piece of outer flat, spread as evenly as the flats let.

    [] where fewer pieces than tabs have room for one.
    """
    middles = [(low + high) / 2 for low, high in flats(profile, starts, width) if high - low >= wide - 1e-9]
    if len(middles) > MOST_COMBINED:
        step = (len(middles) - 1) / (MOST_COMBINED - 1)
        middles = [middles[round(i * step)] for i in range(MOST_COMBINED)]
    if count > len(middles):
        return []
    even = [width * (i + 0.5) / count for i in range(count)]
    best = min(combinations(middles, count),
               key=lambda chosen: sum((at - want) ** 2 for at, want in zip(chosen, even, strict=True)))
    return [(at - wide / 2, at + wide / 2) for at in best]


def cut(given: Json, table: Json, panels: Json, profiles: Json, doubt: Json) -> Json:
    """The cut sheet of a panel.

    given: what panel.panel is given, and where known bridge (mm), behind (what lies behind the sheet), disc, tool and
    today (as wheels.wheel takes them). Foam behind a sheet, and a smooth wall, are cut cold.
    table: seed_data/tables/cutting.toml; panels: panel.toml.
    """
    show: Show = given.get("show", "mm")
    profile: Json | None = given.get("profile") or profiles.get(given["wall"])
    plain = {name: value for name, value in given.items() if name not in OWN}
    if profile is None:
        plain = {"strip": 0.0} | plain  # no standing strip in a smooth wall unless the drawing shows one
    falling = panel(plain, panels, profiles, doubt)
    width, height = given["cut"]["width"], given["cut"]["height"]
    tab = panels["tabs"] | given.get("tabs", {})
    placed = [] if profile is None or "starts" not in given else tabs(
        profile, given["starts"], width, int(tab["count"]), tab["width"])
    bridge = given.get("bridge", table["bridge"])
    disc = wheel({"disc": given["disc"], "tool": given["tool"], **(
        {"today": given["today"]} if "today" in given else {}), "show": show}) if "disc" in given else None
    behind = given.get("behind", NOT_KNOWN)
    cold = profile is None or behind == FOAM
    made: Json = {
        "method": "cold" if cold else "disc",
        "tabs": [{"from": low, "to": high} for low, high in placed],
        "bridge": {"from": (width - bridge) / 2, "to": (width + bridge) / 2},
        "hole": {"across": width / 2, "up": height * (1 - table["hole_below"])},
        "panel": {name: value for name, value in falling.items() if name not in ("say", "cautions", "judged")},
        "disc": disc and {name: disc[name] for name in ("verdict", "because", "rim_speed", "marking_agrees")},
        "judged": falling["judged"], "cautions": cautions(cold, disc)}
    known = {"smooth": profile is None, "placed": "starts" in given, "unknown": behind == NOT_KNOWN}
    made["sequence"] = sequence(made, tab, known, table["watch"], show)
    return made | {"say": sentences(made, falling["say"], disc, known, show)}
