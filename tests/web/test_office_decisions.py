"""What waits leads to a form, a no is read by the crew, accounts and changes show what tells them apart."""

import re

from office_acts import act, read_gap, record, signed, text, tick_and_release


def test_what_was_typed_is_kept_where_it_cannot_be_taken(yard, ruth):
    lena = yard.client("lena")
    lena.kept(read_gap(lena, 9_000_000))
    page = act(ruth, do="admit", of="x", because="she sent it <b>before</b>").get_data(as_text=True)
    assert "she sent it" not in page  # no form of that kind stands here any more
    signed(yard, 9_000_000)
    page = act(ruth, do="return", of="another sign-off", because="gap <b>again</b>").get_data(as_text=True)
    assert 'value="gap &lt;b&gt;again&lt;/b&gt;"' in page


def test_a_concession_may_be_refused_and_the_crew_reads_why(yard, ruth):
    lena = yard.client("lena")
    [gap] = lena.kept(read_gap(lena, 9_000_000))
    lena.kept(lena.entry("ask", {"covers": [gap], "because": "hinge leaf bent"}))
    silent = act(ruth, do="refuse", step="hinge-jamb", because=" ")
    assert silent.status_code == 422
    assert 'aria-describedby="why-hinge-jamb-fault"' in silent.get_data(as_text=True)
    assert act(ruth, do="refuse", step="hinge-jamb", because="straighten the leaf").status_code == 303
    note = lena.get(f"/api/units/{yard.units['07']}/entries").get_json()["entries"][-1]
    assert (note["kind"], note["step"], note["field"]) == ("note", "hinge-jamb", None)
    assert note["value"]["text"] == "Not granted: straighten the leaf"
    page = text(ruth.get("/office/"))
    assert "Nothing waits for you." in page
    assert "F Answered with no" in page
    assert "ruth: Not granted: straighten the leaf" in page
    assert "ruth: Not granted: straighten the leaf" in text(record(ruth))
    lena.kept(lena.entry("ask", {"covers": [gap], "because": "straight now, still wide"}))
    assert "One thing waits for you. One crew stands still." in text(ruth.get("/office/"))


def test_a_second_look_may_be_refused(yard, ruth):
    lena = yard.client("lena")
    lena.kept(read_gap(lena))
    tick_and_release(lena, "omar")
    assert act(ruth, do="refuse", step="stop", because="feet first").status_code == 303
    page = text(ruth.get("/office/"))
    assert "Nothing waits for you." in page
    assert "Look again: feet first" in page
    assert act(ruth, do="refuse", step="hinge-jamb", because="x").status_code == 422


def test_every_line_that_waits_leads_to_a_form_that_answers_it(yard, ruth):
    """No dead ends: the place on the record that the line's verb leads to holds a form, or the page's foot does."""
    lena, omar = yard.client("lena"), yard.client("omar")
    lena.kept(read_gap(lena, 3_000_000))
    omar.kept(read_gap(omar, 4_500_000))
    tick_and_release(lena, "omar")
    [gap] = lena.kept(read_gap(lena, 9_000_000, unit="08"))
    lena.kept(lena.entry("ask", {"covers": [gap], "because": "bent"}, unit="08"))
    hrefs = re.findall(r'class="do" href="([^"]+)"', ruth.get("/office/").get_data(as_text=True))
    assert len(hrefs) == 3
    for href in hrefs:
        path, _, place = href.partition("#")
        page = ruth.get(path).get_data(as_text=True)
        assert re.search(rf'id="{place}".*?<form method="post"', page, re.DOTALL), href


def test_two_accounts_say_all_that_tells_them_apart(yard, ruth):
    lena, omar = yard.client("lena"), yard.client("omar", device="0199c0de-0000-7000-8000-0000000000aa")
    lena.kept(read_gap(lena, 3_000_000))
    omar.kept(read_gap(omar, 4_500_000))
    page = text(record(ruth)).replace("\u00a0", " ")
    assert "Two accounts: Hinge jamb first: Gap, allowed from 2 mm to 5 mm" in page
    for number, figure, name in (("T1", "3 mm", "lena"), ("T2", "4.5 mm", "omar")):
        account = rf"{number} {figure} {name} {name}'s phone its clock (25 Nov 2026, )?09:42 here \d"
        assert re.search(account, page), page


def test_a_change_after_signing_shows_both_figures(yard, ruth):
    signed(yard)
    lena = yard.client("lena", device="0199c0de-0000-7000-8000-0000000000aa")
    there = lena.get(f"/api/units/{yard.units['07']}/entries").get_json()["entries"]
    gap = next(entry for entry in there if entry["field"] == "gap")
    lena.kept(read_gap(lena, 4_000_000, replaces=[gap["id"]]))
    page = text(record(ruth)).replace("\u00a0", " ")
    assert re.search(r"Hinge jamb first: Gap, allowed from 2 mm to 5 mm lena, [^<]*? when signed 3 mm now 4 mm", page)


def test_one_step_is_said_as_one(yard, ruth):
    lena = yard.client("lena")
    lena.kept(read_gap(lena))
    assert "1 step still to do: Stop." in text(record(ruth))
