"""The supervisor's pages: what waits, the record, and each decision as an entry through the same door as a phone's."""

import html
import re

import pytest
from office_acts import act, read_gap, record, signed, state, text, tick_and_release
from yard import PASSWORD, Client

from fieldapp.record.entries import covers_hash
from fieldapp.store import people
from fieldapp.store.base import write


@pytest.mark.parametrize("path", ["/office/", "/office/units", "/office/units/{unit}"])
def test_the_office_is_for_supervisors(shared, path):
    path = path.format(unit=shared.units["07"])
    assert shared.client().get(path).status_code == 303
    assert shared.client("lena").get(path).status_code == 403
    assert shared.client("ada").get(path).status_code == (200 if path == "/office/units" else 403)
    assert shared.client("ruth").get(path).status_code == 200


def test_an_administrator_comes_to_a_plan_by_links_alone(yard):
    """From signing in: the list of units, and each unit's plan; nothing there leads to a page that is not hers."""
    ada = yard.client("ada")
    page = ada.get("/office/units").get_data(as_text=True)
    links = set(re.findall(r'<a[^>]* href="(/[^"]*)"', page))
    assert {f"/office/units/{unit}/plan" for unit in yard.units.values()} < links
    assert {ada.get(link).status_code for link in links} == {200}
    plan = ada.get(f"/office/units/{yard.units['07']}/plan").get_data(as_text=True)
    back = set(re.findall(r'<a[^>]* href="(/office[^"]*)"', plan))
    assert {"/office/units", "/office/catalogues"} <= back
    assert {ada.get(link).status_code for link in back} == {200}
    assert "Pick list" in yard.client("ruth").get("/office/units").get_data(as_text=True)
    assert "Pick list" not in page


def test_nothing_waits(shared):
    assert "Nothing waits for you." in text(shared.client("ruth").get("/office/"))


def test_a_unit_is_found_by_its_code_as_it_is_shown(shared):
    ruth = shared.client("ruth")
    unit = ruth.get(f"/api/units/{shared.units['07']}").get_json()
    shown = f"{unit['short'][:3]}-{unit['short'][3:]}"
    page = text(ruth.get(f"/office/units?find={shown}"))
    assert "1 unit with" in page
    assert "Quay 3 / 07" in page
    assert "No unit has" in text(ruth.get("/office/units?find=nowhere"))


def test_a_stated_hold_point_waits_until_the_second_person_says_so(yard, ruth):
    lena = yard.client("lena")
    lena.kept(read_gap(lena))
    _, release = tick_and_release(lena, "ruth")
    page = text(ruth.get("/office/"))
    assert "One thing waits for you. One crew stands still." in page
    assert "Hold point: Stop" in page
    assert act(ruth, do="confirm", of=release).status_code == 303
    assert [step["hold"] for step in state(ruth)["steps"]] == [None, "confirmed"]
    assert "Stop: confirmed" in text(record(ruth))


def test_nobody_confirms_for_another(yard):
    lena = yard.client("lena")
    lena.kept(read_gap(lena))
    _, release = tick_and_release(lena, "omar")
    answer = act(yard.client("ruth"), do="confirm", of=release)
    assert answer.status_code == 422
    assert "not yours to confirm" in answer.get_data(as_text=True)


def test_a_supervisor_releases_from_the_office(yard, ruth):
    """state.md: a release entered by the second person herself, who made none of the entries, is confirmed."""
    lena = yard.client("lena")
    lena.kept(read_gap(lena), lena.entry("tick", {"ticked": True}, step="stop", field="stays"))
    assert act(ruth, do="release", step="stop").status_code == 303
    assert [step["hold"] for step in state(ruth)["steps"]] == [None, "confirmed"]


def test_accepting(yard, ruth):
    signoff = signed(yard)
    assert "Signed, complete, 3 entries" in text(ruth.get("/office/"))
    assert act(ruth, do="accept", of=signoff, because="").status_code == 303
    assert state(ruth)["is"] == "accepted"
    assert "Accepted by: ruth" in text(record(ruth))
    assert "Nothing waits" not in text(ruth.get("/office/"))  # the second look is still only stated


def test_returning_needs_a_reason(yard, ruth):
    signoff = signed(yard)
    silent = act(ruth, do="return", of=signoff, because="  ")
    assert silent.status_code == 422
    assert 'role="alert"' in silent.get_data(as_text=True)
    assert "Say why; the crew reads this." in silent.get_data(as_text=True)
    page = silent.get_data(as_text=True)
    assert page.count("Say why; the crew reads this.") == 2  # on top, and beside its field
    assert 'aria-invalid="true" aria-describedby="why-return-fault"' in page
    assert state(ruth)["is"] == "signed"
    assert act(ruth, do="return", of=signoff, because="gap again, in shadow").status_code == 303
    assert state(ruth)["is"] == "returned"
    assert "gap again, in shadow" in text(record(ruth))


