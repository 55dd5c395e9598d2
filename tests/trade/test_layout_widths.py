"""Widths that land, against openings of every width tried on flats that are drawn out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.trade.layout_widths import fits, flats_apart, short_by, width_range
from fieldapp.work.registry import CALCULATORS

TENTH = st.integers(1, 2000).map(lambda tenths: tenths / 10)


def lands(width, k, pitch, outer, needs):
    """Whether an opening with its cuts k flats apart can have the land: its left cut tried from end to end."""
    low = max(needs, k * pitch - width)
    high = min(outer, k * pitch + outer - needs - width)
    return needs <= outer + 1e-9 and low <= high + 1e-9


@given(st.integers(1, 30000).map(lambda tenths: tenths / 10), TENTH, TENTH, TENTH)
def test_against_every_pair(width, outer, gap, needs):
    pitch = outer + gap
    ks = [k for k in range(int((width + outer) / pitch) + 3) if k * pitch < width + outer + pitch]
    holding = [k for k in ks if lands(width, k, pitch, outer, needs)]
    assert list(flats_apart(width, pitch, outer, needs)) == holding
    assert (short_by(width, pitch, outer, needs) == 0) == bool(holding)
    found = fits(width, pitch, outer, needs)
    if needs > outer:
        assert found == []
    elif [k for k in holding if k]:
        assert found == [width_range(k, pitch, outer, needs) for k in holding if k]
        assert all(low - 1e-9 <= width <= high + 1e-9 for low, high in found)
    else:
        every = [width_range(k, pitch, outer, needs) for k in range(1, len(ks) + 2)]
        narrower = [one for one in every if one[1] < width][-1:]
        wider = [one for one in every if one[0] > width][:1]
        assert found == narrower + wider


@given(st.integers(1, 30000).map(lambda tenths: tenths / 10), TENTH, TENTH, TENTH)
def test_narrowed_by_what_it_is_short_it_has_room(width, outer, gap, needs):
    pitch = outer + gap
    short = short_by(width, pitch, outer, needs)
    if short and needs <= outer and width - short > 0.01:
        assert short_by(width - short, pitch, outer, needs) == 0
        assert short_by(width - short + 0.01, pitch, outer, needs) == pytest.approx(0.01)


def test_the_limits_themselves_have_room():
    # 250/110 with 25 of land: 890 to 1060 (computed in the facts)
    assert width_range(4, 250, 110, 25) == (890, 1060)
    assert short_by(1060, 250, 110, 25) == short_by(890, 250, 110, 25) == 0
    assert short_by(1060.5, 250, 110, 25) == pytest.approx(0.5)
    assert fits(880, 250, 110, 25) == [(640, 810), (890, 1060)]


def test_a_width_that_alone_lands_is_said_once():
    """All of the outer flat as land: 4 × 250 - 110 is the one width of its pair (end profile, from memory)."""
    answer, problems = CALCULATORS["layout"].answer({
        "wall": "corrugated end", "wall_from": 0, "wall_to": 2260, "opening": {"width": 850},
        "flange": {"covers": 0, "needs_land": 110},
        "edges": [{"at": 1000, "edge": "outer_start"}, {"at": 1110, "edge": "outer_end"}]})
    assert problems == {}
    assert "Widths with land on both sides: 640\u00a0mm, 890\u00a0mm." in answer["say"]
