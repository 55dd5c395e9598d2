"""The wall's drawing against the answer: px read back are turned into mm by the drawing's own scale bar."""

import json

import numpy as np
import pytest
from svg_read import Drawn

from fieldapp.trade.lengths import say
from fieldapp.work.layout import LONGEST
from fieldapp.work.registry import CALCULATORS

LAYOUT = CALCULATORS["layout"]
SIDE = {
    "wall": "corrugated side", "wall_from": 0, "wall_to": 11800, "opening": {"width": 838, "height": 2093},
    "edges": [{"at": 3100, "edge": "outer_start"}, {"at": 3172, "edge": "outer_end"},
              {"at": 3450, "edge": "outer_end"}, {"at": 3396, "edge": "outer_start", "z": 2093},
              {"at": 4302, "edge": "outer_end", "z": 2093}],
    "flange": {"covers": 50, "needs_land": 20}, "wish": 3600,
    "keep_clear": [{"from": 0, "to": 160, "what": "corner post"}, {"from": 2800, "to": 2860, "what": "gas pipe"}],
    "swing": {"hand": "right", "leaf": 800, "opens_to": 180, "clear_from": 0, "clear_to": 9000}}
SMOOTH = {
    "wall": "smooth insulated", "wall_from": -100, "wall_to": 2180, "opening": {"width": 926, "height": 2040},
    "flange": {"covers": 40, "needs_land": 0}, "keep_clear": [{"from": 1700, "to": 1700, "what": "hinge of a hatch"}]}
INPUTS = {"example": LAYOUT.example, "side": SIDE, "smooth": SMOOTH}


def drawn(line, nth=0):
    answer, problems = LAYOUT.answer(line)
    assert problems == {}
    told, svg = LAYOUT.drawings(line, answer)[nth]
    return answer, Drawn(svg), told


class Back:
    """px turned into mm: along the wall from the datum, up from the sill."""

    def __init__(self, drawing, place):
        (corner, *_), = drawing.lines("cut")
        self.scale, self.corner, self.left = drawing.px_per_mm, corner, place["cut_left"]

    def x(self, px):
        return self.left + (px - self.corner[0]) / self.scale

    def z(self, px):
        return (self.corner[1] - px) / self.scale


@pytest.mark.parametrize("show", ["mm", "in"])
@pytest.mark.parametrize("name", INPUTS)
def test_the_cut_stands_to_scale_and_says_its_figures(name, show):
    line = INPUTS[name] | {"show": show}
    answer, drawing, told = drawn(line)
    place = answer["places"][0]
    back = Back(drawing, place)
    (bl, tl, tr, br), = drawing.lines("cut")
    # a px is written to 0.1, in the picture and in the bar that gives its scale
    near = 0.15 / back.scale + line["opening"]["height"] * 0.1 / drawing.bar
    assert back.x(br[0]) == pytest.approx(place["cut_right"], abs=near)
    assert back.z(tl[1]) == pytest.approx(line["opening"]["height"], abs=near)
    plumb = answer["fit"]["plumb"] if answer["fit"] else None
    lean = plumb["value"] * line["opening"]["height"] / plumb["over"] if plumb else 0
    assert back.x(tl[0]) - place["cut_left"] == pytest.approx(lean, abs=near)
    assert tr[0] - tl[0] == pytest.approx(br[0] - bl[0], abs=0.11)
    stations = [say(place[what], show) for what in ("cut_left", "centre", "cut_right")]
    assert [word for word in drawing.words("stations") if word != "from the datum"] == stations
    assert drawing.words("width") == [say(line["opening"]["width"], show)]
    assert drawing.words("height") == [say(line["opening"]["height"], show)]
    assert stations[0] in told
    assert drawing.clipped() == []
    other = "in" if show == "mm" else "mm"
    assert not any(word.endswith(f"\u00a0{other}") for word in drawing.words())


@pytest.mark.parametrize("name", ["example", "side"])
def test_land_is_a_band_from_slope_to_cut(name):
    answer, drawing, _ = drawn(INPUTS[name])
    place = answer["places"][0]
    back = Back(drawing, place)
    for side, ends in (("left", (place["cut_left"] - place["land_left"], place["cut_left"])),
                       ("right", (place["cut_right"], place["cut_right"] + place["land_right"]))):
        band = drawing.lines(f"land-{side}")[0]
        assert (back.x(band[0][0]), back.x(band[1][0])) == pytest.approx(ends, abs=0.15 / back.scale)
        assert drawing.words(f"land-{side}") == [f"land {say(place[f'land_{side}'], 'mm')}"]


