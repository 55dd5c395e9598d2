"""Whatever a calculator answers can be drawn: sizes from a hundredth of a millimetre to a hundred metres."""

from time import process_time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from svg_read import Drawn

from fieldapp.work.registry import CALCULATORS

SIZES = st.one_of(st.sampled_from([0.01, 1, 50, 110, 926, 2093, 30_000, 100_000]), st.floats(0.01, 100_000))
POSITIONS = st.one_of(st.sampled_from([-100_000.0, 0.0, 100_000.0]), st.floats(-100_000, 100_000))
SHOW = st.sampled_from(["mm", "in"])
PROFILES = st.fixed_dictionaries(dict.fromkeys(("outer", "slope", "inner", "depth"), SIZES))
SMOOTH_OR_NOT = st.sampled_from(["corrugated side", "corrugated end", "smooth insulated"])
LARGEST = 1_000_000  # characters of a picture


def drawn(name, line):
    """The pictures of a line that is answered; None of one with problems."""
    made = CALCULATORS[name]
    answer, problems = made.answer(line)
    if problems:
        return None
    pictures = made.drawings(line, answer)
    assert pictures
    for told, svg in pictures:
        assert told
        assert len(svg) < LARGEST
        assert "nan" not in svg
        assert "inf" not in svg.replace("information", "")
        Drawn(svg)
    return pictures


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_layout(data):
    wall = data.draw(SMOOTH_OR_NOT)
    start, long = data.draw(POSITIONS), data.draw(st.one_of(st.just(0.0), st.floats(0, 30_000)))
    line = {"wall": wall, "wall_from": start, "wall_to": min(start + long, 100_000.0),
            "opening": {"width": data.draw(SIZES), "height": data.draw(SIZES)},
            "flange": {"covers": data.draw(SIZES), "needs_land": data.draw(st.floats(0, 100))}, "show": data.draw(SHOW),
            "keep_clear": [{"from": min(pair), "to": max(pair)} for pair in data.draw(
                st.lists(st.tuples(POSITIONS, POSITIONS), max_size=3))]}
    if data.draw(st.booleans()):
        line["swing"] = {"hand": data.draw(st.sampled_from(["left", "right"])), "leaf": data.draw(SIZES),
                         "opens_to": data.draw(st.floats(1, 180)), "clear_from": -100_000, "clear_to": 100_000}
    if wall != "smooth insulated":
        line["edges"] = data.draw(st.lists(st.fixed_dictionaries(
            {"at": POSITIONS, "edge": st.sampled_from(["outer_start", "outer_end"]), "z": POSITIONS, "u": SIZES}),
            min_size=1, max_size=4))
        if data.draw(st.booleans()):
            line["profile"] = data.draw(PROFILES)
    drawn("layout", line)


@settings(max_examples=200, deadline=None)
@given(wall=SMOOTH_OR_NOT, width=SIZES, height=SIZES, starts=SIZES, profile=st.none() | PROFILES,
       thickness=st.floats(0.5, 6), count=st.integers(1, 1000), show=SHOW)
def test_cut(wall, width, height, starts, profile, thickness, count, show):
    line = {"wall": wall, "cut": {"width": width, "height": height}, "show": show, "bridge": 5}
    if wall == "smooth insulated":
        line["layers"] = [{"thickness": thickness, "density": 100}]
    else:
        line |= {"starts": starts, "thickness": thickness, "tabs": {"count": count, "width": 5}}
        line |= {"profile": profile} if profile else {}
    drawn("cut", line)


@settings(max_examples=200, deadline=None)
@given(wall=SMOOTH_OR_NOT, width=st.floats(0.01, 30_000), height=st.floats(0.01, 30_000),
       lands=st.tuples(st.floats(0, 1000), st.floats(0, 1000)), profile=st.none() | PROFILES,
       edge=st.floats(0.01, 1000), count=st.integers(2, 100), end=st.floats(0, 200), show=SHOW)
def test_fixings(wall, width, height, lands, profile, edge, count, end, show):
    row = {"count": count, "end": end}
    line = {"wall": wall, "opening": {"width": width, "height": height}, "diameter": 4.8, "edge": edge, "show": show,
            "stack": [{"thickness": 1.5}], "sides": row, "sill": row, "head": row}
    if wall != "smooth insulated":
        line |= {"land": dict(zip(("left", "right"), lands, strict=True)), "head": {"per_flat": 1 + count % 10}}
        line |= {"profile": profile} if profile else {}
    drawn("fixings", line)


@pytest.mark.parametrize("name", ["cut", "fixings", "layout"])
def test_a_corrugation_finer_than_50_mm_is_refused(name):
    """Or counting its flats would never end."""
    line = CALCULATORS[name].example | {"profile": {"outer": 0.01, "slope": 0.01, "inner": 0.01, "depth": 0.01}}
    begun = process_time()
    _, problems = CALCULATORS[name].answer(line)
    print(f"{name}: refused after {1000 * (process_time() - begun):.1f} ms")
    assert any("pitch" in one for one in problems["profile"])
