"""The tilt and the rounds of a frame's input: readings, and what was done."""

from typing import Any

from fieldapp.trade.frame_input_reader import Json, Problems, Reader, length_words
from fieldapp.trade.frame_moves import DOES
from fieldapp.trade.frame_rows import KINDS, LEVELS, OVER_FROM, OVER_TO_SHARE, range_of

__all__ = ["Json", "Problems", "Reader", "rounds", "tilt"]

MOST_ROUNDS = 50
MOST_READINGS = 500
MOST_DONE = 200
BY = (0.01, 200.0)
TILT = (("along", -500, 500), ("through", -500, 500), ("over", 200, 20_000), ("u", 0, 50))
READING = ("of", "value", "over", "reversed", "u")


def tilt(at: Reader, asked: Json) -> Json:
    """The box's tilt: along, through over `over`, with its u; all mm."""
    made: Json = {}
    inner = at.inner(asked, "", "tilt")
    if inner is not None:
        at.fields(inner, "tilt", [name for name, _, _ in TILT], {"over": length_words(*TILT[2][1:])})
        for name, low, high in TILT:
            at.length(inner, "tilt", name, low, high, made)
    return made


def rounds(at: Reader, asked: Json, frame: Json) -> list[Json]:
    """Every round with its readings and what was done after it."""
    items = at.items(asked, "", "rounds", MOST_ROUNDS, 1)
    readings = [one["readings"] for one in items if isinstance(one, dict) and isinstance(one.get("readings"), list)]
    count = sum(len(one) for one in readings)
    if count > MOST_READINGS:
        at.wrong("rounds", f"{count} readings", f"at most {MOST_READINGS} in all")
    return [_round(at, one, f"rounds.{i}", frame) for i, one in enumerate(items)]


def _round(at: Reader, one: Any, path: str, frame: Json) -> Json:
    made: Json = {"readings": [], "done": []}
    if not isinstance(one, dict):
        at.wrong(path, one, "an object")
        return made
    at.fields(one, path, ("readings", "done"), {"readings": f"a list of 0 to {MOST_READINGS} readings"})
    for i, reading in enumerate(at.items(one, path, "readings", MOST_READINGS)):
        made["readings"].append(_reading(at, reading, f"{path}.readings.{i}", frame))
    for i, move in enumerate(at.items(one, path, "done", MOST_DONE)):
        made["done"].append(_move(at, move, f"{path}.done.{i}"))
    return made


def _reading(at: Reader, one: Any, path: str, frame: Json) -> Json:
    made: Json = {}
    if not isinstance(one, dict):
        at.wrong(path, one, "an object")
        return made
    kind = one["of"] if isinstance(one.get("of"), str) and one["of"] in KINDS else None
    low, high = (-10_000.0, 10_000.0) if kind is None else range_of(kind)
    at.fields(one, path, READING, {"of": f"one of {', '.join(KINDS)}", "value": length_words(low, high)})
    at.choice(one, path, "of", KINDS)
    if kind is not None:
        made["of"] = kind
    at.length(one, path, "value", low, high, made)
    at.length(one, path, "u", 0.01, 100, made)
    if kind is None or kind in LEVELS:
        at.length(one, path, "over", OVER_FROM, _longest(kind, frame), made)
        at.truth(one, path, "reversed", made)
    else:
        for name in (name for name in ("over", "reversed") if name in one):
            at.fault(f"{path}.{name}", f"{kind} takes none: only {', '.join(LEVELS)} do")
    return made


def _longest(kind: str | None, frame: Json) -> float:
    """The longest `over` of a level kind, mm: a little more than its side."""
    side = frame.get("width" if kind in ("level_sill", "level_head") else "height")
    return OVER_TO_SHARE * (4000.0 if side is None else float(side))


def _move(at: Reader, one: Any, path: str) -> Json:
    made: Json = {}
    if not isinstance(one, dict):
        at.wrong(path, one, "an object")
        return made
    at.fields(one, path, ("do", "by"), {"do": f"one of {', '.join(DOES)}", "by": length_words(*BY)})
    do = at.choice(one, path, "do", DOES)
    if do is not None:
        made["do"] = do
    at.length(one, path, "by", *BY, made)
    return made
