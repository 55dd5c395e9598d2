"""Places by brute force: every centre at which any rule can change, and those between, tried rule by rule.

The rules are written here anew, from the contract's words, for one centre at a time; the calculator works with
ranges. No possible place breaks any rule, none is missed.
"""

from itertools import pairwise
from math import cos, floor, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade import layout as module
from fieldapp.trade import layout_places as module_places

NEAR = 1e-6
ALL = ("land", "wall", "between", "keep_clear", "swing")


class Wall:
    """An input, and the corrugation that the calculator found in it."""

    def __init__(self, line):
        self.line = line
        self.answer = module.layout(line, table("layout"), table("profiles"), table("doubt"))
        fit = self.answer["fit"]
        self.flat = fit and (fit["phase"]["value"], fit["pitch"]["value"], fit["outer"]["value"])
        self.width = line["opening"]["width"]
        self.covers, self.needs = line["flange"]["covers"], line["flange"]["needs_land"]

    def land(self, centre, slack):
        """(left, right) flats of the cuts and whether both have the land, by `slack` at most missed."""
        phase, pitch, outer = self.flat
        left, right = centre - self.width / 2, centre + self.width / 2
        n, m = floor((left - phase + slack) / pitch), floor((right - phase + slack) / pitch)
        on_left, on_right = left - phase - n * pitch, phase + m * pitch + outer - right
        return (n, m), all(self.needs - slack <= one <= outer + slack for one in (on_left, on_right))

    def broken(self, centre, slack=0.0):
        """The rules that a centre breaks by more than `slack`."""
        line, left, right = self.line, centre - self.width / 2, centre + self.width / 2
        outmost = left - self.covers, right + self.covers
        found = [] if self.flat is None or self.land(centre, slack)[1] else ["land"]
        if outmost[0] < line["wall_from"] - slack or outmost[1] > line["wall_to"] + slack:
            found.append("wall")
        if "between" in line and (left < line["between"][0] - slack or right > line["between"][1] + slack):
            found.append("between")
        if any(outmost[1] > zone["from"] + slack and outmost[0] < zone["to"] - slack
               for zone in line.get("keep_clear", [])):
            found.append("keep_clear")
        if "swing" in line and not self.swings(centre, line["swing"], slack):
            found.append("swing")
        return found

    def swings(self, centre, swing, slack):
        """Whether the leaf's tip, at every degree it opens to, stays in its clear stretch."""
        side = 1 if swing["hand"] == "left" else -1
        hinge = centre - side * swing["leaf"] / 2
        tips = [hinge + side * swing["leaf"] * cos(swing["opens_to"] * i / 90 * pi / 180) for i in range(91)]
        return min(*tips, hinge) >= swing["clear_from"] - slack and max(*tips, hinge) <= swing["clear_to"] + slack

    def turns(self):
        """Centres at which a rule may change, rising: only where it cannot matter is one left out."""
        line, half = self.line, self.width / 2
        edges = [line["wall_from"] + self.covers, line["wall_to"] - self.covers, *line.get("between", [])]
        edges += [zone[end] + by for zone in line.get("keep_clear", []) for end in ("from", "to")
                  for by in (-self.covers, self.covers)]
        if self.flat:
            phase, pitch, outer = self.flat
            first, last = (floor((line[end] - phase) / pitch) for end in ("wall_from", "wall_to"))
            edges += [phase + n * pitch + by for n in range(first - 1, last + 2)
                      for by in (0, self.needs, outer - self.needs, outer)]
        centres = {edge + by for edge in edges for by in (-half, half)}
        if "swing" in line:
            swing = line["swing"]
            behind = max(0.0, -cos(swing["opens_to"] * pi / 180)) * swing["leaf"]
            centres |= {swing[end] + sign * swing["leaf"] / 2 + by for end in ("clear_from", "clear_to")
                        for sign in (-1, 1) for by in (-behind, 0, behind)}
        return sorted(c for c in centres if line["wall_from"] <= c <= line["wall_to"])


def check(wall):
    possible = [place for place in wall.answer["places"] if place["possible"]]
    for place in possible:
        for centre in (place["from"], place["centre"], place["to"], (place["from"] + place["to"]) / 2):
            assert wall.broken(centre, NEAR) == [], (place, centre)
        # unbroken, and no longer than it is: just beyond either end a rule is broken, or another place begins
        for beyond in (place["from"] - 1e-4, place["to"] + 1e-4):
            others = [one for one in possible if one["from"] - NEAR <= beyond <= one["to"] + NEAR]
            assert wall.broken(beyond) or others
    turns = wall.turns()
    for centre in [*turns, *((a + b) / 2 for a, b in pairwise(turns))]:
        if not wall.broken(centre, -NEAR):
            held = [place for place in possible if place["from"] - NEAR <= centre <= place["to"] + NEAR]
            assert held, f"{centre} breaks no rule and is in no place"
    return possible


