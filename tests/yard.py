"""A small site for tests of store and web: two crews, their people, three units with a plan, and clients that speak.

Names, codes and plans are invented.
"""

import json
from dataclasses import dataclass, field
from pathlib import Path

from argon2 import PasswordHasher
from flask import Flask

from fieldapp.record.entries import covers_hash
from fieldapp.settings import Settings
from fieldapp.store import ids, packets, people, units
from fieldapp.store.base import write
from fieldapp.web.app import create_app

PASSWORD = "four plain words here"
FROM_HERE = {"Sec-Fetch-Site": "same-origin", "Fieldapp-Api": "1"}
# Cheap on purpose: these tests are not about the cost of guessing.
CHEAP = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)


def uid(number: int) -> str:
    """A UUID of the shape of a version 7, always the same for a number."""
    return ids.uuid7(1_760_000_000_000 + number, number.to_bytes(10, "big"))


def plan(unit, crew_people) -> bytes:
    """A packet of two steps: a reading and a tick; a hold point that no concession opens."""
    steps = [
        {
            "id": "hinge-jamb",
            "stage": "set-and-fix",
            "say": "Hinge jamb first",
            "cautions": [],
            "hold": False,
            "needs": [],
            "concession": True,
            "signed": True,
            "answers": [],
            "fields": [
                {
                    "id": "gap",
                    "type": "length",
                    "required": True,
                    "say": "Gap",
                    "expect": {"from": 2_000_000, "to": 5_000_000, "u": 0, "origin": "D", "source": "invented"},
                }
            ],
        },
        {
            "id": "stop",
            "stage": "prove",
            "say": "Stop",
            "cautions": [],
            "hold": True,
            "needs": [],
            "concession": False,
            "signed": True,
            "answers": [],
            "fields": [{"id": "stays", "type": "tick", "required": True, "say": "Leaf stays"}],
        },
    ]
    named = {"id": unit.id, "number": unit.number, "code": unit.code, "short": unit.short, "box": unit.box}
    body = {
        "packet": 1,
        "unit": named,
        "lang": "en",
        "steps": steps,
        "sheets": [],
        "drawings": [],
        "people": crew_people,
    }
    return json.dumps(body, sort_keys=True).encode()


@dataclass
class Yard:
    """The site: ids of people by name, of units by number, of packets by number."""

    app: Flask
    site: Path
    people: dict = field(default_factory=dict)
    units: dict = field(default_factory=dict)
    packets: dict = field(default_factory=dict)

    def client(self, name=None, device=None):
        return Client(self, name, device)


class Client:
    """Somebody's browser or phone: sends what a page of ours sends, and counts entries."""

    def __init__(self, yard, name=None, device=None):
        self.yard, self.name, self.http = yard, name, yard.app.test_client()
        self.device = device or uid(900 + len(name or ""))
        self.count = 0
        if name:
            answer = self.post(
                "/api/session",
                {"name": name, "password": PASSWORD, "device": {"id": self.device, "label": f"{name}'s phone"}},
            )
            assert answer.status_code == 200, answer.get_data(as_text=True)

    def get(self, path, **headers):
        return self.http.get(path, headers=headers)

    def send(self, method, path, **more):
        more["headers"] = {**FROM_HERE, **more.get("headers", {})}
        return self.http.open(path, method=method, **more)

    def post(self, path, body, **headers):
        return self.send("POST", path, json=body, headers=headers)

    def entry(self, kind="note", value=None, unit="07", **more):
        """An entry that fits, with what is given instead."""
        self.count += 1
        return {
            "id": ids.uuid7(),
            "v": 1,
            "unit": self.yard.units.get(unit, unit),
            "step": "hinge-jamb",
            "field": None,
            "round": None,
            "kind": kind,
            "value": {"text": "a note"} if value is None else value,
            "replaces": [],
            "packet": self.yard.packets.get(unit),
            "sheet": None,
            "person": self.yard.people.get(self.name),
            "device": self.device,
            "count": self.count,
            "at": "2026-11-25T10:42:07.120+01:00",
            "offset_ms": None,
            **more,
        }

    def signoff(self, covers, **more):
        return self.entry("signoff", {"covers": covers, "sha256": covers_hash(covers)}, step=None, **more)

    def sync(self, entries=(), units=None, **more):
        return self.post("/api/sync", {"device": self.device, "entries": list(entries), "units": units or {}, **more})

    def kept(self, *entries):
        """Sync entries that must be kept; their ids."""
        answer = self.sync(entries).get_json()
        assert [r["answer"] for r in answer["results"]] == ["kept"] * len(entries), answer
        return [entry["id"] for entry in entries]

    def answer_to(self, entry):
        """Sync one entry: (answer, code of why or None, the result)."""
        answer = self.sync([entry])
        assert answer.status_code == 200, answer.get_data(as_text=True)
        [result] = answer.get_json()["results"]
        return result["answer"], (result.get("why") or {}).get("code"), result


