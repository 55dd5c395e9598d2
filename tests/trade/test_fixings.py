"""Fixings: holes by brute force over the sheet, numbers, order and rows; each source beside its check."""

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade.fixings import crossed
from fieldapp.work.registry import CALCULATORS

FIXINGS = CALCULATORS["fixings"]
EXAMPLE = FIXINGS.example
SMOOTH = {"wall": "smooth insulated", "opening": {"width": 926, "height": 2040}, "diameter": 4.8, "edge": 20,
          "stack": [{"thickness": 1.5}, {"thickness": 0.8}], "sides": {"pitch": 300}, "head": {"count": 4}}


def made(line):
    answer, problems = FIXINGS.answer(line)
    assert problems == {}
    return answer


def on_inner(profile, starts, x):
    """Whether a point, x from the cut's left edge, lies on an inner flat: straight from the profile."""
    pitch = profile["outer"] + profile["inner"] + 2 * profile["slope"]
    at = (starts + x) % pitch
    return profile["outer"] + profile["slope"] <= at <= pitch - profile["slope"]


@settings(max_examples=150, deadline=None)
@given(wall=st.sampled_from(["corrugated side", "corrugated end"]),
       shares=st.tuples(st.floats(0.35, 1), st.floats(0, 1)), apart=st.integers(1, 6), count=st.integers(1, 4),
       edge=st.integers(10, 30))
def test_head_holes_lie_in_each_inner_flat_that_is_crossed_and_in_no_other(wall, shares, apart, count, edge):
    profile = table("profiles")[wall]
    pitch = profile["outer"] + profile["inner"] + 2 * profile["slope"]
    # both cuts on outer flats, `apart` pitches from each other, as layout leaves them
    left, right = (round(share * profile["outer"]) for share in shares)
    width = apart * pitch + profile["outer"] - left - right
    line = EXAMPLE | {"wall": wall, "opening": {"width": width, "height": 2000}, "edge": edge, "profile": profile,
                      "land": {"left": left, "right": right}, "head": {"per_flat": count}}
    line["profile"] = {name: profile[name] for name in ("outer", "slope", "inner", "depth")}
    answer = made(line)
    flats, before = 0, False
    for x in range(width + 1):  # brute force: every millimetre of the cut
        flats += on_inner(profile, left, x) and not before
        before = on_inner(profile, left, x)
    assert answer["flats_crossed"] == flats
    head = [hole for hole in answer["holes"] if hole["place"] == "head"]
    assert answer["numbers"]["head"] == len(head) == flats * count
    assert all(on_inner(profile, left, hole["across"]) for hole in head)
    assert all(hole["up"] == pytest.approx(2000 + edge) for hole in head)
    assert not any("miss the corrugation" in one or "more than an outer flat" in one for one in answer["say"])
    for side, x in (("left", -edge), ("right", width + edge)):
        assert sum(hole["across"] == pytest.approx(x) for hole in answer["holes"]) == 7, side
        land = next(one for one in answer["judged"] if one["what"] == f"{side}.flat")
        assert land["estimate"] == pytest.approx(line["land"][side] - edge)


@settings(max_examples=150, deadline=None)
@given(height=st.integers(400, 2600), pitch=st.integers(30, 900), end=st.integers(0, 150))
def test_a_pitch_gives_the_fewest_holes_that_keep_it(height, pitch, end):
    answer = made(SMOOTH | {"opening": {"width": 926, "height": height}, "sides": {"pitch": pitch, "end": end}})
    ups = sorted(hole["up"] for hole in answer["holes"] if hole["place"] == "sides" and hole["across"] < 0)
    free = height - 2 * end
    fewest = next(n for n in range(2, 200) if free / (n - 1) <= pitch + 1e-9)  # brute force
    assert len(ups) == fewest
    assert (ups[0], ups[-1]) == pytest.approx((end, height - end))
    assert all(b - a == pytest.approx(free / (fewest - 1)) for a, b in pairwise(ups))
    assert answer["spacing"]["sides"] == pytest.approx(free / (fewest - 1))


