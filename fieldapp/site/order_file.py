"""Reads a TOML file of people, crews, plans, jobs and units: what `fieldapp load` takes.

    [[crew]]          name
    [[person]]        name, roles, crew (left out: sees every crew), password or password_hash
    [plan.NAME]       a unit's choices (plan/choices.py), shared by the units that name it
    [[job]]           name, place, customer
    [[job.unit]]      number, crew, plan, box, choices: what is different from the plan, table by table
                      (a door and a seal may be named from the catalogues in force: plan/named.py)

Every fault is a sentence: the path, the value, what would be right.
"""

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from fieldapp.plan import choices
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.named import filled
from fieldapp.trade import containers

Json = dict[str, Any]
ROLES = ("installer", "supervisor", "administrator")
_KEYS = {
    "": ("crew", "person", "plan", "job"),
    "crew": ("name",),
    "person": ("name", "roles", "crew", "password", "password_hash"),
    "job": ("name", "place", "customer", "unit"),
    "unit": ("number", "crew", "plan", "box", "choices"),
}


@dataclass
class Order:
    """What a file asks for; `units` of a job are {"number", "crew", "box", "choices"}."""

    crews: list[str] = field(default_factory=list)
    people: list[Json] = field(default_factory=list)
    jobs: list[Json] = field(default_factory=list)


def read(path: Path, under: InForce | None = None) -> tuple[Order, list[str]]:
    """What the file asks for, and its faults; where there are any, nothing of it is to be used.

    under: the catalogues' editions that its plans take from, edition 0 when None.
    """
    try:
        raw = tomllib.loads(path.read_text("utf-8"))
    except OSError as fault:
        return Order(), [f"{path.name}: {fault.strerror or fault}; right would be a file that can be read."]
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        return Order(), [f"{path.name}: {fault}; right would be TOML in UTF-8."]
    return _Reading(raw, under or seeded()).done()