def test_second_looks_of_signed_work_are_told_in_its_own_line(yard, ruth):
    """A crew that has signed does not stand still for them; accepted, one line stands for all."""
    signoff = signed(yard)
    page = text(ruth.get("/office/"))
    assert "Signed, complete" in page
    assert "one second look only stated" in page
    assert "Hold point:" not in page
    assert "A crew is standing still" not in page
    act(ruth, do="accept", of=signoff, because="")
    assert "One second look only stated" in text(ruth.get("/office/"))
    assert act(ruth, do="refuse", step="stop", because="feet first").status_code == 303
    said_no = text(ruth.get("/office/"))
    assert "only stated" not in said_no
    assert "Look again: feet first" in said_no


def test_a_return_names_the_lines_that_were_ticked_and_what_would_settle_it(yard, ruth):
    signoff = signed(yard)
    page = record(ruth).get_data(as_text=True)
    ticks = re.findall(r'<input type="checkbox" form="deciding" name="line" value="([^"]+)"', page)
    assert ticks, "what is to be looked at first can be returned for"
    line = html.unescape(ticks[0])
    silent = act(ruth, do="return", of=signoff, because="", line=line, settle="read it twice").get_data(as_text=True)
    assert f'value="{ticks[0]}" checked' in silent
    assert 'value="read it twice"' in silent
    assert act(ruth, do="return", of=signoff, because="in shadow", line=line, settle="read it twice").status_code == 303
    assert f"{line}: in shadow What would settle it: read it twice" in text(record(ruth))
    assert 'form="deciding"' not in record(ruth).get_data(as_text=True), "nothing to return any more"


def test_nobody_accepts_her_own(yard, ruth):
    [gap, tick] = ruth.kept(read_gap(ruth), ruth.entry("tick", {"ticked": True}, step="stop", field="stays"))
    lena = yard.client("lena")
    [release] = lena.kept(
        lena.entry(
            "release", {"second": yard.people["lena"], "covers": [tick], "sha256": covers_hash([tick])}, step="stop"
        )
    )
    [signoff] = ruth.kept(ruth.signoff(sorted([gap, tick, release])))
    assert "Nobody reviews her own" in text(record(ruth))
    assert act(ruth, do="accept", of=signoff).status_code == 422
    assert state(ruth)["is"] == "signed"


def test_a_stale_sign_off_cannot_be_accepted(yard, ruth):
    signoff = signed(yard)
    lena = yard.client("lena", device="0199c0de-0000-7000-8000-0000000000aa")
    there = lena.get(f"/api/units/{yard.units['07']}/entries").get_json()["entries"]
    gap = next(entry for entry in there if entry["field"] == "gap")
    lena.kept(read_gap(lena, 4_000_000, replaces=[gap["id"]]))
    page = text(record(ruth))
    assert "Changed after signing" in page
    assert act(ruth, do="accept", of=signoff).status_code == 422
    assert "No longer meets its signature" in text(ruth.get("/office/"))


def test_a_concession_lets_a_step_pass(yard, ruth):
    lena = yard.client("lena")
    [gap] = lena.kept(read_gap(lena, 9_000_000))
    lena.kept(lena.entry("ask", {"covers": [gap], "because": "hinge leaf bent, new one on Monday"}))
    assert "Concession asked: Hinge jamb first" in text(ruth.get("/office/"))
    assert act(ruth, do="concession", step="hinge-jamb", because="").status_code == 422
    assert act(ruth, do="concession", step="hinge-jamb", because="till Monday").status_code == 303
    assert state(ruth)["steps"][0]["is"] == "passed"


def test_a_missed_hold_point_is_never_conceded(yard, ruth):
    lena = yard.client("lena")
    [tick] = lena.kept(lena.entry("tick", {"ticked": False}, step="stop", field="stays"))
    lena.kept(lena.entry("ask", {"covers": [tick], "because": "it catches"}, step="stop"))
    answer = act(ruth, do="concession", step="stop", because="let it")
    assert answer.status_code == 422
    assert "none is ever granted" in answer.get_data(as_text=True)


def test_two_accounts_are_settled_by_one_that_stands(yard, ruth):
    lena, omar = yard.client("lena"), yard.client("omar")
    [first] = lena.kept(read_gap(lena, 3_000_000))
    omar.kept(read_gap(omar, 4_500_000))
    assert "Two phones differ: Gap" in text(ruth.get("/office/"))
    page = text(record(ruth))
    assert "3 mm" in page
    assert "4.5 mm" in page
    assert act(ruth, do="settle", of=first).status_code == 303
    after = state(ruth)
    assert after["steps"][0]["pairs"] == []
    assert after["steps"][0]["is"] == "done"
    assert act(ruth, do="settle", of=first).status_code == 422


def test_quarantined_entries_count_once_admitted(yard, ruth):
    lena = yard.client("lena")
    with yard.app.app_context(), write() as session:
        people.revoke_person(session, "lena")
    [gap] = [result["id"] for result in lena.sync([read_gap(lena)]).get_json()["results"]]
    assert state(ruth)["steps"][0]["is"] == "open"
    assert "Quarantined: one entry" in text(ruth.get("/office/"))
    assert act(ruth, do="admit", of=gap, because="").status_code == 422
    assert act(ruth, do="admit", of=gap, because="she sent it before she left").status_code == 303
    assert state(ruth)["steps"][0]["is"] == "done"


