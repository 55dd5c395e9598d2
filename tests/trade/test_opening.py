"""The opening: the contract's example, the check values of common practice, explanations by brute force."""

from itertools import combinations
from math import cos, hypot, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade import opening

PLAN = {
    "wall": "corrugated end",
    "frame": {"width": 914, "height": 2030},
    "clearance": {"left": 6, "right": 6, "head": 6, "sill": 0},
    "head_kit": {"profile": "straight", "rise": 50.8},
    "head_seal": {"kind": "bulb", "free_height": 12, "compression": 45},
    "edge_trim": 0,
    "tolerance": 3,
}
FIGURES = {
    "drawing": {"width": 926, "height": 2042.6},
    "measured": {"frame_width": 915, "frame_height": 2030},
    "cut": {
        "width_head": 926,
        "width_mid": 926,
        "width_sill": 925,
        "height_left": 2093,
        "height_right": 2094,
        "diagonal_bl_tr": 2289,
        "diagonal_tl_br": 2288,
    },
}


def made(**more):
    return opening.opening(PLAN | more, table("opening"), table("doubt"))


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = made(**FIGURES)
    assert found["cut"] == {"width": 926, "height": 2093.4}
    assert found["width_terms"] == [
        {"term": "frame", "mm": 914},
        {"term": "clearance_left", "mm": 6},
        {"term": "clearance_right", "mm": 6},
        {"term": "edge_trim", "mm": 0},
    ]
    assert found["height_terms"] == [
        {"term": "frame", "mm": 2030},
        {"term": "clearance_head", "mm": 6},
        {"term": "clearance_sill", "mm": 0},
        {"term": "head_kit", "mm": 50.8},
        {"term": "head_seal", "mm": 6.6},
    ]
    assert found["differences"][1] == {
        "of": "drawing.height",
        "by": -50.8,
        "u": 0,
        "verdict": "outside",
        "explained_by": [{"term": "head_kit", "how": "left out"}],
        "left_over": 0,
    }
    assert found["trim"] == {"width_head": 0, "width_mid": 0, "width_sill": 1, "height_left": 0.4, "height_right": 0}
    assert round(found["rack"], 2) == 1.24
    assert {side: round(room, 2) for side, room in found["square_room"].items()} == {"width": 8.76, "height": 63}
    assert found["say"][0].replace("\u00a0", " ") == "Cut 926 mm wide and 2093.4 mm high."
    assert (
        [one["of"] for one in found["differences"]]
        == [one["what"] for one in found["judged"]]
        == [
            "drawing.width",
            "drawing.height",
            "measured.frame_width",
            "measured.frame_height",
            "cut.width_head",
            "cut.width_mid",
            "cut.width_sill",
            "cut.height_left",
            "cut.height_right",
        ]
    )


def test_the_kit_and_the_bulb_seal_make_two_inches():
    # common practice, no source: in an end wall 82 3/4 in against 80 3/4 in high in a smooth wall, 37 in wide
    door = {
        "frame": {"width": 36.5 * 25.4, "height": 80.5 * 25.4},
        "edge_trim": 0,
        "clearance": {"left": 6.35, "right": 6.35, "head": 6.35, "sill": 0},
    }
    bulb = {"kind": "bulb", "free_height": 12, "compression": 45}
    smooth = made(**door, wall="smooth insulated", head_kit="none", head_seal="none")
    end = made(**door, head_kit={"profile": "straight", "rise": 2 * 25.4 - 6.6}, head_seal=bulb)
    assert smooth["cut"] == {"width": pytest.approx(37 * 25.4), "height": pytest.approx(80.75 * 25.4)}
    assert end["cut"]["height"] == pytest.approx(82.75 * 25.4)
    bead = made(
        **door, head_kit={"profile": "straight", "rise": 2 * 25.4 - 6.6}, head_seal={"kind": "bead", "thickness": 3}
    )
    assert end["cut"]["height"] - bead["cut"]["height"] == pytest.approx(6.6 - 3)


def test_edge_trim_counts_twice():
    assert made(edge_trim=1.5)["cut"]["width"] == 929


