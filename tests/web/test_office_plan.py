"""A unit's plan in the office: seen, changed, looked at, issued; and what is told to whom."""

import html
import re
from dataclasses import replace

import pytest
from plan.conftest import all_plans, plan
from planned import CHOICES, form_of, site, words

from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.choices import check
from fieldapp.plan.choices import read as read_choices
from fieldapp.site import reissue
from fieldapp.store import editions, facts, units
from fieldapp.store.base import read, write
from fieldapp.store.ids import sha256
from fieldapp.web import plan_form


@pytest.fixture
def planned(tmp_path):
    return site(tmp_path / "site")


def post(client, yard, form, unit="07", **more):
    return client.send("POST", f"/office/units/{yard.units[unit]}/plan", data={**form, **more})


def looked(answer):
    """The two things that the page's form carries of what was looked at."""
    page = answer.get_data(as_text=True)
    return {name: re.search(rf'name="{name}" value="(\w+)"', page)[1] for name in ("since", "looked")}


def in_force(yard, unit="07"):
    with yard.app.app_context(), read() as session:
        found = units.get(session, yard.units[unit])
        return found.packet, units.choices_of(found)


def issues(client, yard, unit="07"):
    entries = client.get(f"/api/units/{yard.units[unit]}/entries").get_json()["entries"]
    return [entry for entry in entries if entry["kind"] == "issue"]


def test_the_form_knows_every_choice_and_gives_back_the_same_plan():
    for chosen in all_plans():
        choices = plan(**chosen)
        again = plan_form.choices(choices, plan_form.texts(choices))
        assert read_choices(again) == replace(read_choices(choices), makers=read_choices(again).makers), chosen
    full = {
        **plan(),
        "clearance": {"left": "1/4 in", "right": 5, "head": 6, "sill": 2},
        "opening": {"width": 926, "height": 2100},
        "holes": {"side": 8, "per_flat": 2, "sill": 3},
        "tolerance": {"square": 1, "plumb": 2, "twist": 1, "align": 1, "lean": 3},
        "head_seal": {"kind": "bulb", "free_height": 12, "compression": 44, "band": [41, 50]},
        "hardware": {"limit": "stop", "limit_angle": [90, 100], "closer": True, "panic_bar": True},
        "rivet": 6.4, "needs_land": 30, "strip": 5, "rail": 6000, "watch_minutes": 90, "wind_limit": 7,
        "glass": "half", "fire_rated": True, "reversible": True,
    }
    assert check(full) == []
    assert plan_form.choices(full, plan_form.texts(full)) == full


def test_what_a_plan_left_out_shows_what_stands(planned):
    """Glass, limit of swing and kit have a value where nothing is said: the lists show it, never a blank."""
    page = planned.client("ruth").get(f"/office/units/{planned.units['07']}/plan").get_data(as_text=True)
    for path in ("glass", "hardware-limit", "head_kit-profile", "wall", "hand"):
        shown = re.search(rf'<select id="f-{path}".*?</select>', page, re.DOTALL)[0]
        assert re.search(r'<option value="[a-z ]+" selected>', shown), path
        assert "<option selected></option>" not in shown


def test_who_may_plan(planned):
    path = f"/office/units/{planned.units['07']}/plan"
    for name in ("ruth", "ada"):
        answer = planned.client(name).get(path)
        assert answer.status_code == 200, name
        assert 'value="36 1/2 in"' not in answer.get_data(as_text=True)
        assert 'name="frame.width"' in answer.get_data(as_text=True)
    assert planned.client("lena").get(path).status_code == 403
    assert planned.client("lena").send("POST", path, data={}).status_code == 403
    assert planned.client().get(path).status_code == 303
    assert planned.client("ruth").get("/office/units/nobody/plan").status_code == 404


