"""Planned figures: the opening as a sum, against check values and against the calculator; hands; rivets at the head."""

import json

import pytest
from plan.conftest import PEOPLE, UNIT, all_plans, plan

from fieldapp.plan import packet
from fieldapp.plan.choices import read
from fieldapp.plan.dimensions import closing_direction, opening_size, plan_of
from fieldapp.plan.tables import table
from fieldapp.trade import opening
from fieldapp.trade.estimate import answer

IN = 25.4


def one_door(wall, **more):
    """A door 36 1/2 by 80 1/2 in over all, 1/4 in clearance left, right and at the head."""
    return plan(wall=wall, **more) | {
        "frame": {"width": "36 1/2 in", "height": "80 1/2 in"},
        "corners": {"width": 880, "height": 2006},
        "clearance": {"left": "1/4 in", "right": "1/4 in", "head": "1/4 in"},
    }


def test_the_head_kit_and_bulb_seal_make_the_opening_two_inches_taller():
    # Common practice, no source: the same door takes 37 by 80 3/4 in in a smooth wall, 82 3/4 in in an end wall.
    smooth = opening_size(read(one_door("smooth insulated") | {"head_seal": {"kind": "bead", "thickness": 0}}))
    end = opening_size(read(one_door("corrugated end")))
    assert smooth == pytest.approx((37 * IN, 80.75 * IN), abs=0.01)
    assert end == pytest.approx((37 * IN, 82.75 * IN), abs=0.01)


def test_the_sum_is_the_calculators():
    """Two routes: the plan's sum and trade.opening's terms."""
    for chosen in all_plans()[::7]:
        made = read(plan(**chosen))
        seal = (
            {"kind": "bulb", "free_height": made.free_height, "compression": made.compression}
            if made.seal == "bulb"
            else {"kind": "bead", "thickness": made.bead}
        )
        cut = opening.planned(
            {
                "wall": made.wall,
                "frame": {"width": made.frame_width, "height": made.frame_height},
                "clearance": made.clearance,
                "edge_trim": made.edge_trim,
                "head_seal": seal,
                "head_kit": "none" if made.kit == "none" else {"profile": made.kit, "rise": made.rise},
            }
        )
        assert opening_size(made) == pytest.approx((cut["width"], cut["height"]), abs=1e-9)


def test_edge_trim_is_a_term_of_the_width_twice():
    with_trim, without = (opening_size(read(plan(edges=edges))) for edges in ("edge trim", "sealant"))
    assert with_trim[0] - without[0] == pytest.approx(2 * 3)
    assert with_trim[1] == without[1]


def test_a_width_belongs_to_a_door_and_a_wall():
    """Cuts that land on outer flats both sides: k·pitch − outer to k·pitch + outer − 2·land (facts of corrugations)."""

    def lands(profile, width, land=25):
        pitch = profile["outer"] + 2 * profile["slope"] + profile["inner"]
        return any(
            k * pitch - profile["outer"] <= width <= k * pitch + profile["outer"] - 2 * land for k in (1, 2, 3, 4, 5)
        )

    profiles = table("profiles")
    width = 37 * IN  # common practice, no source: finds no place on the side profile and does on the end profile
    assert not lands(profiles["corrugated side"], width)
    assert lands(profiles["corrugated end"], width)


def test_with_a_bulb_seal_the_head_takes_longer_rivets_than_the_sides():
    """Common practice, no source; with sealant alone the same row serves where the stacks agree."""

    def row(name, seal, inputs):
        built = packet.build(plan(seal=seal), UNIT, PEOPLE)
        part = next(sheet["part"] for sheet in built.packet["sheets"] if sheet["name"] == name)
        return answer(json.loads(built.parts[part]), {"inputs": inputs})["row"]

    stack = {"stack.0.thickness": 1.5, "stack.1.thickness": 2.0}
    # 3.5 mm lies in row 64 (3.20 to 6.35), 3.5 + 6.6 in row 68 (9.55 to 12.70): US Army TM 10-5410-223-24, para 2-12
    assert row("rivet_sides", "bulb", stack) == "64"
    assert row("rivet_head", "bulb", stack | {"at.0.stand_off": 6.6}) == "68"
    assert row("rivet_head", "bead", stack) == "64"


def test_the_hand_is_named_for_whoever_makes_the_lock():
    # Geometry: seen from above a left-hand leaf that swings out shuts anti-clockwise.
    assert closing_direction("left") == "anti-clockwise"
    assert closing_direction("right") == "clockwise"
    assert plan_of(read(plan(hand="left"))).texts["us_hand"] == "left-hand reverse"


def test_the_makers_sheet_beats_a_default_and_each_says_where_it_is_from():
    def strip(choices):
        steps = {step["id"]: step for step in packet.build(choices, UNIT, PEOPLE).packet["steps"]}
        return next(field for field in steps["strip"]["fields"] if field["id"] == "strip_left")["expect"]

    assert strip(plan())["origin"] == "D"
    assert "no source" in strip(plan())["source"]
    makers = strip(plan() | {"strip": 6})
    assert (makers["origin"], makers["source"]) == ("M", "maker's sheet T-1")
    assert (makers["from"], makers["to"]) == (4_500_000, 7_500_000)  # 6 ± 1.5 mm
