"""The questions that the office answers for a unit, as a form: what stands, what was typed, what is wrong, the entries.

A question is a step of the plan in force that has fields marked `office`; a field of the form is `STEP.FIELD`.
"""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

from .office_unit import Json, Known
from .office_words import count, things

OPEN = "open"  # the option that says that there is no answer yet
LONGEST = 400
_MISSING = {
    "choice": "Choose the answer.",
    "text": "Say who decided: a name, and what she may decide.",
    "date": "Say when it was decided, as 2026-11-25.",
}
_KINDS = {"choice": "choice", "text": "note", "date": "note"}


def questions(known: Known) -> list[Json]:
    """The steps of the plan in force that ask something of the office."""
    return [step for step in known.steps.values() if asked(step)]


def asked(step: Json) -> list[Json]:
    """The step's fields that the office gives."""
    return [field for field in step["fields"] if field.get("office")]


def _ids(known: Known, step: str, field: str) -> list[str]:
    now = next((each for each in (known.state or {}).get("steps", []) if each["id"] == step), None)
    return list(now["values"].get(field, [])) if now else []


def unanswered(known: Known) -> list[Json]:
    """The questions that still hold the second look shut: their step is neither done nor passed."""
    done = {each["id"] for each in (known.state or {}).get("steps", []) if each["is"] in ("done", "passed")}
    return [step for step in questions(known) if step["id"] not in done]


def without_answer(known: Known) -> list[Json]:
    """Those of `unanswered` that nobody has decided yet: a no with name and date is an answer."""
    now = {each["id"]: each["is"] for each in (known.state or {}).get("steps", [])}
    said = standing(known)
    return [
        step
        for step in unanswered(known)
        if now.get(step["id"]) == "open" or OPEN in (said[_key(step, field)] for field in asked(step))
    ]


def summary(known: Known) -> str:
    """`two of five questions answered; …`; empty where the plan asks none of the office."""
    asked = questions(known)
    if not asked:
        return ""
    left = len(unanswered(known))
    if not left:
        return f"all {things(len(asked), 'question')} are answered"
    done = count(len(asked) - left) if len(asked) > left else "none"
    return f"{done} of {things(len(asked), 'question')} answered; the second look waits for the rest"


def _key(step: Json, field: Json) -> str:
    return f"{step['id']}.{field['id']}"


def standing(known: Known) -> dict[str, str]:
    """{STEP.FIELD: what stands there}; of two that stand the later one's, which the page names as two."""
    found = {}
    for step in questions(known):
        for field in asked(step):
            ids = _ids(known, step["id"], field["id"])
            value = known.entries[ids[-1]]["value"] if ids and ids[-1] in known.entries else {}
            found[_key(step, field)] = str(value.get("chosen" if field["type"] == "choice" else "text", ""))
    return found


def typed(known: Known, form: Mapping[str, str]) -> dict[str, str]:
    """{STEP.FIELD: text} of a form that was sent."""
    return {
        _key(step, field): form.get(_key(step, field), "").strip()[: LONGEST + 1]
        for step in questions(known)
        for field in asked(step)
    }


def faults(known: Known, given: Mapping[str, str]) -> dict[str, str]:
    """{STEP.FIELD: sentence}. A question is answered whole or not at all; *no answer yet* needs neither name nor
    date; what stands cannot be emptied here."""
    found = {}
    before = standing(known)
    for step in questions(known):
        fields = asked(step)
        texts = {field["id"]: given[_key(step, field)] for field in fields}
        if not any(texts.values()) and not any(before[_key(step, field)] for field in fields):
            continue
        waits = OPEN in texts.values()
        for field in fields:
            said = _fault(field, texts[field["id"]], waits and field["type"] != "choice")
            if said:
                found[_key(step, field)] = said
    return found


def _fault(field: Json, text: str, may_wait: bool) -> str:
    if not text:
        return "" if may_wait else _MISSING[field["type"]]
    if field["type"] == "choice" and text not in {option["id"] for option in field["options"]}:
        return f"{text[:40]!r} is none of the answers. {_MISSING['choice']}"
    if field["type"] == "text" and len(text) > LONGEST:
        return f"{len(text)} characters; at most {LONGEST}."
    return _date_fault(text) if field["type"] == "date" else ""


def _date_fault(text: str) -> str:
    try:
        day = datetime.strptime(text, "%Y-%m-%d").replace(tzinfo=UTC)
    except ValueError:
        return f"{text[:40]!r} is no date. {_MISSING['date']}"
    if day > datetime.now(UTC) + timedelta(days=1):  # a yard east of here may have tomorrow already
        return f"{text} is still to come; the day on which it was decided would be right."
    return ""


def meanwhile(known: Known, given: Mapping[str, str], form: Mapping[str, str]) -> str:
    """Who answered what this form would write over without having seen it; empty where nobody did."""
    before = standing(known)
    for step in questions(known):
        for field in asked(step):
            key, ids = _key(step, field), _ids(known, step["id"], field["id"])
            seen = form.get(f"seen.{key}", "").split()
            if given[key] != before[key] and ids != seen and ids and ids[-1] in known.entries:
                who = known.who(known.entries[ids[-1]]["person"])
                return (
                    f"{who} gave another answer to “{step['say']}” meanwhile; it stands beside what you typed. "
                    "Look, then keep yours if it still holds. Nothing was kept."
                )
    return ""


def fitting(known: Known, given: Mapping[str, str]) -> dict[str, str]:
    """Answers given for one unit as another's form would have them: only to questions that its plan asks too."""
    return {key: given.get(key, "") for key in standing(known)}


def entries(known: Known, given: Mapping[str, str], only_open: bool = False) -> list[Json]:
    """What to enter: each field that says otherwise than what stands, in place of all that stands in it.

    only_open: nothing is written over, and a question of which something stands is left alone.
    """
    before, made = standing(known), []
    for step in questions(known):
        fields = asked(step)
        if only_open and any(before[_key(step, field)] for field in fields):
            continue
        for field in fields:
            text, ids = given[_key(step, field)], _ids(known, step["id"], field["id"])
            if text and (text != before[_key(step, field)] or len(ids) > 1):
                value = {"chosen": text} if field["type"] == "choice" else {"text": text}
                made.append(
                    {
                        "kind": _KINDS[field["type"]],
                        "value": value,
                        "step": step["id"],
                        "field": field["id"],
                        "replaces": ids,
                        "packet": (known.state or {}).get("packet"),
                    }
                )
    return made


def shown(known: Known, given: Mapping[str, str], wrong: Mapping[str, str]) -> list[Json]:
    """Each question as the page draws it: its texts, and its fields with what stands in them and who said so."""
    open_ones = {step["id"] for step in unanswered(known)}
    return [
        {
            "step": step,
            "open": step["id"] in open_ones,
            "fields": [_field(known, step, field, given, wrong) for field in asked(step)],
        }
        for step in questions(known)
    ]


def _field(known: Known, step: Json, field: Json, given: Mapping[str, str], wrong: Mapping[str, str]) -> Json:
    ids = [id for id in _ids(known, step["id"], field["id"]) if id in known.entries]
    told: list[Any] = [known.who(known.entries[id]["person"]) for id in ids]
    key = _key(step, field)
    return {
        "key": key,
        "id": "d-" + key.replace(".", "-"),
        "asked": field,
        "text": given[key],
        "fault": wrong.get(key, ""),
        "seen": " ".join(_ids(known, step["id"], field["id"])),
        "by": ", ".join(dict.fromkeys(told)),
        "two": len(ids) > 1,
    }
