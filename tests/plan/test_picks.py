"""The pick list against sums done by hand from the seed tables, written beside each figure.

Sources: corrugations, rivet rows, cartridge and sheets as seed_data/tables name them (facts 2, 3, 7: TM 10-5410-223-24
for 3/16 in rows, factory specifications from memory for the corrugations, 298.7 mL a cartridge).
"""

from math import hypot, pi

import pytest
from plan.conftest import plan

from fieldapp.plan import picks as job
from fieldapp.plan.choices import check
from fieldapp.plan.hand_picture import closing_path, hand_picture


def unit(number, with_=None, **more):
    return {"number": number, "choices": plan(**more) | (with_ or {})}


def lines(*units):
    return {(line["what"], line["detail"][:8]): line for line in job.picks(list(units))["lines"]}


def one(found, start):
    """The line that starts so; there is exactly one."""
    [line] = [line for (what, _), line in found.items() if what.startswith(start)]
    return line


def test_fixings_by_size_over_an_end_wall():
    # Opening: 914 + 2 * 6 = 926 wide, 2045 + 6 + 44.2 + 12 * 0.55 = 2101.8 high.
    # A jamb: 2101.8 - 2 * 50 = 2001.8 at 300 at most: 7 spaces, 8 holes; two jambs 16.
    # Head: pitch 110 + 18 + 104 + 18 = 250; 4 * 250 - 110 = 890 <= 926 <= 4 * 250 + 110 - 2 * 25 = 1060: 4 inner flats.
    # Sides: 2.0 + 1.5 = 3.5 ± 0.14: above .125 in = 3.175 by 2.3 u, so row 64 (.126 to .250 in).
    # Head: 3.5 + 6.6 = 10.1 ± 0.52, 9.525 is 1.1 u away: 66 or 68.
    found = lines(unit("1"), unit("2"))
    sides, head = one(found, "Blind rivet 4.8 mm, row 64"), one(found, "Blind rivet 4.8 mm, row 66 or 68")
    assert (sides["need"], sides["more"], sides["order"]) == (32, 4, 36)  # one spare in ten, begun tens count
    assert (head["need"], head["more"], head["order"]) == (8, 1, 9)
    assert head["note"].startswith("Take this many of both")


def test_fixings_on_a_side_wall_stand_at_a_break():
    # 1.6 + 1.5 = 3.1 ± 0.22, 3.175 is 0.3 u away: 62 or 64. Opening 826 + 12 = 838; pitch 278, outer 72:
    # 3 * 278 - 72 = 762 <= 838 <= 834 + 72 - 50 = 856: 3 inner flats, with a bead at the head the same stack.
    found = lines(unit("1", wall="corrugated side", seal="bead"))
    row = one(found, "Blind rivet")
    assert (row["what"], row["need"]) == ("Blind rivet 4.8 mm, row 62 or 64", 16 + 3)


def test_the_plans_own_holes_beat_the_spacing():
    holes = {"side": 6, "per_flat": 2, "sill": 4}
    found = lines(unit("1", wall="corrugated side", seal="bead", with_={"holes": holes}))
    # 2 * 6 in the jambs, 2 in each of 3 inner flats, 4 at the sill
    assert one(found, "Blind rivet")["need"] == 12 + 6 + 4
    assert check(plan() | {"holes": {"side": 1.5}}) == ["holes.side: 1.5; right would be a whole number of 1 to 200."]
    assert "holes.head" in check(plan() | {"holes": {"head": 4}})[0]  # a corrugated wall counts by its flats


def test_a_makers_flange_beats_the_usual_one():
    # 1.6 + 2.5 = 4.1 ± 0.21 lies well inside row 64, .126 to .250 in = 3.2 to 6.35 mm
    found = lines(unit("1", wall="corrugated side", seal="bead", with_={"flange": 2.5}))
    assert one(found, "Blind rivet")["what"] == "Blind rivet 4.8 mm, row 64"


def test_a_smooth_wall_knows_no_row_before_its_skins_are_measured():
    found = lines(unit("1", wall="smooth insulated"))
    row = one(found, "Blind rivet")
    # jambs: 2045 + 6 + 6.6 = 2057.6 - 100 at 300: 8 a side; head: 926 - 100 = 826 at 300: 4
    assert (row["what"].endswith("row by the measured stack"), row["need"]) == (True, 16 + 4)
    assert one(found, "Blade")["order"] == 1
    assert not any(what.startswith(("Cutting disc", "Head kit")) for what, _ in found)


def test_a_width_that_lands_nowhere_says_measure():
    # side wall, 914 + 12 = 926: between 856 and 1040 no pair of flats serves (facts 8)
    found = lines({"number": "1", "choices": plan(wall="corrugated side") | {"frame": {"width": 914, "height": 2045}}})
    assert "lands on no flats" in one(found, "Blind rivet 4.8 mm, row 62")["note"]


