"""The pictures of what is measured: each calculator has one, and every name in it is a field that can be typed."""

import re
from xml.etree import ElementTree as ET

import pytest
from svg_read import SVG, Drawn

from fieldapp.work.by_hand import rows
from fieldapp.work.registry import CALCULATORS

# the least that a page must show how to take
MUST = {
    "stance": {"near_left", "near_right", "far_left", "far_right", "near", "depth"},
    "layout": {"edges.at", "outer_start", "outer_end", "opening.width", "flange.covers", "keep_clear"},
    "opening": {"frame.width", "frame.height", "clearance.left", "clearance.head", "head_kit.rise", "head_seal"},
    "panel": {"cut.width", "cut.height", "starts", "thickness", "strip", "tabs.width"},
    "cut": {"cut.width", "cut.height", "starts", "tabs.width"},
    "rivet": {"stack.0.thickness", "at.stand_off", "edge", "pitch", "diameter"},
    "fixings": {"land.left", "edge", "sides.pitch", "sides.end", "opening.width", "head.per_flat"},
    "seal": {"free_height", "gaps.value"},
    "sealant": {"width", "depth"},
    "dewpoint": {"air", "humidity", "steel"},
    "wheel": {"disc.marked_rpm", "disc.diameter", "disc.expires", "tool.rpm", "tool.guard_for"},
    "container": {"owner", "category", "serial", "check digit"},
}


def names(made):
    """What a picture may name: fields of input and answer, without the count of list items, and choices' words."""
    found = set(made.gives.fields)
    for row in rows(made.takes, {}, {}):
        parts = [part for part in row.path.split(".") if not part.isdigit()]
        found |= {".".join(parts[i:]) for i in range(len(parts))} | set(row.options)
    return found


@pytest.mark.parametrize("name", CALCULATORS)
def test_what_is_measured_is_drawn_and_named_as_it_is_typed(name):
    made = CALCULATORS[name]
    assert made.pictures
    said = set()
    for told, svg in made.pictures:
        drawing = Drawn(svg)
        assert told
        assert drawing.clipped() == []
        assert len(list(drawing.root.iter(f"{SVG}path"))) > 2
        said |= {one.text for one in drawing.root.iter(f"{SVG}text") if one.get("class") == "chalk"}
    assert {re.sub(r"\.\d+", "", word).replace(" ", "_") for word in said} <= names(made)
    assert said >= MUST.get(name, set())


def test_the_frame_shows_every_reading():
    kinds = next(row.options for row in rows(CALCULATORS["frame"].takes, {}, {}) if row.path.endswith("readings.0.of"))
    assert [told for told, _ in CALCULATORS["frame"].pictures] == list(kinds)
    drawn = [svg for _, svg in CALCULATORS["frame"].pictures]
    assert len({re.sub("<title>.*</desc>", "", svg) for svg in drawn}) == len(kinds)
    for svg in drawn:
        assert ET.fromstring(svg).find(f"{SVG}desc").text
