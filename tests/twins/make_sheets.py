"""Makes tests/twins/sheets.json, the cases that both engines of band, rule and digit sheets are held to.

Run it from the top of the repository: `python tests/twins/make_sheets.py`. The expected answers come from the
Python engines, whose own rules are tested against outside sources in tests/trade.
"""

import json
import random
import tomllib
from math import exp, log
from pathlib import Path

from fieldapp.places import folder
from fieldapp.trade import containers, opening, rivets, seals, wheels
from fieldapp.trade.estimate import answer, band, judge

FILE = Path(__file__).with_name("sheets.json")
EACH = 16


def table(name):
    return tomllib.loads((folder("seed_data") / "tables" / f"{name}.toml").read_text(encoding="utf-8"))


DOUBT, RIVETS = table("doubt"), table("rivets")
PLAN = {
    "wall": "corrugated end",
    "frame": {"width": 914, "height": 2030},
    "clearance": {"left": 6, "right": 6, "head": 6, "sill": 0},
    "edge_trim": 1.5,
    "head_kit": {"profile": "straight", "rise": 50.8},
    "head_seal": {"kind": "bulb", "free_height": 12, "compression": 45},
}
METRIC = [
    {"name": "8", "grip_from": 2.5, "grip_to": 4},
    {"name": "10", "grip_from": 4, "grip_to": 6},
    {"name": "12", "grip_from": 6.5, "grip_to": 8},
]
TOE = [
    {
        "name": f"{side}.{at}",
        "say": f"Width {side} at the {at}",
        "u": 0.5,
        "what": f"toe_{at}",
        "called": f"Toe at the {at}",
        "times": 1 if side == "back" else -1,
    }
    for at in ("sill", "head")
    for side in ("back", "front")
]
TOE_SAYS = {
    "below": "{say|text}: {size} narrower at the back.",
    "above": "{say|text}: {size} wider at the back.",
    "inside": "{say|text}: {size}, within {high}.",
}


def dew_sheet():
    """A margin over the dew point as a grid: Magnus 17.62, 243.12 °C, every 5 K and 10 %."""
    air, humidity = [float(t) for t in range(-10, 45, 5)], [float(h) for h in range(10, 101, 10)]

    def dew(t, h):
        gamma = log(h / 100) + 17.62 * t / (243.12 + t)
        return 243.12 * gamma / (17.62 - gamma)

    axes = [{"of": "air", "at": air}, {"of": "humidity", "at": humidity}]
    inputs = [
        {"name": "air", "say": "Air", "unit": "°C", "u": 0.5},
        {"name": "steel", "say": "Steel", "unit": "°C", "u": 0.5},
        {"name": "humidity", "say": "Humidity", "unit": "%", "u": 3},
    ]
    return {
        "name": "dew",
        "kind": "band",
        "inputs": inputs,
        "values": [
            {
                "name": "margin",
                "plus": 0,
                "sum": [["steel", 1]],
                "grid": {"times": -1, "axes": axes, "table": [[dew(t, h) for h in humidity] for t in air]},
            },
            {
                "name": "pressure",
                "grid": {
                    "axes": [{"of": "air", "at": air}],
                    "table": [6.112 * exp(17.62 * t / (243.12 + t)) for t in air],
                },
            },
        ],
        "judged": [
            {"what": "margin", "value": "margin", "from": 3, "to": None, "say": "Margin", "unit": "K"},
            {"what": "pressure", "value": "pressure", "to": 30, "say": "Pressure", "unit": "hPa"},
        ],
    }


