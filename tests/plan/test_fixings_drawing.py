"""The drawing of the fixings: every hole read back from the picture, by its own scale bar."""

import pytest
from svg_read import Drawn

from fieldapp.trade.lengths import say
from fieldapp.work.registry import CALCULATORS

FIXINGS = CALCULATORS["fixings"]
SIDE = FIXINGS.example | {"wall": "corrugated side", "opening": {"width": 838, "height": 2080}, "sides": {"pitch": 250},
                          "land": {"left": 35, "right": 33}, "head": {"per_flat": 2, "stand_off": 5}}
SMOOTH = {"wall": "smooth insulated", "opening": {"width": 926, "height": 2040}, "diameter": 4.8, "edge": 20,
          "stack": [{"thickness": 1.5}, {"thickness": 0.8}], "sides": {"count": 2}, "head": {"count": 4}}
INPUTS = {"example": FIXINGS.example, "side": SIDE, "smooth": SMOOTH}


@pytest.mark.parametrize("show", ["mm", "in"])
@pytest.mark.parametrize("name", INPUTS)
def test_every_hole_stands_where_the_answer_has_it(name, show):
    line = INPUTS[name] | {"show": show}
    answer, _ = FIXINGS.answer(line)
    (told, svg), = FIXINGS.drawings(line, answer)
    drawing = Drawn(svg)
    width, height = line["opening"]["width"], line["opening"]["height"]
    (bl, tl, _, br), = drawing.lines("cut")
    scale, near = drawing.px_per_mm, 0.2 / drawing.px_per_mm + height * 0.1 / drawing.bar
    assert ((br[0] - bl[0]) / scale, (bl[1] - tl[1]) / scale) == pytest.approx((width, height), abs=near)
    for place, count in answer["numbers"].items():
        holes = [(hole["across"], hole["up"]) for hole in answer["holes"] if hole["place"] == place]
        rings = [((x - bl[0]) / scale, (bl[1] - y) / scale) for x, y in drawing.circles(f"holes-{place}")]
        assert len(rings) == count
        assert all(ring == pytest.approx(hole, abs=near) for ring, hole in zip(rings, holes, strict=True))
        assert f"{place} {count}" in told
    if "land" in line:
        for band, side in zip(drawing.lines("land")[::2], ("left", "right"), strict=True):
            assert (band[1][0] - band[0][0]) / scale == pytest.approx(line["land"][side], abs=near)
    assert drawing.words("pitch") == [say(answer["spacing"]["sides"], show)]
    assert drawing.words("edge") == [say(20, show)]
    assert drawing.clipped() == []


def test_the_first_to_be_set_are_filled_one_low_on_each_side():
    answer, _ = FIXINGS.answer(SIDE)
    drawing = Drawn(FIXINGS.drawings(SIDE, answer)[0][1])
    filled = [one for one in drawing.root.iter() if one.get("class") == "solid"]
    assert len(filled) == 2
    lowest = max(y for _, y in drawing.circles("holes-sides"))
    assert {float(one.get("cy")) for one in filled} == {lowest}
