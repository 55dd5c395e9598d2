"""Who decides: answered at the desk, so that no crew types it; nothing is written over unseen."""

import re

import pytest
from planned import ASKED, CHOICES, issue, site, words
from planned import answers as form


@pytest.fixture
def planned(tmp_path):
    return site(tmp_path / "site")


def path(yard, unit="07"):
    return f"/office/units/{yard.units[unit]}/deciders"


def send(client, yard, given, unit="07"):
    return client.send("POST", path(yard, unit), data=given)


def steps(client, yard, unit="07"):
    state = client.get(f"/api/units/{yard.units[unit]}").get_json()["state"]
    return {step["id"]: step for step in state["steps"]}


def entries(client, yard, unit="07"):
    found = client.get(f"/api/units/{yard.units[unit]}/entries").get_json()["entries"]
    return [entry for entry in found if (entry["step"] or "").startswith("decide-")]


def test_supervisors_alone(planned):
    assert planned.client("ruth").get(path(planned)).status_code == 200
    for name in ("ada", "lena"):
        assert planned.client(name).get(path(planned)).status_code == 403
        assert send(planned.client(name), planned, form("fire")).status_code == 403


def test_all_five_answered_and_the_crew_need_not(planned):
    ruth, lena = planned.client("ruth"), planned.client("lena")
    page = words(ruth.get(path(planned)))
    assert "none of five questions answered" in page
    assert "CSC, Annex I" in page  # published figures, beside the question
    assert "never a permission" in page
    assert send(ruth, planned, form(*ASKED)).status_code == 303
    now = steps(lena, planned)
    assert {now[f"decide-{what}"]["is"] for what in ASKED} == {"done"}
    made = entries(lena, planned)
    assert len(made) == 15
    assert {entry["person"] for entry in made} == {planned.people["ruth"]}
    assert {entry["packet"] for entry in made} == {planned.packets["07"]}
    assert [entry["count"] for entry in made] == sorted({entry["count"] for entry in made})
    record = words(ruth.get(f"/office/units/{planned.units['07']}"))
    assert "all five questions are answered" in record
    again = send(ruth, planned, form(*ASKED))
    assert again.status_code == 303
    assert len(entries(lena, planned)) == 15  # the same again enters nothing


def test_no_answer_yet_and_no_keep_it_shut(planned):
    ruth = planned.client("ruth")
    given = form("structure") | {"decide-fire.answer": "open"}
    given["decide-structure.answer"] = "no"
    assert send(ruth, planned, given).status_code == 303
    now = steps(ruth, planned)
    assert now["decide-structure"]["is"] == "outside"
    assert now["decide-fire"]["is"] == "open"  # neither name nor date yet
    assert "none of five questions answered" in words(ruth.get(path(planned)))


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("answer", "", "Choose the answer."),
        ("answer", "perhaps", "'perhaps' is none of the answers"),
        ("who", "", "Say who decided"),
        ("who", "x" * 500, "characters; at most 400"),
        ("decided_on", "", "Say when it was decided"),
        ("decided_on", "last week", "'last week' is no date"),
        ("decided_on", "2126-01-01", "2126-01-01 is still to come"),
    ],
)
def test_a_fault_stands_beside_its_field_and_nothing_is_kept(planned, key, text, said):
    ruth = planned.client("ruth")
    answer = send(ruth, planned, form("fire", "plate") | {f"decide-fire.{key}": text})
    assert answer.status_code == 422
    page = answer.get_data(as_text=True)
    beside = re.search(rf'id="d-decide-fire-{key}-fault">(.*?)</p>', page)[1]
    assert said in beside.replace("&#39;", "'")
    assert 'value="H. Quill, plate"' in page
    assert entries(ruth, planned) == []


def test_what_somebody_else_answered_is_not_written_over_unseen(planned):
    ruth, lena = planned.client("ruth"), planned.client("lena")
    at = {"step": "decide-fire", "field": "who"}
    first = lena.kept(lena.entry("note", {"text": "The owner's engineer"}, **at))
    told = send(ruth, planned, form("fire"))
    assert told.status_code == 409
    assert "lena gave another answer" in words(told)
    assert 'value="H. Quill, fire"' in told.get_data(as_text=True)
    assert len(entries(ruth, planned)) == 1
    seen = re.search(r'name="seen.decide-fire.who" value="([^"]*)"', told.get_data(as_text=True))[1]
    assert seen == first[0]
    assert send(ruth, planned, form("fire", **{"seen.decide-fire.who": seen})).status_code == 303
    last = entries(ruth, planned)[-1 - 1]
    assert (last["field"], last["replaces"]) == ("who", first)


def test_the_same_answers_for_other_units_leave_what_stands(planned):
    issue(planned, CHOICES, "08")
    ruth, lena = planned.client("ruth"), planned.client("lena")
    lena.kept(lena.entry("choice", {"chosen": "rated"}, unit="08", step="decide-fire", field="answer"))
    page = words(ruth.get(path(planned)))
    assert "08, box 08" in page
    given = form("fire", "plate") | {"also": [planned.units["08"]]}
    answer = send(ruth, planned, given)
    assert answer.status_code == 303
    assert "two units" in words(ruth.get(answer.headers["Location"]))
    there = entries(lena, planned, "08")
    assert {entry["step"] for entry in there if entry["person"] == planned.people["ruth"]} == {"decide-plate"}
    assert len(there) == 4


def test_a_plan_that_asks_nothing_of_the_office_says_so(planned):
    page = words(planned.client("ruth").get(path(planned, "09")))
    assert "asks nothing of the office" in page
