"""The linear estimate against scipy's least squares over exact 3-D geometry, prior and tool errors included.

House and contract: within 0.1 mm of each other for faults up to 15 mm. The exact model is tests/frame_world.py, which
shares nothing with the calculator. FIELDAPP_FRAMES=1000 compares a thousand.
"""

import os

import numpy as np
import pytest
from frame_world import LEVELS, OWN, TAPES, USUAL, Frame, frame
from scipy.optimize import least_squares

from fieldapp.trade.estimate.linear_judged import judged
from fieldapp.trade.estimate.linear_table import make
from fieldapp.trade.estimate.linear_update import now
from fieldapp.trade.frame import sheet

FRAMES = int(os.environ.get("FIELDAPP_FRAMES", "60"))
PRIOR = {"turn": 8, "rack": 8, "ws": 1.5, "wh": 1.5, "hl": 1.5, "hr": 1.5, "lean": 8, "twist": 8, "bow": 2}
SIZES = ((914.0, 2057.0, "left"), (780.0, 2000.0, "right"), (1000.0, 2134.0, "left"))


def exact_fit(one, readings):
    """Judged quantities at the least-squares solution over exact geometry, mm."""
    names = [*PRIOR, "tape", *LEVELS]
    spread = np.array([*PRIOR.values(), 0.25, *([0.29] * len(LEVELS))])

    def world(x):
        value = dict(zip(names, x * spread, strict=True))
        return Frame(None, one.width, one.height, one.hinge, {name: value[name] for name in PRIOR}), value

    def residuals(x):
        at, value = world(x)
        made = []
        for reading in readings:
            kind = reading["of"]
            said = at.exact(kind)
            if kind in TAPES:
                said += value["tape"] * (at.exact(kind)) / 1000
            elif kind in LEVELS:
                said += value[kind] * (at.width if kind.startswith("level") else at.height) / 1000
            made.append((reading["value"] - said) / OWN[kind])
        return np.concatenate([made, x])

    found = least_squares(residuals, np.zeros(len(names)), method="lm", xtol=1e-10, ftol=1e-10)
    return world(found.x)[0].truth()


@pytest.fixture(scope="module")
def differences():
    """Largest difference of each quantity over the frames, mm."""
    most = {}
    rng = np.random.default_rng(20261125)
    for at in range(FRAMES):
        width, height, hinge = SIZES[at % len(SIZES)]
        one = frame(rng, faults=5.0, built=1.0, width=width, height=height, hinge=hinge)
        one.fault = {name: float(np.clip(value, -15, 15)) for name, value in one.fault.items()}
        readings = one.round(USUAL)
        table = make(sheet(width, height, hinge), {"rounds": [{"readings": readings}]})
        exact = exact_fit(one, readings)
        for item in judged(table, now(table)):
            most[item.what] = max(most.get(item.what, 0.0), abs(item.estimate - exact[item.what]))
    return most


def test_linear_rows_agree_with_exact_geometry(differences):
    print({what: round(value, 4) for what, value in differences.items()}, "mm over", FRAMES, "frames")
    assert len(differences) == 7
    assert all(value < 0.1 for value in differences.values()), differences