def test_faults_stand_beside_their_field_and_what_was_typed_is_kept(planned):
    ruth = planned.client("ruth")
    answer = post(ruth, planned, form_of(CHOICES, frame__width="3 feet wide", head_kit__profile="angled"))
    assert answer.status_code == 422
    page = answer.get_data(as_text=True)
    assert 'value="3 feet wide"' in page
    assert re.search(r'id="f-frame-width"[^>]*aria-invalid="true"[^>]*aria-describedby="f-frame-width-fault', page)
    said = re.search(r'id="f-frame-width-fault">(.*?)</p>', page)[1]
    assert html.unescape(said).startswith("'3 feet wide'; right would be a length of 300 mm to 3000 mm")
    assert in_force(planned)[0] == planned.packets["07"]
    span = post(ruth, planned, form_of(CHOICES, head_seal__band__0="50", head_seal__band__1="40"))
    assert "two rising numbers of 0 to 95" in words(span)


def test_nothing_changed_nothing_happens(planned):
    ruth = planned.client("ruth")
    before = len(issues(ruth, planned))
    for do in ("look", "issue"):
        answer = post(ruth, planned, form_of(CHOICES), do=do, because="because", since=planned.packets["07"])
        assert answer.status_code == 200
        assert "Nothing changed" in words(answer)
    assert len(issues(ruth, planned)) == before


def test_looked_at_then_issued(planned):
    lena, ada = planned.client("lena"), planned.client("ada")
    at = {"step": "mark", "field": "mark_height_left"}
    first = lena.kept(lena.entry("reading", {"text": "2102", "nm": 2_102_000_000}, **at))
    lena.kept(lena.signoff(first))
    form = form_of(CHOICES, head_kit__rise="50.2")
    look = post(ada, planned, form, do="look")
    assert look.status_code == 200
    said = words(look)
    assert re.search(r"Opening's height\s+2101\.8\u00a0mm\s+2107\.8\u00a0mm", said)
    assert "lena’s sign-off: complete → stale" in said
    assert re.search(r"Mark the opening\s+1\s", said)
    assert in_force(planned)[0] == planned.packets["07"]  # looking issues nothing
    form |= looked(look)
    assert form["since"] == planned.packets["07"]
    silent = post(ada, planned, form, do="issue")
    assert silent.status_code == 422
    assert "Say why the plan changes" in words(silent)
    assert 'name="head_kit.rise" value="50.2"' in re.sub(r' aria-\w+="[^"]*"', "", silent.get_data(as_text=True))
    done = post(ada, planned, form, do="issue", because="The maker sent a higher kit.")
    assert done.status_code == 303
    now, choices = in_force(planned)
    assert now == form["looked"] != planned.packets["07"]
    assert choices["head_kit"] == {"profile": "straight", "rise": 50.2}
    newest = issues(lena, planned)[-1]
    assert (newest["value"]["packet"], newest["person"]) == (now, planned.people["ada"])
    assert newest["value"]["because"] == "The maker sent a higher kit."
    assert newest["replaces"] == [issues(lena, planned)[-2]["id"]]
    state = lena.get(f"/api/units/{planned.units['07']}").get_json()["state"]
    assert (state["packet"], state["is"]) == (now, "stale")
    record = words(planned.client("ruth").get(f"/office/units/{planned.units['07']}"))
    assert "Opening's height 2101.8\u00a0mm → 2107.8\u00a0mm" in record
    assert "The maker sent a higher kit." in record
    body = lena.get(f"/api/packets/{now}").get_data()
    assert sha256(body) == now
    assert "in force" in words(ada.get(done.headers["Location"]))


def test_what_was_not_looked_at_is_not_issued(planned):
    ruth = planned.client("ruth")
    seen = looked(post(ruth, planned, form_of(CHOICES, head_kit__rise="50.2"), do="look"))
    answer = post(ruth, planned, form_of(CHOICES, head_kit__rise="60") | seen, do="issue", because="x")
    assert answer.status_code == 409
    assert "not what you looked at" in words(answer)
    assert in_force(planned)[0] == planned.packets["07"]


