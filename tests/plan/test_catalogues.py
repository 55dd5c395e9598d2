# ruff: noqa: E501 - a fault is read beside the file that makes it
"""Catalogues: edition 0 is the seed tables, out and in again is the same edition, and no bad file is half taken."""

import csv
import io
from string import printable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan import catalogue_csv
from fieldapp.plan.catalogue import CATALOGUES, WALLS, _inches_read, edition
from fieldapp.plan.catalogue_changes import changes
from fieldapp.plan.catalogue_seed import profiles_table, rivets_table, seed
from fieldapp.plan.tables import table

NAMES = sorted(CATALOGUES)
PROFILES = (
    "id,wall,outer (mm),slope (mm),inner (mm),depth (mm),source\r\n"
    "corrugated side,corrugated side,72,68,70,36,seen\r\n"
    "corrugated end,corrugated end,110,18,104,45.6,seen\r\n"
)
SEMI = PROFILES.replace(",", ";").replace("45.6", "45,6")  # as a spreadsheet saves it where the comma is the decimal mark


def faults_of(text, name="profiles"):
    _, faults = catalogue_csv.read(name, text if isinstance(text, bytes) else text.encode())
    assert faults
    assert all("right would be" in each or "more faults" in each for each in faults)
    return faults


def test_edition_nought_is_the_seed_tables():
    rows = seed()
    assert rivets_table(rows["rivets"]) == table("rivets")
    assert profiles_table(rows["profiles"]) == table("profiles")
    low, high = table("seals")["band"]
    assert (rows["seals"][0]["band from"], rows["seals"][0]["band to"]) == (low, high)
    classes = {str(one["class"]): (one["opens"], one["closes"]) for one in table("sealant")["classes"]}
    assert {row["class"]: (row["opens"], row["closes"]) for row in rows["sealants"]} == classes
    assert all(row["source"] for each in rows.values() for row in each)


def test_printed_speeds_are_those_of_80_metres_a_second():
    """n = 60 000 v / (pi D), facts 6; labels round, at most 0.2 % up."""
    for row in seed()["discs"]:
        exact = 60_000 * 80 / (3.141592653589793 * row["diameter"])
        assert -0.003 < row["printed speed"] / exact - 1 < 0.002


@pytest.mark.parametrize("name", NAMES)
def test_the_seed_goes_out_and_comes_in_the_same(name):
    rows = seed()[name]
    back, faults = catalogue_csv.read(name, catalogue_csv.write(name, rows).encode())
    assert (back, faults) == (rows, [])
    assert edition(name, back) == edition(name, rows)


def texts(longest=20):
    letters = st.sampled_from(printable[:95] + "=+-@'\"éßΩ漢🌧")
    return st.text(letters, min_size=1, max_size=longest).map(str.strip).filter(bool)


def cells(column):
    if column.kind == "choice":
        value = st.sampled_from(column.choices)
    elif column.kind == "text":
        value = texts()
    elif column.kind == "count":
        value = st.integers(int(column.low), int(column.high)).map(float)
    else:
        scale = 10_000
        value = st.integers(int(column.low * scale), int(column.high * scale)).map(lambda n: round(n / scale, 4))
    return value if column.needed else st.none() | value


@st.composite
def editions(draw):
    """A catalogue's name and rows that fit it; what rows say about each other is put right."""
    name = draw(st.sampled_from([each for each in NAMES if each != "defaults"]))  # their ids are fixed: test_defaults
    kind = CATALOGUES[name]
    row = st.fixed_dictionaries({column.name: cells(column) for column in kind.columns})
    rows = draw(st.lists(row, min_size=1, max_size=5, unique_by=lambda row: row["id"].casefold()))
    for number, each in enumerate(rows):
        for low, high in kind.rising:
            if each[low] is not None and each[high] is not None:
                each[low], each[high] = sorted((each[low], each[high]))
        if name == "profiles":
            each["wall"] = WALLS[number % 2]
            each["id"] = WALLS[number] if number < 2 else f"{each['id']}-{number}"
        if name == "rivets":
            each["diameter"], each["inch"] = 2.0 + number, None
        if name == "seals":
            each["free height"] = None if each["kind"] == "edge trim" else each["free height"]
            each["band from"] = None if each["band to"] is None else each["band from"]
            each["band to"] = None if each["band from"] is None else each["band to"]
        if name == "doors":
            each["frame width"], each["frame height"], each["total mass"] = 3000.0, 4000.0, None
            each["corners width"] = min(each["corners width"], 2999.0)
            each["corners height"] = min(each["corners height"], 3999.0)
    if name == "profiles" and len(rows) < 2:
        rows.append(rows[0] | {"id": WALLS[1], "wall": WALLS[1]})
    return name, rows


