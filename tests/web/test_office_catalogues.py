# ruff: noqa: E501 - what is said is read beside the file that makes it
"""Catalogues in the office: seen, compared, taken out and brought in; a file with a fault leaves nothing behind."""

import io
import re

import pytest

from fieldapp.plan import catalogue_csv
from fieldapp.plan.catalogue import CATALOGUES, edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.store import editions
from fieldapp.store.base import read

PATH = "/office/catalogues/profiles"
DEEPER = catalogue_csv.write("profiles", [seed()["profiles"][0] | {"depth": 38.0, "source": "measured in our yard"},
                                          seed()["profiles"][1]])


@pytest.fixture
def ruth(yard):
    return yard.client("ruth")


def text(answer):
    return " ".join(re.sub(r"<[^>]+>", " ", answer.get_data(as_text=True)).replace("&#39;", "'").split())


def bring(client, body, path=PATH, since="0", because="our yard, May", name="file"):
    body = body.encode() if isinstance(body, str) else body
    return client.send("POST", path, data={"since": since, "because": because, name: (io.BytesIO(body), "p.csv")},
                       content_type="multipart/form-data")


def kept(client, name="profiles"):
    with client.yard.app.app_context(), read() as session:
        return editions.of(session, name)


def test_every_catalogue_stands_at_edition_nought_with_its_sources(ruth):
    page = text(ruth.get("/office/catalogues"))
    for kind in CATALOGUES.values():
        assert kind.say in page
        own = ruth.get(f"/office/catalogues/{kind.name}")
        assert own.status_code == 200
        assert all(row["source"] in text(own) for row in seed()[kind.name])
    assert page.count("the program came with the program") == len(CATALOGUES)


@pytest.mark.parametrize("parted", ["", "?parted=semicolons"])
@pytest.mark.parametrize("name", sorted(CATALOGUES))
def test_taken_out_and_brought_in_nothing_is_new(ruth, name, parted):
    out = ruth.get(f"/office/catalogues/{name}/0.csv{parted}")
    assert out.get_data().startswith(b"\xef\xbb\xbfid;" if parted else b"id,")
    assert out.headers["Content-Type"] == "text/csv; charset=utf-8; header=present"
    answer = bring(ruth, out.get_data(), f"/office/catalogues/{name}")
    if name == "doors":  # no door yet: headings alone are an edition too
        assert seed()[name] == []
    assert answer.status_code == 200
    assert "which is in force: nothing was kept" in text(answer)
    assert len(kept(ruth, name)) == 1


def test_a_file_becomes_the_next_edition_and_is_named_with_who_when_and_why(ruth):
    answer = bring(ruth, DEEPER)
    assert (answer.status_code, answer.headers["Location"]) == (303, f"{PATH}?kept=1")
    page = text(ruth.get(answer.headers["Location"]))
    assert "Edition 1 is in force for new plans. Plans that are issued keep their own." in page
    assert re.search(r"C1 1 , in force 2 [^C]*\d\d:\d\d ruth our yard, May", page)
    assert "B1 corrugated side changed depth (mm) 36 38" in page
    assert "source factory group specifications, from memory, check against the wall measured in our yard" in page
    [newest, first] = kept(ruth)
    assert newest.hash == edition("profiles", catalogue_csv.read("profiles", DEEPER.encode())[0])[0]
    assert (newest.number, first.number, newest.person_id) == (1, 0, ruth.yard.people["ruth"])
    assert ruth.get(f"{PATH}/1.csv").get_data(as_text=True) == DEEPER
    assert ruth.get(f"{PATH}/0.csv").get_data(as_text=True) == catalogue_csv.write("profiles", seed()["profiles"])


def test_a_row_that_is_new_or_gone_is_one_line(ruth):
    more = DEEPER + "old works end,corrugated end,110,18,104,40,their sheet\r\n"
    bring(ruth, more)
    bring(ruth, DEEPER, since="1")
    whole = "wall: corrugated end; outer (mm): 110; slope (mm): 18; inner (mm): 104; depth (mm): 40; source: their sheet"
    assert f"B2 old works end new the row – {whole}" in text(ruth.get(f"{PATH}?before=0&after=1"))
    assert f"B1 old works end gone the row {whole} –" in text(ruth.get(PATH))


