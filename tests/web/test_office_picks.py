"""A job's pick list in the office: the page, its print, its CSV, and who sees it."""

import csv
import io
import json
import re

import pytest
from desk import paper_pages, plain

from fieldapp import settings
from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.csv_text import guarded, unguarded
from fieldapp.plan.picks import picks
from fieldapp.site import demo
from fieldapp.site.editions import in_force, made_under
from fieldapp.store import editions, packets, units
from fieldapp.store.base import read, write
from fieldapp.web.app import create_app

JOB = "Saltmarsh stores"


@pytest.fixture(scope="module")
def job(desk):
    with desk.app.app_context(), read() as session:
        return next(each.id for each in units.jobs(session) if each.name == JOB)


@pytest.fixture(scope="module")
def rows(desk, job):
    """The CSV read by the standard library, a dict a line."""
    answer = desk.client().get(f"/office/jobs/{job}/picks.csv")
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/csv; charset=utf-8; header=present"
    assert 'filename="pick-list-saltmarsh-stores.csv"' in answer.headers["Content-Disposition"]
    body = answer.get_data().decode("utf-8")
    assert body.count("\r\n") == body.count("\n")  # RFC 4180, 2.1
    lines = list(csv.reader(io.StringIO(body, newline=""), strict=True))
    assert {len(line) for line in lines} == {len(lines[0])}  # RFC 4180, 2.4
    return [dict(zip(lines[0], line, strict=True)) for line in lines[1:]]


def test_with_semicolons_it_says_the_same(desk, job, rows):
    """As a spreadsheet opens it that has decimal commas: a byte order mark, semicolons, commas in numbers."""
    body = desk.client().get(f"/office/jobs/{job}/picks.csv?parted=semicolons").get_data()
    head, *lines = csv.reader(io.StringIO(body.decode("utf-8-sig"), newline=""), delimiter=";", strict=True)
    assert body.startswith(b"\xef\xbb\xbf")
    amounts = [at for at, name in enumerate(head) if name.startswith(("needed", "spare")) or name == "order"]
    plain = [[cell.replace(",", ".") if at in amounts else cell for at, cell in enumerate(line)] for line in lines]
    assert any("," in line[at] for line in lines for at in amounts)
    assert plain == [list(row.values()) for row in rows]


def test_the_job_is_linked_from_the_units(desk, job):
    page = desk.client().get("/office/units").get_data(as_text=True)
    assert f'href="/office/jobs/{job}/picks"' in page
    numbers = re.findall(r'<td class="line">(\d+)</td>', page)
    assert numbers == [str(place) for place in range(1, len(numbers) + 1)]


def test_counts_of_the_demos_job(rows):
    """Five doors of scenario.toml: 01, 02, 07 in end walls, 03, 04 in side walls; by hand from that file."""
    parts = {row["part"]: row for row in rows}
    assert parts["Head kit, straight"]["needed (pieces)"] == "3"
    assert parts["Head kit, straight"]["units"] == "01 02 07"
    assert parts["Head kit, angled"]["units"] == "03 04"
    # end walls: two jambs of 8 each, three doors
    assert (parts["Blind rivet 4.8 mm, row 64"]["needed (pieces)"], parts["Blind rivet 4.8 mm, row 64"]["order"]) == (
        "48",
        "53",
    )
    # edge trim on 02 (4 mm head clearance stays 6.35: 2102 high) and 03 (2101.8): 2 * 2.1019 + 2 * 2.1018 = 8.41 m
    assert float(parts["Edge trim, sides"]["needed (m)"]) == pytest.approx(8.41, abs=0.01)
    assert float(parts["Edge trim, sides"]["order"]) == 9.3  # 10 % more, up to the next 0.1 m


def test_page_and_csv_say_the_same(desk, job, rows):
    page = plain(desk.client().get(f"/office/jobs/{job}/picks").get_data(as_text=True))
    for row in rows:
        assert plain(f'<td class="line">{row["line"]}</td><td><strong>{row["part"]}</strong>') in page
        counted = "piece" if (row["order"], row["order in"]) == ("1", "pieces") else row["order in"]
        assert plain(f'{row["order"]} {counted}</strong>') in page


