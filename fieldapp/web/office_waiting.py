"""What waits for the supervisor, as numbered lines in groups."""

from dataclasses import dataclass
from typing import Any

from . import office_look
from .office_standing import after_signing, answered, field_say, quarantined, standing
from .office_unit import Json, Known
from .office_words import sentence, since, things

GROUPS = (
    ("A", "A crew is standing still", "answer these first"),
    ("B", "Signed, for you to accept", "oldest first"),
    ("C", "No longer meets its signature", ""),
    ("D", "Two accounts, or an account in doubt", ""),
    ("E", "Questions without an answer", "nobody cuts while one is open"),
    ("F", "Answered with no", "the crew has it to do"),
)
ANSWERED = "F"
_GROUP_OF = {
    "hold": "A",
    "looks": "D",
    "concession": "A",
    "sign-off": "B",
    "stale": "C",
    "pair": "D",
    "split": "D",
    "quarantined": "D",
}
_VERB = {
    "hold": "Answer",
    "looks": "Answer",
    "concession": "Decide",
    "sign-off": "Review",
    "stale": "See change",
    "pair": "Compare",
    "split": "Compare",
    "quarantined": "Admit or not",
    "question": "Answer",
}
_PLACE = {
    "concession": "concessions",
    "stale": "changed",
    "pair": "accounts",
    "split": "accounts",
    "quarantined": "accounts",
}


@dataclass
class Line:
    """One thing that waits. `mark`: what shape stands beside it; `at`: RFC 3339, for the order in its group; `later`:
    it comes after those that are not."""

    group: str
    kind: str
    mark: str
    unit: str
    what: str
    why: str
    who: str
    at: str
    href: str
    crew: str
    number: str = ""
    later: bool = False

    @property
    def since(self) -> str:
        return since(self.at) if self.at else ""

    @property
    def verb(self) -> str:
        return _VERB[self.kind]


def _place(kind: str, name: str) -> str:
    """Where on the record it is answered; a sign-off is looked at from the top."""
    place = f"hold-{name}" if kind in ("hold", "looks") else _PLACE.get(kind)
    return f"#{place}" if place else ""


def lines(known: Known) -> list[Line]:
    """The unit's lines, not yet numbered."""
    made = []
    for word in _apart(known):
        kind, _, name = word.partition(":")
        mark, what, why, entry = _TOLD[kind](known, name)
        told = answered(known, word)
        made.append(
            Line(
                ANSWERED if told else _GROUP_OF[kind],
                kind,
                mark,
                known.label(),
                what,
                told or why,
                known.who(entry["person"]) if entry else "",
                entry["at"] if entry else "",
                f"/office/units/{known.unit.id}{_place(kind, name)}",
                known.unit.crew.name,
            )
        )
    return made


def _apart(known: Known) -> list[str]:
    """What waits, a line each. Second looks that are only stated hold up a crew that works. Signed work stands on no
    crew's way: its line says how many they are, and once it is accepted one line stands for all that have no answer.
    """
    state = known.state or {}
    words = list(state.get("waiting", []))
    looks = [word for word in words if word.startswith("hold:")]
    if state.get("is") in ("planned", "working", "returned") or not looks:
        return words
    rest = [word for word in words if word not in looks]
    if {"sign-off", "stale"} & set(rest):
        return rest
    left = _left(known)
    told = [word for word in looks if word.partition(":")[2] not in left]
    return [*rest, *told, *(f"looks:{step}" for step in left[:1])]


def _left(known: Known) -> list[str]:
    """The steps whose second look is only stated, and has no answer yet."""
    steps = (known.state or {})["steps"]
    return [now["id"] for now in steps if now["hold"] == "stated" and not answered(known, f"hold:{now['id']}")]


def open_ones(found: list[Line]) -> list[Line]:
    """The lines that ask for an answer still."""
    return [line for line in found if line.group != ANSWERED]


def numbered(found: list[Line]) -> list[tuple[tuple[str, str, str], list[Line]]]:
    """Groups that have lines, in each the longest wait first, every line with its number."""
    groups = []
    for group in GROUPS:
        here = sorted((line for line in found if line.group == group[0]), key=lambda line: (line.later, line.at))
        for place, line in enumerate(here, 1):
            line.number = f"{group[0]}{place}"
        if here:
            groups.append((group, here))
    return groups


