"""How the office says things: quantities, verdicts, times, readings as typed."""

import re
from datetime import UTC, datetime
from typing import Any

from ..trade import lengths

Json = dict[str, Any]
NM = 1_000_000
MINUS, NBSP = "\u2212", "\u00a0"
UNITS = {"deg": "°", "Cel": "°C", "1": ""}
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
# A unit's state: its words, and the shape that stands beside them.
UNIT_IS = {
    "planned": ("planned, nothing entered yet", "planned"),
    "working": ("being fitted", "working"),
    "returned": ("returned to the crew", "returned"),
    "stale": ("changed after it was signed", "stale"),
    "accepted": ("accepted", "accepted"),
    "signed": ("signed, not yet accepted", "complete"),
}
NO_STATE = ("state not known", "planned")
NO_PLAN = ("no plan yet", "planned")


def count(number: int) -> str:
    """A small number in words, a larger one in digits."""
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def things(number: int, one: str, many: str | None = None) -> str:
    """`two things`, `one thing`."""
    return f"{count(number)} {one if number == 1 else many or one + 's'}"


def sentence(text: str) -> str:
    """The text with a capital first."""
    return text[:1].upper() + text[1:]


def moment(text: str) -> datetime:
    """An RFC 3339 time as UTC; raises ValueError."""
    return datetime.fromisoformat(text).astimezone(UTC)


def when(text: str, now: datetime | None = None) -> str:
    """`10:42` today, else `25 Nov 2026, 10:42`; UTC, which the page says."""
    try:
        at = moment(text)
    except ValueError:
        return text
    today = now or datetime.now(UTC)
    clock = f"{at:%H:%M}"
    if at.date() == today.date():
        return clock
    return f"{at.day} {at:%b} {at.year}, {clock}"


def day(text: str) -> str:
    """A date kept as `2026-10-21` or `2028-03` as it is read: 21 Oct 2026, Mar 2028; any other text as it is."""
    for kept, shown in (("%Y-%m-%d", "{0.day} {0:%b %Y}"), ("%Y-%m", "{0:%b %Y}")):
        try:
            return shown.format(datetime.strptime(text, kept))
        except ValueError:
            continue
    return text


def since(text: str, now: datetime | None = None) -> str:
    """How long ago in words, for the list of what waits."""
    now = now or datetime.now(UTC)
    try:
        minutes = int((now - moment(text)).total_seconds() // 60)
    except ValueError:
        return text
    if 0 <= minutes < 60:
        return f"{max(minutes, 1)} min"
    return when(text, now)


def signed(mm: float, show: lengths.Show = "mm") -> str:
    """A length with its sign, as the desk reads it."""
    text = lengths.say(abs(mm), show)
    small = lengths.say(0.0, show) == text
    return text if small else ("+" if mm > 0 else "\u2212") + text


def figured(number: float, unit: str) -> str:
    """A figure with its unit: a length to 0.1 mm, anything else to one decimal, with a minus that is one."""
    if unit == "mm":
        return lengths.say(number, "mm")
    text = f"{abs(number):.1f}".removesuffix(".0")
    return f"{MINUS if number < 0 and text != '0' else ''}{text}{NBSP + unit if unit else ''}"


def _reading(held: Json) -> str:
    """A reading as it was typed, its unit behind it where none was typed."""
    text = re.sub(r"(?<![\w.])-(?=\s*[\d.])", "\u2212", str(held["text"]))
    if "number" in held:
        sign = UNITS.get(held["ucum"], held["ucum"])
        text = f"{text} {sign}" if sign and sign not in text and held["ucum"] not in text else text
    elif not re.search(r"[^\d\s.,;+\u2212-]", text):
        text += " mm"  # a length without unit or fraction is millimetres
    elif re.search(r"in|ft|/|[\"'′″]", text):
        text += f" = {lengths.say(held['nm'] / NM, 'mm')}"  # both units where an entry has inches
    over = f" over {lengths.say(held['over'] / NM, 'mm')}" if held.get("over") else ""
    return f"{text}{over}{', reversed' if held.get('reversed') else ''}"


def value(entry: Json, field: Json | None = None) -> str:
    """What an entry holds, as it was typed or chosen."""
    held = entry["value"]
    kind = entry["kind"]
    if kind == "reading":
        return _reading(held)
    if kind == "tick":
        asked = field or {}
        return str(asked.get("yes", "done") if held["ticked"] else asked.get("no", "not done"))
    if kind == "choice":
        options = {option["id"]: option["say"] for option in (field or {}).get("options", [])}
        return str(options.get(held["chosen"], held["chosen"]))
    if kind == "note":
        return day(str(held["text"])) if (field or {}).get("type") == "date" else str(held["text"])
    if kind == "retract":
        return f"taken back: {held.get('because') or 'no reason given'}"
    return str(kind)
