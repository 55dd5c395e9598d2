"""What a supervisor may do on a record, each an entry through the same door as a phone's.

A verb takes the unit and the form, and gives a sentence where it cannot be done, else None.
"""

from collections.abc import Callable, Mapping
from typing import Any

from ..record import entries, offers
from . import office_proof, page_entries
from .office_may import concessions, may
from .office_standing import NO
from .office_unit import Json, Known
from .sessions import person

Form = Mapping[str, str]
NO_REASON = "Say why; the crew reads this."
MOST_LINES, LONGEST_LINE, LONGEST_SETTLE = 12, 120, 400  # with a reason of 2,000 characters within an entry's 4,000


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
        if word == "returned":
            because = _told_why(form, because)
        return _record(known, "review", {"of": signoff["id"], "is": word, "because": because or "accepted"})

    return verb


def _told_why(form: Form, because: str) -> str:
    """What the crew reads of a return: the lines that were ticked, why, and what would settle it."""
    lines = "; ".join(line[:LONGEST_LINE] for line in _all(form, "line")[:MOST_LINES] if line.strip())
    settle = form.get("settle", "").strip()[:LONGEST_SETTLE]
    return (f"{lines}: " if lines else "") + because + (f" What would settle it: {settle}" if settle else "")


def _all(form: Form, name: str) -> list[str]:
    """Every value of a name, as of ticked boxes."""
    given: Any = getattr(form, "getlist", lambda key: [form[key]] if key in form else [])(name)
    return list(given)


def _concession(known: Known, form: Form) -> str | None:
    because = form.get("because", "").strip()
    waits = next(
        (each for each in concessions(known, person()) if each["step"] == form.get("step") and each["of"]), None
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


def _refuse(known: Known, form: Form) -> str | None:
    """No to a concession or a second look: a remark on the step, which the crew's phones show there."""
    because, step = form.get("because", "").strip(), form.get("step", "")
    waiting = (known.state or {}).get("waiting", [])
    kind = next((kind for kind in NO if f"{kind}:{step}" in waiting), None)
    if kind is None:
        return "Nothing waits for an answer there any more. Look again."
    if not because:
        return NO_REASON
    return _record(known, "note", {"text": f"{NO[kind]}: {because}"}, step=step)


def _afresh(known: Known, form: Form) -> str | None:
    """A round that follows both of two rounds opened without sight of each other: readings start anew in it."""
    sheet = form.get("sheet", "")
    split = (known.state or {}).get("sheets", {}).get(sheet, {}).get("split", [])
    if len(split) < 2:
        return "Those rounds no longer stand side by side. Look again."
    step = known.entries[split[-1]]["step"] if split[-1] in known.entries else None
    return _record(known, "round", {"sheet": sheet, "after": split}, step=step)


def _admit(known: Known, form: Form) -> str | None:
    wanted = _all(form, "of")
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
    "refuse": _refuse,
    "afresh": _afresh,
    "admit": _admit,
    "settle": _settle,
}
