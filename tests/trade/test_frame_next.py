"""Which reading next: what a correction of the same answer moves anyway is not asked for again and again.

The budget of figures for one door is held by tests/plan/test_counts.py; these frames are exact, with readings as a
perfect tool gives them, so what is open is known beforehand.
"""

import pytest
from frame_world import USUAL, Frame

from fieldapp.trade.estimate import answer
from fieldapp.trade.frame import sheet

NONE = dict.fromkeys(("turn", "rack", "ws", "wh", "hl", "hr", "lean", "twist", "bow"), 0.0)
SHEET = sheet(914, 2057, "left")


def said(faults, kinds=USUAL, times=1, **more):
    """The answer to exact readings of these kinds, levels turned."""
    at = Frame(None, fault={**NONE, **faults})
    turned = SHEET["next"]["turned"]
    readings = [{"of": kind, "value": at.exact(kind), **({"reversed": True} if kind in turned else {})}
                for kind in kinds for _ in range(times)]  # fmt: skip
    return answer(SHEET, {"rounds": [{"readings": readings}], **more})


def open_in(made):
    return [one["what"] for one in made["judged"] if one["verdict"] == "too close to call"]


@pytest.mark.parametrize(("faults", "open_"), [({"twist": 1.9}, ["twist"]), ({"bow": 1.7}, ["align_mid"])])
def test_what_a_correction_moves_anyway_is_not_settled_first(faults, open_):
    made = said(faults)
    assert open_in(made) == open_
    assert made["corrections"]
    assert made["next"] is None


def test_what_no_correction_moves_is_still_asked_for():
    made = said({"twist": 1.9, "bow": 0.6})
    assert set(open_in(made)) == {"twist", "align_mid"}
    assert [one["do"].split("_")[0] for one in made["corrections"]] == ["twist"]
    assert made["next"]["why"] == "it decides width at mid height"


def test_a_correction_without_room_settles_nothing():
    # no room at all: the move is cut back to nothing, so what it was for is still asked
    room = dict.fromkeys(("left_bottom", "left_top", "right_bottom", "right_top"), 0)
    made = said({"bow": -1.7}, room=room)
    assert [(one["do"], one["by"]) for one in made["corrections"]] == [("spread_mid", 0)]
    assert open_in(made) == ["align_mid"]
    assert made["next"]["why"] == "it decides width at mid height"


def test_while_few_verdicts_are_settled_all_that_is_open_counts():
    kinds = ("plumb_left", "level_head", "level_sill", "string_gap", "lean_left", "lean_right")
    made = said({"twist": 1.9, "rack": 1.4}, kinds)
    assert len(open_in(made)) > 2
    assert "twist" in open_in(made)
    assert made["corrections"]
    assert made["next"] is not None


def test_a_quantity_little_known_is_read_on_before_it_is_moved():
    # one string gap leaves twist uncertain by 0.8 mm: the move would be half a guess
    rest = [kind for kind in USUAL if not kind.startswith(("lean", "string"))]
    made = said({"twist": 2.6}, [*rest, *rest, "string_gap", "lean_left"])
    assert "twist" in open_in(made)
    assert made["next"]["why"].startswith("it decides twist")


def test_nothing_is_asked_for_that_says_nothing_of_what_is_open():
    # align_mid is a hair from inside; a height says next to nothing of it, however often it is read
    levels = [kind for kind in SHEET["next"]["turned"] if kind in USUAL] + ["string_gap"]
    made = said({"bow": 0.35}, [*levels, *levels, "width_mid", "width_sill"])
    assert open_in(made) == ["align_mid"]
    assert made["judged"][6]["chance_inside"] == pytest.approx(0.975, abs=0.001)
    assert made["next"] is None or made["next"]["of"].startswith("width")
