"""The packet: all that a phone needs of one unit, one JSON document named by the SHA-256 of its bytes."""

from dataclasses import dataclass
from typing import Any

from fieldapp.plan import choices as unit_choices
from fieldapp.plan.dimensions import Plan, plan_of
from fieldapp.plan.documents import document
from fieldapp.plan.drawings import drawings
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.planned import planned
from fieldapp.plan.sheets import rows, sheets
from fieldapp.plan.steps import stage_list, steps

Json = dict[str, Any]
PACKET = 1
LANGUAGES = ("en",)


@dataclass(frozen=True)
class Built:
    """A packet, its bytes and their hash; `parts`: the bytes of each sheet by their hash."""

    packet: Json
    packet_bytes: bytes
    hash: str
    parts: dict[str, bytes]


def build(
    choices: Json, unit: Json, people: list[Json], lang: str = "en", under: InForce | None = None
) -> Built:
    """The packet of a unit.

    `choices` as choices.check takes them; `unit` {"id", "number", "code", "short", "box"} and, for the unit's
    facts, "job" and "place"; `people` [{"id", "name", "release", "review"}]; `under` the catalogues' editions in force,
    edition 0 when None: the packet names them, and its sheets hold their figures, so it keeps its own rule. Raises
    ValueError with the sentences of `check` when the choices do not fit, and for a language that there is none of yet.
    """
    if lang not in LANGUAGES:
        raise ValueError(f"lang: {lang!r}; right would be one of {', '.join(map(repr, LANGUAGES))}.")
    under = under or seeded()
    plan = plan_of(unit_choices.read(choices, under), under)
    made = sheets(plan)
    parts: dict[str, bytes] = {}
    named = []
    for sheet in made:
        part, body = document(sheet)
        parts[part] = body
        named.append({"name": sheet["name"], "part": part})
    packet = {
        "packet": PACKET,
        "lang": lang,
        "unit": {name: unit[name] for name in ("id", "number", "code", "short", "box")},
        "facts": facts(plan, unit),
        "editions": under.hashes,
        "planned": planned(plan),
        "stages": stage_list(plan),
        "steps": steps(plan, rows(made)),
        "sheets": named,
        "drawings": drawings(plan, made[0]["kinds"]),
        "people": [
            {"id": one["id"], "name": one["name"], "release": one["release"], "review": one["review"]}
            for one in people
        ],
    }
    named_by, body = document(packet)
    return Built(packet, body, named_by, parts)


def facts(plan: Plan, unit: Json) -> list[str]:
    """The lines of the phone's unit screen: hand and wall, kit and seal, box, job and place where known."""
    texts = plan.texts
    lines = [f"Hinges {texts['hinge']}, {texts['wall']}", f"{texts['kit']}, {texts['seal']}"]
    return lines + [str(line) for line in (unit["box"], unit.get("job"), unit.get("place")) if line]
