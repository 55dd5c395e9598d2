"""Cut widths that land on outer flats both sides of the two usual corrugations, and which wall takes which door.

The profiles are from memory (factory group specifications; the arithmetic of pitch closes); the widths were computed
from them by hand: k pitches less the outer flat, to k pitches and the outer flat less both lands.
"""

from itertools import pairwise

import pytest

from fieldapp.work.registry import CALCULATORS

LAND = 25
# side profile 72/68/70, end profile 110/18/104, 25 mm of land: 762-856, 1040-1134; 890-1060
WIDTHS = {"corrugated side": [(762, 856), (1040, 1134)], "corrugated end": [(890, 1060)]}
PITCHES = {"corrugated side": (278, 72), "corrugated end": (250, 110)}


def layout(wall, width, needs=LAND):
    """The answer for a wall of 8 m read at every flat exactly as its profile is drawn."""
    pitch, outer = PITCHES[wall]
    edges = [{"at": 100 + pitch * n + outer * end, "edge": ("outer_start", "outer_end")[end]}
             for n in range(28) for end in (0, 1)]
    answer, problems = CALCULATORS["layout"].answer({
        "wall": wall, "edges": edges, "wall_from": 0, "wall_to": 8000, "opening": {"width": width},
        "flange": {"covers": 50, "needs_land": needs}})
    assert problems == {}
    return answer


@pytest.mark.parametrize(("wall", "low", "high"), [(wall, *one) for wall, widths in WIDTHS.items() for one in widths])
def test_cut_widths_that_land_on_outer_flats_both_sides(wall, low, high):
    for width in (low, (low + high) / 2, high):
        found = layout(wall, width)
        assert [(pytest.approx(low), pytest.approx(high))] == [tuple(one.values()) for one in found["fits"]]
        assert found["short_by"] == 0
        assert any(place["possible"] for place in found["places"])
    for width in (low - 0.1, high + 0.1):
        found = layout(wall, width)
        assert found["places"] == []
        assert (pytest.approx(low), pytest.approx(high)) in [tuple(one.values()) for one in found["fits"]]


def test_37_inches_find_no_place_on_the_side_profile_and_do_on_the_end_profile():
    # check value of the trade (common practice, no source): a width belongs to a door and a wall
    side, end = layout("corrugated side", "37 in"), layout("corrugated end", "37 in")
    assert side["places"] == []
    assert side["short_by"] == pytest.approx(37 * 25.4 - 856)
    assert [(round(one["from"]), round(one["to"])) for one in side["fits"]] == [(762, 856), (1040, 1134)]
    assert any(place["possible"] and place["verdict"] == "inside" for place in end["places"])


def test_a_door_moves_by_whole_pitches():
    # corrugations repeat every 278 mm (common practice, no source): so do the places of a door
    centres = sorted(place["centre"] for place in layout("corrugated side", 800)["places"] if place["possible"])
    assert len(centres) > 20
    steps = [b - a for a, b in pairwise(centres)]
    assert steps == pytest.approx([278] * len(steps))
