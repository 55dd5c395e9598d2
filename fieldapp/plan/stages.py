"""Reads seed_data/steps: one TOML file a stage, in the order of the work, as its authors wrote it.

A file has `stage`, `say` and `[[step]]` tables; a step or field with a `when` stands only in plans that fit:
`when = {corrugated = true, kit = ["angled", "straight"]}`, all keys at once, a list for any of its values.
A text is a string with `{names}` of the plan, or `{say = "…", when = {…}}`.

A step: id, say, purpose, cautions, shown (what the plan knows), hold, needs and look (of a hold point), concession
(true but for hold points), signed, answers, drawing, fields. A field: id, type, required, say, how, wrong, ucum,
options or rows_of (a rivet sheet), yes and no (a tick's two words), ways (the two directions of a sign), key
("signed": may be below zero), level, over, plan (a planned figure or a default by name), repeat, of_box, office (the
office gives it before anybody goes out; a phone takes it too), fill ("today"), feeds ("sheet input"), expect: from and
to, or near and within, figures or names; u; and where they are from: origin and source, or default (a name of
defaults.toml) and maker (the choice that beats it).
"""

import tomllib
from functools import cache
from typing import Any

from fieldapp.places import folder

STAGES = (
    "plan",
    "ready",
    "measure",
    "set-out",
    "cut",
    "edges",
    "try",
    "set-and-fix",
    "seal",
    "hardware",
    "prove",
    "hand-over",
    "re-check",
)
Json = dict[str, Any]


@cache
def stages() -> list[Json]:
    """The thirteen stage files, in the order of the work."""
    return [tomllib.loads((folder("seed_data") / "steps" / f"{stage}.toml").read_text("utf-8")) for stage in STAGES]


def fits(item: Any, flags: Json) -> bool:
    """Whether an item's `when` holds in a plan with these flags; True without one."""
    wanted = item.get("when", {}) if isinstance(item, dict) else {}
    return all(
        flags[name] in value if isinstance(value, list) else flags[name] == value for name, value in wanted.items()
    )
