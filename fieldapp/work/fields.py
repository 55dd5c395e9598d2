"""The kinds of field that calculators take: each checks strictly, says what would be right, and knows its JSON Schema.

`say` is what the reference page calls a field, `usual` the default it names. Lengths are in field_lengths.py.
"""

import re
from collections.abc import Sequence
from datetime import date
from math import isfinite
from typing import Any

from marshmallow import ValidationError, fields, missing

from fieldapp.trade.lengths import shown

Json = dict[str, Any]
LEAST = 0.01  # what must be positive is at least this, in its unit
MOST = 1_000_000.0  # of what the contract leaves open above, so that no answer overflows
MOST_TEXT = 200
MOST_ITEMS = 200


def wrong(value: object, right: str) -> str:
    """What was given, at most 40 characters of it, and what would be right."""
    blank = isinstance(value, str) and not value.strip()  # else nothing would be seen of it
    return f"{f'“{shown(value)}”' if blank else shown(value)} given; {right} would be right"


def number_words(value: float) -> str:
    """A limit as people write it: 0.01, 100000."""
    return f"{value:.10g}"


def range_words(least: float | None, most: float | None, unit: str) -> str:
    """`0 to 100 mm`, `at least 0.01 mm`, `any size`."""
    after = f" {unit}" if unit else ""
    if least is not None and most is not None:
        return f"{number_words(least)} to {number_words(most)}{after}"
    if least is not None:
        return f"at least {number_words(least)}{after}"
    return f"at most {number_words(most)}{after}" if most is not None else f"any size{after and ' in' + after}"


class Asked(fields.Field[Any]):
    """A field with a name for people, words for what is right, and a JSON Schema."""

    right = "a value"

    def __init__(self, say: str = "", *, usual: Any = None, needed: bool = True, nullable: bool = False):
        self.say, self.usual, self.nullable = say, usual, nullable
        super().__init__(required=needed and usual is None, allow_none=nullable)

    def make_error(self, key: str, **kwargs: Any) -> ValidationError:  # noqa: ARG002
        """The problem of a field that is missing or null."""
        given = {"required": "missing", "null": "null given"}.get(key, key)
        return ValidationError(f"{given}; {self.right} would be right")

    def shape(self) -> Json:
        """The JSON Schema of a value, null aside."""
        raise LookupError(f"{type(self).__name__} has no JSON Schema")

    def json_schema(self) -> Json:
        """The JSON Schema with description and default."""
        made = {"anyOf": [self.shape(), {"type": "null"}]} if self.nullable else self.shape()
        made |= {"description": self.say} if self.say else {}
        return made | ({"default": self.usual} if self.usual is not None else {})

    def take(self, value: Any) -> Any:
        """The value as calculators want it. Raises ValidationError where it is not right."""
        raise self.refuse(value)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:  # noqa: ARG002
        return self.take(value)

    def words(self) -> str:
        """What is right, for the reference page."""
        return self.right

    def refuse(self, value: object) -> ValidationError:
        """The problem of a value that is not right."""
        return ValidationError(wrong(value, self.right))


class Number(Asked):
    """A JSON number in a range, in a unit that it does not carry."""

    def __init__(self, say: str = "", unit: str = "", least: float | None = None, most: float | None = None,
                 **more: Any):
        self.least, self.most, self.unit = least, most, unit
        self.right = f"a number, {range_words(least, most, unit)}"
        super().__init__(say, **more)

    def shape(self) -> Json:
        limits = {"minimum": self.least, "maximum": self.most}
        return {"type": "number"} | {key: value for key, value in limits.items() if value is not None}

    def take(self, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not isfinite(value):
            raise self.refuse(value)
        if (self.least is not None and value < self.least) or (self.most is not None and value > self.most):
            raise self.refuse(value)
        return float(value) + 0.0


class Count(Number):
    """A whole number in a range."""

    def __init__(self, say: str, least: int, most: int, **more: Any):
        super().__init__(say, "", least, most, **more)
        self.right = f"a whole number, {range_words(least, most, '')}"

    def shape(self) -> Json:
        return super().shape() | {"type": "integer"}

    def take(self, value: Any) -> float:
        number = super().take(value)
        if not number.is_integer():
            raise self.refuse(value)
        return number


class Text(Asked):
    """A text of 1 to 200 characters."""

    right = f"a text of 1 to {MOST_TEXT} characters"

    def shape(self) -> Json:
        return {"type": "string", "minLength": 1, "maxLength": MOST_TEXT}

    def take(self, value: Any) -> str:
        if not isinstance(value, str) or not 1 <= len(value) <= MOST_TEXT:
            raise self.refuse(value)
        return value


class Choice(Asked):
    """One of a few words, or of a few numbers and words."""

    def __init__(self, say: str, of: Sequence[str | float], **more: Any):
        self.of = tuple(of)
        words = [str(one) for one in self.of]
        self.right = " or ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
        super().__init__(say, **more)

    def shape(self) -> Json:
        words = {"type": "string"} if all(isinstance(one, str) for one in self.of) else {}
        return {**words, "enum": list(self.of)}

    def take(self, value: Any) -> Any:
        if isinstance(value, bool) or not isinstance(value, (str, int, float)) or value not in self.of:
            raise self.refuse(value)
        return value


class Flag(Asked):
    """true or false."""

    right = "true or false"

    def shape(self) -> Json:
        return {"type": "boolean"}

    def take(self, value: Any) -> bool:
        if not isinstance(value, bool):
            raise self.refuse(value)
        return value


class Day(Asked):
    """A day, `2026-11-25`, that the calendar has; kept as text."""

    right = "a day as 2026-11-25"
    pattern, ending = r"[0-9]{4}-[0-9]{2}-[0-9]{2}", ""

    def shape(self) -> Json:
        return {"type": "string", "pattern": f"^{self.pattern}$"}

    def take(self, value: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(self.pattern, value):
            raise self.refuse(value)
        try:
            date.fromisoformat(value + self.ending)
        except ValueError:
            raise self.refuse(value) from None
        return value


class Month(Day):
    """A month, `2027-09`; kept as text."""

    right = "a month as 2027-09"
    pattern, ending = r"[0-9]{4}-[0-9]{2}", "-01"


class Doubted(Asked):
    """A quantity, or {"value": quantity, "u": its standard uncertainty}; becomes the same of what `plain` takes."""

    def __init__(self, plain: Asked, doubt: Asked, right: str, **more: Any):
        self.plain, self.doubt = plain, doubt
        self.right = f"{plain.right}, or {right}"
        super().__init__(plain.say, **more)

    def shape(self) -> Json:
        plain = self.plain.shape()
        doubted = {"type": "object", "properties": {"value": plain, "u": self.doubt.shape()},
                   "required": ["value"], "additionalProperties": False}
        return {"anyOf": [*plain.get("anyOf", [plain]), doubted]}

    def take(self, value: Any) -> Any:
        if not isinstance(value, dict):
            return self.plain.deserialize(value)
        unknown = "no such field here; value, u are"
        faults: dict[str, Any] = {name: [unknown] for name in value if name not in ("value", "u")}
        made = {}
        for name, field in (("value", self.plain), ("u", self.doubt)):
            try:
                made[name] = field.deserialize(value.get(name, missing))
            except ValidationError as fault:
                faults[name] = fault.messages
        if faults:
            raise ValidationError(faults)
        return {name: found for name, found in made.items() if found is not missing}
