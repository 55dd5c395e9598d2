"""A record on paper: the same lines under the same numbers as on the screen, and a title block on every page."""

import re
from datetime import UTC, datetime
from types import SimpleNamespace

import pytest
from desk import paper_pages, plain

from fieldapp.web import office_paper, office_proof

JOB, UNIT, CODE = "Saltmarsh stores", "03", "KWZ-55"
# a heading of a column that a narrow window repeats in the cell is no part of the line
LINES = """() => [...document.querySelectorAll('tr, .notice, li')].filter(row => row.querySelector('.line'))
  .map(row => { const told = row.cloneNode(true);
                told.querySelectorAll('.on-screen, .hidden, .narrow').forEach(e => e.remove());
                return [row.querySelector('.line').textContent, told.textContent]; })"""
CUT = """() => [...document.querySelectorAll('main tr, .notice')]
  .filter(row => getComputedStyle(row).breakInside !== 'avoid').length"""
SMALL = """() => [...document.querySelectorAll('body *')]
  .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()) && e.getClientRects().length)
  .filter(e => parseFloat(getComputedStyle(e).fontSize) < 11.99).map(e => e.outerHTML)"""
NOT_BLACK = """() => [...document.querySelectorAll('main *')]
  .filter(e => e.textContent.trim() && e.getClientRects().length)
  .filter(e => getComputedStyle(e).color !== 'rgb(0, 0, 0)').map(e => e.outerHTML)"""


@pytest.fixture(scope="module")
def record(desk):
    return desk.record(JOB, UNIT)


@pytest.fixture(scope="module", params=["A4", "Letter"])
def printed(record, request):
    return paper_pages(record.pdf(format=request.param))


def test_every_line_of_the_screen_is_on_paper_under_its_number(record, printed):
    """screens.md principle 12: complete, G too, though it is folded on the screen."""
    lines = record.evaluate(LINES)
    groups = {number[0] for number, _ in lines}
    assert {"A", "B", "C", "D", "E", "S", "G"} <= groups
    assert len({number for number, _ in lines}) == len(lines)
    paper = "".join(printed)
    assert [text for _, text in lines if plain(text) not in paper] == []
    places = [paper.index(plain(text)) for number, text in lines if number[0] == "G"]
    assert places == sorted(places)
    assert paper.index("Everyentry(") < places[0]


def test_the_title_block_stands_on_every_page(record, printed, desk):
    there = desk.client().get(f"/api/units/{desk.units[JOB, UNIT]}/entries?limit=500").get_json()["entries"]
    [signoff] = [entry for entry in there if entry["kind"] == "signoff"]
    assert len(printed) > 3
    for place, page in enumerate(printed, 1):
        assert f"{JOB}{UNIT},{CODE}".replace(" ", "") in page
        assert f"page{place}of{len(printed)}" in page
        assert f"Sign-off{signoff['value']['sha256'][:12]}" in page
        assert re.search(r"Printed\d{1,2}[A-Z][a-z]{2}\d{4},\d\d:\d\dUTCbyruth", page)


def test_no_page_but_the_last_is_mostly_white(printed):
    """Words on a page, by the mean of them all: none but the last has less than a third of it."""
    mean = sum(map(len, printed)) / len(printed)
    assert [len(page) for page in printed[:-1] if len(page) < mean / 3] == []


def test_paper_is_black_on_white_and_no_row_is_cut(record):
    record.emulate_media(media="print")
    try:
        assert record.evaluate(CUT) == 0
        assert record.evaluate(SMALL) == []  # 9 pt are 12 px
        assert record.evaluate(NOT_BLACK) == []
    finally:
        record.emulate_media(media="screen")


def test_the_title_block_cannot_be_broken_by_a_name(monkeypatch):
    """CSS Syntax 3, 4.3.5: a string ends at its quote or at a line's end, so neither stands in it unescaped."""
    monkeypatch.setattr(office_proof, "signed", lambda _: [])
    job = SimpleNamespace(name="Quay\\ 3\nnorth</style>")
    unit = SimpleNamespace(number='7"; } @import url(x)', short="7K3MQ", job=job)
    sheet = office_paper.stylesheet(SimpleNamespace(unit=unit), "ruth", datetime(2026, 11, 25, 10, 42, tzinfo=UTC))
    assert '"Quay\\5c  3\\a north\\3c /style>"' in sheet
    assert '"7\\22 ; } @import url(x), 7K3-MQ"' in sheet
    assert '"Printed 25 Nov 2026, 10:42 UTC" "\\A " "by ruth"' in sheet
    assert '"Sign-off" "\\A " "not signed"' in sheet
