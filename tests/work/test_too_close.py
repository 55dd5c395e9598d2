"""A figure within its own uncertainty of a limit is *too close to call*: held for every judged of every calculator.

Each judged quantity has a knob: an input that moves it across its limit. The knob is turned until the estimate stands
k standard uncertainties off it; what must be said there is the normal distribution's own (statistics.NormalDist):
97.5 % lies below 1.96, so up to 1.9 either way nothing is settled, and from 2.05 on it is.
"""

import copy
from functools import cache
from statistics import NormalDist

import pytest

from fieldapp.work.registry import CALCULATORS

CLOSE, FAR = (-1.9, -1.0, -0.3, 0.0, 0.3, 1.0, 1.9), 2.05
NORMAL = NormalDist()
OFFER = ("inside", "too close to call", "outside")

FRAME = {"frame": {"width": 914, "height": 2057, "hinge": "left"},
         "rounds": [{"readings": [
             *({"of": name, "value": 2250.95} for name in ("diagonal_bl_tr", "diagonal_tl_br") for _ in range(3)),
             *({"of": f"width_{where}", "value": 914} for where in ("sill", "head", "mid") for _ in range(6)),
             *({"of": f"height_{side}", "value": 2057} for side in ("left", "right") for _ in range(3)),
             *({"of": name, "value": 0, "reversed": True} for name in (
                 "plumb_left", "plumb_right", "lean_left", "lean_right", "level_sill", "level_head") for _ in range(3)),
             *({"of": "string_gap", "value": 0} for _ in range(3))]}]}
SEALANT = CALCULATORS["sealant"].example
RIVET = CALCULATORS["rivet"].example
OPENING = CALCULATORS["opening"].example
LAYOUT = CALCULATORS["layout"].example
FIXED = CALCULATORS["fixings"].example


def put(base, path, value):
    """A copy of a line with one place of it set."""
    line = copy.deepcopy(base)
    at = line
    *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in way:
        at = at[step]
    at[last] = value
    return line


def moved(*kinds):
    """A frame in which all readings of these kinds {kind: share} move by t."""
    shares = dict(kinds)

    def made(t):
        line = copy.deepcopy(FRAME)
        for one in line["rounds"][0]["readings"]:
            one["value"] += t * shares.get(one["of"], 0)
        return line
    return made


