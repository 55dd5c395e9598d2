"""Reads a table of choices; every fault is a sentence: the path, the value given, what would be right."""

from __future__ import annotations

from typing import Any

from fieldapp.trade import lengths

_MISSING = object()


class Reader:
    """One table of a plan. Each method marks its key as known; `close` says what is left over."""

    def __init__(self, raw: Any, path: str = "", top: Reader | None = None, quiet: bool = False) -> None:
        self.path, self.top = path, top or self
        self.quiet = quiet  # the table itself is at fault: nothing is said of what it lacks
        self.raw: dict[str, Any] = raw if isinstance(raw, dict) else {}
        self.known: set[str] = set()
        if top is None:
            self.faults: list[str] = []
            self.given: set[str] = set()
            self.tables: list[Reader] = [self]
            if not isinstance(raw, dict):
                self.fault("", raw, "a table of choices")
        else:
            self.top.tables.append(self)

    @property
    def sound(self) -> bool:
        """True while no fault was found anywhere in the plan."""
        return not self.top.faults

    def fault(self, key: str, value: Any, right: str) -> None:
        if self.quiet:
            return
        where = ".".join(filter(None, (self.path, key))) or "plan"
        shown = "missing" if value is _MISSING else f"{value!r}"[:40]
        self.top.faults.append(f"{where}: {shown}; right would be {right}.")

    def close(self) -> list[str]:
        for table in self.top.tables:
            for key in sorted(set(table.raw) - table.known):
                table.fault(key, table.raw[key], "nothing by that name" + _near(table.known))
        return self.top.faults

    def _take(self, key: str, fallback: Any) -> tuple[Any, bool]:
        """The raw value, and whether it has still to be read (not where the fallback stands in)."""
        self.known.add(key)
        if key in self.raw:
            self.top.given.add(".".join(filter(None, (self.path, key))))
            return self.raw[key], True
        return fallback, False

    def _read(self, key: str, fallback: Any, right: str) -> tuple[Any, bool]:
        value, found = self._take(key, fallback)
        if value is _MISSING:
            self.fault(key, _MISSING, right)
            return None, False
        return value, found

    def table(self, key: str, optional: bool = False, word: str | None = None) -> Any:
        """A Reader of the table under `key`; None where `word` stands there instead, or nothing."""
        value, found = self._take(key, {} if optional else word or _MISSING)
        if word is not None and value == word:
            return None
        path = ".".join(filter(None, (self.path, key)))
        wrong = value is _MISSING or (found and not isinstance(value, dict))
        if wrong:
            self.fault(key, value, f"a table, as [{path}]" + (f", or {word!r}" if word else ""))
        return Reader(value, path, self.top, quiet=wrong)

    def one_of(self, key: str, choices: tuple[str, ...], fallback: Any = _MISSING) -> Any:
        right = "one of " + ", ".join(map(repr, choices))
        value, found = self._read(key, fallback, right)
        if found and value not in choices:
            self.fault(key, value, right)
            return None
        return value

    def number_of(self, key: str, choices: tuple[float, ...], fallback: float) -> Any:
        value, found = self._read(key, fallback, "")
        if found and (isinstance(value, bool) or value not in choices):
            self.fault(key, value, "one of " + ", ".join(f"{choice:g}" for choice in choices))
            return fallback
        return float(value)

    def flag(self, key: str) -> bool:
        value, found = self._read(key, False, "")
        if found and not isinstance(value, bool):
            self.fault(key, value, "true or false")
        return value is True

    def text(self, key: str, fallback: Any = _MISSING) -> Any:
        right = "a text of 1 to 200 characters"
        value, found = self._read(key, fallback, right)
        if found and not (isinstance(value, str) and 1 <= len(value.strip()) <= 200):
            self.fault(key, value, right)
            return None
        return value

    def number(self, key: str, low: float, high: float, fallback: Any = _MISSING) -> Any:
        right = f"a number of {low:g} to {high:g}"
        value, found = self._read(key, fallback, right)
        if not found:
            return value
        if isinstance(value, bool) or not isinstance(value, int | float) or not low <= value <= high:
            self.fault(key, value, right)
            return None
        return float(value)

    def count(self, key: str, low: int, high: int) -> int | None:
        """A whole number; None where it is left out."""
        value, found = self._take(key, None)
        if found and (isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high):
            self.fault(key, value, f"a whole number of {low} to {high}")
            return None
        return value if found else None

    def length(self, key: str, low: float, high: float, fallback: Any = _MISSING) -> Any:
        """A length in mm, given as a number of mm or as people type lengths."""
        right = f"a length of {low:g} mm to {high:g} mm"
        value, found = self._read(key, fallback, right)
        if not found:
            return value
        if isinstance(value, bool) or not isinstance(value, int | float | str):
            self.fault(key, value, right)
            return None
        try:
            mm = lengths.read(value) / lengths.NM_PER_MM
        except lengths.LengthError as fault:
            self.fault(key, value, f"{right} ({fault})")
            return None
        if not low <= mm <= high:
            self.fault(key, value, right)
            return None
        return mm

    def span(self, key: str, low: float, high: float, fallback: Any) -> Any:
        """Two rising numbers, [from, to]."""
        value, found = self._read(key, fallback, "")
        sound = (
            isinstance(value, list | tuple)
            and len(value) == 2
            and all(isinstance(part, int | float) and not isinstance(part, bool) for part in value)
            and low <= value[0] <= value[1] <= high
        )
        if found and not sound:
            self.fault(key, value, f"two rising numbers of {low:g} to {high:g}, as [{low:g}, {high:g}]")
            return fallback
        return (float(value[0]), float(value[1]))


def _near(known: set[str]) -> str:
    return ", only " + ", ".join(sorted(known)) if known else ""
