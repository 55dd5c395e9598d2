"""Rule sheets: lines in order, each two inputs or an input and a constant compared. Twin: estimate_rules.js.

    {"name": "wheel", "kind": "rule",
     "inputs": [{"name": path, "say": text, "needed": true, "value": what stands when nothing is recorded}],
     "values": [{"name": "rim_speed", "times": 5.2e-5, "of": [paths], "over": [paths]}],   product, quotient
     "judged": [{"what": "disc", "say": text}],
     "rules": [{"left": path, "is": "<" | ">" | "is" | "missing", "right": path or "constant": value,
                "verdict": word, "because": word, "say": sentence}],
     "else": {"verdict": word, "say": sentence}, "always": [{"needs": [names], "say": sentence}]}

A line whose inputs are not there does not apply, unless it asks for "missing". Dates are compared as text,
year first; a month stands for its last day. A needed input that was never recorded leaves the verdict open
(None); one recorded as null (not legible) is missing. Blanks of sentences are the paths with _ for the full
stop.
"""

from typing import Any

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]
MONTH = len("2027-09")
LAST_DAY = "-31"


def _known(sheet: Json, given: Json) -> Json:
    """{path or name of a value: what is known}; nulls left out."""
    recorded = given.get("inputs", {})
    known = {item["name"]: recorded.get(item["name"], item.get("value")) for item in sheet["inputs"]}
    known = {path: value for path, value in known.items() if value is not None}
    for value in sheet.get("values", []):
        if all(path in known for path in (*value["of"], *value.get("over", []))):
            product = value.get("times", 1)
            for path in value["of"]:
                product *= known[path]
            for path in value.get("over", []):
                product /= known[path]
            known[value["name"]] = product
    return known


def _missing(sheet: Json, given: Json) -> list[str]:
    recorded = given.get("inputs", {})
    return [item["name"] for item in sheet["inputs"]
            if item.get("needed", True) and "value" not in item and item["name"] not in recorded]


def _ordered(value: Any) -> float | str | None:
    """What `<` and `>` compare: a number without binary dust, or a date with a month put at its last day."""
    if isinstance(value, str):
        return value + LAST_DAY if len(value) == MONTH else value
    return None if isinstance(value, bool) else tidy(float(value))


def _applies(rule: Json, known: Json) -> bool:
    if rule["is"] == "missing":
        return rule["left"] not in known
    left = known.get(rule["left"])
    right = known.get(rule["right"]) if "right" in rule else rule["constant"]
    if left is None or right is None:
        return False
    if rule["is"] == "is":
        return isinstance(left, bool) == isinstance(right, bool) and bool(left == right)
    first, second = _ordered(left), _ordered(right)
    if isinstance(first, str) and isinstance(second, str):
        return first < second if rule["is"] == "<" else first > second
    if isinstance(first, float) and isinstance(second, float):
        return first < second if rule["is"] == "<" else first > second
    return False


def _verdict(sheet: Json, found: list[Json]) -> str:
    words = [rule["verdict"] for rule in found]
    worst = next((word for word in (OUTSIDE, TOO_CLOSE, INSIDE) if word in words), None)
    return str(worst or sheet["else"]["verdict"])


def judge(sheet: Json, given: Json) -> dict[str, str | None]:
    """{what: verdict}; None while a needed input was never recorded. given: {"inputs": {path: value}}."""
    made = answer(sheet, given)
    return {item["what"]: made["verdict"] for item in sheet["judged"]}


def answer(sheet: Json, given: Json) -> Json:
    """{"verdict", "because": [words], "values": {name: number}, "missing": [paths], "say": [sentences]}."""
    show: Show = given.get("show", "mm")
    known, missing = _known(sheet, given), _missing(sheet, given)
    found = [] if missing else [rule for rule in sheet["rules"] if _applies(rule, known)]
    lines = [*found, *([] if found or missing else [sheet["else"]])]
    always = sheet.get("always", [])
    lines += [line for line in always if all(name in known for name in line.get("needs", []))]
    blanks = {path.replace(".", "_"): value for path, value in known.items() if not isinstance(value, bool)}
    because = list(dict.fromkeys(rule["because"] for rule in found))
    return {"verdict": None if missing else _verdict(sheet, found), "because": because,
            "values": {value["name"]: known.get(value["name"]) for value in sheet.get("values", [])},
            "missing": missing, "say": [fill(line["say"], blanks, show) for line in lines]}