def check_refused(wall):
    """Places that land allows with the opening inside the wall, but no centre of theirs keeps all rules."""
    phase, pitch, outer = wall.flat
    line, found = wall.line, {}
    for place in wall.answer["places"]:
        pair, landed = wall.land(place["centre"], NEAR)
        assert landed
        found.setdefault(pair, []).append(place)
    first, last = (floor((line[end] - phase) / pitch) for end in ("wall_from", "wall_to"))
    for n in range(first - 1, last + 2):
        for m in range(n, last + 2):
            equal = (phase + n * pitch + phase + m * pitch + outer) / 2
            if abs(equal - wall.width / 2 - line["wall_from"]) < 1e-4 or abs(
                    equal + wall.width / 2 - line["wall_to"]) < 1e-4:
                continue
            inside = line["wall_from"] < equal - wall.width / 2 and equal + wall.width / 2 < line["wall_to"]
            pair, landed = wall.land(equal, -NEAR)
            if landed and pair == (n, m) and inside:
                assert (n, m) in found
    for places in found.values():
        refused = [place for place in places if not place["possible"]]
        assert len(refused) in (0, len(places))
        assert len(refused) <= 1
        for place in refused:
            broken = wall.broken(place["centre"])
            if broken == wall.broken(place["centre"], NEAR):
                assert place["because"] == [rule for rule in ALL if rule in broken]
            assert place["land_left"] == pytest.approx(place["land_right"], abs=1e-6)
            assert wall.broken(place["from"] - 1e-4)[:1] == wall.broken(place["to"] + 1e-4)[:1] == ["land"]


def tenths(low, high):
    return st.integers(10 * low, 10 * high).map(lambda value: value / 10)


@st.composite
def lines(draw, corrugated=True):
    """A wall of 1 to 9 m with everything that can stand in the way of a door."""
    start = draw(tenths(-3000, 3000))
    end = start + draw(tenths(1000, 9000))
    on_wall = tenths(int(start) - 100, int(end) + 100)
    line = {"wall": draw(st.sampled_from(["corrugated side", "corrugated end"])) if corrugated else "smooth insulated",
            "wall_from": start, "wall_to": end, "opening": {"width": draw(tenths(20, 1500))},
            "flange": {"covers": draw(tenths(0, 80)), "needs_land": draw(tenths(0, 60))}}
    if corrugated:
        pitch = {"corrugated side": 278, "corrugated end": 250}[line["wall"]]
        at = draw(on_wall)
        line["edges"] = [{"at": at, "edge": draw(st.sampled_from(["outer_start", "outer_end"]))},
                         {"at": at + pitch * draw(st.integers(-6, 6)) + draw(tenths(-3, 3)), "edge": "outer_start",
                          "z": draw(st.sampled_from([0, 1900]))}]
    if draw(st.booleans()):
        line["between"] = sorted((draw(on_wall), draw(on_wall)))
    zones = draw(st.lists(st.tuples(on_wall, st.one_of(st.just(0), tenths(0, 700))), max_size=4))
    line["keep_clear"] = [{"from": at, "to": at + long} for at, long in zones]
    if draw(st.booleans()):
        clear = sorted((draw(on_wall), draw(on_wall)))
        line["swing"] = {"hand": draw(st.sampled_from(["left", "right"])), "leaf": draw(tenths(300, 1200)),
                         "opens_to": draw(st.sampled_from([1, 45, 90, 95, 120, 180])),
                         "clear_from": clear[0], "clear_to": clear[1] + 1000}
    if draw(st.booleans()):
        line["wish"] = draw(on_wall)
    return line


@settings(max_examples=150, deadline=None)
@given(lines())
def test_no_possible_place_breaks_a_rule_and_none_is_missed_on_a_corrugation(line):
    wall = Wall(line)
    check(wall)
    check_refused(wall)


@settings(max_examples=150, deadline=None)
@given(lines(corrugated=False))
def test_no_possible_place_breaks_a_rule_and_none_is_missed_on_a_smooth_wall(line):
    wall = Wall(line)
    possible = check(wall)
    assert possible == wall.answer["places"]
    wish = line.get("wish", sum(line.get("between", [line["wall_from"], line["wall_to"]])) / 2)
    away = [abs(place["centre"] - wish) for place in possible]
    assert away == sorted(away)
    for place in possible:
        assert abs(place["centre"] - wish) <= min(abs(place[end] - wish) for end in ("from", "to")) + NEAR


@settings(max_examples=100, deadline=None)
@given(lines())
def test_what_stands_in_each_place(line):
    wall = Wall(line)
    wish = line.get("wish", sum(line.get("between", [line["wall_from"], line["wall_to"]])) / 2)
    keys = []
    for place in wall.answer["places"]:
        assert place["cut_right"] - place["cut_left"] == pytest.approx(wall.width)
        assert place["cut_left"] + place["cut_right"] == pytest.approx(2 * place["centre"], abs=1e-6)
        assert place["from"] <= place["centre"] <= place["to"]
        assert place["balance"] == pytest.approx(place["land_left"] - place["land_right"], abs=1e-6)
        # moved by shift_for_balance both lands are equal
        shift = place["shift_for_balance"]
        assert place["land_left"] + shift == pytest.approx(place["land_right"] - shift, abs=1e-6)
        assert min(place["land_left"], place["land_right"]) >= wall.needs
        assert place["possible"] == (not place["because"])
        # the centre is the point of the range nearest to equal land
        nearest = min(max(place["centre"] + shift, place["from"]), place["to"])
        assert place["centre"] == pytest.approx(nearest, abs=1e-6)
        keys.append((not place["possible"], -round(min(place["land_left"], place["land_right"]), 1),
                     abs(place["centre"] - wish)))
    for one, two in pairwise(keys):
        assert one[:2] < two[:2] or (one[:2] == two[:2] and one[2] <= two[2] + NEAR) or abs(one[1] - two[1]) < 0.11


@pytest.mark.parametrize(
    ("lands", "verdict"),
    [
        ((30, 30), "inside"),
        ((26.9, 30), "too close to call"),
        ((30, 25), "too close to call"),
        ((23.1, 30), "too close to call"),
        ((30, 23), "outside"),
        ((23, 23), "outside"),
    ],
)
def test_one_land_in_doubt_is_enough(lands, verdict):
    # u 1 each, 25 needed: 1.96 u either way
    assert module_places._verdict(list(lands), (1.0, 1.0), 25.0) == verdict
