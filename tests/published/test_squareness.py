"""The frame sheet against published squareness: d1² − d2² = 4·w·h·cos θ (parallelogram law, PlanetMath 3031).

Worked examples: facts of this project, section 12, computed from that identity.
"""

from math import cos, radians, sqrt

import pytest

from fieldapp.trade.estimate import linear
from fieldapp.trade.estimate.chance import chance_inside, phi
from fieldapp.trade.frame import sheet


def estimates(width, height, values):
    """Judged estimates, mm, when every value is read to 0.01 mm with a perfect tape."""
    readings = [{"of": kind, "value": value, "u": 0.01} for kind, value in values.items()]
    given = {"rounds": [{"readings": readings}], "tools": {"tape": 0, "level": 0}}
    made = linear.figures(sheet(width, height, "left"), given)["judged"]
    return {
        item["what"]: figures[0] for item, figures in zip(sheet(width, height, "left")["judged"], made, strict=True)
    }


def parallelogram(width, height, degrees):
    """Diagonals of a parallelogram whose lower left corner has the angle θ, mm."""
    term = 2 * width * height * cos(radians(degrees))
    return sqrt(width**2 + height**2 + term), sqrt(width**2 + height**2 - term)


def test_worked_example_1_an_angle_of_89_9_degrees():
    rising, falling = parallelogram(900, 2100, 89.9)
    assert rising == pytest.approx(2286.175, abs=5e-4)
    assert falling == pytest.approx(2283.288, abs=5e-4)
    sides = {"width_sill": 900, "width_head": 900, "height_left": 2100, "height_right": 2100}
    found = estimates(900, 2100, {"diagonal_bl_tr": rising, "diagonal_tl_br": falling, **sides})
    # the head leans 3.67 mm over the height, that is 900 mm times 0.1° across the head
    assert found["square_head"] == pytest.approx(3.67 * 900 / 2100, abs=0.01)
    assert found["square_head"] == pytest.approx(900 * radians(0.1), abs=0.01)
    assert found["square_sill"] == pytest.approx(found["square_head"], abs=0.01)


@pytest.mark.parametrize(("lean", "differ"), [(1.6, 1.26), (3.2, 2.52), (5.0, 3.94)])
def test_worked_example_2_lean_of_a_jamb_and_difference_of_the_diagonals(lean, differ):
    rows = sheet(914, 2134, "left")["readings"]
    column = {"rack": lean}
    seen = [
        sum(rows[kind]["row"].get(name, 0) * by for name, by in column.items())
        for kind in ("diagonal_bl_tr", "diagonal_tl_br")
    ]
    assert seen[0] - seen[1] == pytest.approx(differ, abs=0.01)


def test_worked_example_3_square_at_the_head():
    rows = sheet(914, 2134, "left")
    square = next(item["row"] for item in rows["judged"] if item["what"] == "square_head")
    rack = 1.6 / square["rack"]
    assert rack == pytest.approx(3.74, abs=0.005)
    assert rack * 2 * rows["readings"]["diagonal_bl_tr"]["row"]["rack"] == pytest.approx(2.94, abs=0.005)


def test_guarded_acceptance_accepts_falsely_at_most_2_3_percent():
    # JCGM 106:2012 8.3.2, seen as cited in facts section 9: w = U = 2u inside one limit
    u, limit = 0.5, 1.6
    at_guard = chance_inside(limit - 2 * u, u, None, limit)
    assert 1 - at_guard == pytest.approx(0.0228, abs=5e-5)
    assert at_guard == pytest.approx(phi(2.0), abs=1e-15)
