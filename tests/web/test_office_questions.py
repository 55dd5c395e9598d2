"""Questions without an answer among what waits: one line a unit, after the reviews, while the work is not finished."""

import re
from types import SimpleNamespace

import pytest
from plan.conftest import PEOPLE, UNIT, all_plans, plan
from planned import ASKED, CHOICES, answers, issue, site, words

from fieldapp.plan import packet
from fieldapp.web import office_questions


@pytest.fixture
def planned(tmp_path):
    return site(tmp_path / "site")


def send(yard, given):
    return yard.client("ruth").send("POST", f"/office/units/{yard.units['07']}/deciders", data=given)


def waiting(yard):
    page = yard.client("ruth").get("/office/")
    return words(page), page.get_data(as_text=True)


def test_one_line_a_unit_with_the_way_to_its_answers(planned):
    issue(planned, CHOICES, "09")
    said, page = waiting(planned)
    assert "Two things wait for you." in said
    assert "E Questions without an answer" in said
    assert said.count("No answer yet: structure, safety plate, way out, access, fire") == 2
    for unit in ("07", "09"):
        assert page.count(f'href="/office/units/{planned.units[unit]}/deciders"') == 1
    assert re.search(r'aria-current="page">Waiting <small>2</small>', page)
    assert send(planned, answers("structure", "plate")).status_code == 303
    assert "No answer yet: way out, access, fire" in waiting(planned)[0]
    assert send(planned, answers(*ASKED)).status_code == 303
    assert "One thing waits for you." in waiting(planned)[0]


@pytest.mark.parametrize(("answer", "open_still"), [("no", False), ("open", True)])
def test_a_no_is_an_answer_and_no_answer_yet_is_none(planned, answer, open_still):
    given = answers(*ASKED) | {"decide-structure.answer": answer}
    assert send(planned, given).status_code == 303
    assert ("No answer yet: structure" in waiting(planned)[0]) is open_still
    assert ("Nothing waits for you." in waiting(planned)[0]) is not open_still


def test_what_is_signed_asks_no_more_and_reviews_come_first(planned):
    lena = planned.client("lena")
    issue(planned, CHOICES, "08")
    first = lena.kept(
        lena.entry("reading", {"text": "2102", "nm": 2_102_000_000}, step="mark", field="mark_height_left")
    )
    said, _ = waiting(planned)
    assert said.index("the crew has begun") < said.index("nothing entered yet")  # work that stands comes first
    lena.kept(lena.signoff(first))
    said, page = waiting(planned)
    assert f"{planned.units['07']}/deciders" not in page
    assert said.index("B Signed, for you to accept") < said.index("E Questions without an answer")


def test_a_crew_that_waits_for_the_answer_alone_stands_still():
    left = [{"id": "decide-fire"}]
    packet = {"steps": [{"id": "stop", "hold": True, "needs": ["mark", "decide-fire"]}]}

    def known(mark):
        steps = [{"id": "mark", "is": mark}, {"id": "decide-fire", "is": "open"}, {"id": "stop", "is": "shut"}]
        return SimpleNamespace(state={"steps": steps}, packet=packet)

    assert office_questions._holds_up(known("done"), left)
    assert not office_questions._holds_up(known("open"), left)


def test_the_questions_stand_in_the_first_stage_of_every_plan():
    """A list tells by the stage alone which units may have one open."""
    for chosen in list(all_plans())[:3]:
        steps = packet.build(plan(**chosen), UNIT, PEOPLE).packet["steps"]
        assert steps[0]["stage"] == office_questions.STAGE
        stages = {step["stage"] for step in steps if any(field.get("office") for field in step["fields"])}
        assert stages == {office_questions.STAGE}
