"""Reading an input field by field: what is right is taken, every fault is kept by its dotted path."""

from collections.abc import Iterable, Mapping
from math import isfinite
from typing import Any

from fieldapp.trade.lengths import NM_PER_MM, LengthError, read, shown

Json = dict[str, Any]
Problems = dict[str, list[str]]
MOST_NAMES = 200


def number_words(value: float) -> str:
    """A limit as people write it: 300, 0.01, 10000."""
    return f"{value:.10g}"


def length_words(low: float, high: float) -> str:
    """A length's range as people write it."""
    return f"a length from {number_words(low)} to {number_words(high)} mm"


class Reader:
    """Takes fields out of objects; `problems` holds the faults found, sentences by path."""

    def __init__(self) -> None:
        self.problems: Problems = {}

    def fault(self, path: str, sentence: str) -> None:
        """Keep a fault."""
        self.problems.setdefault(path, []).append(sentence)

    def wrong(self, path: str, given: object, right: str) -> None:
        """Keep a fault that shows what was given and what would be right."""
        blank = isinstance(given, str) and not given.strip()  # else nothing would be seen of it
        self.fault(path, f"{f'“{shown(given)}”' if blank else shown(given)} given; {right} would be right")

    def fields(self, holder: Json, path: str, known: Iterable[str], needed: Mapping[str, str] | None = None) -> None:
        """Name the fields that are unknown, and those missing; `needed` says what would be right."""
        known = tuple(known)
        for name in holder:
            if name not in known:
                self.fault(join(path, name), f"no such field here; {', '.join(known)} are")
        for name, right in (needed or {}).items():
            if name not in holder:
                self.fault(join(path, name), f"missing; {right} would be right")

    def inner(self, holder: Json, path: str, name: str) -> Json | None:
        """An object in a field; None where there is none."""
        value = holder.get(name)
        if isinstance(value, dict):
            return value
        if name in holder:
            self.wrong(join(path, name), value, "an object")
        return None

    def items(self, holder: Json, path: str, name: str, most: int, least: int = 0) -> list[Any]:
        """A list in a field, as far as it is not too long; [] where there is none."""
        if name not in holder:
            return []
        value = holder[name]
        if not (isinstance(value, list) and least <= len(value) <= most):
            given = f"{len(value)} items" if isinstance(value, list) else value
            self.wrong(join(path, name), given, f"a list of {least} to {most}")
        return value[:most] if isinstance(value, list) else []

    def length(self, holder: Json, path: str, name: str, low: float, high: float, made: Json) -> None:
        """A length in a field, in mm, into `made`."""
        if name not in holder:
            return
        try:
            mm = read(holder[name]) / NM_PER_MM
        except LengthError as error:
            self.fault(join(path, name), str(error))
            return
        if low <= mm <= high:
            made[name] = mm
        else:
            self.wrong(join(path, name), holder[name], length_words(low, high))

    def lengths(self, holder: Json, name: str, known: tuple[str, ...], low: float, high: float) -> Json:
        """An object of lengths, in mm."""
        made: Json = {}
        inner = self.inner(holder, "", name)
        if inner is not None:
            self.fields(inner, name, known)
            for one in known:
                self.length(inner, name, one, low, high, made)
        return made

    def numbers(self, holder: Json, name: str, known: tuple[str, ...], low: float, high: float) -> Json:
        """An object of plain numbers."""
        made: Json = {}
        inner = self.inner(holder, "", name)
        if inner is None:
            return made
        self.fields(inner, name, known)
        for one in (one for one in known if one in inner):
            value = inner[one]
            if is_number(value) and low <= value <= high:
                made[one] = float(value)
            else:
                right = f"a number from {number_words(low)} to {number_words(high)}"
                self.wrong(join(name, one), value, right)
        return made

    def choice(self, holder: Json, path: str, name: str, among: tuple[str, ...]) -> str | None:
        """One of some words; None where there is none."""
        if name not in holder:
            return None
        value = holder[name]
        if isinstance(value, str) and value in among:
            return value
        self.wrong(join(path, name), value, f"one of {', '.join(among)}")
        return None

    def truth(self, holder: Json, path: str, name: str, made: Json) -> None:
        """true or false into `made`."""
        if name not in holder:
            return
        if isinstance(holder[name], bool):
            made[name] = holder[name]
        else:
            self.wrong(join(path, name), holder[name], "true or false")

    def names(self, holder: Json, name: str, among: tuple[str, ...]) -> list[str]:
        """A list of some words."""
        made = []
        for at, value in enumerate(self.items(holder, "", name, MOST_NAMES)):
            if isinstance(value, str) and value in among:
                made.append(value)
            else:
                self.wrong(f"{name}.{at}", value, f"one of {', '.join(among)}")
        return made


def is_number(value: object) -> bool:
    """A finite JSON number; true and false are none."""
    return isinstance(value, (int, float)) and not isinstance(value, bool) and isfinite(value)


def join(path: str, name: str) -> str:
    """The dotted path of a field."""
    return f"{path}.{name}" if path else name
