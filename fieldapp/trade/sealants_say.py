"""The sentences about sealant."""

from typing import Any

from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.units import amount

Json = dict[str, Any]

CLOSE, OUTSIDE = "too close to call", "outside"
MOVES = {
    CLOSE: " by {is|%} of its width, too close to the {high|%} that the class takes to call. Measure the width again, "
           "or make it {needed} wide.",
    OUTSIDE: " by {is|%} of its width, the class takes {high|%}. Make it {needed} wide, or take another class.",
}
JUDGED = {
    "opens": {word: "{where|text}: opens" + rest for word, rest in MOVES.items()},
    "closes": {word: "{where|text}: closes" + rest for word, rest in MOVES.items()},
    "width": {CLOSE: "{where|text}: {is} wide, too close to the least, {low}, to call. Measure it again.",
              OUTSIDE: "{where|text}: {is} wide. At least {low} is wanted: open it."},
    "depth": {CLOSE: "{where|text}: {is} deep, too close to the limits, {low} and {high}, to call. Measure it again.",
              OUTSIDE: "{where|text}: {is} deep. {low} to {high} serves, {wanted} is wanted: set it by a backer."},
}
BUILD = "{where|text}: with what building takes, it should be {needed} wide; it is {width}."
COUNT = "{count|n} {noun|text} of {size|text}: {volume|text} in the joints, {with_waste|text} with waste."
ACID = "Acid cure (it smells of vinegar) attacks zinc and bare steel."
CURES = {"acid": ACID + " Take a neutral cure here.", "neutral": ACID + " Neutral cure is the one for coated steel.",
         None: ACID + " Read on the cartridge which cure it is."}
ORDER = "The coat comes before the seal: paint does not hold on sealant."
WATER = "How many hours before water, and at what temperature, is in the sealant's own sheet. It beats all of this."


def _line(line: Json, made: Json, show: Show) -> str | None:
    """What is said of one judged figure; None where it is inside."""
    sentence = JUDGED[line["what"].rsplit(".", 1)[1]].get(line["verdict"])
    if sentence is None:
        return None
    blanks = {"where": _named(made), "is": line["estimate"], "needed": made["width_needed"] or 0.0,
              "wanted": made["depth_wanted"] or 0.0, "low": line["from"] or 0.0, "high": line["to"] or 0.0}
    return fill(sentence, blanks, show)


def _named(made: Json) -> str:
    where = str(made["where"])
    return where[:1].upper() + where[1:]


def _build(made: Json, lines: list[Json], width: float, show: Show) -> list[str]:
    """Where the movement alone fits, but with what building takes the joint is too narrow."""
    fits = all(line["verdict"] == "inside" for line in lines if line["what"].endswith(("opens", "closes")))
    if made["width_needed"] is None or not fits or width >= made["width_needed"]:
        return []
    return [fill(BUILD, {"where": _named(made), "needed": made["width_needed"], "width": width}, show)]


def sentences(pairs: list[tuple[Json, list[Json]]], widths: list[float], answer: Json, cartridge: float,
              cure: str | None, show: Show) -> list[str]:
    """What is said: what is outside, what is in doubt, how much to take, then what holds always.

    pairs: each joint's answer and its judged figures; widths mm, in the same order; cartridge mL.
    """
    told = [(line["verdict"], _line(line, made, show)) for made, lines in pairs for line in lines]
    doubts = [sentence for word in (OUTSIDE, CLOSE) for verdict, sentence in told
              if verdict == word and sentence is not None]
    for (made, lines), width in zip(pairs, widths, strict=True):
        doubts += _build(made, lines, width, show)
    count = answer["cartridges"]
    take = fill(COUNT, {"count": count, "noun": "cartridge" if count == 1 else "cartridges",
                        **{name: amount(value, "mL", show) for name, value in
                           (("size", cartridge), ("volume", answer["volume"]), ("with_waste", answer["with_waste"]))}},
                show)
    return [*doubts, take, CURES[cure], ORDER, WATER]
