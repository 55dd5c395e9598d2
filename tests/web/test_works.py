# ruff: noqa: E501 - a row is read on one line
"""From a unit's record to the calculators: the form opens with what the plan knows."""

import html
import json
import re

from plan.conftest import plan

from fieldapp.plan.asked import asked
from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.plan.choices import read
from fieldapp.site import reissue
from fieldapp.store import editions, facts
from fieldapp.store.base import write
from fieldapp.store.models import Unit
from fieldapp.work.by_hand import built, rows
from fieldapp.work.registry import CALCULATORS


def links(client, unit):
    page = client.get(f"/office/units/{unit}").get_data(as_text=True)
    found = re.search(r"Work out: (.*?)</span>", page, re.DOTALL)
    return [] if found is None else re.findall(r'<a href="([^"]+)">(\w+)</a>', found[1])


def typed(page):
    """What the form by fields holds, as a browser would send it."""
    form = page.split('id="by-hand"')[1].split("</form>")[0]
    found = dict(re.findall(r'<input id="[^"]*" name="([^"]+)" value="([^"]*)"', form))
    for name, options in re.findall(r'<select id="[^"]*" name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r"<option selected>([^<]*)", options)
        found[name] = chosen[1] if chosen else ""
    return {name: html.unescape(value) for name, value in found.items()}


def numbers(value):
    """The same with every number a float of ten digits: a form has no others."""
    if isinstance(value, dict):
        return {key: numbers(inner) for key, inner in value.items() if inner != {}}
    if isinstance(value, list):
        return [numbers(inner) for inner in value]
    if isinstance(value, str) and re.fullmatch(r"[\d.]+", value):
        return float(value)
    return float(f"{value:.10g}") if isinstance(value, (int, float)) and not isinstance(value, bool) else value


def test_a_planned_unit_leads_to_each_calculator_with_its_figures(yard):
    ruth, unit = yard.client("ruth"), yard.units["07"]
    choices = plan("corrugated side") | {"holes": {"side": 8}}
    with yard.app.app_context(), write() as session:
        session.get(Unit, unit).choices = json.dumps(choices)
    found = links(ruth, unit)
    known = asked(read(choices))
    assert [name for _, name in found] == list(known)
    for address, name in found:
        page = yard.app.test_client().get(html.unescape(address)).get_data(as_text=True)
        assert "Filled in from the plan." in page
        assert numbers(built(CALCULATORS[name].takes, typed(page))) == numbers(known[name])


def test_an_unplanned_unit_has_none(yard):
    assert links(yard.client("ruth"), yard.units["07"]) == []


def test_the_crew_at_the_box_has_the_same_ways(yard):
    unit = yard.units["07"]
    with yard.app.app_context(), write() as session:
        session.get(Unit, unit).choices = json.dumps(plan("corrugated side") | {"holes": {"side": 8}})
    page = yard.client("lena").get(f"/units/{unit}/work").get_data(as_text=True)
    theirs = re.findall(r'<a href="(/work/[^"]+)">(\w+)</a>', page)
    assert theirs == links(yard.client("ruth"), unit)
    assert f'href="/#unit/{unit}"' in page
    in_inches = yard.client("lena").get(f"/units/{unit}/work?show=in").get_data(as_text=True)
    assert (page.count("show=in"), in_inches.count("show=in")) == (0, len(theirs))


def test_only_who_sees_the_unit_has_them(yard):
    unit = yard.units["07"]
    assert yard.client("pia").get(f"/units/{unit}/work").status_code == 404
    assert yard.app.test_client().get(f"/units/{unit}/work").status_code in (302, 303, 401)
    assert yard.client("lena").get("/units/no-such/work").status_code == 404


def test_an_address_is_only_text(shared):
    address = "/work/seal?free_height=%3Cb%3E12&nonsense=1&gaps.0.value=7"
    page = shared.app.test_client().get(address).get_data(as_text=True)
    assert "<b>" not in page
    assert 'value="&lt;b&gt;12"' in page
    assert "nonsense" not in page


def needed(name, data):
    return {row.path for row in rows(CALCULATORS[name].takes, data, {}) if row.needed and row.control != "head"}


def test_a_form_asks_for_what_is_needed_and_for_no_part_of_what_may_be_left_out():
    assert needed("cut", {}) == {"wall", "cut.width", "cut.height"}
    assert {"disc.diameter", "tool.rpm"} <= needed("cut", {"disc": {}, "tool": {}})
    # the first item of a list that must be there, not the blank one after those that are
    assert {"gaps.0.value"} == {path for path in needed("seal", {}) if path.startswith("gaps")}
    assert {path for path in needed("seal", {"gaps": [{"value": 7}]}) if path.startswith("gaps")} == {"gaps.0.value"}
    assert not any(path.startswith("head_kit") for path in needed("opening", {"head_kit": "none"}))


def bring_in(yard, name, rows):
    with yard.app.app_context(), write() as session:
        editions.add(session, name, *edition(name, rows), person_id=facts.SITE_PERSON)


def test_a_units_calculators_go_by_the_editions_of_its_own_plan_and_say_which(yard):
    """Its packet was made before the shop measured a deeper corrugation: the old depth holds for it, and nothing is filled in."""
    unit, (sides, ends) = yard.units["07"], seed()["profiles"]
    with yard.app.app_context():
        made = reissue.built(unit, plan("corrugated end"))
        reissue.issue(unit, plan("corrugated end"), made, yard.packets["07"], "first", facts.SITE_PERSON)
    bring_in(yard, "profiles", [sides, ends | {"depth": 48.0}])
    [old] = [address for address, name in links(yard.client("ruth"), unit) if name == "layout"]
    assert "profile.depth" not in old
    page = yard.app.test_client().get(html.unescape(old)).get_data(as_text=True)
    assert "Figures filled in by wall profiles edition 0, defaults edition 0; what you typed since is yours." in page
    with yard.app.app_context():
        again = reissue.built(unit, plan("corrugated end"))
        reissue.issue(unit, plan("corrugated end"), again, made.hash, "measured", facts.SITE_PERSON)
    [new] = [address for address, name in links(yard.client("ruth"), unit) if name == "layout"]
    page = yard.app.test_client().get(html.unescape(new)).get_data(as_text=True)
    assert "profile.depth=48" in new
    assert "wall profiles edition 1, defaults edition 0" in page


def test_by_hand_the_shops_rows_fill_the_fields_for_whoever_is_signed_in(yard):
    bulb = {"id": "fat <bulb>", "kind": "bulb", "free height": 15.0, "thickness": None, "band from": 30.0, "band to": 40.0, "source": "x"}
    bring_in(yard, "seals", [*seed()["seals"], bulb])
    lena, stranger = yard.client("lena"), yard.client()
    page = lena.get("/work/seal").get_data(as_text=True)
    assert "Seals, edition 1 in force" in page
    assert '<option value="fat &lt;bulb&gt;">' in page
    assert "in force" not in stranger.get("/work/seal").get_data(as_text=True)
    form = {"free_height": "12", "gaps.0.value": "9.5", "row.seals": "fat <bulb>", "fill": "yes"}
    filled = lena.send("POST", "/work/seal", data=form).get_data(as_text=True)
    assert typed(filled) | {"row.seals": "", "row.profiles": ""} == typed(filled)
    assert (typed(filled)["free_height"], typed(filled)["band"], typed(filled)["gaps.0.value"]) == ("15", "30; 40", "9.5")
    assert "Figures filled in by seals edition 1" in filled
    assert 'id="answer"' not in filled
    # seal, contract.md: 100 (15 - 9.5) / 15 = 36.7 %
    for button in ({}, {"more": "gaps"}):  # Enter, "Work it out", "More lines": the pick is not passed over
        picked = {key: text for key, text in form.items() if key != "fill"} | button
        other = lena.send("POST", "/work/seal", data=picked).get_data(as_text=True)
        assert (typed(other)["free_height"], 'id="answer"' in other) == ("15", False)
        assert "Figures filled in by seals edition 1" in other
    answered = lena.send("POST", "/work/seal", data={**typed(filled), "editions": "seals.1"}).get_data(as_text=True)
    assert "Figures filled in by seals edition 1, unless typed over." in answered
    assert "36.7" in answered
    left = stranger.send("POST", "/work/seal", data=form).get_data(as_text=True)
    assert (typed(left)["free_height"], "No row was picked, so nothing was filled in." in left) == ("12", True)


def test_editions_in_an_address_are_names_and_numbers_alone(shared):
    page = shared.app.test_client().get("/work/seal?free_height=12&editions=seals.3+lies.1+doors.<b>+discs.٣").get_data(as_text=True)
    assert "Figures filled in by seals edition 3; what" in page
    assert 'name="editions" value="seals.3"' in page
    assert "<b>" not in page
