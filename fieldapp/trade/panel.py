"""The panel that is cut out of the wall: its size along the sheet, its mass, and how many people that is.

Mass = area along the sheet * thickness * density. A team counts a share of the sum of its members (HSE L23, from
memory); 23 kg a person is the NIOSH load constant, made for one person: the mix informs, it decides nothing.
When it falls: panel_fall.py. Lengths mm, masses kg.
"""

from fractions import Fraction
from math import hypot
from typing import Any

from fieldapp.trade.corrugation import developed
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import INSIDE, judged
from fieldapp.trade.lengths import Show
from fieldapp.trade.measured import parted
from fieldapp.trade.panel_fall import fall
from fieldapp.trade.panel_say import cautions, sentences

Json = dict[str, Any]
Layer = tuple[float, float, float]  # thickness and its standard uncertainty in mm, density in kg/m3

MM_PER_M = 1000
NOT_FALLING = dict.fromkeys(("falls_out_past", "falls_in_past", "push_out", "push_in", "wind_out", "wind_in"))


def layers_of(known: Json, doubt: Json) -> list[Layer]:
    """The sheet of a corrugated wall, or the layers of a smooth one."""
    if "layers" in known:
        return [(*parted(layer["thickness"], doubt["thickness"]), layer["density"]) for layer in known["layers"]]
    return [(*parted(known["thickness"], doubt["thickness"]), known["density"])]


def mass_of(area: float, layers: list[Layer]) -> tuple[float, float]:
    """(mass, its standard uncertainty) in kg of layers over an area in m2; the doubt is the thicknesses' own."""
    mass = sum(area * thickness / MM_PER_M * density for thickness, _, density in layers)
    return mass, hypot(*(area * u / MM_PER_M * density for _, u, density in layers))


def team(mass: float, u: float, person: float, teams: list[Json]) -> tuple[int | None, Json]:
    """(the fewest people, the judged mass): the first team whose limit the mass keeps with a chance of 0.975.

    mass and its standard uncertainty u in kg; person: kg that one counts; teams: rising, [{"people", "share"}].
    None and the largest team's limit where none does: a lifting aid.
    """
    people: int | None = None
    for one in teams:
        made = judged("mass", mass, u, None, tidy(float(one["people"] * Fraction(one["share"])) * person))
        if made["verdict"] == INSIDE:
            people = one["people"]
            break
    return people, made


def panel(given: Json, table: Json, profiles: Json, doubt: Json) -> Json:
    """Size, mass, people, and when the panel falls (contract: panel).

    given: wall, cut {width, height}, and where known starts, profile, thickness, layers [{"thickness",
    "density" kg/m3}], strip, tabs {count, width}, yield, tensile (N/mm2), per_person (kg), reduction, show.
    Lengths mm; a measured one is a number or {"value", "u"}. table: seed_data/tables/panel.toml.
    """
    show: Show = given.get("show", "mm")
    known = table | given | {"tabs": table["tabs"] | given.get("tabs", {})}
    width, height = given["cut"]["width"], given["cut"]["height"]
    profile: Json | None = given.get("profile") or profiles.get(given["wall"])
    along = width if profile is None else developed(profile, width, given.get("starts"))
    area = along * height / MM_PER_M**2
    mass, u_mass = mass_of(area, layers_of(known, doubt))
    person = known["per_person"] * (1 - known["reduction"])
    people, weighed = team(mass, u_mass, person, table["team"])
    falling = NOT_FALLING if profile is None else fall(known, profile, mass)
    made = {"developed_width": along, "ratio": along / width, "area": area, "mass": mass, "u_mass": u_mass,
            "cut_at": {"bottom": known["strip"], "head": tidy(known["strip"] + height)}, "people": people,
            **falling, "reach": height, "judged": [weighed], "cautions": cautions(profile is None)}
    return made | {"say": sentences(made, known, profile, person, show)}
