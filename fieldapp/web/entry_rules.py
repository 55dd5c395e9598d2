"""Rules about an entry that need what is on disk: releases and reviews (server.md, "An entry")."""

from dataclasses import dataclass, field
from typing import Any

from sqlalchemy.orm import Session

from ..store import entries, packets
from ..store.entries import Known
from ..store.models import Unit
from .problems import told
from .refusals import Why, bad_shape

Entry = dict[str, Any]

# Which kinds a role enters; `issue` is the server's own.
_CREW = frozenset(
    {
        "reading",
        "tick",
        "choice",
        "note",
        "photo",
        "move",
        "round",
        "told",
        "retract",
        "release",
        "confirm",
        "ask",
        "signoff",
        "moved",
    }
)
ENTERS = {"installer": _CREW, "supervisor": _CREW | {"review"}, "administrator": frozenset[str]()}
_OF = {"accepted": ("signoff",), "returned": ("signoff",), "concession": ("ask", "signoff")}


def enters(roles: frozenset[str]) -> frozenset[str]:
    """The kinds that somebody of these roles enters."""
    return frozenset[str]().union(*(ENTERS.get(role, frozenset()) for role in roles))


@dataclass
class Bench:
    """What a rule may look at: the transaction, the units that the sender sees, what this call has kept so far."""

    session: Session
    units: dict[str, Unit]
    kept: dict[str, Entry] = field(default_factory=dict)
    quarantined: set[str] = field(default_factory=set)

    def known(self, ids: list[str]) -> dict[str, Known]:
        """Those of these entries that are here, this call's among them."""
        here = {id: self._made(self.kept[id]) for id in ids if id in self.kept}
        return {**entries.known(self.session, [id for id in ids if id not in here]), **here}

    def _made(self, entry: Entry) -> Known:
        standing = "quarantined" if entry["id"] in self.quarantined else "kept"
        return Known(entry["id"], entry["unit"], entry["kind"], entry["person"], standing)


def check(bench: Bench, entry: Entry, index: int) -> Why | None:
    """Why an entry that has the right shape is refused all the same; None: it is taken."""
    rule = _RULES.get(entry["kind"])
    return rule(bench, entry, index) if rule else None


def _release(bench: Bench, entry: Entry, index: int) -> Why | None:
    value, second = entry["value"], entry["value"]["second"]
    packet = packets.packet(bench.session, bench.units[entry["unit"]], entry["packet"])
    people = [p for p in (packet or {}).get("people", []) if p.get("release")]
    if second not in {p["id"] for p in people}:
        names = (
            ", ".join(f"{p['name']} ({p['id']})" for p in people[:10]) or "nobody: the unit has no plan that names one"
        )
        return bad_shape(
            {"value.second": [f"{second} is not one of the packet's people who may release: {names}"]}, index
        )
    if second == entry["person"] and any(k.person == second for k in bench.known(value["covers"]).values()):
        return bad_shape(
            {
                "value.second": [
                    f"{second} made one of the entries covered; nobody is her own second person: "
                    "another of the packet's people would be right"
                ]
            },
            index,
        )
    return None


def _review(bench: Bench, entry: Entry, index: int) -> Why | None:
    value = entry["value"]
    of = bench.known([value["of"]]).get(value["of"])
    if of is not None and of.person == entry["person"]:
        return Why("not_allowed", "nobody reviews her own entry; another supervisor would be right")
    if of is not None:
        wrong = _fits_review(of, entry)
        if wrong:
            return bad_shape({"value.of": [wrong]}, index)
    return _concession(bench, entry, index) if value["is"] == "concession" else None


def _fits_review(of: Known, entry: Entry) -> str | None:
    if of.unit != entry["unit"]:
        return f"{of.id} is an entry of another unit; one of this unit would be right"
    kinds = _OF.get(entry["value"]["is"])
    if kinds is None:
        return None if of.standing == "quarantined" else f"{of.id} is not quarantined; only such an entry is admitted"
    return None if of.kind in kinds else f"{of.id} is a {of.kind}; {' or '.join(kinds)} would be right"


def _concession(bench: Bench, entry: Entry, index: int) -> Why | None:
    if entry["step"] is None:
        return bad_shape({"step": ["null: a concession is for one step; its id would be right"]}, index)
    packet = packets.packet(bench.session, bench.units[entry["unit"]], entry["packet"]) or {}
    step = next((s for s in packet.get("steps", []) if s["id"] == entry["step"]), None)
    if step is not None and step.get("concession") is False:
        return Why("not_allowed", f"no concession is granted on step {told(entry['step'])}: what it holds must be so")
    return None


_RULES = {"release": _release, "review": _review}