def test_spacing_is_the_least_between_any_two_neighbours():
    answer = made(EXAMPLE | {"head": {"per_flat": 3}})
    for name in ("sill", "head"):
        holes = [hole for hole in answer["holes"] if hole["place"] == name]
        least = min(hypot(a["across"] - b["across"], a["up"] - b["up"]) for a in holes for b in holes if a is not b)
        assert answer["spacing"][name] == pytest.approx(least)
    assert made(EXAMPLE | {"head": {}, "opening": {"width": 200, "height": 2000},
                           "land": {"left": 80, "right": 80}})["spacing"]["head"] is None


def test_grip_is_the_measured_stack_and_the_stand_off_at_each_place():
    """Rows 62 to 3.18, 64 to 6.35, 66 to 9.53 mm: US Army TM 10-5410-223-24 para 2-12."""
    answer = made(EXAMPLE | {"stack": [{"thickness": 1.4}, {"thickness": 1.6}], "head": {
        "stack": [{"thickness": 1.4}, {"thickness": 1.6}, {"thickness": 1.5}], "stand_off": {"value": 3, "u": 0.2}}})
    rows = {one["place"]: (one["grip"], one["row"]) for one in answer["at"]}
    assert rows == {"sill": (pytest.approx(4.5), "64"), "sides": (pytest.approx(3.0), "62"),
                    "head": (pytest.approx(7.5), "66")}
    assert {one["row"]: one["places"] for one in answer["order"]} == {"64": ["sill"], "62": ["sides"], "66": ["head"]}


def test_a_stack_at_a_break_between_rows_is_measured_again():
    """1.5 mm flange and 1.6 mm wall with paint, 3.1 to 3.6, straddle the break at 3.18 mm: the same table."""
    answer = made(EXAMPLE | {"stack": [{"thickness": 1.55}, {"thickness": 1.6}]})
    sides = next(one for one in answer["at"] if one["place"] == "sides")
    assert (sides["verdict"], sides["measure_again"]) == ("too close to call", True)
    assert any(one.startswith("Measure the stack again before you order: sides") for one in answer["say"])


def test_one_hole_in_one_inner_flat_is_said_as_one():
    profile = table("profiles")["corrugated end"]
    pitch = profile["outer"] + profile["inner"] + 2 * profile["slope"]
    line = EXAMPLE | {"opening": {"width": pitch - 70, "height": 2000}, "land": {"left": 90, "right": 90},
                      "sides": {"count": 2}, "head": {"per_flat": 1, "stand_off": 60}}
    del line["sill"]
    said = made(line)["say"]
    assert "Head: 1 hole in the one inner flat crossed." in said
    assert any(one.endswith(": 1 hole. Ask the maker for another length.") for one in said)
    assert "Head: 2 holes in the one inner flat crossed." in made(line | {"head": {"per_flat": 2}})["say"]


