"""What waits for the supervisor, as numbered lines in four groups."""

from dataclasses import dataclass
from typing import Any

from .office_unit import Json, Known
from .office_words import sentence, since, things

GROUPS = (
    ("A", "A crew is standing still", "answer these first"),
    ("B", "Signed, for you to accept", "oldest first"),
    ("C", "No longer meets its signature", ""),
    ("D", "Two accounts, or an account in doubt", ""),
)
_GROUP_OF = {
    "hold": "A",
    "concession": "A",
    "sign-off": "B",
    "stale": "C",
    "pair": "D",
    "split": "D",
    "quarantined": "D",
}
_VERB = {
    "hold": "Answer",
    "concession": "Decide",
    "sign-off": "Review",
    "stale": "See change",
    "pair": "Compare",
    "split": "Compare",
    "quarantined": "Admit or not",
}
_PLACE = {
    "hold": "proof",
    "concession": "concessions",
    "sign-off": "decide",
    "stale": "changed",
    "pair": "accounts",
    "split": "accounts",
    "quarantined": "accounts",
}


@dataclass
class Line:
    """One thing that waits. `mark`: what shape stands beside it; `at`: RFC 3339, for the order."""

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

    @property
    def since(self) -> str:
        return since(self.at) if self.at else ""

    @property
    def verb(self) -> str:
        return _VERB[self.kind]


def lines(known: Known) -> list[Line]:
    """The unit's lines, not yet numbered."""
    state = known.state or {}
    made = []
    for word in state.get("waiting", []):
        kind, _, name = word.partition(":")
        mark, what, why, entry = _TOLD[kind](known, name)
        made.append(
            Line(
                _GROUP_OF[kind],
                kind,
                mark,
                known.label(),
                what,
                why,
                known.who(entry["person"]) if entry else "",
                entry["at"] if entry else "",
                f"/office/units/{known.unit.id}#{_PLACE[kind]}",
                known.unit.crew.name,
            )
        )
    return made


def numbered(found: list[Line]) -> list[tuple[tuple[str, str, str], list[Line]]]:
    """Groups that have lines, in each the longest wait first, every line with its number."""
    groups = []
    for group in GROUPS:
        here = sorted((line for line in found if line.group == group[0]), key=lambda line: line.at)
        for place, line in enumerate(here, 1):
            line.number = f"{group[0]}{place}"
        if here:
            groups.append((group, here))
    return groups


def headline(found: list[Line]) -> str:
    """The page's answer in a sentence."""
    if not found:
        return "Nothing waits for you."
    still = len({line.crew for line in found if line.group == "A"})
    first = f"{sentence(things(len(found), 'thing'))} {'waits' if len(found) == 1 else 'wait'} for you."
    return first + (f" {sentence(things(still, 'crew'))} {'stands' if still == 1 else 'stand'} still." if still else "")


def _standing(known: Known, kind: str, step: str | None = None) -> Json | None:
    """The newest entry of a kind that nothing replaces, on the step where one is named."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    found = [
        entry
        for entry in known.entries.values()
        if entry["kind"] == kind and entry["id"] not in replaced and (step is None or entry["step"] == step)
    ]
    return max(found, key=lambda entry: entry["server"]["seq"]) if found else None


def _title(known: Known, step: str) -> str:
    return str(known.steps.get(step, {}).get("say", step))


def _now(known: Known, step: str) -> Json:
    return next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), {})


def _hold(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    entry = _standing(known, "release", step)
    second = known.who(entry["value"]["second"]) if entry else "nobody"
    return (
        "stated",
        f"Hold point: {_title(known, step)}",
        f"stated: {second} looked; not confirmed by her own entry",
        entry,
    )


def _concession(known: Known, step: str) -> tuple[str, str, str, Json | None]:
    entry = _standing(known, "ask", step) or _standing(known, "signoff")
    now = _now(known, step)
    off = [field_say(known, step, name) for name in now.get("outside", [])]
    because = entry["value"].get("because", "") if entry else ""
    why = "; ".join(filter(None, [", ".join(off) + " outside" if off else "not to be read", because]))
    return "outside", f"Concession asked: {_title(known, step)}", why, entry


def field_say(known: Known, step: str, name: str) -> str:
    for field in known.steps.get(step, {}).get("fields", []):
        if field["id"] == name:
            return str(field["say"])
    for sheet in known.sheets.values():
        for item in sheet.get("judged", []):
            if item["what"] == name:
                return str(item.get("say", name))
    return name


def _signed(known: Known, _: str) -> tuple[str, str, str, Json | None]:
    entry = _standing(known, "signoff")
    covered = len(entry["value"]["covers"]) if entry else 0
    loose = [field_say(known, now["id"], name) for now in (known.state or {})["steps"] for name in now["unsettled"]]
    stated = sum(now["hold"] == "stated" for now in (known.state or {})["steps"])
    why = ["too close to call: " + ", ".join(dict.fromkeys(loose))] if loose else ["nothing too close to call"]
    if stated:
        why.append(f"{things(stated, 'second look', 'second looks')} only stated")
    return "complete", f"Signed, complete, {covered} entries", "; ".join(why), entry


def _stale(known: Known, _: str) -> tuple[str, str, str, Json | None]:
    entry = _standing(known, "signoff")
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


def after_signing(known: Known) -> list[Json]:
    """Standing work that the standing sign-off does not cover, in order of arrival."""
    from ..record import signoffs

    entry = _standing(known, "signoff")
    if entry is None or known.held is None:
        return []
    covered = set(entry["value"]["covers"])
    now = signoffs.standing_ids(known.held, known.packet)
    return sorted(
        (known.entries[id] for id in now if id not in covered and id in known.entries),
        key=lambda each: int(each["server"]["seq"]),
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


def quarantined(known: Known) -> list[Json]:
    """Quarantined entries that no review has admitted, in order of arrival."""
    admitted = {
        entry["value"]["of"]
        for entry in known.entries.values()
        if entry["kind"] == "review" and entry["value"]["is"] == "admitted"
    }
    return [
        entry
        for entry in known.entries.values()
        if entry["server"]["standing"] == "quarantined" and entry["id"] not in admitted
    ]


_TOLD: dict[str, Any] = {
    "hold": _hold,
    "concession": _concession,
    "sign-off": _signed,
    "stale": _stale,
    "pair": _pair,
    "split": _split,
    "quarantined": _quarantined,
}
