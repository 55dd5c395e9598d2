"""The demo: scenario.toml loaded and stories.toml played, always the same."""

import json
import tomllib
from pathlib import Path
from random import Random
from typing import Any

from flask import Flask
from sqlalchemy.orm import Session

from fieldapp.places import folder
from fieldapp.plan import catalogue_csv
from fieldapp.plan.catalogue import edition
from fieldapp.site import order_file
from fieldapp.site.diary import SECOND, Diary, Phone
from fieldapp.site.load import Loaded, LoadError, place
from fieldapp.site.making import always_the_same
from fieldapp.site.story import Story
from fieldapp.store import editions, entries, facts, ids, states
from fieldapp.store.base import write
from fieldapp.store.people import meet_device

Json = dict[str, Any]
DAY = 24 * 3600 * SECOND
BATCH = 40  # entries that a phone sends at once
LATER = 90 * SECOND  # a signal comes this long after the last of them


def scenario_file() -> Path:
    return folder("seed_data") / "scenario.toml"


def stories() -> Json:
    return tomllib.loads((folder("seed_data") / "stories.toml").read_text("utf-8"))


def people() -> list[Json]:
    """[{"name", "password", "roles", "crew"}] of the demo, for the start report."""
    raw = tomllib.loads(scenario_file().read_text("utf-8"))
    return [
        {"name": one["name"], "password": one["password"], "roles": one["roles"], "crew": one.get("crew")}
        for one in raw["person"]
    ]


def seed(app: Flask) -> Loaded:
    """Fill the empty site of this app with the demo. Raises LoadError where the scenario is at fault."""
    told = stories()
    start = round(told["start"].timestamp()) * SECOND
    order, faults = order_file.read(scenario_file())
    if faults:
        raise LoadError(faults)
    with app.app_context():
        desk = ids.seeded_uuid7(start, "the site's own device")
        with write() as session:
            facts.put(session, "device", desk)
        made = place(order, always_the_same(start))
        phones = _phones(made, start)
        diaries = [_played(one, told, made, phones, desk, start) for one in told["story"]]
        with write() as session:
            _bring_in_doors(session, made.people["ruth"]["id"], start)
            for phone in phones.values():
                meet_device(session, phone.id, phone.label, phone.person)
        for diary in diaries:
            _keep(diary, desk)
        states.bring_up([diary.unit for diary in diaries])
    return made


def _bring_in_doors(session: Session, person: str, start: int) -> None:
    """The demo's makers' doors, as a supervisor brings in a CSV file: edition 1."""
    rows, faults = catalogue_csv.read("doors", (folder("seed_data") / "demo_doors.csv").read_bytes())
    if faults:
        raise LoadError(faults)
    hash, body = edition("doors", rows)
    editions.add(session, "doors", hash, body, person, "makers' sheets E-4, S-2, P-7", start + DAY)


def _phones(made: Loaded, start: int) -> dict[str, Phone]:
    return {
        name: Phone(ids.seeded_uuid7(start, f"phone {name}"), f"{name}'s phone", one["id"])
        for name, one in made.people.items()
        if "installer" in one["roles"]
    }


def _played(one: Json, told: Json, made: Loaded, phones: dict[str, Phone], desk: str, start: int) -> Diary:
    unit = made.units[one["job"], one["unit"]]
    built = made.packets[unit]
    parts = {name: json.loads(body) for name, body in built.parts.items()}
    diary = Diary(
        unit, built.packet["unit"]["box"], built, parts, Random(f"{one['job']} {one['unit']}"), start + one["day"] * DAY
    )
    issued = {
        "id": ids.seeded_uuid7(start, f"issue unit {one['job']} {one['unit']}"),
        "kind": "issue",
        "person": facts.SITE_PERSON,
        "value": {"packet": built.hash, "others": {}},
        "packet": built.hash,
    }
    diary.start(issued)
    Story(diary, one, told, phones, Phone(desk, "the office", made.people["ruth"]["id"])).play()
    return diary


def _keep(diary: Diary, desk: str) -> None:
    """The diary's entries, as they came in: some at a time."""
    for start in range(0, len(diary.entries), BATCH):
        some = diary.entries[start : start + BATCH]
        with write() as session:
            for entry in some:
                if entry["device"] == desk:
                    entry["count"] = facts.next_count(session)
            entries.lock(session, [diary.unit])
            entries.keep(session, some, received=diary.times[some[-1]["id"]] + LATER)