# (calculator, judged what): (the line for a value of the knob, from, to); the estimate rises or falls all the way
KNOBS = {
    ("stance", "spread"): (lambda t: put(CALCULATORS["stance"].example, "corners.near_right", -t), 3, 40),
    ("stance", "warp"): (lambda t: put(CALCULATORS["stance"].example, "corners.near_right", -t), 3, 40),
    ("layout", "plumb"): (lambda t: LAYOUT | {"edges": [
        {"at": 1234 + part + t * (z > 0), "edge": edge, "z": z, "u": 0.5} for z in (0, 2000)
        for part, edge in ((0, "outer_start"), (110, "outer_end"), (500, "outer_start"), (610, "outer_end"))]}, 0, 8),
    ("frame", "square_head"): (moved(("level_head", 1), ("diagonal_bl_tr", 0.915), ("diagonal_tl_br", 0)), 0, 12),
    ("frame", "square_sill"): (moved(("plumb_left", 1), ("plumb_right", 1), ("diagonal_bl_tr", 0.406),
                                     ("diagonal_tl_br", -0.406)), 0, 12),
    ("frame", "plumb_left"): (moved(("plumb_left", 1), ("plumb_right", 1), ("diagonal_bl_tr", 0.406),
                                    ("diagonal_tl_br", -0.406)), 0, 8),
    ("frame", "plumb_right"): (moved(("plumb_left", 1), ("plumb_right", 1), ("diagonal_bl_tr", 0.406),
                                     ("diagonal_tl_br", -0.406)), 0, 8),
    ("frame", "twist"): (moved(("string_gap", 0.5), ("lean_left", -0.5), ("lean_right", 0.5)), 0, 8),
    ("frame", "lean"): (moved(("lean_left", 1), ("lean_right", 1)), 0, 10),
    ("frame", "align_mid"): (moved(("width_mid", 1)), 0, 8),
    **{("opening", f"drawing.{side}"): (
        lambda t, side=side, plan=plan: put(OPENING, f"drawing.{side}", {"value": plan + t, "u": 0.5}), 0, 8)
       for side, plan in (("width", 926), ("height", 2093.4))},
    **{("opening", f"measured.frame_{side}"): (
        lambda t, side=side: put(OPENING, f"measured.frame_{side}", OPENING["measured"][f"frame_{side}"] + t), 0, 9)
       for side in ("width", "height")},
    **{("opening", f"cut.{name}"): (
        lambda t, name=name: put(OPENING, f"cut.{name}", OPENING["cut"][name] + t), 0, 9)
       for name in ("width_head", "width_mid", "width_sill", "height_left", "height_right")},
    ("panel", "mass"): (lambda t: put(CALCULATORS["panel"].example, "cut.height", t), 1500, 3000),
    ("cut", "mass"): (lambda t: put(CALCULATORS["cut"].example, "cut.height", t), 1500, 3000),
    ("fixings", "edge"): (lambda t: put(FIXED, "edge", t), 30, 2),
    ("fixings", "sill.pitch"): (lambda t: put(FIXED, "opening.width", t), 180, 101),
    ("fixings", "sides.pitch"): (lambda t: put(FIXED, "opening.height", t), 400, 122),
    ("fixings", "head.pitch"): (lambda t: put(FIXED, "profile", {
        "outer": 110, "slope": 1, "inner": t, "depth": 40}) | {"head": {"per_flat": 10}}, 200, 100),
    **{("fixings", f"{side}.flat"): (lambda t, side=side: put(FIXED, f"land.{side}", t), 60, 15)
       for side in ("left", "right")},
    ("fixings", "head.flat"): (lambda t: put(FIXED, "profile", {
        "outer": 110, "slope": 18, "inner": t, "depth": 40}), 60, 2),
    ("rivet", "edge"): (lambda t: put(RIVET, "edge", t), 12, 30),
    ("rivet", "pitch"): (lambda t: put(RIVET, "pitch", t), 20, 60),
    ("seal", "left.compression"): (lambda t: put(CALCULATORS["seal"].example | {"band": [20, 80]}, "gaps.0.value", t),
                                   7, 11.9),
    ("seal", "right.compression"): (lambda t: put(CALCULATORS["seal"].example | {"band": [20, 80]}, "gaps.1.value", t),
                                    7, 11.9),
    ("sealant", "sill.opens"): (lambda t: put(SEALANT, "joints.0", SEALANT["joints"][0] | {
        "width": {"value": 8, "u": 0.6}, "opens": t}), 0.4, 6),
    ("sealant", "sill.closes"): (lambda t: put(SEALANT, "joints.0", SEALANT["joints"][0] | {
        "width": {"value": 8, "u": 0.6}, "closes": t}), 0.4, 6),
    ("sealant", "sill.width"): (lambda t: put(SEALANT, "joints.0.width", {"value": t, "u": 0.6}), 12, 3),
    ("sealant", "sill.depth"): (lambda t: put(SEALANT, "joints.0.depth", {"value": t, "u": 0.6}), 9, 18),
    ("dewpoint", "margin"): (lambda t: put(CALCULATORS["dewpoint"].example, "steel", t), 22, 2),
    ("dewpoint", "humidity"): (
        lambda t: put(CALCULATORS["dewpoint"].example, "humidity", {"value": t, "u": 2}), 60, 99),
}
# the far end of the knob beyond the other limit, for what has two
OTHER = {
    ("stance", "warp"): -40, ("layout", "plumb"): -8,
    **{(name, what): -high for (name, what), (_, _, high) in KNOBS.items() if name in ("frame", "opening")},
    ("rivet", "edge"): 5, ("rivet", "pitch"): 6,
    ("seal", "left.compression"): 1, ("seal", "right.compression"): 0.1, ("sealant", "sill.depth"): 2,
}
WITHOUT_DOUBT = {"wheel", "container"}  # compare what is printed; no figure in them has an uncertainty


@cache
def at(name, what, t):
    """(the judged item, its limits) at a value of its knob."""
    answer, problems = CALCULATORS[name].answer(KNOBS[name, what][0](t))
    assert problems == {}
    for one in answer["judged"]:
        holds(one)
    item = next(one for one in answer["judged"] if one["what"] == what)
    return item, limits(item)


def limits(item):
    """(from, to) of a judged item; None is open."""
    return (-item["tolerance"], item["tolerance"]) if "tolerance" in item else (item["from"], item["to"])


def holds(item):
    """The verdict of one item is that of its estimate, its u and its limits, by another road."""
    (low, high), estimate, u = limits(item), item["estimate"], item["u"]
    if u == 0:
        inside = (low is None or estimate >= low) and (high is None or estimate <= high)
        assert item["verdict"] == ("inside" if inside else "outside"), item
        return
    spread = NormalDist(estimate, u)
    chance = (1 if high is None else spread.cdf(high)) - (0 if low is None else spread.cdf(low))
    blur = 0.011 / u if "tolerance" in item else 1e-6  # the frame rounds what it answers to 0.01 mm
    if min(abs(chance - 0.975), abs(chance - 0.025)) > blur:
        assert item["verdict"] == OFFER[(chance < 0.975) + (chance <= 0.025)], item


def off(name, what, t):
    """How many standard uncertainties the estimate stands beyond the nearer limit, - inside."""
    item, (low, high) = at(name, what, t)
    beyond = [side for side in (low is not None and low - item["estimate"],
                                high is not None and item["estimate"] - high) if side is not False]
    return max(beyond) / item["u"]


