"""Plans for tests: every variant of the choices that change a step."""

from itertools import product

import pytest

from fieldapp.plan.choices import KIT_OF_WALL, WALLS

PEOPLE = [
    {"id": "0199c0de-0000-7000-8000-00000000000a", "name": "lena", "release": True, "review": False},
    {"id": "0199c0de-0000-7000-8000-00000000000c", "name": "ruth", "release": True, "review": True},
]
UNIT = {
    "id": "0199c0de-0000-7000-8000-000000000101",
    "number": "07",
    "code": "7K3MD9QX2P",
    "short": "7K3MQ",
    "box": "CSQU3054383",
    "job": "Quay stores",
    "place": "Quay 3",
}


def plan(
    wall="corrugated end",
    hand="left",
    kit=True,
    seal="bulb",
    edges="sealant",
    limit="chain",
    closer=False,
    panic_bar=False,
    mass=True,
    glass="none",
    fire=False,
):
    """Choices as a plan file has them."""
    width = 826 if wall == "corrugated side" else 914
    made = {
        "wall": wall,
        "hand": hand,
        "drawing": "maker's sheet T-1",
        "frame": {"width": width, "height": 2045},
        "corners": {"width": width - 48, "height": 2006},
        "head_seal": {"kind": "bulb", "free_height": 12} if seal == "bulb" else {"kind": "bead", "thickness": 4},
        "side_edges": {"kind": "edge trim", "thickness": 3} if edges == "edge trim" else {"kind": "sealant"},
        "hardware": {"limit": limit, "closer": closer, "panic_bar": panic_bar},
        "glass": glass,
        "fire_rated": fire,
    }
    if kit and KIT_OF_WALL[wall] != "none":
        made["head_kit"] = {"profile": KIT_OF_WALL[wall], "rise": 44.2}
    if mass:
        made["mass"] = {"leaf": 38, "total": 61, "panel": 38}
    return made


def all_plans():
    """Every variant that can change what is asked, and hand, glass and fire rating with each wall besides."""
    keys = ("wall", "kit", "seal", "edges", "limit", "closer", "panic_bar", "mass")
    values = (
        WALLS,
        (True, False),
        ("bulb", "bead"),
        ("edge trim", "sealant"),
        ("chain", "stop"),
        (True, False),
        (True, False),
        (True, False),
    )
    made = [dict(zip(keys, chosen, strict=True)) for chosen in product(*values)]
    for wall in WALLS:
        made += [
            {"wall": wall, "hand": "right", "closer": True, "panic_bar": True, "mass": False, **more}
            for more in ({}, {"glass": "half"}, {"glass": "full"}, {"fire": True}, {"fire": True, "glass": "half"})
        ]
    return made


def some_plans():
    """Each value of each choice at least once with every wall; small enough to build whole packets of."""
    few = []
    for wall in WALLS:
        few += [
            {"wall": wall},
            {
                "wall": wall,
                "hand": "right",
                "seal": "bead",
                "edges": "edge trim",
                "closer": True,
                "panic_bar": True,
                "limit": "stop",
            },
            {"wall": wall, "kit": False, "mass": False, "glass": "full", "fire": True},
            {"wall": wall, "hand": "right", "kit": False, "closer": True, "glass": "half"},
        ]
    return few


@pytest.fixture(scope="session")
def packets():
    """Whole packets of `some_plans`."""
    from fieldapp.plan import packet

    return [packet.build(plan(**chosen), UNIT, PEOPLE) for chosen in some_plans()]
