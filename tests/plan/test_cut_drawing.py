"""The cut sheet's drawing against its answer: px turned into mm by the bars of its two views."""

from math import atan2, degrees

import pytest
from svg_read import Drawn

from fieldapp.trade.lengths import NM_PER_MM, read, say
from fieldapp.work.registry import CALCULATORS

CUT = CALCULATORS["cut"]
SIDE = CUT.example | {"wall": "corrugated side", "cut": {"width": 838, "height": 2080}, "starts": 45, "thickness": 1.6,
                      "tabs": {"count": 1, "width": 50}}
SMOOTH = {"wall": "smooth insulated", "cut": {"width": 926, "height": 2040},
          "layers": [{"thickness": 0.6, "density": 7850}]}
LOW = CUT.example | {"cut": {"width": 1800, "height": 600}}
INPUTS = {"example": CUT.example, "side": SIDE, "smooth": SMOOTH, "low": LOW}


def drawn(line):
    answer, problems = CUT.answer(line)
    assert problems == {}
    (told, svg), = CUT.drawings(line, answer)
    return answer, Drawn(svg), told


@pytest.mark.parametrize("show", ["mm", "in"])
@pytest.mark.parametrize("name", INPUTS)
def test_cut_tabs_bridge_and_hole_stand_to_scale(name, show):
    line = INPUTS[name] | {"show": show}
    answer, drawing, told = drawn(line)
    width, height = line["cut"]["width"], line["cut"]["height"]
    scale, near = drawing.px_per_mm, 0.2 / drawing.px_per_mm + height * 0.1 / drawing.bar
    (bl, tl, _, br), = drawing.lines("cut")
    assert (br[0] - bl[0]) / scale == pytest.approx(width, abs=near)
    assert (bl[1] - tl[1]) / scale == pytest.approx(height, abs=near)
    pieces = [*((one, bl[1]) for one in answer["tabs"]), (answer["bridge"], tl[1])]
    for (start, end), (one, y) in zip(drawing.lines("left"), pieces, strict=True):
        ends = [(start[0] - bl[0]) / scale, (end[0] - bl[0]) / scale]
        assert ends == pytest.approx([one["from"], one["to"]], abs=near)
        assert start[1] == y
    ring, = drawing.circles("hole")
    assert ((ring[0] - bl[0]) / scale, (bl[1] - ring[1]) / scale) == pytest.approx(
        (answer["hole"]["across"], answer["hole"]["up"]), abs=near)
    assert drawing.words("width") == [say(width, show)]
    assert drawing.words("height") == [say(height, show)]
    assert drawing.clipped() == []
    assert say(width, show) in told


def test_numbers_are_those_of_the_sequence():
    answer, drawing, _ = drawn(CUT.example)
    for number, one in enumerate(answer["sequence"], 1):
        if f"number-{one['do']}" in drawing:
            assert set(drawing.words(f"number-{one['do']}")) == {str(number)}
    assert {"number-rig", "number-sill", "number-sides", "number-head", "number-bridge", "number-tabs"} <= set(
        drawing.groups)


@pytest.mark.parametrize("name", ["example", "side"])
def test_it_leans_as_far_as_the_answer_says_and_reaches_as_far_as_it_is_high(name):
    answer, drawing, _ = drawn(INPUTS[name])
    for way, sign in (("out", 1), ("in", -1)):
        (foot, end), = drawing.lines(f"past-{way}")
        leaned = degrees(atan2(sign * (end[0] - foot[0]), foot[1] - end[1]))
        low = answer["panel"][f"falls_{way}_past"]["low"]
        assert leaned == pytest.approx(low, abs=0.05)
        assert drawing.words(f"past-{way}") == [f"{low:.1f}°"]
    bar, = drawing.lines("scale-side")
    long = read(drawing.words("scale-side")[0].split(",")[0]) / NM_PER_MM
    arc, = drawing.lines("reach")
    assert (arc[0][0] - arc[-1][0]) / 2 * long / (bar[2][0] - bar[1][0]) == pytest.approx(
        answer["panel"]["reach"], rel=0.003)


def test_no_angles_are_drawn_where_none_can_be_given():
    heavy_tabs = LOW | {"thickness": 6, "tabs": {"count": 4, "width": 100}}
    assert CUT.answer(heavy_tabs)[0]["panel"]["falls_out_past"]["low"] is None
    for line in (SMOOTH, heavy_tabs):
        _, drawing, _ = drawn(line)
        assert not {"past-in", "past-out"} & set(drawing.groups)
    assert "edges" not in drawn(SMOOTH)[1]
