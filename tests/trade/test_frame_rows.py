"""Every row of the frame's sheet against the formulas of the project's contract (frame, Model), written out anew."""

import random
from math import hypot

import pytest

from fieldapp.trade.estimate.linear_table import dot, doubt, make, way
from fieldapp.trade.frame import sheet

SIZES = [(914.0, 2057.0, "left"), (780.0, 2000.0, "right"), (2400.0, 1200.0, "left")]
PRIOR = {
    "turn": (0, 8), "rack": (0, 8), "ws": (0, 1.5), "wh": (0, 1.5), "hl": (0, 1.5), "hr": (0, 1.5), "lean": (0, 8),
    "twist": (0, 8), "bow": (0, 2), "tape": (0, 0.25), "k_l": (30, 30), "k_r": (30, 30), "c_h": (3.2, 1),
    "c_l": (3.2, 1), "c_t": (3.2, 1), "t": (0, 0.7), "q": (0, 0.7), "along": (0, 0), "through": (0, 0),
}  # fmt: skip
U = {"diagonal": 0.6, "width": 0.5, "height": 0.5, "plumb": 0.4, "lean": 0.4, "level": 0.4, "string": 0.4}
U |= {"land": 1.0, "gap": 0.3}


def contract(w, h, hinge, x, over, zero):
    """Readings and judged quantities by the contract's formulas; x the unknowns by name, `zero` that of the level."""
    pl = x["turn"] + x["rack"] + (x["ws"] - x["wh"]) / 2
    pr = x["turn"] + x["rack"] + (x["wh"] - x["ws"]) / 2
    s = -x["turn"] * w / h
    head = s + x["hr"] - x["hl"]
    d, g, jamb = hypot(w, h), (1 if hinge == "left" else -1), (pl if hinge == "left" else pr)
    square = jamb * w / h + head
    up, across = (over or h), (over or w)
    tape = x["tape"] / 1000
    readings = {
        "diagonal_bl_tr": d + w / d * (x["ws"] + pr) + h / d * (s + x["hr"]) + tape * d,
        "diagonal_tl_br": d + w / d * (x["ws"] - pl) + h / d * (x["hl"] - s) + tape * d,
        "width_sill": w + x["ws"] + tape * w,
        "width_head": w + x["wh"] + tape * w,
        "width_mid": w + (x["ws"] + x["wh"]) / 2 + x["bow"] + tape * w,
        "height_left": h + x["hl"] + tape * h,
        "height_right": h + x["hr"] + tape * h,
        "plumb_left": up / h * pl - x["along"] * up / 1000 + zero * up / 1000,
        "plumb_right": up / h * pr - x["along"] * up / 1000 + zero * up / 1000,
        "lean_left": up / h * (x["lean"] - x["twist"] / 2) + x["through"] * up / 1000 + zero * up / 1000,
        "lean_right": up / h * (x["lean"] + x["twist"] / 2) + x["through"] * up / 1000 + zero * up / 1000,
        "level_sill": across / w * s + x["along"] * across / 1000 + zero * across / 1000,
        "level_head": across / w * head + x["along"] * across / 1000 + zero * across / 1000,
        "string_gap": x["twist"] / 2,
        "land_left_sill": x["k_l"], "land_left_head": x["k_l"] + pl,
        "land_right_sill": x["k_r"], "land_right_head": x["k_r"] - pr,
        "gap_hinge_top": x["c_h"] + x["t"] / 2, "gap_hinge_bottom": x["c_h"] - x["t"] / 2,
        "gap_latch_top": x["c_l"] + x["wh"] - x["t"] / 2, "gap_latch_bottom": x["c_l"] + x["ws"] + x["t"] / 2,
        "gap_head_hinge": x["c_t"], "gap_head_latch": x["c_t"] + x["q"] + x["t"] * w / h + g * square,
    }  # fmt: skip
    judged = {"square_head": square, "square_sill": jamb * w / h + s, "plumb_left": pl, "plumb_right": pr,
              "twist": x["twist"], "lean": x["lean"], "align_mid": x["bow"]}  # fmt: skip
    return readings, judged


