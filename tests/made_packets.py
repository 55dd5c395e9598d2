"""Made-up packets and values of their fields, for tests of the fold and of its twin; histories.py makes entries.

`rng` is a random.Random, or Hypothesis's own (`st.randoms()`), which then shrinks what fails.
"""

from fieldapp.trade import containers, frame, wheels
from fieldapp.trade.estimate import band

PEOPLE = ["lena", "omar", "ruth"]
LEVELS = ["plumb_left", "plumb_right", "lean_left", "level_sill"]
TAPES = {
    "diagonal_bl_tr": 2250.93,
    "diagonal_tl_br": 2250.93,
    "width_head": 914,
    "width_sill": 914,
    "height_left": 2057,
}
NOMINAL = {"string_gap": 0, "gap_head_hinge": 3.2, "back_head": 914, "diameter": 150}
MOVES = ["push_head_left", "push_head_right", "raise_bl", "head_out", "spread_mid"]
NM = 1_000_000


def _toe():
    each = {"u": 0.5, "from": 1, "to": 10_000}
    return band.within(
        "toe",
        [
            {"name": "front.head", "say": "Width in front", "times": -1, "what": "toe_head", **each},
            {"name": "back.head", "say": "Width behind", "what": "toe_head", **each},
        ],
        -1.6,
        1.6,
    )


PARTS = {
    "f1": frame.sheet(914.0, 2057.0, "left"),
    "f2": frame.sheet(914.0, 2057.0, "right", {"plumb": 3.0, "square": 3.0}),
    "toe": _toe(),
    "wheel": wheels.sheet(),
    "box": containers.sheet(),
}


def _feeds(sheet, name):
    return {"feeds": [{"sheet": sheet, "as": name}]}


def _frame_fields(rng):
    kinds = [*rng.sample(LEVELS, 2), *rng.sample(list(TAPES), 2), "string_gap", "gap_head_hinge"]
    fields = [
        {
            "id": kind,
            "type": "length",
            "required": rng.random() < 0.4,
            "say": kind,
            "repeat": True,
            **_feeds("frame", kind),
        }
        for kind in kinds
    ]
    for each in fields:
        if each["id"] in LEVELS and rng.random() < 0.5:
            each["expect"] = {"from": -1_600_000, "to": 1_600_000, "u": 300_000}
        if each["id"] == "width_head":
            each["feeds"].append({"sheet": "toe", "as": "front.head"})
    places = rng.sample(["left_top", "right_top", "head_left", "left_bottom", "strip_left"], 2)
    fields += [
        {"id": f"room_{place}", "type": "length", "required": False, "say": "room", **_feeds("frame", f"room.{place}")}
        for place in places
    ]
    fields += [
        {
            "id": f"tilt_{way}",
            "type": "length",
            "required": False,
            "say": "tilt",
            **over,
            **_feeds("frame", f"tilt.{way}"),
        }
        for way, over in (("along", {"over": 2_000 * NM}), ("through", {}))
    ]
    return [
        *fields,
        {"id": "riveted_bl", "type": "tick", "required": False, "say": "fixed", **_feeds("frame", "fixed.bl")},
    ]


def _disc_fields():
    number = {"type": "number", "required": True, "say": "number"}
    return [
        {"id": "marked_rpm", "ucum": "/min", **number, **_feeds("wheel", "disc.marked_rpm")},
        {"id": "diameter", "type": "length", "required": True, "say": "d", **_feeds("wheel", "disc.diameter")},
        {"id": "tool_rpm", "ucum": "/min", **number, **_feeds("wheel", "tool.rpm")},
        {
            "id": "kind",
            "type": "choice",
            "required": False,
            "say": "kind",
            **_feeds("wheel", "disc.kind"),
            "options": [{"id": "cut-off", "say": "c"}, {"id": "grinding", "say": "g"}],
        },
        {"id": "damaged", "type": "tick", "required": False, "say": "damaged", **_feeds("wheel", "disc.damaged")},
        {"id": "expires", "type": "date", "required": False, "say": "expires", **_feeds("wheel", "disc.expires")},
    ]


def _plain_fields(rng):
    low = rng.choice([None, 90_000_000])
    return [
        {
            "id": "land",
            "type": "length",
            "required": True,
            "say": "land",
            "expect": {"from": low, "to": 110_000_000, "u": rng.choice([0, 1_000_000])},
        },
        {
            "id": "steel",
            "type": "number",
            "required": False,
            "say": "steel",
            "ucum": "Cel",
            "expect": {"from": 5, "to": 40},
        },
        {"id": "closed", "type": "tick", "required": rng.random() < 0.5, "say": "closed"},
        {
            "id": "row",
            "type": "choice",
            "required": False,
            "say": "row",
            "options": [{"id": "62", "say": "62"}, {"id": "64", "say": "64", "ok": False}],
        },
        {"id": "words", "type": "text", "required": False, "say": "words"},
        {"id": "picture", "type": "photo", "required": False, "say": "picture"},
    ]