def test_the_second_of_two_is_told(planned):
    ruth, ines = planned.client("ruth"), planned.client("ines")
    hers = form_of(CHOICES, head_kit__rise="50.2")
    mine = form_of(CHOICES, hand="right")
    hers |= looked(post(ines, planned, hers, do="look"))
    mine |= looked(post(ruth, planned, mine, do="look"))
    assert post(ines, planned, hers, do="issue", because="Higher kit").status_code == 303
    answer = post(ruth, planned, mine, do="issue", because="Other hand")
    assert answer.status_code == 409
    assert "ines issued another plan meanwhile" in words(answer)
    assert "Higher kit" in words(answer)
    assert '<option value="right" selected>' in answer.get_data(as_text=True)
    assert in_force(planned)[0] == hers["looked"]
    # looked at again, over what is in force now, it can be issued: both changes are then asked for or undone by her
    mine |= looked(answer)
    assert mine["since"] == hers["looked"]
    assert post(ruth, planned, mine, do="issue", because="Other hand").status_code == 303


def test_issuing_over_another_plan_is_refused_in_the_store_too(planned):
    with planned.app.app_context():
        other = reissue.built(planned.units["07"], {**CHOICES, "hand": "right"})
        third = reissue.built(planned.units["07"], {**CHOICES, "rivet": 6.4})
        who, unit = planned.people["ruth"], planned.units["07"]
        assert reissue.issue(unit, {**CHOICES, "hand": "right"}, other, planned.packets["07"], "hand", who)
        assert not reissue.issue(unit, {**CHOICES, "hand": "right"}, other, planned.packets["07"], "again", who)
        with pytest.raises(reissue.Overtaken) as fault:
            reissue.issue(unit, {**CHOICES, "rivet": 6.4}, third, planned.packets["07"], "rivets", who)
        assert fault.value.entry["value"]["because"] == "hand"
    assert in_force(planned) == (other.hash, {**CHOICES, "hand": "right"})


def test_a_new_colleague_comes_onto_the_plan(planned):
    """Who may look second stands in the packet; the same choices with other people are another plan."""
    from fieldapp.store import people

    with planned.app.app_context(), write() as session:
        people.add_person(session, "mara", ["supervisor"], None)
    answer = post(planned.client("ruth"), planned, form_of(CHOICES), do="look")
    assert "mara joins" in words(answer)
    assert "No planned figure changes" in words(answer)


def test_a_unit_never_planned_gets_its_first_plan(planned):
    ruth = planned.client("ruth")
    page = ruth.get(f"/office/units/{planned.units['08']}/plan")
    assert page.status_code == 200
    look = post(ruth, planned, form_of(CHOICES), unit="08", do="look")
    form = form_of(CHOICES) | looked(look)
    assert post(ruth, planned, form, unit="08", do="issue", because="First real plan").status_code == 303
    assert in_force(planned, "08")[1]["frame"] == {"width": 914, "height": 2045}


def bring_in(yard, name, rows):
    with yard.app.app_context(), write() as session:
        editions.add(session, name, *edition(name, rows), facts.SITE_PERSON)


def test_a_newer_edition_is_offered_only_where_the_plan_or_its_pick_list_takes_something_from_it(planned):
    ruth, form = planned.client("ruth"), form_of(CHOICES)
    before = (in_force(planned), issues(ruth, planned))
    bring_in(planned, "discs", seed()["discs"][1:])
    for do in ("look", "issue"):
        page = words(post(ruth, planned, form, do=do))
        assert "Nothing changed: catalogues of another edition are in force (discs 0 → 1)" in page
        assert "Issue this plan" not in page
    assert (in_force(planned), issues(ruth, planned)) == before
    deeper = [row | {"depth": row["depth"] + 5} for row in seed()["profiles"]]
    bring_in(planned, "profiles", deeper)
    page = words(post(ruth, planned, form, do="look"))
    assert "Nothing that you chose or that the crew sees changes" in page
    assert "Issue this plan" in page
    clearance, *others = seed()["defaults"]
    bring_in(planned, "defaults", [clearance | {"value": 9.0}, *others])
    page = words(post(ruth, planned, form, do="look"))
    assert "Nothing that you chose" not in page
    assert "Clearance, left" in page