SHEETS = [
    rivets.sheet("rivet_sides", 4.8, ["Flange", "Wall"], "sides", RIVETS, DOUBT),
    rivets.sheet(
        "rivet_head",
        4.8,
        ["Flange", "Wall"],
        "head",
        RIVETS,
        DOUBT,
        stand_off="measured",
        metals={"rivet": "aluminium", "sheet": "steel"},
    ),
    rivets.sheet(
        "rivet_own",
        5.0,
        ["Sheet"],
        "jamb",
        RIVETS,
        DOUBT,
        rows=METRIC,
        hole={"from": 5.1, "to": 5.2},
        stand_off={"value": 1.5, "u": 0.3},
    ),
    seals.sheet("seal", ["left", "middle", "right"], table("seals"), DOUBT, free_height=12),
    seals.sheet("seal_open", ["head"], table("seals"), DOUBT, limits=[30, 60]),
    opening.sheet("opening", PLAN, table("opening"), DOUBT),
    opening.sheet("opening_all", PLAN, table("opening"), DOUBT, opening.ASKED),
    band.within("toe", TOE, -1.6, 1.6, say=TOE_SAYS),
    band.within("width", [{"name": "width", "say": "Width", "u": 0.2}], 6, None),
    dew_sheet(),
    wheels.sheet(),
    wheels.sheet(guard_for=125),
    containers.sheet(),
]
# what each input is drawn around, and how widely; a path's first match decides
AROUND = [
    ("thickness", 1.6, 1.2),
    ("stand_off", 3, 2),
    ("edge", 12, 4),
    ("pitch", 30, 12),
    ("free_height", 12, 1),
    ("gaps", 6.6, 1.5),
    ("drawing.width", 929, 6),
    ("drawing.height", 2093, 40),
    ("frame_width", 914, 4),
    ("frame_height", 2030, 4),
    ("cut.width", 929, 5),
    ("cut.height", 2093, 8),
    ("back", 914, 1.5),
    ("front", 914, 1.5),
    ("width", 6, 1),
    ("air", 15, 12),
    ("steel", 14, 8),
    ("humidity", 70, 25),
]


def drawn(dice, path):
    """A value of an input: mostly near where it matters, to 0.01 or exactly, often with its own u."""
    middle, wide = next((m, w) for part, m, w in AROUND if part in path)
    value = max(0.0, round(dice.gauss(middle, wide), dice.choice((0, 1, 2, 6))))
    return dice.choice((value, value, {"value": value, "u": dice.choice((0, 0.05, 0.3, 2.5))}))


def band_given(dice, sheet):
    inputs = {item["name"]: drawn(dice, item["name"]) for item in sheet["inputs"] if dice.random() > 0.12}
    return {"inputs": inputs, "show": dice.choice(("mm", "in"))}


def wheel_given(dice):
    one_of = dice.choice
    drawn_at = {
        "disc.marked_rpm": one_of((10200, 12200, 6650, None)),
        "disc.diameter": one_of((125, 150, 230)),
        "disc.marked_speed": one_of((80, 76, 50)),
        "disc.damaged": dice.random() < 0.2,
        "disc.expires": one_of(("2026-11", "2026-10", "2027-09")),
        "disc.kind": one_of(("cut-off", "grinding")),
        "tool.rpm": one_of((9000, 11000, 6600)),
        "tool.guard_for": one_of((125, 150, 230)),
        "tool.guard_on": dice.random() > 0.2,
        "tool.side_handle": dice.random() > 0.2,
        "today": "2026-11-30",
    }
    kept = {path: value for path, value in drawn_at.items() if dice.random() > 0.12}
    return {"inputs": kept, "show": dice.choice(("mm", "in"))}


NUMBERS = [
    "CSQU3054383",
    "csqu 305438-3",
    "CSQU305438",
    "CSQU3054338",
    "C5QU3054383",
    "TEXU3070070",
    "CSQU3O54383",
    "CSQX3054383",
    "MSKU601167",
    "ZEPU0037255",
    "ABC",
    "",
    "ſſſu1234567",
    "CSQ3U054383",
    "O0OU00OO000",
    "CSQU305438S",
    "１２３U3054383",
]
PLAIN_WHEEL = {
    "disc.marked_rpm": 10200,
    "disc.diameter": 150,
    "disc.marked_speed": 80,
    "disc.expires": "2026-11",
    "tool.rpm": 10200,
    "tool.guard_for": 150,
    "today": "2026-11-30",
}


def givens(dice, sheet):
    if sheet["kind"] == "digit":
        return [{"inputs": {"identification": text}} for text in NUMBERS] + [{"inputs": {}}]
    if sheet["kind"] == "rule":
        return [wheel_given(dice) for _ in range(EACH)] + [{"inputs": {}}, {"inputs": PLAIN_WHEEL}]
    return [band_given(dice, sheet) for _ in range(EACH)] + [{"inputs": {}}]


def written():
    dice = random.Random(2611)
    cases = [
        {"sheet": i, "given": given, "judge": judge(sheet, given), "answer": answer(sheet, given)}
        for i, sheet in enumerate(SHEETS)
        for given in givens(dice, sheet)
    ]
    text = json.dumps({"sheets": SHEETS, "cases": cases}, separators=(",", ":"))
    return text.replace('},{"sheet"', '},\n{"sheet"') + "\n"


if __name__ == "__main__":
    FILE.write_text(written(), encoding="ascii")