def headline(found: list[Line]) -> str:
    """The page's answer in a sentence."""
    found = open_ones(found)
    if not found:
        return "Nothing waits for you."
    still = len({line.crew for line in found if line.group == "A"})
    first = f"{sentence(things(len(found), 'thing'))} {'waits' if len(found) == 1 else 'wait'} for you."
    return first + (f" {sentence(things(still, 'crew'))} {'stands' if still == 1 else 'stand'} still." if still else "")


def _title(known: Known, step: str) -> str:
    return str(known.steps.get(step, {}).get("say", step))


def _now(known: Known, step: str) -> Json:
    return next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), {})


def _hold(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    entry = standing(known, "release", step)
    second = known.who(entry["value"]["second"]) if entry else "nobody"
    return (
        "stated",
        f"Hold point: {_title(known, step)}",
        f"stated: {second} looked; not confirmed by her own entry",
        entry,
    )


def _looks(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    stated = _left(known)
    what = f"{sentence(things(len(stated), 'second look', 'second looks'))} only stated"
    return "stated", what, ", ".join(_title(known, each) for each in stated), standing(known, "release", step)


def _concession(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    entry = standing(known, "ask", step) or standing(known, "signoff")
    because = entry["value"].get("because", "") if entry else ""
    why = "; ".join(filter(None, [*(office_look.outside(known, step) or ["not to be read"]), because]))
    return "outside", f"Concession asked: {_title(known, step)}", why, entry


def _signed(known: Known, _: str) -> tuple[str, str, str, Json | None]:
    entry = standing(known, "signoff")
    covered = len(entry["value"]["covers"]) if entry else 0
    loose = [field_say(known, now["id"], name) for now in (known.state or {})["steps"] for name in now["unsettled"]]
    stated = sum(now["hold"] == "stated" for now in (known.state or {})["steps"])
    why = ["too close to call: " + ", ".join(dict.fromkeys(loose))] if loose else ["nothing too close to call"]
    if stated:
        why.append(f"{things(stated, 'second look', 'second looks')} only stated")
    return "complete", f"Signed, complete, {covered} entries", "; ".join(why), entry


def _stale(known: Known, _: str) -> tuple[str, str, str, Json | None]:
    entry = standing(known, "signoff")
    late = after_signing(known)
    if not late:
        return "stale", "Stale: the plan changed after signing", "a step is no longer what was signed", entry
    first = late[0]
    what = ", ".join(dict.fromkeys(_title(known, each["step"]) for each in late if each["step"]))
    return (
        "stale",
        f"Stale: {what or first['kind']}",
        f"{things(len(late), 'entry', 'entries')} not covered",
        late[-1],
    )


def _pair(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    now = _now(known, step)
    fields = [field_say(known, step, name) for name in now.get("pairs", [])]
    ids = [id for name in now.get("pairs", []) for id in now["values"].get(name, [])]
    newest = max(
        (known.entries[id] for id in ids if id in known.entries),
        key=lambda e: int(e["server"]["seq"]),
        default=None,
    )
    return "two", f"Two phones differ: {', '.join(fields)}", "neither saw the other", newest


def _split(known: Known, sheet: str) -> tuple[str, str, str, Json | None]:
    ids = (known.state or {})["sheets"][sheet]["split"]
    return (
        "two",
        f"Two rounds side by side: {sheet.replace('_', ' ')}",
        "opened without sight of each other",
        known.entries.get(ids[-1]) if ids else None,
    )


def _quarantined(known: Known, _: str) -> tuple[str, str, str, Json | None]:
    found = quarantined(known)
    return (
        "quarantined",
        f"Quarantined: {things(len(found), 'entry', 'entries')}",
        "from a revoked phone or person; they count in nothing yet",
        found[-1] if found else None,
    )


_TOLD: dict[str, Any] = {
    "hold": _hold,
    "looks": _looks,
    "concession": _concession,
    "sign-off": _signed,
    "stale": _stale,
    "pair": _pair,
    "split": _split,
    "quarantined": _quarantined,
}