CAST = {
    "lena": (["installer"], "north"),
    "omar": (["installer"], "north"),
    "pia": (["installer"], "south"),
    "ruth": (["supervisor"], None),
    "ines": (["supervisor"], None),
    "ada": (["administrator"], None),
}


def make(site: Path, **settings) -> Yard:
    """The site in a folder, filled."""
    found = Settings(site, f"sqlite:///{site / 'fieldapp.sqlite3'}", **settings)
    yard = Yard(create_app(site, found), site)
    with yard.app.app_context(), write() as session:
        crews = {name: people.add_crew(session, name) for name in ("north", "south")}
        for name, (roles, crew) in CAST.items():
            made = people.add_person(session, name, roles, crews[crew].id if crew else None)
            made.password = CHEAP.hash(PASSWORD)
            yard.people[name] = made.id
        job = units.add_job(session, "Quay 3", "North quay", "Harbour stores")
        for number, crew in (("07", "north"), ("08", "north"), ("09", "south")):
            unit = units.add_unit(session, job.id, crews[crew].id, number, f"box {number}")
            who = [
                {"id": yard.people[n], "name": n, "release": True, "review": "supervisor" in CAST[n][0]}
                for n in ("lena", "omar", "pia", "ruth")
            ]
            body = plan(unit, who)
            packets.issue(session, unit, ids.sha256(body), body, {}, "first plan")
            yard.units[number], yard.packets[number] = unit.id, ids.sha256(body)
    return yard


# Values that an installer's phone may send, by kind.
KINDS = {
    "reading": [
        {"text": "-6", "nm": -6_000_000, "over": 1_200_000_000, "reversed": True, "u": 300_000},
        {"text": "10200", "number": 10200, "ucum": "/min"},
        {"text": "0.5", "number": 0.5, "ucum": "mm"},
    ],
    "tick": [{"ticked": True}],
    "choice": [{"chosen": "66"}],
    "note": [{"text": "wet 🌧"}],
    "photo": [{"sha256": "a" * 64, "bytes": 123}],
    "move": [{"sheet": "frame", "do": "push_head_right", "nm": 6_000_000}],
    "round": [{"sheet": "frame", "after": []}, {"sheet": "frame", "after": [uid(1)]}],
    "told": [
        {
            "sheet": "frame",
            "from": [uid(1)],
            "verdicts": {"square_head": "inside", "twist": None},
            "set_aside": [],
            "moves": [{"do": "push_head_right", "nm": 1}],
            "next": None,
            "chosen": "66",
            "tools": {"tape": 0.25, "level": 0.29},
            "can_read": ["plumb_left"],
        }
    ],
    "retract": [{"because": "slipped"}],
    "confirm": [{"of": uid(1)}],
    "ask": [{"covers": [], "because": "leaf binds"}],
    "signoff": [{"covers": [uid(2), uid(1)], "sha256": covers_hash([uid(1), uid(2)])}],
    "moved": [{"to": uid(7)}],
}
