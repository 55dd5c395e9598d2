"""Steps, hold points and concessions (state.md, "Steps" and "Hold points")."""

import pytest
from one_unit import Unit, field, step


def stop(**more):
    return Unit(step("before", field("f")), step("stop", field("f"), hold=True, needs=["before"], **more))


def test_a_hold_point_is_shut_until_a_release_covers_what_stands():
    unit = stop()
    unit.tick("before.f")
    first = unit.tick("stop.f")
    assert (unit.step("stop")["is"], unit.step("stop")["hold"]) == ("shut", None)
    unit.release("stop")
    assert (unit.step("stop")["is"], unit.step("stop")["hold"]) == ("done", "stated")
    assert unit.state()["waiting"] == ["hold:stop"]
    unit.tick("stop.f", replaces=[first])  # stands and is not covered: shut again
    assert (unit.step("stop")["is"], unit.step("stop")["hold"]) == ("shut", None)


def test_open_comes_before_shut_and_shut_before_outside():
    unit = stop()
    assert unit.step("stop")["is"] == "open"
    unit.tick("stop.f", ticked=False)
    assert (unit.step("stop")["is"], unit.step("stop")["outside"]) == ("shut", ["f"])
    unit.release("stop")
    assert unit.step("stop")["is"] == "outside"


def test_confirmed_only_by_the_second_person():
    unit = stop()
    unit.tick("stop.f")
    release = unit.release("stop", second="omar")
    unit.confirm(release, by="ruth")
    assert unit.step("stop")["hold"] == "stated"
    unit.confirm(release, by="omar")
    assert unit.step("stop")["hold"] == "confirmed"
    assert unit.state()["waiting"] == []


def test_entered_by_herself_where_she_made_nothing_is_confirmed():
    unit = stop()
    unit.tick("stop.f", by="lena")
    unit.release("stop", second="omar", by="omar")
    assert unit.step("stop")["hold"] == "confirmed"


def test_nobody_is_her_own_second_person():
    unit = stop()
    unit.tick("stop.f", by="lena")
    unit.release("stop", second="lena", by="lena")
    assert unit.step("stop")["is"] == "shut"
    unit.release("stop", second="lena", by="omar")  # entered by the other, who made none of it, is only stated
    assert unit.step("stop")["hold"] == "stated"


def test_a_retracted_release_leaves_the_hold_point_shut():
    unit = stop()
    unit.tick("stop.f")
    unit.retract(unit.release("stop"))
    assert unit.step("stop")["is"] == "shut"


def test_a_release_made_before_what_it_needs_is_good():
    unit = stop()
    unit.tick("stop.f")
    unit.release("stop")
    assert (unit.step("before")["is"], unit.step("stop")["is"]) == ("open", "done")


def test_a_release_is_offered_when_the_rest_is_done_and_what_it_needs_too():
    unit = stop()
    assert unit.offers()["steps"]["stop"]["release"] is False
    unit.tick("stop.f")
    offer = unit.offers()["steps"]["stop"]
    assert (offer["release"], offer["needs"]) == (False, ["before"])
    unit.tick("before.f")
    offer = unit.offers()["steps"]["stop"]
    assert (offer["release"], offer["needs"], offer["covers"], offer["seconds"]) == (True, [], ["02"], ["omar"])
    assert unit.offers("omar")["steps"]["stop"]["seconds"] == ["lena", "omar"]
    release = unit.release("stop")
    offers = unit.offers()
    assert (offers["steps"]["stop"]["release"], offers["steps"]["stop"]["releases"]) == (False, [release])
    assert offers["confirms"] == [{"release": release, "step": "stop", "second": "omar"}]
    unit.confirm(release)
    assert unit.offers()["confirms"] == []


@pytest.mark.parametrize("concession", [True, False])
def test_outside_is_released_only_where_the_plan_allows_a_concession(concession):
    unit = stop(concession=concession)
    unit.tick("before.f")
    unit.tick("stop.f", ticked=False)
    assert unit.offers()["steps"]["stop"]["release"] is concession


def test_a_concession_holds_while_what_stands_is_what_the_ask_covers():
    unit = Unit(step("s", field("f"), concession=True))
    first = unit.tick("s.f", ticked=False)
    ask = unit.ask("s")
    assert unit.state()["waiting"] == ["concession:s"]
    unit.review(ask, "concession", step="s")
    assert (unit.step("s")["is"], unit.state()["waiting"]) == ("passed", [])
    unit.tick("s.f", ticked=False, replaces=[first])
    assert (unit.step("s")["is"], unit.state()["waiting"]) == ("outside", ["concession:s"])


def test_what_cannot_be_read_can_be_conceded():
    unit = Unit(step("s", field("f"), concession=True))
    ask = unit.ask("s")
    assert unit.entries[-1]["value"]["covers"] == []
    unit.review(ask, "concession", step="s")
    assert (unit.step("s")["is"], unit.step("s")["missing"]) == ("passed", ["f"])


@pytest.mark.parametrize(("by", "on", "allowed"), [("lena", "s", True), ("ruth", "other", True), ("ruth", "s", False)])
def test_a_concession_of_ones_own_ask_on_another_step_or_where_none_is_allowed_does_not_hold(by, on, allowed):
    unit = Unit(step("s", field("f"), concession=allowed), step("other", field("f"), concession=True))
    unit.tick("s.f", ticked=False)
    unit.review(unit.ask("s"), "concession", by=by, step=on)
    assert unit.step("s")["is"] == "outside"
    assert unit.step("other")["is"] == "open"


def test_an_ask_speaks_of_its_own_step():
    unit = Unit(step("s", field("f"), concession=True), step("other", field("f"), concession=True))
    unit.review(unit.ask("other"), "concession", step="s")
    assert unit.step("s")["is"] == "open"


def test_a_concession_of_a_sign_off_outlives_the_next_sign_off():
    unit = Unit(step("s", field("f"), concession=True), step("t", field("f", required=False)))
    unit.tick("s.f", ticked=False)
    signed = unit.sign()
    assert "concession:s" in unit.state()["waiting"]
    unit.review(signed, "concession", step="s")
    assert unit.step("s")["is"] == "passed"
    unit.tick("t.f")
    unit.sign()
    assert unit.step("s")["is"] == "passed"


def test_a_hold_point_is_never_conceded():
    unit = Unit(step("s", field("f"), hold=True, concession=True))
    unit.tick("s.f", ticked=False)
    unit.review(unit.ask("s"), "concession", step="s")
    assert unit.step("s")["is"] == "shut"
    unit.release("s")
    assert unit.step("s")["is"] == "passed"


def test_a_pair_is_not_passed():
    unit = Unit(step("s", field("f"), concession=True))
    unit.tick("s.f", ticked=False)
    unit.tick("s.f", ticked=False)
    unit.review(unit.ask("s"), "concession", step="s")
    assert unit.step("s")["is"] == "open"
