"""Trim advice: whatever is read, no advice takes the land below what is needed."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.trade import lengths, trim
from fieldapp.trade.estimate import band

mm = st.floats(0, 300, allow_nan=False)
shows = st.sampled_from(["mm", "in"])


def said(text):
    """The amounts that a sentence says may come off, as people would read them, mm."""
    found = re.findall(r"([\d./\u00a0]+\u00a0(?:mm|in)) (?:off the (left|right)|may come off)", text)
    return {side or "here": lengths.read(amount.replace("\u00a0", " ")) / lengths.NM_PER_MM for amount, side in found}


@given(lack=st.floats(0, 60), left=mm, right=mm)
def test_a_split_takes_what_is_lacking_and_no_more_than_can_be_spared(lack, left, right):
    off_left, off_right, short = trim.split(lack, left, right)
    assert 0 <= off_left <= left + 1e-9
    assert 0 <= off_right <= right + 1e-9
    assert off_left + off_right + short == pytest.approx(lack, abs=1e-9)
    if short > 1e-9:  # only when both sides are used up
        assert (off_left, off_right) == (pytest.approx(left, abs=1e-9), pytest.approx(right, abs=1e-9))
    elif off_left > 1e-9 and off_right > 1e-9:  # what the sides keep is even
        assert left - off_left == pytest.approx(right - off_right, abs=1e-9)


@given(land=mm, needs=st.floats(0, 60), u=st.floats(0.01, 3), doubt=st.floats(-1.96, 1.96), show=shows)
def test_the_sheet_never_lets_needed_land_be_taken(land, needs, u, doubt, show):
    """Whatever the land really is within 19 times in 20 of what was read, what is said may be taken off it."""
    sheet = trim.sheet("cut_land", needs, u, "a test")
    found = band.answer(sheet, {"inputs": {"left_sill": land}, "show": show})
    really = land + doubt * u
    for text in found["say"]:
        assert really - sum(said(text).values()) >= needs - 1e-6 or not said(text)
    assert ("may come off here; the rest" in found["say"][0]) == (found["judged"][0]["verdict"] == "inside")


@given(
    lack=st.floats(0.01, 60),
    lands=st.tuples(mm, mm),
    needs=st.floats(0, 60),
    u=st.floats(0.01, 3),
    doubts=st.tuples(st.floats(-1.96, 1.96), st.floats(-1.96, 1.96)),
    show=shows,
)
def test_no_advice_takes_land_below_what_is_needed(lack, lands, needs, u, doubts, show):
    spare = [land - needs - trim.guard(u) for land in lands]
    taken = said(trim.advice("sill", lack, *spare, show))
    for side, land, doubt in zip(("left", "right"), lands, doubts, strict=True):
        if side in taken:
            assert land + doubt * u - taken[side] >= needs - 1e-6
    assert sum(taken.values()) <= lack + 1e-6


def test_by_hand():
    # needs 25, read 30 and 28 with u 0.6: 30 - 25 - 1.96 * 0.6 - 25.4/64 = 3.427; the other 1.427
    spare = [land - 25 - trim.guard(0.6) for land in (30, 28)]
    assert spare == [pytest.approx(3.427, abs=1e-3), pytest.approx(1.427, abs=1e-3)]
    assert trim.split(3, *spare) == (pytest.approx(2.5), pytest.approx(0.5), 0)
    assert trim.advice("sill", 3, *spare).replace("\u00a0", " ") == (
        "At the sill 3 mm is missing: trim at most 2.5 mm off the left and 0.5 mm off the right; the needed land stays."
    )
    assert said(trim.advice("sill", 3, *spare)) == {"left": 2.5, "right": 0.5}
    # 2.5 mm in thirty-seconds of an inch, rounded down: 3/32 in = 2.38125 mm
    assert said(trim.advice("sill", 2.5, 2.5, 0, "in")) == {"left": pytest.approx(2.38125)}
    assert "ask the supervisor" in trim.advice("head", 20, *spare)
    assert "trim nothing" in trim.advice("head", 20, -1, 0.2)
    assert "read the land" in trim.advice("head", 2, None, 4)
    assert trim.advice("head", 0, 3, 3) == ""
