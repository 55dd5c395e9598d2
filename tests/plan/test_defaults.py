# ruff: noqa: E501 - a fault is read beside the row that makes it
"""Defaults as a catalogue: all of the file's, replaced row by row within limits, and a plan made by them names whose they are."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plan.conftest import PEOPLE, UNIT, plan

from fieldapp.plan import catalogue_csv, packet
from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.default_rows import KNOWN, ORIGINS, defaults_table
from fieldapp.plan.defaults import defaults
from fieldapp.plan.in_force import InForce, seeded

CSV = catalogue_csv.write("defaults", seed()["defaults"])
MAKERS = "the maker's sheet of May, page 3"


def under(**values):
    """The defaults with those of the named ids put in, by the maker's sheet."""
    rows = [
        {**row, "value": values[row["id"]], "origin": "maker's sheet", "source": MAKERS} if row["id"] in values else row
        for row in seed()["defaults"]
    ]
    return InForce.of({**seed(), "defaults": rows}, {"defaults": 1})


def fields(built):
    return {f"{step['id']}.{each['id']}": each for step in built.packet["steps"] for each in step["fields"]}


def build(under_, **chosen):
    return packet.build({**plan(), **chosen}, UNIT, PEOPLE, under=under_)


def test_edition_nought_is_the_file_and_has_all_of_it():
    assert defaults_table(seed()["defaults"]) == defaults()
    assert {one.name for one in KNOWN} == set(defaults())
    assert all(one.low <= end <= one.high for one in KNOWN for end in ends(defaults()[one.name]["value"]))


def ends(value):
    return value if isinstance(value, list) else [value]


def test_what_an_older_program_kept_stands_and_the_rest_is_the_files():
    first, *_ = seed()["defaults"]
    table = defaults_table([first | {"value": 8.0}, {**first, "id": "what nobody asks for any more"}])
    assert table["clearance"]["value"] == 8
    assert {name: each for name, each in table.items() if name != "clearance"} == {
        name: each for name, each in defaults().items() if name != "clearance"
    }


@st.composite
def editions(draw):
    def number(low, high):
        return draw(st.integers(round(low * 100), round(high * 100))) / 100

    rows = []
    for one, row in zip(KNOWN, seed()["defaults"], strict=True):
        low, high = sorted((number(one.low, one.high), number(one.low, one.high)))
        rows.append(row | {"value": low, "up to": high if one.span else None, "origin": draw(st.sampled_from(ORIGINS)), "source": "theirs"})
    by_name = {one.name: row for one, row in zip(KNOWN, rows, strict=True)}
    by_name["bulb_compression"]["value"] = by_name["seal_band"]["value"]
    by_name["leaf_gap_plan"]["value"] = by_name["leaf_gap"]["up to"]
    return draw(st.permutations(rows))


