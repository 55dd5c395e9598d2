"""Where the door may go: the contract's example to its printed digits, verdicts at their limits, and what is said."""

import pytest

from fieldapp.plan.tables import table
from fieldapp.trade import layout as module

EXAMPLE = {
    "wall": "corrugated end",
    "profile": {"outer": 110, "slope": 18, "inner": 104, "depth": 45.6},
    "edges": [
        {"at": 1234, "edge": "outer_start"},
        {"at": 1344, "edge": "outer_end", "u": 1},
        {"at": 1986, "edge": "outer_start", "z": 2000},
    ],
    "wall_from": 0,
    "wall_to": 2260,
    "opening": {"width": 780, "height": 2000},
    "flange": {"covers": 50, "needs_land": 25},
    "between": [400, 1900],
    "keep_clear": [{"from": 0, "to": 60, "what": "corner post"}],
    "wish": 1100,
    "swing": {"hand": "left", "leaf": 750, "opens_to": 95, "clear_from": 0, "clear_to": 2400},
}


def layout(line=EXAMPLE, **more):
    return module.layout(line | more, table("layout"), table("profiles"), table("doubt"))


def without(*names):
    return {key: value for key, value in EXAMPLE.items() if key not in names}


def plain(lines):
    return [line.replace("\u00a0", " ") for line in lines]


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = layout()
    assert {name: {key: round(value, 2 if key == "u" else 1) for key, value in one.items()}
            for name, one in found["fit"].items()} == {
        "pitch": {"value": 250.5, "u": 1.27}, "phase": {"value": 231.8, "u": 5.35},
        "outer": {"value": 110, "u": 1.15}, "plumb": {"value": 0.3, "u": 3.66, "over": 2000}}
    assert round(found["fit"]["plumb"]["u"], 1) == 3.7
    assert found["misfits"] == []
    best = found["places"][0]
    assert {name: round(best[name], 1) for name in ("centre", "from", "to", "cut_left", "cut_right", "land_left",
                                                   "land_right", "balance", "shift_for_balance")} == {
        "centre": 1163.7, "from": 1147.9, "to": 1179.5, "cut_left": 773.7, "cut_right": 1553.7, "land_left": 40.8,
        "land_right": 40.8, "balance": 0, "shift_for_balance": 0}
    assert (round(best["u_left"], 2), round(best["u_right"], 2)) == (2.87, 1.54)
    assert (best["verdict"], best["possible"], best["because"]) == ("inside", True, [])
    refused = next(place for place in found["places"] if not place["possible"])
    assert (round(refused["centre"], 1), refused["because"]) == (662.6, ["between"])
    assert found["short_by"] == 0
    assert [{key: round(value, 1) for key, value in one.items()} for one in found["fits"]] == [
        {"from": 641.7, "to": 811.6}]
    (plumb,) = found["judged"]
    assert (plumb["what"], plumb["from"], plumb["to"]) == ("plumb", -3, 3)
    assert plain(found["say"])[0] == "Cut from 773.7 mm to 1553.7 mm. Land 40.8 mm left, 40.8 mm right."


def test_every_place_of_the_example_in_order():
    # steps of one pitch from 1163.7, all of the same land: possible first, nearer to the wish of 1100, then left
    assert [(round(place["centre"]), place["possible"]) for place in layout()["places"]] == [
        (1164, True), (913, True), (1414, True), (663, False), (1665, False), (412, False)]
    assert layout()["places"][-1]["because"] == ["wall", "between", "keep_clear", "swing"]


def test_the_wish_is_the_middle_of_between_else_of_the_wall():
    centres = [place["centre"] for place in layout(without("wish"))["places"]]
    assert centres == [place["centre"] for place in layout(wish=1150)["places"]]
    centres = [place["centre"] for place in layout(without("wish", "between"))["places"]]
    assert centres == [place["centre"] for place in layout(without("between"), wish=1130)["places"]]


def sure(*, needs=25.0, u=0.5, lean=0.0, width=780.0):
    """A wall whose edges were read at every flat, at sill and head, exactly as they stand."""
    edges = [{"at": 250 * n + 110 * end + lean * z / 2000, "edge": ("outer_start", "outer_end")[end], "u": u, "z": z}
             for n in range(9) for end in (0, 1) for z in (0, 2000)]
    return layout(without("between", "keep_clear", "swing"), edges=edges, wall_to=2400, opening={"width": width},
                  flange={"covers": 50, "needs_land": needs})


@pytest.mark.parametrize(("within", "verdict"), [(1.0, "too close to call"), (1.9, "too close to call"),
                                                 (0.0, "too close to call"), (2.0, "inside"), (4.0, "inside")])
def test_land_near_what_is_needed_is_too_close_to_call(within, verdict):
    # equal land of 40 mm on 250/110 with 780: judged against a need that lies `within` standard uncertainties below
    u = max(sure()["places"][0][side] for side in ("u_left", "u_right"))
    best = sure(needs=40 - within * u)["places"][0]
    assert (best["land_left"], best["land_right"]) == (pytest.approx(40), pytest.approx(40))
    assert best["verdict"] == verdict


def test_a_place_pushed_to_the_edge_of_its_land_is_too_close_to_call_and_says_what_to_read():
    # `between` is as wide as the opening and allows no centre but the least that land allows
    least = layout(without("between"))["places"][0]["from"]
    found = layout(between=[least - 390, least + 390])
    pushed = found["places"][0]
    assert pushed["land_left"] == pytest.approx(25, abs=1e-6)
    assert (pushed["possible"], pushed["verdict"]) == (True, "too close to call")
    assert "Read the edges of the two flats beside the cut" in plain(found["say"])[1]


