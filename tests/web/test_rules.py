"""Releases and reviews at the door: what is refused by what is on disk."""

import pytest
from yard import uid

from fieldapp.record.entries import covers_hash


@pytest.fixture
def lena(shared):
    return shared.client("lena")


def test_release(shared, lena):
    [tick] = lena.kept(lena.entry("tick", {"ticked": True}, step="stop", field="stays"))

    def release(second, covers, client=lena, **more):
        value = {"second": shared.people.get(second, second), "covers": covers, "sha256": covers_hash(covers)}
        return client.answer_to(client.entry("release", value, step="stop", **more))

    assert release("omar", [tick])[0] == "kept"
    for second, covers in (("ada", [tick]), (uid(3), [tick]), ("lena", [tick])):
        answer, code, result = release(second, covers)
        assert (answer, code) == ("refused", "bad_shape")
        assert "entries.0.value.second" in result["why"]["problems"]
    assert release("lena", [uid(8)])[0] == "kept"  # goes by what is here
    assert release("omar", [tick], packet=None)[0] == "kept"
    ruth = shared.client("ruth")
    assert release("ruth", [tick], ruth)[0] == "kept"  # her own eyes, on work that is not hers


def test_release_goes_by_this_calls_entries_too(shared, lena):
    tick = lena.entry("tick", {"ticked": True}, step="stop", field="stays")
    value = {"second": shared.people["lena"], "covers": [tick["id"]], "sha256": covers_hash([tick["id"]])}
    results = lena.sync([tick, lena.entry("release", value, step="stop")]).get_json()["results"]
    assert [r["answer"] for r in results] == ["kept", "refused"]


def test_reviews(shared, lena):
    ruth = shared.client("ruth")
    [note] = lena.kept(lena.entry())
    [signed], [asked] = (
        lena.kept(lena.signoff([note])),
        lena.kept(lena.entry("ask", {"covers": [], "because": "binds"})),
    )
    [other] = lena.kept(lena.signoff([], unit="08"))
    [own] = ruth.kept(ruth.signoff([]))

    def review(of, is_, because="it is so", **more):
        return ruth.answer_to(ruth.entry("review", {"of": of, "is": is_, "because": because}, **more))[:2]

    assert review(signed, "accepted") == ("kept", None)
    assert review(signed, "returned") == ("kept", None)
    assert review(uid(9), "accepted") == ("kept", None)  # not here: taken
    assert review(own, "accepted") == ("refused", "not_allowed")
    for of, is_ in (
        (note, "accepted"),
        (asked, "returned"),
        (note, "concession"),
        (note, "admitted"),
        (other, "accepted"),
    ):
        assert review(of, is_) == ("refused", "bad_shape"), is_
    for is_ in ("accepted", "returned", "concession"):
        assert review(signed, is_, "") == ("refused", "bad_shape")
    assert review(asked, "concession", step="hinge-jamb") == ("kept", None)
    assert review(signed, "concession", step="hinge-jamb") == ("kept", None)
    assert review(asked, "concession", step=None) == ("refused", "bad_shape")
    assert review(asked, "concession", step="stop") == ("refused", "not_allowed")
    assert review(asked, "concession", step="not-in-the-plan") == ("kept", None)
    assert review(signed, "wonderful") == ("refused", "bad_shape")


def test_confirm_by_another_person_is_kept(lena, shared):
    pia = shared.client("omar")
    assert pia.answer_to(pia.entry("confirm", {"of": uid(1)}))[0] == "kept"