@pytest.mark.parametrize(("holes", "spare"), [(4, 1), (10, 1), (12, 2), (20, 2), (22, 3)])
def test_one_spare_in_ten(holes, spare):
    answer = made(SMOOTH | {"sides": {"count": holes // 2}, "head": {"count": 2, "stand_off": 5}})
    sides = next(one for one in answer["order"] if one["places"] == ["sides"])
    assert (sides["holes"], sides["spare"], sides["order"]) == (holes, spare, holes + spare)


def test_no_row_is_said():
    answer = made(SMOOTH | {"head": {"count": 4, "stand_off": 40}})
    assert next(one for one in answer["order"] if one["row"] is None)["places"] == ["head"]
    assert any(one.startswith("No row for head") for one in answer["say"])


def test_edge_and_pitch_against_the_handbooks_least():
    """2d from the edge, 3d apart: SOLAS/FAS Sheet Metalwork Phase 2, M1 U12 p. 27; 4.8 mm: 9.6 and 14.4 mm."""
    by = {one["what"]: one for one in made(EXAMPLE)["judged"]}
    assert by["edge"]["from"] == pytest.approx(9.6)
    assert by["sides.pitch"]["from"] == pytest.approx(14.4)
    # a regular head of 3/16 in is at most .394 in across, IFI-114:2003 Table 1 (poor copy): half of it 5.0 mm
    assert by["left.flat"]["from"] == pytest.approx(0.394 * 25.4 / 2, abs=0.01)
    assert any("36 mm" in one.replace("\u00a0", " ") for one in made(EXAMPLE)["say"])  # 24 t of 1.5 mm
    tight = made(EXAMPLE | {"edge": 8})
    assert next(one for one in tight["judged"] if one["what"] == "edge")["verdict"] == "outside"
    assert any(one.startswith("Edge distance: 8") for one in tight["say"])


def test_replacing_and_metals_are_those_of_rivet():
    for hole in (4.95, 5.3):
        line = EXAMPLE | {"replaces": {"hole": hole}, "metals": {"rivet": "aluminium", "sheet": "stainless"}}
        answer = made(line)
        rivet, _ = CALCULATORS["rivet"].answer({name: line[name] for name in (
            "diameter", "stack", "edge", "replaces", "metals")} | {"at": [{"place": "sides"}]})
        assert answer["again"] == rivet["again"]
        assert any("small anode" in one for one in answer["say"])
        assert any("Never a longer rivet" in one for one in answer["say"])


@pytest.mark.parametrize(("land", "word"), [({"left": 60, "right": 60}, "miss the corrugation"),
                                            ({"left": 160, "right": 24}, "more than an outer flat")])
def test_lands_that_cannot_be_are_said_first(land, word):
    assert word in made(EXAMPLE | {"land": land})["say"][0]


def test_published_cut_widths_cross_as_many_flats_as_pitches():
    """k·pitch − outer … k·pitch + outer − 2·land: side 762–856 with k 3, 1040–1134 with 4; end 890–1060 with 4: from
    factory group specifications (from memory).
    """
    for wall, low, high, k in (("corrugated side", 762, 856, 3), ("corrugated side", 1040, 1134, 4),
                               ("corrugated end", 890, 1060, 4)):
        profile = table("profiles")[wall]
        for width in (low, (low + high) / 2, high):
            each = (k * (profile["outer"] + profile["inner"] + 2 * profile["slope"]) + profile["outer"] - width) / 2
            assert crossed(profile, each, each, width) == (k, pytest.approx(0, abs=1e-9))


BARE = {name: value for name, value in EXAMPLE.items() if name != "land"}


@pytest.mark.parametrize(("line", "paths"), [
    (BARE, {"land"}), (SMOOTH | {"land": {"left": 30, "right": 30}}, {"land"}),
    (EXAMPLE | {"sides": {}}, {"sides.count"}), (EXAMPLE | {"sides": {"count": 4, "pitch": 300}}, {"sides.pitch"}),
    (EXAMPLE | {"head": {"count": 4}}, {"head.count"}),
    (SMOOTH | {"head": {"per_flat": 1, "count": 3}}, {"head.per_flat"}),
    (SMOOTH | {"sides": {"count": 3, "end": 1020}}, {"sides.end"}), (SMOOTH | {"sides": {"pitch": 6}}, {"sides.pitch"}),
    (EXAMPLE | {"diameter": 5}, {"rows", "hole"}), (EXAMPLE | {"sides": {"count": 1}}, {"sides.count"}),
    (EXAMPLE | {"opening": {"width": 926}, "sides": 7, "head": None}, {"opening.height", "sides", "head"})])
def test_problems_name_their_fields(line, paths):
    answer, problems = FIXINGS.answer(line)
    assert answer is None
    assert set(problems) == paths