@pytest.mark.parametrize(
    ("form", "says"),
    [
        ({}, "would be right"),
        ({"do": "explode"}, "explode"),
        ({"do": "accept", "of": "nonsense"}, "Another sign-off"),
        ({"do": "concession", "step": "nowhere", "because": "x"}, "No concession"),
        ({"do": "release", "step": "nowhere"}, "cannot be released"),
        ({"do": "admit", "of": "x", "because": "y"}, "No entry"),
        ({"do": "settle", "of": "x"}, "no longer stand"),
        ({"do": "confirm", "of": ""}, "not yours"),
    ],
)
def test_a_form_that_does_not_fit_is_told_so(shared, form, says):
    answer = act(shared.client("ruth"), **form)
    assert answer.status_code == 422
    assert says in html.unescape(answer.get_data(as_text=True))


def test_a_form_of_another_site_does_nothing(shared):
    ruth = shared.client("ruth")
    answer = ruth.http.post(
        f"/office/units/{shared.units['07']}/act", data={"do": "accept"}, headers={"Sec-Fetch-Site": "cross-site"}
    )
    assert answer.status_code == 403


def test_what_people_typed_is_text(yard, ruth):
    lena = yard.client("lena")
    lena.kept(lena.entry("note", {"text": "<script>alert(1)</script>"}))
    page = record(ruth).get_data(as_text=True)
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page


def test_no_such_unit(shared):
    ruth = shared.client("ruth")
    assert ruth.get("/office/units/0199c0de-0000-7000-8000-0000000000ff").status_code == 404
    assert ruth.get("/office/units/nonsense").status_code == 404


def test_sign_in_by_the_form_leads_to_the_page_that_was_wanted(shared):
    http = Client(shared).http
    assert http.get("/office/units").status_code == 303
    form = {"name": "ruth", "password": PASSWORD}
    answer = http.post("/sign-in", data=form, headers={"Sec-Fetch-Site": "same-origin"})
    assert (answer.status_code, answer.headers["Location"]) == (303, "/office/units")


def test_a_grant_that_would_change_nothing_is_not_offered(yard, ruth):
    """state.md: a concession holds while what stands is what the sign-off covers; after a new reading it would not."""
    signed(yard, 9_000_000)
    lena = yard.client("lena", device="0199c0de-0000-7000-8000-0000000000aa")
    there = lena.get(f"/api/units/{yard.units['07']}/entries").get_json()["entries"]
    gap = next(entry for entry in there if entry["field"] == "gap")
    assert "Grant it for Hinge jamb first" in text(record(ruth))
    lena.kept(read_gap(lena, 9_500_000, replaces=[gap["id"]]))
    page = text(record(ruth))
    assert "Grant it for" not in page
    assert "changed after it was signed" in page
    assert act(ruth, do="concession", step="hinge-jamb", because="let it").status_code == 422


def test_who_looked_herself_may_say_so_beside_a_stated_look(yard, ruth):
    lena = yard.client("lena")
    lena.kept(read_gap(lena))
    tick_and_release(lena, "omar")
    assert "omar confirms it by an entry of omar’s own" in text(record(ruth))
    assert act(ruth, do="release", step="stop").status_code == 303
    assert [step["hold"] for step in state(ruth)["steps"]] == [None, "confirmed"]


def test_the_headline_names_what_is_outside_and_what_changed(yard, ruth):
    signed(yard, 9_000_000)
    page = text(record(ruth))
    assert "; outside: Hinge jamb first" in page
    assert "Gap: 9 mm, allowed from 2 mm to 5 mm" in page.replace("\u00a0", " ")


def test_crews_that_stand_still_are_counted_once(yard, ruth):
    for unit in ("07", "08"):
        lena = yard.client("lena", device=f"0199c0de-0000-7000-8000-0000000000{unit}")
        [gap] = lena.kept(read_gap(lena, 9_000_000, unit=unit))
        lena.kept(lena.entry("ask", {"covers": [gap], "because": "bent"}, unit=unit))
    assert "Two things wait for you. One crew stands still." in text(ruth.get("/office/"))


def test_a_decisions_address_leads_back_to_the_record(shared):
    ruth = shared.client("ruth")
    answer = ruth.get(f"/office/units/{shared.units['07']}/act")
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/office/units/{shared.units['07']}")


@pytest.mark.parametrize(("name", "role"), [("lena", "installer"), ("ada", "administrator")])
@pytest.mark.parametrize("path", ["/office/", "/office/units/{unit}", "/office/labels"])
def test_the_wrong_role_can_sign_in_as_somebody_else(shared, name, role, path):
    path = path.format(unit=shared.units["07"])
    answer = shared.client(name).get(path)
    assert answer.status_code == 403
    page = answer.get_data(as_text=True)
    assert '<h1 tabindex="-1">This is for a supervisor.</h1>' in page
    assert f"You are signed in as {name}: {role}; supervisor would be right." in page
    assert 'action="/sign-out"' in page
    assert "Sign in as somebody else" in answer.get_data(as_text=True)