def test_rack_of_published_diagonals():
    # worked example computed from d1^2 - d2^2 = 4 w h cos(theta), PlanetMath object 3031: 900 x 2100 at 89.9 degrees
    # has diagonals 2286.175 and 2283.288 (to 0.001 mm, which leaves 0.001 mm in the lean), lean h cos(theta) 3.67 mm
    cut = {"width_head": 900, "width_sill": 900, "diagonal_bl_tr": 2286.175, "diagonal_tl_br": 2283.288}
    assert made(cut=cut)["rack"] == pytest.approx(2100 * cos(radians(89.9)), abs=0.002)
    # 38 x 83 in with equal diagonals of 91.285 in is square
    square = {"width_head": 965.2, "diagonal_bl_tr": 91.285 * 25.4, "diagonal_tl_br": 91.285 * 25.4}
    assert hypot(38, 83) == pytest.approx(91.285, abs=5e-4)
    assert made(cut=square)["rack"] == 0


def test_what_is_missing_is_null_or_left_out():
    found = made()
    assert (found["differences"], found["judged"], found["trim"], found["rack"]) == ([], [], {}, None)
    assert found["square_room"] == {"width": None, "height": None}
    assert made(cut={"width_mid": 930})["square_room"] == {"width": None, "height": None}
    # the frame as drawn stands in where it was not measured
    tight = made(cut={"height_left": 2093})
    assert tight["square_room"]["height"] == 63
    assert "The frame has 63 mm of room in height." in [one.replace("\u00a0", " ") for one in tight["say"]]
    small = made(cut={"height_left": 2019.3}, show="in")["say"]  # 10.7 mm is 13.48/32 in
    assert "The frame does not go in: it lacks 13/32 in of height." in [one.replace("\u00a0", " ") for one in small]


def test_the_frames_own_figures_are_judged_against_the_door_and_not_explained():
    found = made(measured={"frame_height": 2030 - 50.8})
    assert found["differences"] == [
        {
            "of": "measured.frame_height",
            "by": -50.8,
            "u": 0.6,
            "verdict": "outside",
            "explained_by": [],
            "left_over": -50.8,
        }
    ]


def explained(by, u, terms):
    """The contract's rule by brute force over all sets of one or two terms."""
    sets = [s for count in (1, 2) for s in combinations([t for t in terms if t["mm"]], count)]
    fits = [
        (len(s), round(abs(by - sign * sum(t["mm"] for t in s)), 6), order, sign, s)
        for order, s in enumerate(sets)
        for sign in (-1, 1)
        if abs(by - sign * sum(t["mm"] for t in s)) <= max(1, 2 * u) + 1e-9
    ]
    if not fits:
        return []
    _, _, _, sign, chosen = min(fits, key=lambda fit: fit[:3])
    return [{"term": t["term"], "how": "left out" if sign < 0 else "counted twice"} for t in chosen]


@settings(max_examples=150, deadline=None)
@given(st.integers(-160, 160), st.sampled_from([0, 0.3, 1.2, 4]), st.integers(0, 8))
def test_explanations_by_brute_force(halves, u, sill):
    plan = PLAN | {"clearance": {"left": 6, "right": 7, "head": 6, "sill": sill}, "edge_trim": 2}
    planned = opening.planned(plan)
    drawing = {side: {"value": planned[side] + halves / 2, "u": u} for side in ("width", "height")}
    found = opening.opening(plan | {"drawing": drawing}, table("opening"), table("doubt"))
    for one, side in zip(found["differences"], ("width", "height"), strict=True):
        wanted = explained(halves / 2, u, found[f"{side}_terms"][1:]) if abs(halves / 2) > 3 else []
        assert one["explained_by"] == wanted
        if not wanted:
            assert one["left_over"] == one["by"] == halves / 2


def test_two_terms_and_counting_twice():
    height = made()["cut"]["height"]
    both = made(drawing={"height": height - 50.8 - 6.6})["differences"][0]
    assert both["explained_by"] == [{"term": "head_kit", "how": "left out"}, {"term": "head_seal", "how": "left out"}]
    twice = made(drawing={"height": height + 50.8})["differences"][0]
    assert twice["explained_by"] == [{"term": "head_kit", "how": "counted twice"}]
    neither = made(drawing={"height": height - 30})["differences"][0]
    assert (neither["explained_by"], neither["left_over"]) == ([], pytest.approx(-30))


@pytest.mark.parametrize(
    ("wall", "kit", "wanted"),
    [
        ("corrugated side", "angled", None),
        ("corrugated side", "straight", "angled"),
        ("corrugated end", "straight", None),
        ("corrugated end", "angled", "straight"),
        ("smooth insulated", "angled", "none"),
    ],
)
def test_which_kit_suits_which_wall(wall, kit, wanted):
    assert opening.kit_fits(wall, {"profile": kit, "rise": 40}) == wanted
    assert opening.kit_fits(wall, "none") is None
