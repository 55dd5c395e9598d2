"""Sign-offs, reviews and what asks for the supervisor (state.md, "Sign-off and review")."""

import pytest
from one_unit import Unit, field, packet, step


def ready(*more, **plans):
    unit = Unit(step("s", field("f"), field("spare", required=False)), *more, **plans)
    unit.tick("s.f")
    return unit


def only(unit):
    (signoff,) = unit.state()["signoffs"]
    return signoff


def test_planned_working_signed_accepted():
    unit = Unit(step("s", field("f")))
    assert unit.state()["is"] == "planned"
    unit.tick("s.f")
    assert unit.state()["is"] == "working"
    signed = unit.sign()
    state = unit.state()
    assert (state["is"], state["waiting"]) == ("signed", ["sign-off"])
    assert state["signoffs"] == [{"id": signed, "is": "complete", "missing": 0, "review": None}]
    accepted = unit.review(signed, "accepted")
    assert (unit.state()["is"], unit.state()["waiting"]) == ("accepted", [])
    assert only(unit)["review"] == {"id": accepted, "is": "accepted"}


def test_what_a_sign_off_covers():
    unit = ready(step("again", field("f"), stage="re-check", signed=False))
    kept = ["02", unit.move(step="s"), unit.round(step="s"), unit.release("s", covers=["02"]), unit.note("s.spare")]
    kept.append(unit.retract(unit.tick("s.spare")))
    kept.append(unit.add("moved", {"to": "u2"}, replaces=["77"]))
    kept.append(unit.add("photo", {"sha256": "0" * 64, "bytes": 9}, step="s", field="spare"))
    kept.append(unit.add("choice", {"chosen": "a"}, step="elsewhere", field="row"))
    unit.tick("again.f")
    unit.add("note", {"text": "a remark"}, step="s")
    unit.add("told", {"sheet": "frame", "from": [], "verdicts": {}}, step="s")
    unit.confirm("99")
    unit.ask("s", covers=[])
    assert unit.offers()["signoff"]["covers"] == sorted(kept)


def test_waiting_for_what_is_not_here_or_not_admitted():
    unit = ready()
    late = unit.tick("s.spare", standing="quarantined")
    unit.sign(covers=["02", late, "77"])
    assert (only(unit)["is"], only(unit)["missing"]) == ("waiting", 2)
    unit.review(late, "admitted")
    assert (only(unit)["is"], only(unit)["missing"]) == ("waiting", 1)
    unit.entries.append({**unit.entries[1], "id": "77", "replaces": ["02"]})
    assert (only(unit)["is"], only(unit)["missing"]) == ("complete", 0)


def test_stale_when_work_stands_that_it_does_not_cover():
    unit = ready()
    unit.review(unit.sign(), "accepted")
    unit.tick("s.spare")
    assert only(unit)["review"] is None
    assert (only(unit)["is"], unit.state()["is"], unit.state()["waiting"]) == ("stale", "stale", ["stale"])


def test_a_re_check_asks_for_a_concession_only_when_asked():
    unit = ready(step("again", field("f"), stage="re-check", signed=False, concession=True))
    unit.tick("again.f", ticked=False)
    unit.sign()
    assert unit.state()["waiting"] == ["sign-off"]
    unit.ask("again")
    assert unit.state()["waiting"] == ["concession:again", "sign-off"]


def test_never_stale_by_what_tells_asks_confirms_reviews_issues_or_remarks():
    unit = ready(
        step("c", field("f", required=False), concession=True),
        step("again", field("f"), stage="re-check", signed=False),
    )
    signed = unit.sign()
    unit.add("told", {"sheet": "frame", "from": [], "verdicts": {}}, step="s")
    unit.ask("c", covers=[])
    unit.confirm("99")
    unit.review(signed, "accepted", by="lena")  # her own: left out
    unit.issue("p1")
    unit.add("note", {"text": "a remark"}, step="s")
    unit.tick("again.f")  # a re-check is covered by no sign-off
    assert only(unit) == {"id": signed, "is": "complete", "missing": 0, "review": None}


STEP = step("s", field("f"), field("spare", required=False))
CHANGED = {**STEP, "say": "another text"}
RE_CHECK = step("again", field("f"), stage="re-check", signed=False)


@pytest.mark.parametrize(
    ("then", "now", "word"),
    [
        ([STEP], [STEP], "complete"),
        ([STEP], [STEP, RE_CHECK], "complete"),
        ([STEP, RE_CHECK], [STEP, {**RE_CHECK, "say": "another text"}], "complete"),
        ([STEP, RE_CHECK], [STEP], "complete"),
        ([STEP], [CHANGED], "stale"),
        ([STEP], [STEP, step("new", field("f", required=False))], "stale"),
        ([STEP, step("old", field("f", required=False))], [STEP], "stale"),
    ],
)
def test_stale_when_the_plan_in_force_differs_in_a_step(then, now, word):
    unit = Unit(*then, p2=packet(*now))
    unit.tick("s.f")
    unit.sign()
    unit.issue("p2")
    assert only(unit)["is"] == word