@pytest.mark.parametrize("name", ["example", "side"])
def test_dotted_edges_run_where_the_tape_found_them(name):
    """Against the edges as they were typed, not against the fit: a misfit aside they agree within some mm."""
    line = INPUTS[name]
    answer, drawing, _ = drawn(line)
    back = Back(drawing, answer["places"][0])
    dots = [[(back.x(x), back.z(y)) for x, y in one] for one in drawing.lines("edges")]
    drawn_from, drawn_to = min(one[0][0] for one in dots), max(one[0][0] for one in dots)
    seen = 0
    for edge in line["edges"]:
        z = edge.get("z", 0)
        at = [np.interp(z, [foot[1], head[1]], [foot[0], head[0]]) for foot, head in dots]
        if drawn_from < edge["at"] < drawn_to:
            seen += 1
            assert min(abs(edge["at"] - x) for x in at) < 3
    assert seen >= 2
    profile = line.get("profile", {"outer": 72, "slope": 68, "inner": 70, "depth": 36})
    gaps = np.diff(sorted(one[0][0] for one in dots))
    parts = {profile["outer"], profile["slope"], profile["inner"]}
    assert all(min(abs(gap - one) for one in parts) < 4 for gap in gaps)


def test_the_section_is_as_deep_as_the_sheet():
    for name, depth in (("example", 45.6), ("side", 36)):
        _, drawing, _ = drawn(INPUTS[name])
        heights = [y for one in drawing.lines("section") for _, y in one]
        assert (max(heights) - min(heights)) / drawing.px_per_mm == pytest.approx(depth, abs=0.6)


def test_what_stays_clear_is_hatched_where_it_is():
    answer, drawing, _ = drawn(SIDE)
    back = Back(drawing, answer["places"][0])
    box = drawing.lines("clear")[-1]
    assert (back.x(box[0][0]), back.x(box[1][0])) == pytest.approx((2800, 2860), abs=0.6)
    assert drawing.words("clear") == ["gas pipe"]


def test_the_leaf_and_its_sweep():
    """A right-hand leaf: hinges half a leaf right of the centre; at 180° it lies on the wall beyond them."""
    answer, drawing, _ = drawn(SIDE)
    place = answer["places"][0]
    back = Back(drawing, place)
    (top, hinge, foot), = drawing.lines("swing")
    (foot_left, head_left, _, _), = drawing.lines("cut")
    lean = (head_left[0] - foot_left[0]) / back.scale  # the door follows the corrugation up
    assert back.x(hinge[0]) - lean / 2 == pytest.approx(place["centre"] + 400, abs=0.6)
    assert back.x(foot[0]) == pytest.approx(place["centre"] - 400, abs=0.6)
    assert back.z(top[1]) == pytest.approx(2093, abs=0.6)
    sweep = drawing.lines("sweep")[0]
    assert [back.x(x) for x, _ in sweep] == pytest.approx([place["centre"] - 400, place["centre"] + 1200], abs=0.6)


def test_a_place_that_breaks_a_rule_says_so():
    line = LAYOUT.example | {"between": [1200, 1900]}
    answer, _, told = drawn(line)
    assert not answer["places"][0]["possible"]
    assert "does not serve" in told


def test_no_place_leaves_the_wall_alone():
    answer, drawing, told = drawn(LAYOUT.example | {"opening": {"width": 950, "height": 2000}})
    possible = [place for place in answer["places"] if place["possible"]]
    assert possible or "no place" in told or "does not serve" in told
    answer, drawing, told = drawn(LAYOUT.example | {"opening": {"width": 880, "height": 2000}})
    assert answer["places"] == []
    assert "cut" not in drawing
    assert "no place" in told


def test_every_possible_place_up_to_four_has_its_drawing():
    answer, _ = LAYOUT.answer(SIDE)
    assert sum(place["possible"] for place in answer["places"]) > 4
    shown = LAYOUT.drawings(SIDE, answer)
    assert len(shown) == 4
    for nth in range(4):
        _, drawing, _ = drawn(SIDE, nth)
        assert say(answer["places"][nth]["centre"], "mm") in drawing.words("stations")


@pytest.mark.parametrize("seed", range(12))
def test_walls_of_all_sizes_keep_their_words_in_the_picture(seed):
    rng = np.random.default_rng(seed)
    long = float(rng.choice([1500, 2300, 6000, LONGEST]))
    line = json.loads(json.dumps(SIDE)) | {"wall_to": long, "show": str(rng.choice(["mm", "in"])),
                                           "keep_clear": [{"from": long - 40, "to": long, "what": "corner post"}]}
    line["opening"] = {"width": float(rng.choice([300, 490, 780, 1060])),
                       "height": float(rng.choice([400, 2100, 2900]))}
    line["edges"] = [{"at": float(rng.uniform(0, long)), "edge": "outer_start"}]
    del line["swing"]
    _, drawing, _ = drawn(line)
    assert drawing.clipped() == []