def everything(at):
    """A table that keeps every unknown: every kind read, with tilt and tools."""
    readings = [{"of": kind, "value": 1.0} for kind in at["kinds"]]
    tilt = {"along": 1.0, "through": 1.0, "over": 1000.0, "u": 1.0}
    return make(at, {"rounds": [{"readings": readings}], "tilt": tilt})


@pytest.mark.parametrize(("w", "h", "hinge"), SIZES)
@pytest.mark.parametrize("over", [None, 900.0])
@pytest.mark.parametrize("turned", [False, True])
def test_readings_and_judged_quantities(w, h, hinge, over, turned):
    r, at = random.Random(int(w)), sheet(w, h, hinge)
    table = everything(at)
    x = {name: r.uniform(-9, 9) for name in table.index}
    values = [x[name] for name in table.index]
    for kind in at["kinds"]:
        known = at["readings"][kind]
        zero = 0.0 if turned or "zero" not in known else x[f"zero_{kind}"]
        wanted = contract(w, h, hinge, x, over, zero)[0][kind]
        assert known["constant"] + dot(way(table, kind, over, turned), values) == pytest.approx(wanted, abs=1e-9), kind
    judged = contract(w, h, hinge, x, None, 0.0)[1]
    assert [item["what"] for item in at["judged"]] == list(judged)
    for item in at["judged"]:
        assert dot(table.sparse(item["row"]), values) == pytest.approx(judged[item["what"]], abs=1e-9)


def test_prior_and_default_uncertainties():
    at = sheet(914, 2057, "left")
    sd = {one["name"]: at["tools"][one["tool"]] if "tool" in one else one["sd"] for one in at["unknowns"]}
    prior = {one["name"]: (one["mean"], sd[one["name"]]) for one in at["unknowns"]}
    zeros = {name: figures for name, figures in prior.items() if name.startswith("zero_")}
    assert set(zeros.values()) == {(0, 0.29)}
    assert len(zeros) == 6
    assert {name: figures for name, figures in prior.items() if name not in zeros} == PRIOR
    table = everything(at)
    for kind in at["kinds"]:
        usual = U[kind.split("_")[0]]
        assert doubt(table, kind, False) == usual
        assert doubt(table, kind, True) == (0.3 if "side" in at["readings"][kind] else usual)


def test_a_tilt_that_gives_one_leaves_the_other_exactly_0():
    at = sheet(914, 2057, "left")
    readings = [{"of": "plumb_left", "value": 1.0}]
    table = make(at, {"tilt": {"along": 12.0, "over": 6000.0}, "rounds": [{"readings": readings}]})
    assert "through" not in table.index
    along = table.index["along"]
    assert (table.mean[along], table.sd[along]) == (2.0, pytest.approx(0.3 / 6))


CORRECTIONS = {
    "raise_bl": {"turn": 2057 / 914}, "raise_br": {"turn": -2057 / 914}, "lower_bl": {"turn": -2057 / 914},
    "lower_br": {"turn": 2057 / 914}, "push_head_right": {"rack": 1}, "push_head_left": {"rack": -1},
    "head_out": {"lean": 1}, "head_in": {"lean": -1}, "twist_left_out": {"twist": -1, "lean": 0.5},
    "twist_left_in": {"twist": 1, "lean": -0.5}, "twist_right_out": {"twist": 1, "lean": 0.5},
    "twist_right_in": {"twist": -1, "lean": -0.5}, "spread_mid": {"bow": 1}, "close_mid": {"bow": -1},
}  # fmt: skip
NEEDS = {
    "raise_bl": {"head_left": 1, "right_top": 2057 / 914}, "raise_br": {"head_right": 1, "left_top": 2057 / 914},
    "lower_bl": {"strip_left": 1, "left_top": 2057 / 914}, "lower_br": {"strip_right": 1, "right_top": 2057 / 914},
    "push_head_right": {"right_top": 1}, "push_head_left": {"left_top": 1},
    "spread_mid": {"left_mid": 0.5, "right_mid": 0.5},
}  # fmt: skip


def test_corrections_move_and_need_what_the_contract_says_in_its_order():
    made = sheet(914, 2057, "left")["corrections"]
    assert {item["do"]: item["column"] for item in made} == CORRECTIONS
    assert [item["do"] for item in made] == list(CORRECTIONS)
    assert {item["do"]: item["needs"] for item in made if item["needs"]} == NEEDS
