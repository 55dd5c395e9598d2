"""The cut sheet: tabs by brute force over the sheet, order of the work, what it takes over from panel and wheel."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade import cutting
from fieldapp.trade.panel_say import LEAD
from fieldapp.work.registry import CALCULATORS

CUT = CALCULATORS["cut"]
SMOOTH = {"wall": "smooth insulated", "cut": {"width": 926, "height": 2040},
          "layers": [{"thickness": 0.6, "density": 7850}, {"thickness": 80, "density": 40}]}


def made(line):
    answer, problems = CUT.answer(line)
    assert problems == {}
    return answer


def on_outer(profile, starts, x):
    """Whether a point of the cut, x from its left edge, lies on an outer flat: straight from the profile."""
    pitch = profile["outer"] + profile["inner"] + 2 * profile["slope"]
    return (starts + x) % pitch <= profile["outer"]


@settings(max_examples=150, deadline=None)
@given(wall=st.sampled_from(["corrugated side", "corrugated end"]), starts=st.integers(0, 300),
       width=st.integers(300, 1600), count=st.integers(1, 5), wide=st.integers(5, 90))
def test_tabs_lie_each_in_one_outer_flat_and_as_evenly_as_the_flats_let(wall, starts, width, count, wide):
    profile = table("profiles")[wall]
    found = cutting.tabs(profile, starts, width, count, wide)
    # brute force: every millimetre of the cut, gathered into runs of outer flat
    runs, run = [], []
    for x in range(width + 1):
        if on_outer(profile, starts, x):
            run.append(x)
        elif run:
            runs.append(run)
            run = []
    runs += [run] if run else []
    room = [one for one in runs if one[-1] - one[0] >= wide]
    if not found:
        assert len(room) <= count  # a run may end within the millimetre
        assert len([one for one in runs if one[-1] - one[0] >= wide + 2]) < count
        return
    assert len(found) == count
    assert all(high - low == pytest.approx(wide) for low, high in found)
    assert all(0 <= low < high <= width for low, high in found)
    assert all(before[1] < after[0] for before, after in pairwise(found))
    for low, high in found:
        assert all(on_outer(profile, starts, low + share * (high - low)) for share in (0.001, 0.25, 0.5, 0.75, 0.999))
    even = [width * (i + 0.5) / count for i in range(count)]

    def unevenness(middles):
        return sum((at - want) ** 2 for at, want in zip(middles, even, strict=True))
    best = min((unevenness(chosen) for chosen in combinations([(one[0] + one[-1]) / 2 for one in room], count)),
               default=None)
    if best is not None:
        assert unevenness([(low + high) / 2 for low, high in found]) <= best + 4 * width


def test_the_order_of_the_work():
    """Rigging first, sill line, sides, head with a bridge left, lower out, tabs: as the trade has it (no source)."""
    assert [one["do"] for one in made(CUT.example)["sequence"]] == [
        "rig", "stop_holes", "sill", "sides", "head", "bridge", "lower", "tabs", "watch"]
    assert [one["do"] for one in made(SMOOTH)["sequence"]] == [
        "rig", "find", "stop_holes", "sill", "sides", "head", "bridge", "lower", "close"]


def test_the_panel_counts_as_unsupported_before_any_figure_of_its_fall():
    for line in (CUT.example, SMOOTH, CUT.example | {"show": "in"}):
        answer = made(line)
        assert answer["say"][0] == LEAD
        assert any("local code" in one for one in answer["cautions"])
        assert any("permit nothing" in one for one in answer["cautions"])
        for one in (*answer["say"], *(step["say"] for step in answer["sequence"])):
            assert "safe" not in one or "never of when it is safe" in one
    said = made(CUT.example)["say"]
    assert sum(one.startswith("Outwards") for one in said) == sum(one.startswith("Inwards") for one in said) == 1


def test_figures_are_those_of_panel_and_disc_those_of_wheel():
    own = ("bridge", "behind", "disc", "tool", "today")
    plain = {name: value for name, value in CUT.example.items() if name not in own}
    panel, _ = CALCULATORS["panel"].answer(plain)
    answer = made(CUT.example)
    assert answer["panel"] == {name: panel[name] for name in answer["panel"]}
    assert answer["judged"] == panel["judged"]
    assert set(panel["cautions"]) <= set(answer["cautions"])
    wheel, _ = CALCULATORS["wheel"].answer({name: CUT.example[name] for name in ("disc", "tool", "today")})
    assert answer["disc"] == {name: wheel[name] for name in answer["disc"]}
    assert set(wheel["cautions"]) <= set(answer["cautions"])


@pytest.mark.parametrize(("change", "word"), [
    ({"tool": {"rpm": 14000}}, "Do not start with this disc."),
    ({"disc": CUT.example["disc"] | {"marked_speed": 60}}, "Read the disc again before you start.")])
def test_a_disc_that_may_not_is_said(change, word):
    said = made(CUT.example | change)["say"]
    assert said[2].startswith(word)  # the most important first: after what the panel counts as


def test_no_disc_given_is_said_and_a_smooth_wall_is_cut_cold():
    bare = {name: value for name, value in CUT.example.items() if name not in ("disc", "tool", "today")}
    assert made(bare)["disc"] is None
    assert any("not given" in one for one in made(bare)["say"])
    cold = made(SMOOTH)
    assert (cold["method"], cold["disc"], cold["tabs"], cold["panel"]["cut_at"]["bottom"]) == ("cold", None, [], 0)
    words = " ".join([*cold["cautions"], *cold["say"], *(one["say"] for one in cold["sequence"])])
    assert "Cut cold" in words
    assert " disc" not in words
    assert "0 mm above" not in words


def test_foam_behind_the_sheet_is_cut_cold_and_the_unknown_counts_as_foam():
    """All organic cellular plastics burn, flame-retardant or not: OSHA bulletin HIB 19890510."""
    bare = {name: value for name, value in CUT.example.items() if name not in ("disc", "tool", "today")}
    foam = made(bare | {"behind": "foam"})
    words = " ".join([*foam["cautions"], *foam["say"], *(one["say"] for one in foam["sequence"])])
    assert foam["method"] == "cold"
    assert foam["tabs"] == made(bare)["tabs"] != []
    assert "Cut cold" in words
    assert "no disc" in words
    assert "disc square" not in words
    assert [one["do"] for one in foam["sequence"]] == [
        "rig", "find", "stop_holes", "sill", "sides", "head", "bridge", "lower", "tabs"]
    del bare["behind"]
    assert any("counts as foam" in one for one in made(bare)["say"])
    steps = made(bare)["sequence"]
    assert [one["do"] for one in steps[:3]] == ["rig", "find", "stop_holes"]
    assert steps[1]["say"].startswith("Find out what lies behind the sheet, both faces, before the first spark.")
    assert not any("counts as foam" in one for one in made(CUT.example)["say"])


def test_without_starts_the_tabs_are_not_placed():
    line = {name: value for name, value in CUT.example.items() if name != "starts"}
    answer = made(line)
    assert answer["tabs"] == []
    assert any("needs the corrugation" in one for one in answer["say"])
    many = made(CUT.example | {"tabs": {"count": 6, "width": 40}})
    assert many["tabs"] == []
    assert any(one.startswith("No place for the tabs") for one in many["say"])
    sill = next(one["say"] for one in many["sequence"] if one["do"] == "sill")
    assert sill.startswith("Settle the tabs first")
    assert "leave 6 tabs" not in sill


def test_one_tab_is_one():
    words = made(CUT.example | {"tabs": {"count": 1, "width": 40}})
    sill = next(one["say"] for one in words["sequence"] if one["do"] == "sill")
    assert "leave 1 tab of 40\u00a0mm," in sill
    assert any(one.startswith("Tab from the left edge") and "each" not in one for one in words["say"])


@pytest.mark.parametrize(("line", "path"), [
    (SMOOTH | {"disc": {"marked_rpm": 1000, "diameter": 115}, "tool": {"rpm": 900}}, {"disc", "tool"}),
    ({name: value for name, value in CUT.example.items() if name != "tool"}, {"tool"}),
    ({name: value for name, value in CUT.example.items() if name != "disc"}, {"disc"}),
    (CUT.example | {"behind": "foam"}, {"disc", "tool", "today"}), (SMOOTH | {"behind": "foam"}, {"behind"}),
    (CUT.example | {"bridge": 500}, {"bridge"}),
    (CUT.example | {"thickness": 9, "bridge": 2}, {"thickness", "bridge"}),
    (SMOOTH | {"thickness": 2}, {"thickness"})])
def test_problems_name_their_fields(line, path):
    answer, problems = CUT.answer(line)
    assert answer is None
    assert set(problems) == path
