"""What a supervisor may decide on a unit now: the sign-off, hold points, concessions; and what she has answered."""

from ..record import entries, offers, signoffs
from ..store.models import Person
from . import office_look
from .office_standing import answered, asked
from .office_unit import Json, Known
from .office_words import when


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
        "concessions": concessions(known, who),
        "answers": {
            word.partition(":")[2]: told for word in state.get("waiting", []) if (told := answered(known, word))
        },
        "confirms": confirms,
        "releases": [
            id
            for id, each in ((offered or {}).get("steps") or {}).items()
            if (each["release"] or id in stated) and who.id in each["seconds"]
        ],
    }


def concessions(known: Known, who: Person) -> list[Json]:
    """Steps for which a concession waits, with what a grant would name."""
    found = []
    for word in (known.state or {}).get("waiting", []):
        if not word.startswith("concession:"):
            continue
        step = word.partition(":")[2]
        named = asked(known, step)
        if named and known.entries[named]["person"] != who.id:
            found.append(
                {
                    "step": step,
                    "say": known.steps[step]["say"],
                    "of": named if _covers_what_stands(known, named, step) else None,
                    "because": known.entries[named]["value"].get("because", ""),
                    "who": known.who(known.entries[named]["person"]),
                    "at": when(known.entries[named]["at"]),
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
