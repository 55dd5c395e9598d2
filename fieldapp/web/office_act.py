"""What a supervisor may do on a record, each an entry through the same door as a phone's.

A verb takes the unit and the form, and gives a sentence where it cannot be done, else None.
"""

from collections.abc import Callable, Mapping
from typing import Any

from ..record import entries, offers, signoffs
from ..store.models import Person
from . import office_look, office_proof, page_entries
from .office_unit import Json, Known
from .sessions import person

Form = Mapping[str, str]
NO_REASON = "Say why; the crew reads this."


def may(known: Known, who: Person) -> Json:
    """What the page offers: the sign-off to decide on, steps for a concession, releases to make or confirm."""
    state = known.state or {}
    signoff = state["signoffs"][-1] if state.get("signoffs") else None
    own = bool(signoff and known.entries[signoff["id"]]["person"] == who.id)
    undecided = signoff if signoff and not own and not signoff["review"] else None
    blocked = [
        now["id"]
        for now in state.get("steps", [])
        if now["is"] in ("outside", "open", "shut") and known.steps[now["id"]].get("signed", True)
    ]
    offered = offers.offered(known.held, known.packets, known.parts, state, who.id) if known.held and state else None
    confirms = [each for each in (offered or {}).get("confirms", []) if each["second"] == who.id]
    # Who looked herself may say so beside a release that names another: hers needs nobody's word.
    stated = {now["id"] for now in state.get("steps", []) if now["hold"] == "stated"} - {
        each["step"] for each in confirms
    }
    return {
        "signoff": signoff,
        "own": own,
        "blocked": [known.steps[id]["say"] for id in blocked],
        "accept": bool(undecided and undecided["is"] == "complete" and not blocked and len(state["signoffs"]) == 1),
        "return": bool(undecided),
        "concessions": _concessions(known, who),
        "confirms": confirms,
        "releases": [
            id
            for id, each in ((offered or {}).get("steps") or {}).items()
            if (each["release"] or id in stated) and who.id in each["seconds"]
        ],
    }


def _concessions(known: Known, who: Person) -> list[Json]:
    """Steps for which a concession waits, with what a grant would name."""
    found = []
    for word in (known.state or {}).get("waiting", []):
        if not word.startswith("concession:"):
            continue
        step = word.partition(":")[2]
        named = _asked(known, step)
        if named and known.entries[named]["person"] != who.id:
            found.append(
                {
                    "step": step,
                    "say": known.steps[step]["say"],
                    "of": named if _covers_what_stands(known, named, step) else None,
                    "because": known.entries[named]["value"].get("because", ""),
                    "off": office_look.outside(known, step),
                }
            )
    return found


def _covers_what_stands(known: Known, named: str, step: str) -> bool:
    """A concession holds while what stands on the step is what the ask or sign-off covers (state.md): else a grant
    would change nothing, and nobody would see why."""
    here = set(signoffs.standing_ids(known.held or {}, known.packet, step))
    covers = (known.entries[id] for id in known.entries[named]["value"]["covers"] if id in known.entries)
    return here == {
        each["id"] for each in covers if each["step"] == step and entries.is_covered(each) and each["kind"] != "release"
    }


def _asked(known: Known, step: str) -> str | None:
    """The newest standing ask on the step, else the standing sign-off."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    asks = [
        id
        for id, entry in known.entries.items()
        if entry["kind"] == "ask" and entry["step"] == step and id not in replaced
    ]
    if asks:
        return max(asks)
    signoffs = (known.state or {}).get("signoffs", [])
    return str(signoffs[-1]["id"]) if signoffs else None


def _record(
    known: Known, kind: str, value: Json, step: str | None = None, replaces: list[str] | None = None
) -> str | None:
    packet = (known.state or {}).get("packet")
    answer = page_entries.record(known.unit.id, kind, value, step=step, replaces=tuple(replaces or ()), packet=packet)
    return None if answer["answer"] in ("kept", "had_it") else str(answer["why"]["say"])


def _review(word: str, needs_reason: bool) -> Callable[[Known, Form], str | None]:
    def verb(known: Known, form: Form) -> str | None:
        signoff = may(known, person())["signoff"]
        because = form.get("because", "").strip()
        if signoff is None or form.get("of") != signoff["id"]:
            return "Another sign-off stands now than the one on the page you looked at. Look again."
        if needs_reason and not because:
            return NO_REASON
        if word == "accepted" and not may(known, person())["accept"]:
            return "This cannot be accepted as it stands: look at what is outside, open or changed."
        return _record(known, "review", {"of": signoff["id"], "is": word, "because": because or "accepted"})

    return verb


def _concession(known: Known, form: Form) -> str | None:
    because = form.get("because", "").strip()
    waits = next(
        (each for each in _concessions(known, person()) if each["step"] == form.get("step") and each["of"]), None
    )
    if waits is None:
        return "No concession is asked for there; for lock-in, disc, air and a missed hold point none is ever granted."
    if not because:
        return NO_REASON
    return _record(known, "review", {"of": waits["of"], "is": "concession", "because": because}, step=waits["step"])


def _confirm(known: Known, form: Form) -> str | None:
    waits = next((e for e in may(known, person())["confirms"] if e["release"] == form.get("of")), None)
    if waits is None:
        return "That second look is not yours to confirm, or no longer stands. Look again."
    return _record(known, "confirm", {"of": waits["release"]}, step=waits["step"])


def _release(known: Known, form: Form) -> str | None:
    step = form.get("step", "")
    if step not in may(known, person())["releases"] or known.state is None:
        return "That hold point cannot be released by you now: work before it is open, or you did part of it."
    offered = offers.offered(known.held or {}, known.packets, known.parts, known.state, person().id)["steps"][step]
    covers = sorted(offered["covers"])
    return _record(
        known,
        "release",
        {"second": person().id, "covers": covers, "sha256": entries.covers_hash(covers)},
        step,
        offered["releases"],
    )


def _admit(known: Known, form: Form) -> str | None:
    wanted: Any = getattr(form, "getlist", lambda name: [form.get(name)])("of")
    because = form.get("because", "").strip()
    if not because:
        return NO_REASON
    if not wanted:
        return "Tick the entries that you admit."
    for id in wanted[:200]:
        if id not in known.entries:
            return f"No entry {str(id)[:40]!r} on this unit."
        fault = _record(known, "review", {"of": id, "is": "admitted", "because": because})
        if fault:
            return fault
    return None


def _settle(known: Known, form: Form) -> str | None:
    """One of two accounts stands: the same value again, in place of all that stand in the field."""
    chosen = known.entries.get(form.get("of", ""))
    pair = office_proof.stand(known, chosen["step"], chosen["field"]) if chosen and chosen["field"] else []
    if chosen is None or chosen["kind"] == "retract" or len(pair) < 2 or chosen not in pair:
        return "Those two accounts no longer stand against each other. Look again."
    same = [entry for entry in pair if entry["round"] == chosen["round"]]
    answer = page_entries.record(
        known.unit.id,
        chosen["kind"],
        chosen["value"],
        step=chosen["step"],
        field=chosen["field"],
        round=chosen["round"],
        packet=chosen["packet"],
        sheet=chosen["sheet"],
        replaces=tuple(entry["id"] for entry in same),
    )
    return None if answer["answer"] in ("kept", "had_it") else str(answer["why"]["say"])


VERBS: dict[str, Callable[[Known, Form], str | None]] = {
    "accept": _review("accepted", False),
    "return": _review("returned", True),
    "concession": _concession,
    "confirm": _confirm,
    "release": _release,
    "admit": _admit,
    "settle": _settle,
}