def test_every_door_has_its_hand(desk, job):
    page = desk.client().get(f"/office/jobs/{job}/picks").get_data(as_text=True)
    cards = re.findall(r'<article class="hand" aria-label="Unit (\w+)">(.*?)</article>', page, re.DOTALL)
    assert [number for number, _ in cards] == ["01", "02", "03", "04", "07"]
    hands = {number: "right" if number in ("02", "04") else "left" for number, _ in cards}
    turns = {"left": "anti-clockwise", "right": "clockwise"}
    for number, card in cards:
        assert f"<title>Hinges {hands[number]}</title>" in card
        assert f"closes {turns[hands[number]]} (ISO, seen from above); {hands[number]}-hand reverse (US)" in card
    assert "rivets edition 0, seals edition 0" in page
    assert page.count("The straight kit fits the end wall.") == 3
    assert page.count("The angled kit fits the side wall.") == 2


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_list_prints_whole_with_its_title_block(desk, job, rows, paper):
    shown = desk.show(f"/office/jobs/{job}/picks")
    printed = paper_pages(shown.pdf(format=paper))
    whole = "".join(printed)
    assert [row["part"] for row in rows if plain(row["part"]) not in whole] == []
    assert [number for number in ("01", "02", "03", "04", "07") if f"Unit{number}" not in whole] == []
    for place, page in enumerate(printed, 1):
        assert f"page{place}of{len(printed)}" in page
        assert "Saltmarshstores" in page


def test_only_a_supervisor_who_sees_the_job(shared, yard):
    ruth = shared.client("ruth")
    assert ruth.get("/office/jobs/0199c0de-0000-7000-8000-0000000000ff/picks").status_code == 404
    assert ruth.get("/office/jobs/%F0%9F%8C%A7/picks.csv").status_code == 404
    assert shared.client("lena").get("/office/jobs/x/picks").status_code == 403


def test_units_without_a_plan_are_named_and_not_counted(shared):
    """The yard's units were never planned: their choices are empty."""
    ruth = shared.client("ruth")
    with shared.app.app_context(), read() as session:
        id_ = units.jobs(session)[0].id
    page = ruth.get(f"/office/jobs/{id_}/picks")
    assert page.status_code == 200
    assert page.get_data(as_text=True).count("is not counted") == 3
    links = re.findall(r'href="/office/units/([^/]+)/plan">Open its plan', page.get_data(as_text=True))
    assert sorted(links) == sorted(shared.units[number] for number in ("07", "08", "09"))
    assert ruth.get(f"/office/jobs/{id_}/picks.csv").get_data(as_text=True).count("Not counted") == 3


def test_no_cell_is_a_formula(yard):
    """OWASP's list of what starts a formula (=, +, -, @, tab, return), from memory."""
    with yard.app.app_context(), write() as session:
        for unit in units.in_job(session, units.jobs(session)[0].id):
            unit.number = f'=HYPERLINK("http://x","{unit.number}")'
            unit.choices = json.dumps({"wall": "@up"})
        id_ = units.jobs(session)[0].id
    body = yard.client("ruth").get(f"/office/jobs/{id_}/picks.csv").get_data(as_text=True)
    cells = [cell for line in csv.reader(io.StringIO(body, newline="")) for cell in line]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert any(cell.startswith("'=HYPERLINK") for cell in cells)


@pytest.mark.parametrize("text", ["=1+1", "'=1", "''", "plain", "-3", "@a", "", "'", "'tis", "a'b", "\tx"])
def test_what_is_guarded_is_read_back(text):
    assert unguarded(guarded(text)) == text


def test_a_door_is_counted_under_the_editions_of_its_plan(tmp_path):
    """A shop's wall has wider slopes: a door planned before keeps its 4 inner flats, one planned after crosses 3."""
    side = [row for row in seed()["profiles"] if row["id"] == "corrugated side"]
    # pitch 110 + 104 + 2 * 43 = 300: 3 * 300 - 110 = 790 <= 939.8 <= 900 + 110 - 50 = 960, so 3 inner flats
    end = [row | {"slope": 43.0} for row in seed()["profiles"] if row["id"] == "corrugated end"]
    app = create_app(tmp_path, settings.load(tmp_path))
    made = demo.seed(app)
    with app.app_context(), write() as session:
        editions.add(session, "profiles", *edition("profiles", side + end), person_id=made.people["ruth"]["id"])
    with app.app_context(), read() as session:
        unit = units.get(session, made.units[JOB, "01"])
        old, now = packets.parsed(session, [unit.packet])[unit.packet], in_force(session)
        assert made_under(session, old, now).profiles["corrugated end"]["slope"] == 18
        assert made_under(session, old, now).numbers == now.numbers | {"profiles": 0, "doors": 0}
        assert made_under(session, None, now) is now
        choices = units.choices_of(unit)
        counts = [
            line["need"]
            for each in (made_under(session, old, now), now)
            for line in picks([{"number": "1", "choices": choices, "under": each}])["lines"]
            if "66" in line["what"]
        ]
    assert counts == [4, 3]
