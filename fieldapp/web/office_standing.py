"""What of a unit's entries stands for the office: newest of a kind, what came after signing, what was answered."""

from ..record import signoffs
from .office_unit import Json, Known
from .office_words import when

NO = {"concession": "Not granted", "hold": "Look again"}


def standing(known: Known, kind: str, step: str | None = None) -> Json | None:
    """The newest entry of a kind that nothing replaces, on the step where one is named."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    found = [
        entry
        for entry in known.entries.values()
        if entry["kind"] == kind and entry["id"] not in replaced and (step is None or entry["step"] == step)
    ]
    return max(found, key=lambda entry: entry["server"]["seq"]) if found else None


def field_say(known: Known, step: str, name: str) -> str:
    """A field or a judged quantity of a step, as the plan calls it."""
    for field in known.steps.get(step, {}).get("fields", []):
        if field["id"] == name:
            return str(field["say"])
    for sheet in known.sheets.values():
        for item in sheet.get("judged", []):
            if item["what"] == name:
                return str(item.get("say", name))
    return name


def after_signing(known: Known) -> list[Json]:
    """Standing work that the standing sign-off does not cover, in order of arrival."""
    entry = standing(known, "signoff")
    if entry is None or known.held is None:
        return []
    covered = set(entry["value"]["covers"])
    now = signoffs.standing_ids(known.held, known.packet)
    return sorted(
        (known.entries[id] for id in now if id not in covered and id in known.entries),
        key=lambda each: int(each["server"]["seq"]),
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


def asked(known: Known, step: str) -> str | None:
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


def answered(known: Known, word: str) -> str | None:
    """`23 Nov, 10:42, ruth: Not granted: …` where a `concession:STEP` or `hold:STEP` that waits was said no to.

    A no is a remark on the step, so that the crew reads it there; what was asked or stated after it waits anew.
    """
    kind, _, step = word.partition(":")
    if kind not in NO:
        return None
    named = asked(known, step) if kind == "concession" else _stated(known, step)
    since = known.entries[named]["server"]["seq"] if named else 0
    told = [
        entry
        for entry in known.entries.values()
        if entry["kind"] == "note"
        and entry["step"] == step
        and entry["field"] is None
        and entry["value"]["text"].startswith(f"{NO[kind]}: ")
        and entry["server"]["seq"] > since
    ]
    if not told:
        return None
    last = max(told, key=lambda entry: int(entry["server"]["seq"]))
    return f"{when(last['at'])}, {known.who(last['person'])}: {last['value']['text']}"


def _stated(known: Known, step: str) -> str | None:
    """The newest standing release of the step."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    return max(
        (
            id
            for id, entry in known.entries.items()
            if entry["kind"] == "release" and entry["step"] == step and id not in replaced
        ),
        default=None,
    )