class _Reading:
    def __init__(self, raw: Json, under: InForce) -> None:
        self.raw, self.order, self.under = raw, Order(), under
        self.faults: list[str] = []

    def done(self) -> tuple[Order, list[str]]:
        self._known("", self.raw, "")
        for at, one in self._tables(self.raw, "crew", ""):
            name = self._name(one, f"{at}.name")
            self._once(name, self.order.crews, f"{at}.name")
        for at, one in self._tables(self.raw, "person", ""):
            self._person(at, one)
        for at, one in self._tables(self.raw, "job", ""):
            self._job(at, one)
        return self.order, self.faults

    def fault(self, path: str, value: Any, right: str) -> None:
        shown = "missing" if value is None else repr(value)[:40]
        self.faults.append(f"{path}: {shown}; right would be {right}.")

    def _known(self, kind: str, one: Json, at: str) -> None:
        for key in one:
            if key not in _KEYS[kind]:
                self.fault(f"{at}.{key}".lstrip("."), one[key], "one of " + ", ".join(_KEYS[kind]))

    def _tables(self, one: Json, key: str, at: str) -> list[tuple[str, Json]]:
        path = f"{at}.{key}".lstrip(".")
        found = one.get(key, [])
        if not isinstance(found, list) or not all(isinstance(item, dict) for item in found):
            self.fault(path, found, f"tables, each as [[{path}]]")
            return []
        for number, item in enumerate(found):
            self._known(key, item, f"{path}.{number}")
        return [(f"{path}.{number}", item) for number, item in enumerate(found)]

    def _text(self, one: Json, path: str, needed: bool = True) -> str | None:
        value = one.get(path.rsplit(".", 1)[-1])
        if value is None and not needed:
            return None
        if isinstance(value, str) and 1 <= len(value.strip()) <= 200:
            return value.strip()
        self.fault(path, value, "a text of 1 to 200 characters")
        return None

    def _name(self, one: Json, path: str) -> str:
        return self._text(one, path) or ""

    def _once(self, name: str, taken: list[str], path: str) -> None:
        if name and name in taken:
            self.fault(path, name, "a name used once in this file")
        elif name:
            taken.append(name)

    def _person(self, at: str, one: Json) -> None:
        name = self._name(one, f"{at}.name")
        if name in [person["name"] for person in self.order.people]:
            self.fault(f"{at}.name", name, "a name used once in this file")
        roles = one.get("roles")
        sound = isinstance(roles, list) and bool(roles) and all(role in ROLES for role in roles)
        if not sound:
            self.fault(f"{at}.roles", roles, "a list of " + ", ".join(ROLES))
        crew = self._text(one, f"{at}.crew", needed=False)
        if sound and "installer" in (roles or []) and crew is None and "crew" not in one:
            self.fault(f"{at}.crew", None, "the crew of this installer")
        secret = {key: self._text(one, f"{at}.{key}", needed=False) for key in ("password", "password_hash")}
        if (secret["password"] is None) == (secret["password_hash"] is None):
            self.fault(f"{at}.password", None, "password or password_hash, one of the two")
        elif secret["password"] is not None and len(secret["password"]) < 8:
            self.fault(f"{at}.password", "…", "8 characters or more")
        elif secret["password_hash"] is not None and not secret["password_hash"].startswith("$argon2id$"):
            self.fault(f"{at}.password_hash", secret["password_hash"], "an argon2id hash, as $argon2id$…")
        self.order.people.append({"name": name, "roles": roles if sound else [], "crew": crew, **secret})

    def _job(self, at: str, one: Json) -> None:
        name = self._name(one, f"{at}.name")
        if name in [job["name"] for job in self.order.jobs]:
            self.fault(f"{at}.name", name, "a name used once in this file")
        job: Json = {
            "name": name,
            "units": [],
            **{key: self._text(one, f"{at}.{key}", needed=False) or "" for key in ("place", "customer")},
        }
        numbers: list[str] = []
        for path, unit in self._tables(one, "unit", at):
            number = self._name(unit, f"{path}.number")
            self._once(number, numbers, f"{path}.number")
            job["units"].append(
                {
                    "number": number,
                    "crew": self._name(unit, f"{path}.crew"),
                    "box": self._box(unit, path),
                    "choices": self._choices(unit, path),
                }
            )
        self.order.jobs.append(job)

    def _box(self, unit: Json, path: str) -> str | None:
        """The container's number; with eleven characters the check digit has to agree (ISO 6346)."""
        box = self._text(unit, f"{path}.box", needed=False)
        if box is None:
            return None
        if containers.fault(box):
            self.fault(f"{path}.box", box, "a container number of ten or eleven characters (ISO 6346)")
            return None
        found = containers.container({"identification": box})
        if found["valid"] is False:
            slips = [slip["identification"] for slip in found["likely"]]
            self.fault(f"{path}.box", box, " or ".join(slips) or "a number whose check digit agrees (ISO 6346)")
        return box

    def _choices(self, unit: Json, path: str) -> Json:
        """The unit's choices: its plan's with its own over them; faults of the two together stand under the unit."""
        plans, name = self.raw.get("plan", {}), unit.get("plan")
        plan = plans.get(name) if isinstance(plans, dict) and isinstance(name, str) else None
        own = unit.get("choices", {})
        if not isinstance(plan, dict):
            known = ", ".join(map(repr, plans)) if isinstance(plans, dict) else ""
            self.fault(f"{path}.plan", name, f"one of the plans {known}" if known else "a plan, as [plan.NAME]")
            return {}
        if not isinstance(own, dict):
            self.fault(f"{path}.choices", own, "a table of choices")
            return {}
        merged, faults = filled(merge(plan, own), self.under)
        faults = faults or choices.check(merged, self.under)
        self.faults += [f"{path}.choices.{sentence}" for sentence in faults]
        return merged


def merge(base: Json, own: Json) -> Json:
    """`own` over `base`: tables are merged, all else is replaced, a table that names another kind too."""
    made = dict(base)
    for key, value in own.items():
        both_tables = isinstance(value, dict) and isinstance(made.get(key), dict)
        another = both_tables and ("kind" in value or "profile" in value)
        made[key] = merge(made[key], value) if both_tables and not another else value
    return made
