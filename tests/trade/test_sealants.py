"""Sealant: the contract's example, volumes by drawing points, verdicts near every limit."""

from math import ceil

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from fieldapp.plan.tables import table
from fieldapp.trade import sealants

SILL = {"where": "sill", "shape": "rectangle", "length": 926, "width": 8, "depth": 6, "opens": 0.4, "closes": 0.4}
EXAMPLE = {
    "joints": [
        SILL,
        {"where": "head", "shape": "fillet", "length": 926, "width": 10, "depth": 10},
        {"where": "rivets", "shape": "bead", "length": 600, "width": 6},
    ],
    "class": 25,
    "build": 1,
    "cartridge": 300,
    "waste": 15,
}


def made(**more):
    return sealants.sealant(EXAMPLE | more, table("sealant"))


def one(grade=25, **more):
    """(answer, {what: judged}) of the sill alone."""
    found = made(joints=[SILL | more], **{"class": grade})
    return found, {line["what"].partition(".")[2]: line for line in found["judged"]}


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = made()
    first = found["joints"][0]
    assert round(first["volume"], 1) == 44.4
    assert first == first | {
        "where": "sill", "movement": {"opens": 5, "closes": 5}, "width_needed": 2.6, "depth_wanted": 6,
    }
    assert [round(found[name], 1) for name in ("volume", "with_waste")] == [107.7, 123.9]
    assert found["cartridges"] == 1
    assert [(line["what"], line["from"], line["to"]) for line in found["judged"]] == [
        ("sill.opens", None, 25),
        ("sill.closes", None, 25),
        ("sill.width", 6, None),
        ("sill.depth", 6, 13),
    ]
    for other in found["joints"][1:]:
        assert (other["movement"], other["width_needed"], other["depth_wanted"]) == (None, None, None)


@pytest.mark.parametrize(
    ("shape", "inside"),
    [
        ("rectangle", lambda x, y: (x >= 0) & (y >= 0)),
        ("fillet", lambda x, y: x / 9 + y / 5 <= 1),
        ("bead", lambda x, y: (x - 4.5) ** 2 + (y - 4.5) ** 2 <= 4.5**2),
    ],
)
def test_sections_by_counting_squares(shape, inside):
    wide, deep, step = 9, 9 if shape == "bead" else 5, 0.01
    x, y = np.meshgrid(np.arange(step / 2, wide, step), np.arange(step / 2, deep, step))
    assert sealants.section(shape, 9, 5) == pytest.approx(inside(x, y).sum() * step**2, rel=2e-3)


def test_heat_moves_both_ways_and_has_steel_as_usual():
    hot, _ = one(thermal={"length": 2100, "change": 60, "alpha": 24}, opens=0.2, closes=0)
    grown = 2100 * 60 * 24e-6
    assert hot["joints"][0]["movement"] == {
        "opens": pytest.approx(100 * (0.2 + grown) / 8), "closes": pytest.approx(100 * grown / 8),
    }
    assert hot["joints"][0]["width_needed"] == pytest.approx(100 * (0.2 + grown) / 25 + 1)
    plain, _ = one(thermal={"length": 2100, "change": 60}, opens=0, closes=0)
    assert plain["joints"][0]["movement"]["opens"] == pytest.approx(100 * 2100 * 60 * 12e-6 / 8)


def test_a_joint_that_does_not_move_has_no_movement():
    still, judged = one(opens=0, closes=0)
    assert (still["joints"][0]["movement"], still["joints"][0]["width_needed"]) == (None, None)
    assert list(judged) == ["width", "depth"]
    fillet = made(joints=[{"where": "a", "shape": "fillet", "length": 9, "width": 5, "depth": 5, "closes": 1}])
    assert [line["what"] for line in fillet["judged"]] == ["a.opens", "a.closes", "a.width"]
    assert fillet["judged"][2]["verdict"] == "outside"


@pytest.mark.parametrize("z", [-4, -1.97, -1.9, 0, 1.9, 1.97, 4])
@pytest.mark.parametrize("way", ["opens", "closes"])
def test_a_movement_near_its_class_is_too_close_to_call(way, z):
    share = 0.02  # u of the width over the width: the movement's u is the same share of it
    movement = 25 / (1 + z * share)
    _, judged = one(**{"opens": 0, "closes": 0, way: movement * 8 / 100, "width": {"value": 8, "u": 8 * share}})
    word = "inside" if z >= 1.97 else "outside" if z <= -1.97 else "too close to call"
    assert judged[way]["u"] == pytest.approx(movement * share)
    assert judged[way]["verdict"] == word
    assert judged[way]["chance_inside"] == pytest.approx(norm.cdf(z), abs=1e-9)


@pytest.mark.parametrize("z", [-4, -1.97, -1.9, 0, 1.9, 1.97, 4])
def test_a_width_and_a_depth_near_their_limits_are_too_close_to_call(z):
    word = "inside" if z >= 1.97 else "outside" if z <= -1.97 else "too close to call"
    width = one(width={"value": 6 + z * 0.3, "u": 0.3})[1]["width"]
    low = one(depth={"value": 6 + z * 0.3, "u": 0.3})[1]["depth"]
    high = one(depth={"value": 13 - z * 0.3, "u": 0.3})[1]["depth"]
    assert [width["verdict"], low["verdict"], high["verdict"]] == [word] * 3


@pytest.mark.parametrize(("grade", "opens"), [(12.5, 1.0), (25, 2.0), (35, 2.8), (50, 4.0), ("100/50", 8.0)])
def test_without_doubt_a_limit_reached_is_inside(grade, opens):
    assert one(grade, opens=opens, closes=0)[1]["opens"]["verdict"] == "inside"
    assert one(grade, opens=opens + 0.001, closes=0)[1]["opens"]["verdict"] == "outside"


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 60), st.integers(1, 300))
def test_cartridges_are_whole_and_never_too_few(count, tenths):
    size = tenths / 10
    assert sealants.cartridges(count * size, size) == count
    assert sealants.cartridges(count * size * (1 + 1e-6), size) == count + 1
    assert sealants.cartridges(count * size * 0.7, size) == ceil(round(count * 0.7, 6))


@settings(max_examples=60, deadline=None)
@given(st.floats(0.01, 100))
def test_wanted_depth_is_half_the_width_within_its_limits(width):
    assert one(width=width)[0]["joints"][0]["depth_wanted"] == np.clip(width / 2, 6, 13)


def test_what_it_says():
    said = " ".join(made()["say"]).replace("\u00a0", " ")
    assert "1 cartridge of 300 mL: 107.7 mL in the joints, 123.9 mL with waste." in said
    for cure in ({}, {"cure": "neutral"}, {"cure": "acid"}):
        said = " ".join(made(**cure)["say"])
        assert "attacks zinc and bare steel" in said
        assert "The coat comes before the seal" in said
        assert "hours before water" in said
    assert "Take a neutral cure here" in " ".join(made(cure="acid")["say"])
    narrow = " ".join(one(width=7, opens=1.7)[0]["say"]).replace("\u00a0", " ")
    # 1.7 mm of 7 mm is 24.3 %, inside; 100·1.7/25 + 1 is 7.8 mm
    assert "Sill: with what building takes, it should be 7.8 mm wide; it is 7 mm." in narrow
    wide = one(opens=3)[0]["say"][0].replace("\u00a0", " ")
    assert wide.startswith("Sill: opens by 37.5 % of its width, the class takes 25 %. Make it 13 mm wide")