@pytest.mark.parametrize(("lean", "within", "verdict"), [(0, 3, "inside"), (2.9, 3, "too close to call"),
                                                         (-3, 3, "too close to call"), (3.1, 3, "too close to call"),
                                                         (8, 3, "outside")])
def test_plumb_near_its_limit_is_too_close_to_call(lean, within, verdict):
    (plumb,) = sure(lean=lean)["judged"]
    assert plumb["to"] == within
    assert plumb["estimate"] == pytest.approx(lean, abs=0.05)
    assert plumb["verdict"] == verdict


def test_edges_of_one_height_know_no_plumb():
    edges = [edge | {"z": 1800} for edge in EXAMPLE["edges"]]
    found = layout(edges=edges)
    assert found["fit"]["plumb"] is None
    assert found["judged"] == []


def test_a_place_far_from_what_was_read_is_too_close_to_call():
    # never multiply a nominal pitch: 40 pitches away 3 mm of doubt a pitch is 120 mm
    far = layout(without("between", "keep_clear", "swing", "wish"), wall_to=12_000, edges=EXAMPLE["edges"][:2])
    by_place = sorted(far["places"], key=lambda place: place["centre"])
    assert by_place[-1]["verdict"] == "too close to call"
    assert by_place[-1]["u_right"] > 100
    assert min(far["places"], key=lambda place: abs(place["centre"] - 1300))["verdict"] == "inside"


SMOOTH = without("profile", "edges") | {"wall": "smooth insulated"}


def test_a_smooth_wall_has_whole_ranges_and_no_land():
    found = layout(SMOOTH)
    (place,) = found["places"]
    # between 400 and 1900 with 780: centres 790 to 1510; the wish is 1100
    assert (place["centre"], place["from"], place["to"], place["cut_left"]) == (1100, 790, 1510, 710)
    none = ("land_left", "land_right", "u_left", "u_right", "balance", "shift_for_balance", "verdict")
    assert [place[name] for name in none] == [None] * len(none)
    assert (found["fit"], found["misfits"], found["judged"], found["fits"], found["short_by"]) == (None, [], [], [], 0)
    assert plain(found["say"]) == [
        "Cut from 710 mm to 1490 mm.",
        "The centre may stand anywhere from 790 mm to 1510 mm; this place puts it at 1100 mm."]


def test_a_smooth_wall_takes_a_point_and_leaves_zones_touched():
    # 1000 mm of wall for an opening of 900 with 50 beyond each cut: the middle alone, both flanges touching
    line = SMOOTH | {"wall_to": 1000, "opening": {"width": 900}}
    line = {key: value for key, value in line.items() if key not in ("between", "keep_clear", "swing", "wish")}
    (place,) = layout(line)["places"]
    assert place["from"] == place["centre"] == place["to"] == 500
    # a zone that is a point, under the flange's edge: touching; a hair further in: overlapping
    assert layout(line, keep_clear=[{"from": 1000, "to": 1000}])["places"]
    assert layout(line, keep_clear=[{"from": 999.99, "to": 999.99}])["places"] == []
    assert plain(layout(line, keep_clear=[{"from": 500, "to": 500}])["say"]) == [
        "No place: nothing is left between what must stay clear."]


def test_the_leaf_sweeps_one_leaf_towards_the_latch_and_beyond_the_hinge_past_90_degrees():
    # opens to 120: half a leaf behind the hinge, so with a 700 leaf clear from 0 the hinge stands at 350 or more
    line = {key: value for key, value in SMOOTH.items() if key not in ("between", "keep_clear", "wish")}
    swing = {"hand": "left", "leaf": 700, "opens_to": 120, "clear_from": 0, "clear_to": 2260}
    (place,) = layout(line, swing=swing, opening={"width": 720})["places"]
    assert (place["from"], place["to"]) == (pytest.approx(700), pytest.approx(1850))
    (place,) = layout(line, swing=swing | {"hand": "right"}, opening={"width": 720})["places"]
    assert (place["from"], place["to"]) == (pytest.approx(410), pytest.approx(1560))
    (place,) = layout(line, swing=swing | {"opens_to": 90}, opening={"width": 720})["places"]
    assert place["from"] == pytest.approx(410)


def test_when_none_fits_it_says_by_how_much_and_which_widths_would():
    found = layout(opening={"width": 850})
    assert found["places"] == []
    assert found["short_by"] == pytest.approx(850 - found["fits"][0]["to"])
    words = plain(found["say"])
    assert words[0].startswith("No place: the opening is 38.4 mm too wide")
    assert words[1] == "Widths with land on both sides: 641.7 mm to 811.6 mm, 892.2 mm to 1062.2 mm."
    assert "never bend or crush a corrugation" in words[2]


def test_when_rules_leave_none_it_says_which():
    words = plain(layout(keep_clear=[{"from": 0, "to": 2260}])["say"])
    assert words[0].startswith("No place keeps every rule. The nearest, centre 1163.7 mm: opening or flange overlaps")
    assert plain(layout(wall_to=700)["say"])[0] == "No place: no two flats inside this wall take the opening."


def test_sentences_in_inches():
    found = layout(show="in")
    assert plain(found["say"])[0].startswith("Cut from 30 15/32 in to")
    assert not any("\u00a0mm" in line for line in found["say"])
    assert {key: value for key, value in found.items() if key != "say"} == {
        key: value for key, value in layout().items() if key != "say"}
