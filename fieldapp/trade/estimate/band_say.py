"""What a band sheet says: its sentences filled with the answer's figures, the most important first.

Sentences come from the sheet; the usual ones below stand in where it has none. Names for the blanks:
say, estimate, size (without its sign), trim (what it is below 0), low, high, short (what is missing to low),
over (what is beyond high), and the sheet's and the item's own "texts".
"""

from typing import Any

from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]
BOTH = "both"
STYLES = {"mm": ("", ""), "%": ("|%", ""), "°C": ("|C", ""), "K": ("|n", "\u00a0K")}
USUAL = {
    INSIDE: "{say|text}: {estimate}. Within {band}.",
    OUTSIDE: "{say|text}: {estimate}. Outside {band}.",
    TOO_CLOSE: "{say|text}: {estimate}. Too close to {band} to call: measure it again.",
    BOTH: "{say|text}: no figure keeps both rules, at least {low} and at most {high}.",
}
BANDS = {(True, True): "{low} to {high}", (True, False): "{low} or more", (False, True): "{high} or less",
         (False, False): "any figure"}
RANK = {OUTSIDE: 1, TOO_CLOSE: 2, INSIDE: 4}


def usual(word: str, low: float | None, high: float | None, unit: str) -> str:
    """The sentence for a verdict where the sheet has none, its blanks in the style of the unit."""
    sentence = USUAL[word].replace("{band}", BANDS[low is not None, high is not None])
    style, after = STYLES.get(unit, ("|n", f"\u00a0{unit}"))
    for name in ("estimate", "low", "high"):
        sentence = sentence.replace(f"{{{name}}}", f"{{{name}{style}}}{after}")
    return sentence


def _own(sentences: dict[str, str], word: str, one: Json) -> str | None:
    """The sheet's own sentence: "nothing" up to 0, "below" or "above" the band, else that of the verdict."""
    if one["estimate"] <= 0 and "nothing" in sentences:
        return sentences["nothing"]
    if word == OUTSIDE:
        side = "below" if one["from"] is not None and one["estimate"] < one["from"] else "above"
        return sentences.get(side) or sentences.get(word)
    return sentences.get(word)


def _line(item: Json, one: Json, texts: Json, show: Show) -> tuple[int, str]:
    low, high = one["from"], one["to"]
    word = BOTH if low is not None and high is not None and low > high else one["verdict"]
    sentence = _own(item.get("sentences", {}), word, one) or usual(word, low, high, item.get("unit", "mm"))
    blanks = {**texts, **item.get("texts", {}), "say": item["say"], "estimate": one["estimate"],
              "size": abs(one["estimate"]), "trim": max(0.0, -one["estimate"])}
    if low is not None:
        blanks |= {"low": low, "short": low - one["estimate"]}
    if high is not None:
        blanks |= {"high": high, "over": one["estimate"] - high}
    return RANK[one["verdict"]], fill(sentence, blanks, show)


def _row(sheet: Json, chosen: Json, show: Show) -> str:
    """The sentence of the row: which, or why none, or what to measure again."""
    ends = [end for end in (chosen["margin_below"], chosen["margin_above"]) if end is not None]
    blanks = {**sheet.get("texts", {}), "value": chosen["value"], "row": chosen["row"] or "",
              "other": chosen["other_row"] or "", "margin": min(map(abs, ends), default=0.0)}
    why = chosen["why"]
    if why == "close" and chosen["other_row"] is None:
        why = "edge"
    if why in ("thin", "thick", "between") and chosen["other_row"] is not None:
        why = f"{why}_close"
    return fill(sheet["rows"]["say"][why], blanks, show)


def _difference(sheet: Json, item: Json, one: Json, texts: Json, show: Show) -> str:
    named = {term["term"]: term["say"] for term in sheet["terms"]["of"][item["terms"]]}
    words = " and ".join(named[found["term"]] for found in one["explained_by"])
    sentence = sheet["terms"]["say"][one["explained_by"][0]["how"]]
    return fill(sentence, {**texts, "say": item["say"], "size": abs(one["by"]), "terms": words}, show)


def _shift(spec: Json, made: Json, texts: Json, show: Show) -> str:
    by = made["shift"]
    word = "none" if by is None else "stay" if by == 0 else "up" if by < 0 else "down"
    return fill(spec["say"][word], {**texts, "by": abs(by or 0.0), "tilt": made["tilt"], "low": made["low"],
                                    "high": made["high"], "wide": made["high"] - made["low"]}, show)


def say(sheet: Json, given: Json, made: Json) -> list[str]:
    """The sentences of an answer `made` (band.answer), in mm or inches as given["show"] asks."""
    show, texts = given.get("show", "mm"), sheet.get("texts", {})
    lines = [(-1, fill(first, texts, show)) for first in sheet.get("lead", [])]
    items = {item["what"]: item for item in sheet["judged"]}
    if "pick" in made:
        lines.append((0, _row(sheet, made["pick"], show)))
    for one in made.get("differences", []):
        if one["explained_by"]:
            lines.append((0, _difference(sheet, items[one["of"]], one, texts, show)))
    lines += [_line(items[one["what"]], one, texts, show) for one in made["judged"]]
    if made.get("shift"):
        lines.append((3, _shift(sheet["shift"], made["shift"], texts, show)))
    lines += [(5, fill(note, texts, show)) for note in sheet.get("notes", [])]
    return [sentence for _, sentence in sorted(lines, key=lambda line: line[0])]
