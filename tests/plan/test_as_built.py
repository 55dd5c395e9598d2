"""The frame as it stands and the moves drawn on it, read back from the picture."""

import re
import xml.etree.ElementTree as ET

import pytest

from fieldapp.plan import as_built
from fieldapp.plan.move_arrows import Move, places
from fieldapp.trade import frame_moves

# A picture's corners, y down, as an upright frame has them.
CORNER = {"bl": (130.0, 404.0), "br": (274.0, 404.0), "tl": (130.0, 84.0), "tr": (274.0, 84.0)}
FAULTS = {"plumb_left": 5.0, "plumb_right": 5.0, "square_head": 0.0}


def drawn(moves, after=None):
    return as_built.drawing(915.0, 2030.0, "left", FAULTS, "5 mm out of plumb", moves, after)


def points(svg, kind):
    path = re.search(rf'<path class="{kind}"[^>]* d="(M[^"]*Z)"', svg)[1]
    return [tuple(map(float, pair.split())) for pair in re.split("[MLZ]", path) if pair]


@pytest.mark.parametrize("do", frame_moves.DOES)
def test_every_correction_has_its_place(do):
    """At the corner, jamb or head that its name says, outside the opening, and going the way that its name says."""
    found = places(CORNER, do)
    assert found
    for (x, y), way in found:
        assert way in {"raise": ["up"], "lower": ["down"]}.get(do.split("_")[0], ["left", "right", "in", "out"])
        if do.endswith(("_bl", "_br")):
            assert (x < 130) == do.endswith("_bl")
            assert y > 300
        if do.startswith("push_head"):
            assert 130 < x < 274
            assert y < 84
            assert do.endswith(way)
        if do.startswith("twist"):
            assert (x < 130) == ("left" in do)
            assert do.endswith(way)


def test_spreading_pulls_both_jambs_apart():
    (left, right), (closing, back) = places(CORNER, "spread_mid"), places(CORNER, "close_mid")
    assert (left[1], right[1]) == ("left", "right")
    assert (closing[1], back[1]) == ("right", "left")
    assert left[0][0] < 130 < 274 < right[0][0]


def test_what_is_not_known_has_no_place():
    assert places(CORNER, "lift_the_house") == []


def test_each_move_has_its_number_and_how_far():
    svg = drawn([Move("push_head_left", 5.0, made=True), Move("twist_left_out", 3.0)])
    ET.fromstring(svg)
    groups = re.findall(r'<g class="(chalk[^"]*)">(.*?)</g>', svg)
    assert [re.findall(r">([^<]+)</text>", inner) for _, inner in groups] == [["1", "5\u00a0mm"], ["2", "3\u00a0mm"]]
    assert [kind for kind, _ in groups] == ["chalk made", "chalk"]


def test_five_millimetres_out_of_plumb_are_drawn_to_the_factor_and_gone_after_the_move():
    """Over 2030 mm drawn 320 px high, 5 mm to the right are 5 times the factor times 320/2030 px."""
    svg = drawn([Move("push_head_left", 5.0)], {"plumb_left": 0.0, "plumb_right": 0.0, "square_head": 0.0})
    times = int(re.search(r"drawn ×(\d+)", svg)[1])
    foot, head = points(svg, "ink")[:2]
    assert head[0] - foot[0] == pytest.approx(5 * times * 320 / 2030, abs=0.11)
    foot, head = points(svg, "chalk")[:2]
    assert head[0] == pytest.approx(foot[0], abs=0.11)


def test_without_moves_nothing_is_said_of_what_comes_after():
    assert "chalk" not in drawn(None)
    assert "chalk" not in drawn([])
