"""The whole job: a lead fits a door without network, by the phone's keys alone; it is sent; the supervisor accepts.

The frame is a world of exact geometry (tests/frame_world.py) with a fault of 5 mm in rack and 3 mm in twist; the moves
that the phone tells are made in it, so what is checked at the end is whether that frame came true.
"""

import os
import re
from pathlib import Path

import frame_world
import pytest
from demos import running
from lead import lead_on
from phones import PATIENCE_MS, phones

JOB, NUMBER = "Saltmarsh stores", "01"
ALL_HERE = """const units = await store.units();
    return units.length > 0 && (await Promise.all(units.map(u => store.packet(u.packet)))).every(Boolean);"""


def shots(lead):
    """Where FIELDAPP_SHOTS names a folder, a picture of every screen the lead sees, to be looked at."""
    folder = os.environ.get("FIELDAPP_SHOTS")
    if folder:
        name = re.sub(r"\W+", "-", lead.hash.split("/", 2)[-1])[:60]
        lead.page.screenshot(path=str(Path(folder) / f"{len(lead.log):03d}-{name}.png"))


@pytest.fixture(scope="module")
def fitted():
    """(demo, phone, lead): the door fitted and signed, with the network off from the first step on."""
    with running() as demo, phones(demo) as new:
        phone = new().start("lena")
        phone.until(ALL_HERE, tries=600)
        phone.page.wait_for_function("() => navigator.serviceWorker.controller !== null")
        phone.context.set_offline(True)
        lead = lead_on(phone, NUMBER, JOB, look=shots)
        lead.work("sign")
        lead.touch("#key-action")
        assert lead.action().startswith("Yes, sign"), "only signing asks a second time"
        lead.touch("#key-action")
        yield demo, phone, lead


def test_nothing_went_wrong_on_the_phone(fitted):
    assert fitted[1].errors == []


def test_every_step_is_done_and_signed_without_network(fitted):
    state = fitted[2].state()
    aside = {step["id"] for step in fitted[2].packet["steps"] if step.get("signed") is False}
    assert {now["id"]: now["is"] for now in state["steps"] if now["is"] != "done" and now["id"] not in aside} == {}
    assert [signoff["is"] for signoff in state["signoffs"]] == ["complete"]
    assert state["is"] == "signed"
    assert state["stage"] is None


def test_no_more_was_asked_than_a_crew_gives(fitted):
    """work.md: at most 70 figures and 40 ticks and choices, one round of correction included."""
    kept = [entry for entry in fitted[2].entries() if entry["kind"] in ("reading", "tick", "choice")]
    assert sum(entry["kind"] == "reading" for entry in kept) <= 70
    assert sum(entry["kind"] != "reading" for entry in kept) <= 40


def test_the_frame_came_true(fitted):
    """Against the world's own geometry: what the tool called inside is inside ±1.6 mm (facts.md 1)."""
    lead = fitted[2]
    assert any(entry["kind"] == "move" for entry in lead.entries()), "it was out of true, so something was moved"
    assert frame_world.true(lead.frame.truth())


def test_what_was_told_is_kept(fitted):
    told = [entry["value"] for entry in fitted[2].entries() if entry["kind"] == "told"]
    frame = [value for value in told if value["sheet"] == "frame"]
    assert any(value["moves"] for value in frame)
    assert all(value["verdicts"] and value["from"] for value in frame)
    assert {"rivet_sides", "rivet_head"} <= {value["sheet"] for value in told}
    assert all(value["chosen"] for value in told if value["sheet"].startswith("rivet"))


def test_it_outlives_a_reload_without_network(fitted):
    _, phone, lead = fitted
    before = lead.state()
    phone.page.reload()
    phone.page.wait_for_selector("body[data-screen=sign]")
    assert lead.state() == before
    assert phone.unsent() > 100


def test_the_server_says_what_the_phone_said(fitted):
    """state.md: the same set of entries gives the same state, byte for byte, on phone and server."""
    _, phone, lead = fitted
    phone.context.set_offline(False)
    phone.run("await sync.sendNow();")
    phone.until("return (await store.counts()).every((c) => c.waiting === 0)", tries=300)
    assert "sent, all on the server" in phone.row_a()
    there = phone.page.evaluate("async id => (await (await fetch(`/api/units/${id}`)).json()).state", lead.unit["id"])
    assert there == lead.state()


@pytest.fixture(scope="module")
def office(fitted):
    """The supervisor's browser, signed in."""
    demo, phone, _ = fitted
    page = phone.context.browser.new_page(viewport={"width": 1280, "height": 800})
    page.set_default_timeout(PATIENCE_MS)
    page.goto(f"{demo.address}/office/")
    page.fill("[name=name]", "ruth")
    page.fill("[name=password]", demo.password("ruth"))
    page.click("form button")
    page.wait_for_selector("h1")
    return page


def test_the_supervisor_accepts(fitted, office):
    _, _, lead = fitted
    row = office.locator("tr", has_text=f"{JOB} / {NUMBER}").filter(has_text="Signed, complete")
    row.locator("a.do").click()
    office.wait_for_selector("text=Look at these first")
    text = office.inner_text("body")
    assert f"{JOB} / {NUMBER}:" in text
    for word in ("As built", "Judged", "Rounds", "Told", "Made, by", "Fixings and seal", "Proof",
                 "Nobody can be locked in: stated"):
        assert word in text
    office.click("button:has-text('Accept')")
    office.wait_for_selector("text=Accepted by: ruth")
    answer = office.evaluate("async id => (await (await fetch(`/api/units/${id}`)).json()).state", lead.unit["id"])
    assert answer["is"] == "accepted"


def test_the_phone_hears_of_it(fitted):
    _, phone, lead = fitted
    phone.run("await sync.sendNow();")
    phone.until("return sync.state().is === 'idle'")
    assert lead.state()["is"] == "accepted"


def test_the_label_leads_to_the_record(fitted, office):
    demo, _, lead = fitted
    office.goto(f"{demo.address}/U/{lead.packet['unit']['code']}")
    assert office.url.endswith(f"/office/units/{lead.unit['id']}")