def test_editions_stand_side_by_side(ruth):
    bring(ruth, DEEPER)
    back = text(ruth.get(f"{PATH}?before=1&after=0"))
    assert "What changed from edition 1 to edition 0" in back
    assert "B1 corrugated side changed depth (mm) 38 36" in back
    assert "Nothing: their rows are the same." not in back
    for wrong in ("after=2", "after=x", "before=-1", "before=٣", "after=99999999999999999999"):
        assert ruth.get(f"{PATH}?{wrong}").status_code == 404
    assert ruth.get(f"{PATH}/7.csv").status_code == 404
    assert ruth.get(f"{PATH}/99999999999999999999.csv").status_code == 404
    assert ruth.get("/office/catalogues/hinges").status_code == 404


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (DEEPER.replace("38", "-38"), "line 2, depth (mm): '-38'; right would be a number with at most 4 decimals, 0 to 500."),
        (DEEPER.replace(",38,", ";38,"), "line 2: 6 cells; right would be 7, one for each heading."),
        (DEEPER.replace("(mm)", "(km)"), "'outer (km)'; right would be 'outer (mm)' or 'outer (in)'."),
        (DEEPER + DEEPER.split("\r\n")[1], "right would be an id used once; line 2 has it."),
        (b"\xff\xfe" + DEEPER.encode("utf-16-le"), "is not UTF-8"),
        (b"", "Choose a CSV file first."),
        (b"\r\n\r\n", "the file is empty"),
        ("<script>alert(1)</script>,x\n", "&lt;script&gt;alert(1)&lt;/script&gt;"),
    ],
)
def test_a_file_with_a_fault_is_told_and_nothing_of_it_is_kept(ruth, body, said):
    answer = bring(ruth, body, because="our yard, May")
    assert answer.status_code == 422
    page = answer.get_data(as_text=True)
    assert "<script>alert" not in page
    assert said in page.replace("&#39;", "'")
    assert "the file was not taken, edition 0 stays in force" in page
    assert 'value="our yard, May"' in page
    assert len(kept(ruth)) == 1


def test_a_file_over_a_mebibyte_is_refused_by_its_size(ruth):
    answer = bring(ruth, DEEPER + "x" * (1 << 20))
    assert answer.status_code == 413
    assert "1 MiB" in text(answer)
    assert len(kept(ruth)) == 1


def test_without_a_file_or_in_another_field(ruth):
    for sent in (ruth.send("POST", PATH, data={"since": "0"}), bring(ruth, DEEPER, name="files")):
        assert sent.status_code == 422
        assert "Choose a CSV file first." in text(sent)
    assert bring(ruth, DEEPER, because="x" * 201).status_code == 422
    assert len(kept(ruth)) == 1


def test_an_edition_that_came_meanwhile_is_looked_at_first(ruth):
    bring(ruth, DEEPER)
    late = bring(ruth, DEEPER.replace("38", "39"), since="0")
    assert late.status_code == 409
    assert "Edition 1 is in force meanwhile." in text(late)
    assert [each.number for each in kept(ruth)] == [1, 0]
    assert bring(ruth, DEEPER.replace("38", "39"), since="1").status_code == 303


def test_who_may(yard):
    assert bring(yard.client("ada"), DEEPER).status_code == 303
    assert yard.client("ada").get("/office/catalogues").get_data(as_text=True).count("<nav") == 1
    assert yard.client("lena").get("/office/catalogues").status_code == 403
    assert bring(yard.client("lena"), DEEPER).status_code == 403
    ruth = yard.client("ruth")
    foreign = ruth.http.post(PATH, data={"since": "1"}, headers={"Sec-Fetch-Site": "cross-site"})
    assert foreign.status_code == 403


@pytest.mark.parametrize("width", [360, 1280])
def test_no_page_is_wider_than_its_window(desk, width):
    """screens.md: narrow, columns fold; rows wider than the window move inside their own frame."""
    for path in ("/office/catalogues", "/office/catalogues/rivets", "/office/catalogues/doors"):
        page = desk.show(path, width=width)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


def test_a_long_catalogue_shows_its_beginning_and_the_csv_has_it_all(ruth):
    row = {**seed()["discs"][0], "thickness": None}
    rows = [{**row, "id": f"d{number}"} for number in range(1000)]
    bring(ruth, catalogue_csv.write("discs", rows), "/office/catalogues/discs")
    page = text(ruth.get("/office/catalogues/discs"))
    assert "Discs: 1000 rows, edition 1 in force" in page
    assert ("A300 d299" in page, "A301" in page, "And 700 more rows: the CSV has them all." in page) == (True, False, True)
    gone = len(seed()["discs"])
    assert f"And {700 + gone} more rows that differ" in page
    assert ruth.get("/office/catalogues/discs/1.csv").get_data().count(b"\r\n") == 1001


def test_whoever_brings_in_defaults_is_told_that_every_row_is_needed(ruth):
    pages = [text(ruth.get(f"/office/catalogues/{name}")) for name in ("defaults", "discs")]
    assert ["Every row is needed" in page for page in pages] == [True, False]
    assert ["a row that it lacks is gone" in page for page in pages] == [False, True]
    out = ruth.get("/office/catalogues/defaults/0.csv").get_data(as_text=True)
    told = text(bring(ruth, out.replace("fire watch,60,", "fire watch,20,"), "/office/catalogues/defaults"))
    assert "line 10, value: 20.0; right would be 30 to 600 min: 29 CFR 1910.252(a)(2)(iii)(B) asks half an hour at least." in told
    assert len(kept(ruth, "defaults")) == 1