@settings(max_examples=60, deadline=None)
@given(editions())
def test_out_and_in_is_the_same_edition(made):
    name, rows = made
    text = catalogue_csv.write(name, rows)
    back, faults = catalogue_csv.read(name, text.encode())
    assert (faults, back) == ([], rows)
    assert edition(name, back)[0] == edition(name, rows)[0]
    cells_ = [cell for line in csv.reader(io.StringIO(text, newline="")) for cell in line]
    assert not [cell for cell in cells_ if cell.startswith(("=", "+", "-", "@"))]  # nothing a spreadsheet would run


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(NAMES), st.binary(max_size=300) | st.text(max_size=300).map(lambda text: text.encode()))
def test_no_bytes_make_it_fall(name, body):
    rows, faults = catalogue_csv.read(name, body)
    assert faults or rows is not None


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(PROFILES) - 1), st.sampled_from('"\r\n,;=-\0é '))
def test_one_letter_wrong_is_named_or_still_a_text(at, letter):
    rows, faults = catalogue_csv.read("profiles", (PROFILES[:at] + letter + PROFILES[at + 1 :]).encode())
    assert faults or len(rows) == 2


def test_a_byte_order_mark_and_any_order_of_columns_are_taken():
    rows, faults = catalogue_csv.read("profiles", b"\xef\xbb\xbf" + PROFILES.encode())
    assert (len(rows), faults) == (2, [])
    turned = "\n".join(",".join(reversed(line.split(","))) for line in PROFILES.splitlines())
    assert catalogue_csv.read("profiles", turned.encode()) == (rows, [])


@pytest.mark.parametrize(
    "text",
    [
        SEMI,
        "\ufeff" + SEMI,
        "sep=;\r\n" + SEMI,
        SEMI.replace(";", "\t"),
        SEMI.replace("45,6", "45.6"),  # whole file with points
        SEMI.replace("\r\n", "\n").replace("seen", '"seen"'),
        SEMI.replace("\r\n", ";;\r\n") + ";;;;;;;;\r\n",  # cells once used beyond the columns
        PROFILES.replace("\r\n", "\r\n\r\n"),
        PROFILES.replace("outer (mm)", "Outer  (MM)").replace("id,", "ID,"),
        PROFILES.replace("side,corrugated side", "side,Corrugated Side"),
    ],
)
def test_what_spreadsheets_make_of_it_is_the_same_edition(text):
    rows, faults = catalogue_csv.read("profiles", text.encode())
    assert faults == []
    assert rows == catalogue_csv.read("profiles", PROFILES.encode())[0]


@pytest.mark.parametrize("name", NAMES)
def test_semicolons_go_out_and_come_in_the_same(name):
    rows = [row | {"source": "½ in; =A1, 4,8 °C"} for row in seed()[name]]
    text = catalogue_csv.write(name, rows, semicolons=True)
    assert catalogue_csv.read(name, text.encode()) == (rows, [])
    assert text.startswith("\ufeffid;")