@settings(max_examples=25, deadline=None)
@given(editions())
def test_any_within_the_limits_go_out_and_in_and_make_a_plan(rows):
    back, faults = catalogue_csv.read("defaults", catalogue_csv.write("defaults", rows).encode())
    assert (back, faults) == (rows, [])
    assert edition("defaults", back) == edition("defaults", rows)
    diameter = next(row for row in rows if row["id"] == "rivet's diameter")
    usable = [row if row is not diameter else diameter | {"value": 4.8} for row in rows]
    assert build(InForce.of({**seed(), "defaults": usable}, {})).packet["steps"]


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        # 29 CFR 1910.252(a)(2)(iii)(B), facts 6: at least a half hour
        ("fire watch,60,", "fire watch,29.5,", "line 10, value: 29.5; right would be 30 to 600 min: 29 CFR 1910.252(a)(2)(iii)(B) asks half an hour at least."),
        ("fire watch,60,", "fire watch,1,", "line 10, value: 1.0; right would be 30 to 600 min"),
        ("head,6,", "head,600,", "line 2, value: 600.0; right would be 0 to 100 mm."),
        ("lift,8,,m/s", "lift,8,,mph", "line 11, unit: 'mph'; right would be 'm/s'."),
        ("lift,8,", "lift,90,", "line 11, value: 90.0; right would be 1 to 30 m/s."),
        ("lift,8,", "lift,,", "line 11, value: nothing; right would be a number"),
        ("lift,8,", "lift,8 m/s,", "line 11, value: '8 m/s'; right would be a number"),
        ("lift,8,,", "lift,8,9,", "line 11, up to: 9.0; right would be nothing: it has one value."),
        ("stops at,90,95", "stops at,95,90", "line 9, up to: 90.0; right would be 95 or more, as value has it."),
        ("stops at,90,95", "stops at,90,", "line 9, up to: nothing; right would be 45 to 180 °."),
        ('compression",45', 'compression",55', "line 3, value: 55.0; right would be 40 to 50, as bulb seal, compression allowed has it."),
        ('planned",3.2', 'planned",5', "line 17, value: 5.0; right would be 1.6 to 4.8, as gap round the leaf, allowed has it."),
        ("width of a tab,40", "width of a tab,5", "line 8, value: 5.0; right would be 20 to 60 mm: the step of the tabs takes this."),
        ("width of a tab,", "tab's width,", "no row has the id 'width of a tab'; right would be one: plans are made by it."),
        ("width of a tab,", "tab's width,", "line 8, id: \"tab's width\"; right would be one of the ids that edition 0 has."),
        ("practice or our own,our own figure;", "guess,our own figure;", "right would be one of \"maker's sheet\", 'published', 'practice or our own', 'local rule'."),
        ("mm,practice or our own,our own figure\r\n", "mm,practice or our own,\r\n", "line 8, source: nothing; right would be a text of 1 to 400 characters on one line."),
    ],
)
def test_nonsense_is_refused_with_the_value_and_what_would_be_right(was, now, said):
    assert was in CSV
    _, faults = catalogue_csv.read("defaults", CSV.replace(was, now, 1).encode())
    assert any(said in each for each in faults), faults


def test_a_plan_is_made_by_them_says_whose_they_are_and_an_old_one_keeps_its_own():
    before = build(seeded())
    shop = under(**{"clearance at each side and the head": 8.0, "fire watch": 90.0, "marks against the plan, within": 1.0, "frame, square within": 1.2})
    after = build(shop)
    # contract.md, opening: the cut's width is the frame's and both clearances: 914 + 2 * 8
    widths = [next(each for each in built.packet["planned"] if each["id"] == "opening_width")["nm"] for built in (before, after)]
    assert [width / 1e6 for width in widths] == [914 + 2 * 6, 914 + 2 * 8]
    watch = next(each for each in fields(after).values() if each.get("expect", {}).get("source") == MAKERS and each.get("ucum") == "min")
    assert (watch["plan"], watch["expect"]["from"], watch["expect"]["origin"]) == (90, 90, "M")
    marks = [each["expect"] for each in fields(after).values() if each.get("expect", {}).get("source") == MAKERS and each["type"] == "length"]
    assert {each["to"] - each["from"] for each in marks} == {2_000_000}
    frame = next(part for part in after.parts.values() if b'"name":"frame"' in part.replace(b": ", b":"))
    assert MAKERS.encode() in frame
    assert b'"tolerance":1.2' in frame.replace(b": ", b":")
    assert after.packet["editions"] == before.packet["editions"] | {"defaults": shop.hashes["defaults"]}
    assert build(seeded()).hash == before.hash
    assert fields(build(shop, watch_minutes=45))[next(key for key, each in fields(after).items() if each is watch)]["plan"] == 45  # the plan's own beats it


def test_a_seal_of_its_own_band_is_planned_for_at_its_middle():
    seal = {"kind": "bulb", "free_height": 12, "band": [20, 30]}
    assert {each["id"]: each.get("text") for each in build(seeded(), head_seal=seal).packet["planned"]}["compression"] == "25 %"