def packet(rng):
    """A packet with every type of field, all kinds of sheets, hold points, needs, a step never signed."""
    judged = [item["what"] for item in PARTS["f1"]["judged"]]
    steps = [
        {
            "id": "frame",
            "stage": "set-and-fix",
            "fields": _frame_fields(rng),
            "answers": [{"sheet": "frame", "judged": rng.choice([[], [], rng.sample(judged, 2)])}],
        },
        {
            "id": "toe",
            "stage": "set-and-fix",
            "answers": [{"sheet": "toe", "judged": ["toe_head"]}],
            "fields": [
                {"id": "back_head", "type": "length", "required": False, "say": "back", **_feeds("toe", "back.head")}
            ],
        },
        {"id": "disc", "stage": "ready", "fields": _disc_fields(), "answers": [{"sheet": "wheel", "judged": ["disc"]}]},
        {
            "id": "box",
            "stage": "ready",
            "answers": [{"sheet": "container", "judged": ["identification"]}],
            "fields": [
                {"id": "number", "type": "text", "required": True, "say": "n", **_feeds("container", "identification")}
            ],
        },
        {"id": "plain", "stage": "measure", "fields": _plain_fields(rng), "answers": []},
        {
            "id": "re-check",
            "stage": "re-check",
            "signed": False,
            "answers": [],
            "fields": [{"id": "gap", "type": "length", "required": True, "say": "gap"}],
        },
    ]
    chosen = [step for step in steps if rng.random() < 0.6] or steps[4:5]
    for step in chosen:
        step |= {
            "say": step["id"],
            "cautions": [],
            "hold": rng.random() < 0.35,
            "concession": rng.random() < 0.6,
            "needs": [each["id"] for each in chosen if rng.random() < 0.15 and each is not step],
            "signed": step.get("signed", True),
        }
    return {
        "packet": 1,
        "lang": "en",
        "steps": chosen,
        "drawings": [],
        "people": [
            {"id": person, "name": person, "release": person != "ruth", "review": person == "ruth"} for person in PEOPLE
        ],
        "sheets": [
            {"name": "frame", "part": rng.choice(["f1", "f2"])},
            {"name": "toe", "part": "toe"},
            {"name": "wheel", "part": "wheel"},
            {"name": "container", "part": rng.choice([*["box"] * 6, "not here"])},
        ],
    }


def _length(rng, field, calm):
    kind = field["id"]
    nominal = TAPES.get(kind, NOMINAL.get(kind, 0 if kind in LEVELS or kind.startswith("tilt") else 100))
    value = {"text": "x", "nm": round((nominal + rng.uniform(-1, 1) * (0.3 if calm else 12)) * NM)}
    if not calm and rng.random() < 0.04:
        value["nm"] = 20_000 * NM
    if kind in LEVELS or kind.startswith("tilt"):
        if rng.random() < 0.7:
            value["over"] = rng.choice([600, 800] if calm else [150, 600, 1000]) * NM
        value["reversed"] = rng.random() < 0.5
    if rng.random() < 0.3:
        value["u"] = rng.choice([200_000] if calm else [0, 200_000, 500_000])
    return value


def _number(rng, field, calm):
    if calm:
        return {
            "text": "x",
            "number": {"marked_rpm": 10200, "tool_rpm": 9000}.get(field["id"], 20),
            "ucum": field["ucum"],
        }
    ucum = field["ucum"] if rng.random() < 0.9 else "1"
    return {"text": "x", "number": rng.choice([4, 5.5, 41, 6000, 9000, 10200.25]), "ucum": ucum}


def value_of(rng, field, calm):
    """(kind, value) of an entry on the field; calm: what a good unit reads."""
    kind = field["type"]
    if kind == "length":
        return "reading", _length(rng, field, calm)
    if kind == "number":
        return "reading", _number(rng, field, calm)
    if kind == "tick":
        return "tick", {"ticked": field["id"] != "damaged" if calm else rng.random() < 0.7}
    if kind == "choice":
        return "choice", {"chosen": rng.choice([option["id"] for option in field["options"]])}
    if kind == "photo":
        return "photo", {"sha256": "0" * 64, "bytes": 1}
    if calm:
        return "note", {"text": "2027-09" if kind == "date" else "CSQU3054383"}
    return "note", {"text": rng.choice(["CSQU3054383", "CSQU3054381", "2027-09", "2025-01", "dry"])}


def packets(rng):
    """Two plans; often the second is the first with little changed, so that a sign-off may outlive it."""
    first = packet(rng)
    second = (
        packet(rng) if rng.random() < 0.4 else {**first, "steps": first["steps"][: rng.randint(1, len(first["steps"]))]}
    )
    return {"p1": first, "p2": second}
