"""Sealant against published classes, sizes and yields."""

import pytest

from fieldapp.plan.tables import table
from fieldapp.trade import sealants
from fieldapp.trade.units import convert


def made(joint, **more):
    given = {"joints": [{"where": "a", "shape": "rectangle", "length": 1000, "width": 8, "depth": 6} | joint], **more}
    return sealants.sealant(given, table("sealant"))


@pytest.mark.parametrize(
    ("grade", "opens", "closes"), [(12.5, 12.5, 12.5), (25, 25, 25), (35, 35, 35), (50, 50, 50), ("100/50", 100, 50)]
)
def test_classes(grade, opens, closes):
    # ASTM C920: 12 1/2, 25, 35, 50 (+-%), 100/50 (+100/-50): usmadesupply.com, ASTM C920 movement class
    judged = made({"opens": 0.1}, **{"class": grade})["judged"]
    assert [line["to"] for line in judged[:2]] == [opens, closes]


@pytest.mark.parametrize(
    ("grade", "build", "width"), [(25, 0, 6), (25, 3, 9), (50, 0, 3), (50, 3, 6)]
)
def test_width_for_a_movement_of_1_5_mm(grade, build, width):
    # W = movement/class + tolerance (ASTM C1472, formula from memory), worked by hand
    joint = made({"opens": 1.5, "closes": 1.5}, build=build, **{"class": grade})["joints"][0]
    assert joint["width_needed"] == pytest.approx(width)


def test_heat_in_steel_and_aluminium():
    # 2.1 m by 60 K with the mean of AISI 1010 and 1020 (11.7): 1.47 mm; with 23.6 of 6061: 2.97 mm (amesweb.info)
    for alpha, grown in ((11.7, 1.47), (23.6, 2.97)):
        assert sealants.growth({"length": 2100, "change": 60, "alpha": alpha}, 12) == pytest.approx(grown, abs=0.006)
    # the usual 12 (EN 1993, from memory), worked by hand
    assert sealants.growth({"length": 2100, "change": 60}, table("sealant")["alpha"]) == pytest.approx(1.512)


def test_depth_is_half_the_width_within_a_quarter_and_half_an_inch():
    # northernarchitecture.us, architectural detailing: half the width, not under 1/4 in, not over 1/2 in
    for width, depth in ((8, 6), (12, 6), (16, 8), (24, 12), (40, 13)):
        assert made({"width": width})["joints"][0]["depth_wanted"] == depth


def test_the_usual_cartridge():
    # midwestsealantsupply.com/FAQS: 10.1 fl oz; 1 US fl oz = 29.5735 mL
    assert table("sealant")["cartridge"] == round(10.1 * 29.5735, 1) == 298.7
    assert convert(10.1, "fluid_ounce", "mL") == pytest.approx(298.7, abs=0.05)


@pytest.mark.parametrize(
    ("width", "depth", "feet"), [(1 / 4, 1 / 4, 24.3), (3 / 8, 1 / 4, 16.2), (1 / 2, 1 / 4, 12.2), (1 / 2, 3 / 8, 8.1)]
)
def test_feet_of_joint_from_a_cartridge(width, depth, feet):
    # 18.2 in3 a cartridge over the section (worked by hand from midwestsealantsupply.com/FAQS)
    joint = {"length": feet * 304.8, "width": width * 25.4, "depth": depth * 25.4}
    assert made(joint)["volume"] == pytest.approx(298.7, rel=0.005)


@pytest.mark.parametrize(("width", "depth", "metres"), [(6, 6, 16.7), (10, 6, 10.0)])
def test_metres_of_joint_from_a_600_ml_sausage(width, depth, metres):
    joint = {"length": metres * 1000, "width": width, "depth": depth}
    found = made(joint, cartridge=600)
    assert found["volume"] == pytest.approx(600, rel=0.003)
    # a triangular fillet is half of the rectangle
    assert made(joint | {"shape": "fillet"})["volume"] == pytest.approx(found["volume"] / 2)