def test_seal_lengths_follow_the_corrugation():
    # end wall: (110 + 104 + 2 * hypot(18, 45.6)) / 250 = 1.2482 of length a unit of width (facts 3: 1.248)
    ratio = (110 + 104 + 2 * hypot(18, 45.6)) / 250
    assert ratio == pytest.approx(1.248, abs=0.0005)
    bulb = one(lines(unit("1"), unit("2")), "Bulb seal")
    assert bulb["need"] == pytest.approx(2 * 0.926 * ratio)
    assert bulb["order"] == 2.6  # 2.3117 and 10 % are 2.5429, up to the next 0.1 m
    trim = one(lines(unit("1", edges="edge trim")), "Edge trim")
    assert trim["need"] == pytest.approx(2 * 2.1018)
    assert trim["order"] == 4.7  # 4.2036 * 1.1 = 4.624


def test_cartridges_with_waste():
    # smooth wall, bulb seal: opening 926 by 2057.6. Outside fillets 2 * 2045 * 8 * 8 / 2 = 130 880 mm3; sill
    # 926 * 8 * 6 = 44 448; on the cut 2 * 2057.6 * pi * 36 / 4 = 116 356; dabs 20 * 6 * pi * 9 = 3393.
    volume = (130_880 + 44_448 + 2 * 2057.6 * pi * 9 + 20 * 6 * pi * 9) / 1000
    many = [unit(str(number), wall="smooth insulated") for number in range(7)]
    line = one(lines(*many), "Sealant")
    assert line["need"] == pytest.approx(7 * volume)
    assert line["more"] == pytest.approx(7 * volume * 0.15)
    assert line["order"] == 8  # 2065.5 * 1.15 / 298.7 = 7.95
    assert line["order_in"] == "cartridges"


def test_discs_and_primer():
    # cut of the end wall: 2 * (2.1018 + 0.926 * 1.24822) = 6.5153 m; three doors 19.546 / 3 = 6.5: 7 discs
    found = lines(*(unit(str(number)) for number in range(3)))
    assert one(found, "Cutting disc")["need"] == pytest.approx(19.546, abs=0.001)
    assert one(found, "Cutting disc")["order"] == 7
    # both faces, 30 mm: 19.546 * 2 * 0.03 = 1.1728 m2; with 20 % at 8 m2 a litre 0.176 L, up to 0.2
    primer = one(found, "Primer")
    assert primer["need"] == pytest.approx(1.1728, abs=0.0001)
    assert (primer["order"], primer["order_in"]) == (0.2, "L")


def test_both_kinds_of_kit_are_checked_against_the_wall():
    found = job.picks(
        [
            unit("1"),
            unit("2", wall="corrugated side"),
            unit("3", kit=False),
            unit("4", with_={"head_kit": {"profile": "angled", "rise": 44.2}}),  # angled belongs on a side wall
            unit("5", wall="smooth insulated"),
            unit("6", wall="smooth insulated", with_={"head_kit": {"profile": "straight", "rise": 44.2}}),
        ]
    )
    assert found["kits"] == {"angled": 1, "straight": 1}
    doors = {door["number"]: door for door in found["doors"]}
    assert doors["1"]["notes"] == ["The straight kit fits the end wall."]
    assert doors["2"]["notes"] == ["The angled kit fits the side wall."]
    assert doors["3"]["notes"][0].startswith("No head kit is planned; the end wall takes the straight one.")
    assert doors["4"]["faults"] == ["head_kit.profile: 'angled'; right would be 'straight' on a corrugated end wall."]
    assert doors["5"]["notes"] == []
    assert doors["6"]["faults"] or "smooth" in doors["6"]["notes"][0]
    counted = {number for line in found["lines"] for number in line["doors"]}
    assert "4" not in counted


def test_parts_of_a_job_add_up():
    found = lines(unit("1"), unit("2", hand="right", closer=True, panic_bar=True, limit="stop"), unit("3"))
    assert one(found, "Door, hinges left")["doors"] == ["1", "3"]
    assert one(found, "Door, hinges right")["need"] == 1
    assert [one(found, part)["need"] for part in ("Check chain", "Door stop", "Closer", "Panic bar")] == [2, 1, 1, 1]
    assert one(found, "Head kit")["need"] == 3


def test_the_same_job_in_any_order_is_the_same_list():
    units = [unit("1"), unit("2", wall="corrugated side"), unit("3", wall="smooth insulated", hand="right")]
    figures = [
        sorted((one["what"], one["detail"], f"{one['need']:.6f}", one["order"]) for one in job.picks(some)["lines"])
        for some in (units, units[::-1])
    ]
    assert figures[0] == figures[1]


@pytest.mark.parametrize(("hand", "turn"), [("left", "anti-clockwise"), ("right", "clockwise")])
def test_the_picture_turns_as_it_says(hand, turn):
    """Sign of the turn about the hinge by the cross product: geometry; y runs down, so positive is clockwise seen."""
    path = closing_path(hand)
    hinge = (path[0][0], path[-1][1])
    (ax, ay), (bx, by) = ((x - hinge[0], y - hinge[1]) for x, y in path[:2])
    assert ("clockwise" if ax * by - ay * bx > 0 else "anti-clockwise") == turn
    assert path[0][1] > path[-1][1]  # open outwards: below, where the outside is
    assert (path[-1][0] > hinge[0]) == (hand == "left")  # shut to the right of hinges on the left
    assert f"closes {turn}." in hand_picture(hand)
