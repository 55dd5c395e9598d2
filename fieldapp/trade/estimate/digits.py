"""Digit sheets: whether a check digit agrees, and the slips that would mend it. Twin: estimate_digits.js.

    {"name": "container", "kind": "digit", "inputs": [{"name": path, "say": text}],
     "judged": [{"what": "identification", "say": text}], "ignored": characters,
     "values": {"0": 0, "A": 10, ...}, "weights": [1, 2, ...], "modulus": 11, "counts_as": {"10": 0},
     "parts": [{"name", "from", "to", "of": "letters" | "digits", "one_of"?: characters}],  last: check digit
     "look_alikes": [[letter, digit], ...], "misread": [[digit, digit], ...], "misread_in": name of a part,
     "says": {word: sentence}, "hows": {slip: words}}
"""

from collections.abc import Iterator
from typing import Any

from fieldapp.trade.estimate.chance import INSIDE, NOT_KNOWN, OUTSIDE
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]
LETTERS, DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "0123456789"
KINDS = {"letters": LETTERS, "digits": DIGITS}
UPPER = str.maketrans(LETTERS.lower(), LETTERS)


def read(sheet: Json, text: str) -> str | None:
    """The bare characters in capitals, with or without the check digit; None where it is anything else."""
    bare = "".join(c for c in text.translate(UPPER) if c not in sheet["ignored"])
    full = len(sheet["weights"]) + 1
    return bare if len(bare) in (full - 1, full) and all(c in LETTERS + DIGITS for c in bare) else None


def _faults(sheet: Json, text: str) -> list[str]:
    """Words for what is wrong with the form: letters, digits, category."""
    found = []
    for part in sheet["parts"]:
        kind, piece = part["of"], text[part["from"]:part["to"]]
        if any(c not in KINDS[kind] for c in piece):
            found.append(kind)
        elif "one_of" in part and piece not in part["one_of"]:
            found.append(part["name"])
    order = ["letters", "digits", *(part["name"] for part in sheet["parts"])]
    return sorted(set(found), key=order.index)


def remainder(sheet: Json, text: str) -> int:
    """Sum of value times weight over all but the check digit, modulo the sheet's modulus."""
    total = sum(sheet["values"][c] * weight for c, weight in zip(text, sheet["weights"], strict=False))
    return int(total % sheet["modulus"])


def _digit(sheet: Json, text: str) -> str:
    left = str(remainder(sheet, text))
    return str(sheet["counts_as"].get(left, left))


def _right(sheet: Json, text: str) -> bool:
    return not _faults(sheet, text) and text[len(sheet["weights"])] == _digit(sheet, text)


def _look_alike(sheet: Json, text: str) -> str:
    """Every character of the wrong kind put right at once, where it has a look-alike."""
    alike = sheet["look_alikes"]
    turns = {"letters": {digit: letter for letter, digit in alike}, "digits": dict(alike)}
    return "".join(c if c in KINDS[part["of"]] else turns[part["of"]].get(c, c)
                   for part in sheet["parts"] for c in text[part["from"]:part["to"]])


def _slips(sheet: Json, text: str) -> Iterator[tuple[str, str]]:
    """(text, slip) of everything one slip away, in the order in which they are offered."""
    yield _look_alike(sheet, text), "look_alike"
    for i in range(len(text) - 1):
        yield text[:i] + text[i + 1] + text[i] + text[i + 2:], "swap"
    where = next(part for part in sheet["parts"] if part["name"] == sheet["misread_in"])
    for i in range(where["from"], where["to"]):
        for one, other in sheet["misread"]:
            if text[i] in (one, other):
                yield text[:i] + (other if text[i] == one else one) + text[i + 1:], "misread"
    if not _faults(sheet, text[:-1]):  # a letter read for the check digit is such a slip too
        yield text[:-1] + _digit(sheet, text), "check_digit"


def likely(sheet: Json, text: str) -> list[Json]:
    """Right identifications one slip away from a full text that is not right, each once."""
    found: dict[str, str] = {}
    for slipped, how in _slips(sheet, text):
        if slipped != text and _right(sheet, slipped):
            found.setdefault(slipped, how)
    return [{"identification": slipped, "how": how} for slipped, how in found.items()]


def _check(sheet: Json, text: str) -> Json:
    full = len(text) > len(sheet["weights"])
    faults = _faults(sheet, text)
    parts = {part["name"]: text[part["from"]:part["to"]] for part in sheet["parts"][:-1]}
    if faults:
        return {**parts, "check_digit": None, "given": None, "valid": False, "remainder": None,
                "because": faults}
    digit = int(_digit(sheet, text))
    given = int(text[-1]) if full else None
    return {**parts, "check_digit": digit, "given": given, "valid": digit == given if full else None,
            "remainder": remainder(sheet, text),
            "because": ["check_digit"] if full and digit != given else []}


def _say(sheet: Json, made: Json, text: str, show: Show) -> list[str]:
    says, because = sheet["says"], made["because"]
    blanks = {"text": text, "digit": str(made["check_digit"]), "given": str(made["given"])}
    words = because or ["right" if made["valid"] else "no_digit"]
    lines = [fill(says[word], blanks, show) for word in words]
    lines += [fill(says["likely"], {"text": one["identification"], "how": sheet["hows"][one["how"]]}, show)
              for one in made["likely"]]
    lines += [says["ten"]] if str(made["remainder"]) in sheet["counts_as"] else []
    return [*lines, says["proof"]]


def answer(sheet: Json, given: Json) -> Json:
    """{"verdict", "valid", the parts, "check_digit", "given", "remainder", "because", "likely", "say"}.

    Of a text that is none: verdict outside, because ["unreadable"], all else null. Of nothing: verdict None.
    """
    show: Show = given.get("show", "mm")
    typed = given.get("inputs", {}).get(sheet["inputs"][0]["name"])
    empty: Json = {part["name"]: None for part in sheet["parts"][:-1]}
    empty |= dict.fromkeys(("check_digit", "given", "valid", "remainder")) | {"likely": [], "because": []}
    if typed is None:
        return {"verdict": None, **empty, "say": [], "missing": [sheet["inputs"][0]["name"]]}
    text = read(sheet, typed)
    if text is None:
        return {"verdict": OUTSIDE, **empty, "because": ["unreadable"], "missing": [],
                "say": [fill(sheet["says"]["unreadable"], {"text": typed[:40]}, show)]}
    made = _check(sheet, text)
    mend = made["valid"] is False and len(text) > len(sheet["weights"])
    made["likely"] = likely(sheet, text) if mend else []
    word = {True: INSIDE, False: OUTSIDE, None: NOT_KNOWN}[made["valid"]]
    return {"verdict": word, **made, "missing": [], "say": _say(sheet, made, text, show)}


def judge(sheet: Json, given: Json) -> dict[str, str | None]:
    """{what: verdict}: inside when right, outside when not, not known without a check digit."""
    return {item["what"]: answer(sheet, given)["verdict"] for item in sheet["judged"]}