def turned_to(name, what, k, far=None):
    """The knob at which the estimate stands k standard uncertainties beyond its limit; far: the end beyond it."""
    _, low, high = KNOBS[name, what]
    high = high if far is None else far
    assert off(name, what, low) < -FAR < FAR < off(name, what, high), (off(name, what, low), off(name, what, high))
    for _ in range(22):
        middle = (low + high) / 2
        low, high = (middle, high) if off(name, what, middle) < k else (low, middle)
    return (low + high) / 2


@pytest.mark.parametrize(("name", "what"), KNOBS)
def test_within_its_own_uncertainty_of_a_limit_nothing_is_settled(name, what):
    for k in CLOSE:
        item, _ = at(name, what, turned_to(name, what, k))
        assert item["verdict"] == "too close to call", (k, item)
    assert at(name, what, turned_to(name, what, -FAR))[0]["verdict"] == "inside"
    assert at(name, what, turned_to(name, what, FAR))[0]["verdict"] == "outside"


@pytest.mark.parametrize(("name", "what"), OTHER)
def test_nor_at_the_other_limit(name, what):
    high = KNOBS[name, what][2]
    sides = set()
    for far in (high, OTHER[name, what]):
        item, (least, most) = at(name, what, far)
        sides.add(item["estimate"] > (least + most) / 2)
    assert sides == {True, False}
    for k, verdict in ((-FAR, "inside"), (-1.9, "too close to call"), (1.9, "too close to call"), (FAR, "outside")):
        assert at(name, what, turned_to(name, what, k, OTHER[name, what]))[0]["verdict"] == verdict, k


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_judged_quantity_has_a_knob(name):
    answer, _ = CALCULATORS[name].answer(CALCULATORS[name].example)
    if name in WITHOUT_DOUBT:
        assert "judged" not in answer
        return
    assert answer["judged"]
    assert {one["what"] for one in answer["judged"]} == {what for of, what in KNOBS if of == name}
    two_sided = {one["what"] for one in answer["judged"] if None not in limits(one)}
    assert two_sided == {what for of, what in OTHER if of == name}


def verdicts_of(name, line, pick):
    """What `pick` finds in the answer to a line."""
    answer, problems = CALCULATORS[name].answer(line)
    assert problems == {}
    return pick(answer)


# verdicts that stand outside `judged`: (line for a distance k·u beyond the limit, what to look at)
def grip(k):
    """The stack stands k u above the end of row 62, 3.175 mm; two sheets of u 0.05 each."""
    u = 0.05 * 2 ** 0.5
    return put(RIVET, "stack.0.thickness", 3.175 - 1.6 + k * u)


def land(k):
    """Both lands of the best place stand |k| u above what is needed (below it there is no place at all)."""
    place = CALCULATORS["layout"].answer(LAYOUT)[0]["places"][0]
    u = max(place["u_left"], place["u_right"])
    return put(LAYOUT, "flange.needs_land", place["land_left"] - abs(k) * u - 1e-6)


@pytest.mark.parametrize("k", [-0.9, -0.4, 0, 0.4, 0.9])
def test_verdicts_beside_judged_are_guarded_too(k):
    assert verdicts_of("rivet", grip(k), lambda a: a["at"][0]["verdict"]) == "too close to call"
    assert verdicts_of("layout", land(k), lambda a: max(
        a["places"], key=lambda one: -abs(one["centre"] - 1163.7))["verdict"]) == "too close to call"
    line = put(CALCULATORS["dewpoint"].example, "steel", 12)
    margin = verdicts_of("dewpoint", line, lambda a: a["judged"][0])
    line["needs"] = margin["estimate"] + k * margin["u"]
    assert verdicts_of("dewpoint", line, lambda a: a["verdict"]) == "too close to call"
    seal = put(CALCULATORS["seal"].example | {"band": [5, 50]}, "gaps.0.value", 8)
    compressed = verdicts_of("seal", seal, lambda a: a["judged"][0])
    seal["band"] = [5, compressed["estimate"] + k * compressed["u"]]
    assert verdicts_of("seal", seal, lambda a: a["gaps"][0]["verdict"]) == "too close to call"
    opening = put(OPENING, "cut.width_head", 929 + k * 0.6)
    assert verdicts_of("opening", opening, lambda a: next(
        one["verdict"] for one in a["differences"] if one["of"] == "cut.width_head")) == "too close to call"


@pytest.mark.parametrize("name", sorted(set(CALCULATORS) - WITHOUT_DOUBT))
def test_every_verdict_of_an_example_is_that_of_its_figures(name):
    answer, _ = CALCULATORS[name].answer(CALCULATORS[name].example)
    for one in answer["judged"]:
        holds(one)