def test_inches_in_the_heading_are_exact():
    """1 in is 25.4 mm exactly (international inch): 0.126 in is 3.2004 mm, facts 2's row 64."""
    heads = "id,diameter (mm),inch,grip from (in),grip to (in),hole from (mm),hole to (mm),head (mm),hole source,source"
    body = f"{heads}\n64,4.8,3/16,0.126,0.25,4.9,5,,x,TM\n"
    [row], faults = catalogue_csv.read("rivets", body.encode())
    assert (row["grip from"], row["grip to"], faults) == (3.2004, 6.35, [])


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (SEMI.replace("45,6", "45.6").replace(";72;", ";7,2;"), "line 3, depth (mm): '45.6'; right would be a number with at most 4 decimals, 0 to 500; this file's decimal mark is the comma."),
        (SEMI.replace(";72;", ";1.072,5;"), "line 2, outer (mm): '1.072,5'; right would be"),
        (SEMI.replace(";72;", ";7,2,5;"), "line 2, outer (mm): '7,2,5'; right would be"),
        (SEMI.replace(";72;", ";=60+12;"), "line 2, outer (mm): '=60+12'; right would be"),
        (SEMI.replace("36;seen", "36;seen;more"), "line 2: 8 cells; right would be 7, one for each heading."),
        (PROFILES.replace(",72,", ";72;"), "line 2: 5 cells; right would be 7"),
        (PROFILES.replace("outer (mm)", "outer (cm)"), "line 1: 'outer (cm)'; right would be 'outer (mm)' or 'outer (in)'."),
        (PROFILES.replace("depth (mm)", "deep (mm)"), "line 1: 'deep (mm)'; right would be one of id, wall, outer (mm)"),
        (PROFILES.replace("depth (mm)", "inner (mm)"), "line 1: 'inner (mm)' stands twice; right would be once."),
        (PROFILES.replace(",72,", ",7x,"), "line 2, outer (mm): '7x'; right would be a number with at most 4 decimals, 1 to 1000."),
        (PROFILES.replace(",72,", ",-72,"), "line 2, outer (mm): '-72'; right would be"),
        (PROFILES.replace(",72,", ",1e3,"), "line 2, outer (mm): '1e3'; right would be"),
        (PROFILES.replace(",72,", ",nan,"), "line 2, outer (mm): 'nan'; right would be"),
        (PROFILES.replace(",72,", ",٧٢,"), "line 2, outer (mm): '٧٢'; right would be"),
        (PROFILES.replace(",72,", ",72000,"), "line 2, outer (mm): '72000'; right would be"),
        (PROFILES.replace(",72,", ',"7,2",'), "line 2, outer (mm): '7,2'; right would be"),
        (PROFILES.replace(",72,", ",,"), "line 2, outer (mm): nothing; right would be"),
        (PROFILES.replace("36,seen", "36,"), "line 2, source: nothing; right would be a text of 1 to 400"),
        (PROFILES.replace("36,seen", "36"), "line 2: 6 cells; right would be 7, one for each heading."),
        (PROFILES.replace("corrugated end,c", "corrugated side,c"), "line 3, id: 'corrugated side'; right would be an id used once; line 2 has it."),
        (PROFILES.replace("corrugated end,c", "other,c"), "no row has the id 'corrugated end'"),
        (PROFILES.replace("side,corrugated side", "side,corrugated end"), "line 2, wall: 'corrugated end'; right would be 'corrugated side'."),
        (PROFILES.replace("side,corrugated side", "side,brick"), "line 2, wall: 'brick'; right would be one of 'corrugated side', 'corrugated end'."),
        (PROFILES.replace("36,seen", '36,"see"n'), "line 2: "),
        (PROFILES.replace("36,seen", "36,a\x07b"), "line 2, source: 'a\\x07b'; right would be"),
        ("", "the file is empty; right would be a line of headings: id, wall, outer (mm)"),
        (b"id,wall\n\xff\xfe", "line 2: byte 0xff is not UTF-8; right would be a file saved as UTF-8."),
        (PROFILES.encode("utf-16"), "line 1: byte 0xff is not UTF-8"),
        (b"id\0,wall", "line 1: a zero byte"),
        (PROFILES + "x" * (1 << 20), " bytes; right would be 1048576 (1 MiB) at most."),
        (PROFILES + '"' + "x" * 200_000 + '",1', "line 4: field larger than field limit"),
        (PROFILES + "a,b\r\n" * 5001, "the file has 5003 rows; right would be 5000 at most."),
    ],
)
def test_a_bad_file_is_named_by_line_and_column(body, said):
    assert any(said in each for each in faults_of(body)), faults_of(body)


