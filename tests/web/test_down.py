"""What sync gives down: by cursor, within its limits, and what is gone."""

from yard import uid


def test_down_by_cursor(yard):
    lena, omar, unit = yard.client("lena"), yard.client("omar"), yard.units["07"]
    first = lena.sync([], {unit: None}).get_json()["units"][unit]
    assert [e["kind"] for e in first["entries"]] == ["issue"]
    assert (first["more"], first["packet"]) == (False, yard.packets["07"])
    sent = lena.kept(*[lena.entry() for _ in range(498)])
    sent += lena.kept(*[lena.entry() for _ in range(10)])
    page = omar.sync([], {unit: first["cursor"]}).get_json()["units"][unit]
    assert len(page["entries"]) == 500
    assert page["more"]
    rest = omar.sync([], {unit: page["cursor"]}).get_json()["units"][unit]
    assert [e["id"] for e in page["entries"] + rest["entries"]] == sent
    assert not rest["more"]
    server = rest["entries"][-1]["server"]
    assert (server["seq"], server["standing"]) == (509, "kept")
    assert omar.sync([], {unit: rest["cursor"]}).get_json()["units"][unit]["entries"] == []


def test_500_entries_a_call_over_all_units(yard):
    lena, units = yard.client("lena"), [yard.units["07"], yard.units["08"]]
    for number in ("07", "08"):
        lena.kept(*[lena.entry(unit=number) for _ in range(300)])
    cursors = dict.fromkeys(units)
    seen = dict.fromkeys(units, 0)
    for _ in range(3):
        answer = lena.sync([], cursors).get_json()["units"]
        assert sum(len(page["entries"]) for page in answer.values()) <= 500
        for unit, page in answer.items():
            seen[unit] += len(page["entries"])
            cursors[unit] = page["cursor"]
    assert seen == dict.fromkeys(units, 301)


def test_large_entries_come_down_in_several_answers(yard):
    lena, unit = yard.client("lena"), yard.units["07"]
    for _ in range(20):
        lena.kept(*[lena.signoff([uid(n) for n in range(1500)]) for _ in range(10)])
    cursor, got = None, 0
    for _ in range(10):
        answer = lena.sync([], {unit: cursor})
        assert len(answer.get_data()) < 6 << 20
        page = answer.get_json()["units"][unit]
        got, cursor = got + len(page["entries"]), page["cursor"]
        if not page["more"]:
            break
    assert got == 201


def test_a_cursor_of_another_epoch_or_unit_starts_again(yard):
    lena, unit, other = yard.client("lena"), yard.units["07"], yard.units["08"]
    lena.kept(lena.entry(), lena.entry(unit="08"))
    cursors = {u: page["cursor"] for u, page in lena.sync([], {unit: None, other: None}).get_json()["units"].items()}
    swapped = lena.sync([], {unit: cursors[other]}).get_json()["units"][unit]
    assert len(swapped["entries"]) == 2
    strange = f"{'0' * 16}.1"
    assert len(lena.sync([], {unit: strange}).get_json()["units"][unit]["entries"]) == 2


def test_assigned_and_gone(yard):
    lena = yard.client("lena")
    answer = lena.sync([], {yard.units["09"]: None, uid(3): None, yard.units["07"]: None}).get_json()
    assert {a["id"] for a in answer["assigned"]} == {yard.units["07"], yard.units["08"]}
    assert {a["packet"] for a in answer["assigned"]} == {yard.packets["07"], yard.packets["08"]}
    assert set(answer["gone"]) == {yard.units["09"], uid(3)}
    assert set(answer["units"]) == {yard.units["07"]}
    assert answer["epoch"]
    assert answer["time"].endswith("Z")