def test_the_same_plan_in_another_language_is_the_same_plan():
    unit = Unit(STEP, p1_es=packet(CHANGED))
    unit.issue("p1", others={"es": "p1_es"})
    unit.tick("s.f")
    unit.sign(packet="p1_es")
    assert only(unit)["is"] == "complete"


@pytest.mark.parametrize("named", [None, "never issued"])
def test_stale_under_a_plan_that_was_never_issued_here(named):
    unit = ready()
    unit.packets["never issued"] = unit.packets["p1"]
    unit.sign(packet=named)
    assert only(unit)["is"] == "stale"


def test_returned_until_a_new_sign_off():
    unit = ready()
    signed = unit.sign()
    back = unit.review(signed, "returned")
    unit.review(signed, "accepted")  # the return stands before it
    assert (unit.state()["is"], unit.state()["waiting"]) == ("returned", [])
    assert only(unit)["review"] == {"id": back, "is": "returned"}
    again = unit.sign()
    assert (unit.state()["is"], only(unit)["id"]) == ("signed", again)


def test_an_acceptance_counts_only_while_complete_and_every_step_is_through():
    unit = ready(step("t", field("f"), concession=True), step("again", field("f"), stage="re-check", signed=False))
    first = unit.tick("t.f", ticked=False)
    signed = unit.sign()
    unit.review(signed, "accepted")
    assert (unit.state()["is"], only(unit)["review"]) == ("signed", None)
    assert unit.state()["waiting"] == ["concession:t", "sign-off"]
    unit.review(signed, "concession", step="t")
    assert unit.state()["is"] == "accepted"
    unit.tick("t.f", ticked=False, replaces=[first])
    assert (unit.state()["is"], only(unit)["review"]) == ("stale", None)


def test_nobody_reviews_her_own():
    unit = ready()
    signed = unit.sign(by="ruth")
    unit.review(signed, "accepted", by="ruth")
    unit.review(signed, "returned", by="ruth")
    assert (unit.state()["is"], only(unit)["review"]) == ("signed", None)


def test_of_two_that_stand_both_are_shown_and_neither_is_accepted():
    unit = ready()
    both = [unit.sign(replaces=[]), unit.sign(by="omar", replaces=[])]
    for key in both:
        unit.review(key, "accepted")
    assert [(each["id"], each["is"], each["review"]) for each in unit.state()["signoffs"]] == [
        (key, "complete", None) for key in both
    ]
    assert unit.state()["is"] == "signed"
    last = unit.sign()
    unit.review(last, "accepted")
    assert (unit.state()["is"], only(unit)["id"]) == ("accepted", last)


def test_a_sign_off_is_offered_when_every_step_is_through():
    unit = Unit(step("s", field("f")), step("again", field("f"), stage="re-check", signed=False))
    offer = unit.offers()["signoff"]
    assert (offer["offered"], offer["steps"]) == (False, ["s"])
    unit.tick("s.f")
    offer = unit.offers()["signoff"]
    assert (offer["offered"], offer["steps"], offer["covers"], offer["replaces"]) == (True, [], ["02"], [])
    signed = unit.sign()
    assert unit.offers()["signoff"]["replaces"] == [signed]


@pytest.mark.parametrize(
    ("concession", "hold", "ticked", "asked", "offered"),
    [
        (False, False, False, True, False),  # outside where no concession is allowed
        (True, False, False, False, True),  # outside where one is
        (True, False, None, False, False),  # open
        (True, False, None, True, True),  # open, and asked: it cannot be read
        (True, True, None, True, False),  # a hold point that is open
        (False, False, None, True, False),
    ],
)
def test_a_sign_off_past_a_step_that_is_not_through(concession, hold, ticked, asked, offered):
    unit = Unit(step("s", field("f"), concession=concession, hold=hold))
    if ticked is not None:
        unit.tick("s.f", ticked=ticked)
    if asked:
        unit.ask("s")
    assert unit.offers()["signoff"]["offered"] is offered


def test_no_sign_off_while_a_sheet_is_split_or_a_pair_stands():
    unit = ready()
    unit.round(step="s")
    unit.round(step="s")
    assert (unit.offers()["signoff"]["offered"], unit.offers()["signoff"]["split"]) == (False, ["frame"])
    unit = Unit(step("s", field("f"), concession=True))
    unit.tick("s.f")
    unit.tick("s.f")
    unit.ask("s")
    assert unit.offers()["signoff"]["offered"] is False


def test_a_concession_may_be_asked_for_only_where_it_is_allowed_and_something_is_wrong():
    unit = Unit(
        step("a", field("f"), concession=True),
        step("b", field("f")),
        step("c", field("f", required=False), concession=True),
    )
    assert {key: offer["ask"] for key, offer in unit.offers()["steps"].items()} == {"a": True, "b": False, "c": False}
    ask = unit.ask("a")
    assert unit.offers()["steps"]["a"]["asks"] == [ask]