def test_many_faults_are_counted():
    faults = faults_of(PROFILES + "\r\n".join(f"p{n},x,1,1,1,1,s" for n in range(80)))
    assert (len(faults), faults[-1]) == (51, "and 30 more faults.")


RIVETS = catalogue_csv.write("rivets", seed()["rivets"])


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        ("64,4.8,3/16,3.2004", "64,4.8,3/16,3.1", "line 14, grip from (mm): 3.1; right would be 3.175 or more, after row 62."),
        ("64,4.8,3/16,3.2004", "64,4.8,3/16,9", "line 14, grip to (mm): 6.35; right would be 9 or more, as grip from has it."),
        # 3/16 as two spreadsheets turn it into a date; 1/8 in is 3.175 mm
        ("64,4.8,3/16,", "64,4.8,16-Mar,", "line 14, inch: '16-Mar'; right would be 4.8 mm in inches, as 3/16 is 4.8 mm, or nothing."),
        ("64,4.8,3/16,", "64,4.8,2016-03-03,", "line 14, inch: '2016-03-03'; right would be"),
        ("64,4.8,3/16,", "64,4.8,1/8,", "line 14, inch: '1/8'; right would be 4.8 mm in inches"),
        ("64,4.8,3/16,", "64,4.8,1e999999999,", "line 14, inch: '1e999999999'; right would be"),
        ("64,4.8,3/16,3.2004,6.35,4.9,5,", "64,4.8,3/16,3.2004,6.35,4.8,5,", "line 14, hole from (mm): 4.8; right would be 4.9, as row 62 has it."),
    ],
)
def test_rivets_of_a_size_rise_and_share_their_hole(was, now, said):
    assert was in RIVETS
    assert any(said in each for each in faults_of(RIVETS.replace(was, now), "rivets"))


@pytest.mark.parametrize(("inch", "diameter"), [("13/64", 5.2), ("1 1/4", 31.75), ("1/4", 6.4), ("1", 25.4)])
def test_inch_sizes_are_read_as_they_are_written(inch, diameter):
    assert _inches_read([(2, {"inch": inch, "diameter": diameter})]) == []


def test_thousands_of_rows_come_in_whole_and_each_double_is_named():
    row = seed()["discs"][0]
    rows = [row | {"id": f"d{number}"} for number in range(5000)]
    text = catalogue_csv.write("discs", rows)
    assert catalogue_csv.read("discs", text.encode()) == (rows, [])
    doubled = text.replace("\r\nd4999,", "\r\nD7,").replace("\r\nd4998,", "\r\nd8,")
    assert faults_of(doubled, "discs") == [
        "line 5000, id: 'd8'; right would be an id used once; line 10 has it.",
        "line 5001, id: 'D7'; right would be an id used once; line 9 has it.",
    ]


def test_a_catalogue_of_rivets_is_not_empty():
    assert faults_of(RIVETS.split("\r\n")[0], "rivets") == [
        "no rivet stands in the file; right would be one row at least: plans need a size."
    ]


def test_changes_name_what_is_new_gone_and_changed():
    before = seed()["profiles"]
    after = [before[0] | {"depth": 38.0}, before[1] | {"id": "old works"}]
    found = changes("profiles", before, after)
    assert found[0] == {"id": "corrugated side", "is": "changed", "cells": [{"column": "depth (mm)", "was": 36.0, "now": 38.0}]}
    assert [(each["id"], each["is"]) for each in found[1:]] == [("old works", "new"), ("corrugated end", "gone")]
    assert changes("profiles", before, before) == []
