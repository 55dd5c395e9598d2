"""Fields of an entry: each a predicate that says whether a value fits and a sentence that says what would.

The fast check and marshmallow's messages use the same predicates, so they cannot disagree.
"""

import math
import re
from collections.abc import Callable
from datetime import datetime
from functools import lru_cache
from typing import Any

from marshmallow import ValidationError, fields

from ..store.ids import HASH, UUID
from .problems import told

TEXT_LIMIT = 4000
_SAFE_INT = 10**15
_AT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,9})?(?:Z|[+-]\d\d:\d\d)", re.ASCII)
_uuid, _hash, _at = UUID.fullmatch, HASH.fullmatch, _AT.fullmatch

Fits = Callable[[Any], bool]


class Checked(fields.Field[Any]):
    """A field whose value is taken as it is where `fits(value)`; `right` says what would be right; `schema` is its JSON
    Schema. Required unless told otherwise."""

    def __init__(self, fits: Fits, right: str, schema: dict[str, Any], required: bool = True) -> None:
        super().__init__(
            required=required,
            allow_none=fits(None),
            error_messages={
                name: sentence.replace("{", "{{").replace("}", "}}")  # marshmallow formats them
                for name, sentence in (
                    ("required", f"is missing; {right} would be right"),
                    ("null", f"null: {right} would be right"),
                )
            },
        )
        self.fits, self.right, self.json_schema = fits, right, schema

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:  # noqa: ARG002
        if self.fits(value):
            return value
        raise ValidationError(f"{told(value)}: {self.right} would be right")


class Each(Checked):
    """A list of at most `most` items that fit one by one; a wrong one is named by its place."""

    def __init__(self, fits: Fits, right: str, schema: dict[str, Any], most: int, required: bool = True) -> None:
        def all_fit(value: Any) -> bool:
            return type(value) is list and len(value) <= most and all(map(fits, value))

        super().__init__(
            all_fit,
            f"a list of at most {most}, each {right}",
            {"type": "array", "maxItems": most, "items": schema},
            required,
        )
        self._one, self._one_right, self._most = fits, right, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if type(value) is list and len(value) <= self._most:
            wrong = {
                i: [f"{told(v)}: {self._one_right} would be right"] for i, v in enumerate(value) if not self._one(v)
            }
            if wrong:
                raise ValidationError(wrong)
        elif type(value) is list:
            raise ValidationError(f"{len(value)} sent; at most {self._most}")
        return super()._deserialize(value, attr, data, **kwargs)


def is_text(value: Any, least: int = 0, most: int = TEXT_LIMIT) -> bool:
    """A text of `least` to `most` characters without NUL and without half a surrogate pair."""
    if type(value) is not str or not least <= len(value) <= most or "\0" in value:
        return False
    if value.isascii():
        return True
    try:
        value.encode()
    except UnicodeEncodeError:
        return False
    return True


def is_uuid(value: Any) -> bool:
    """A UUID in lower case."""
    return type(value) is str and _uuid(value) is not None


@lru_cache(2048)
def _seen_before(value: str) -> bool:
    return _uuid(value) is not None or _hash(value) is not None


def is_usual_uuid(value: Any) -> bool:
    """The same, for ids that come again and again in a call: unit, person, device."""
    return type(value) is str and len(value) == 36 and _seen_before(value)


def is_hash(value: Any) -> bool:
    """A SHA-256 in lower-case hex."""
    return type(value) is str and len(value) == 64 and _seen_before(value)


def is_whole(value: Any) -> bool:
    """A whole number of at most 15 digits."""
    return type(value) is int and -_SAFE_INT < value < _SAFE_INT


def is_number(value: Any) -> bool:
    """A finite number of at most 15 digits."""
    if type(value) is int:
        return -_SAFE_INT < value < _SAFE_INT
    if type(value) is not float or not math.isfinite(value):
        return False
    digits = repr(value).partition("e")[0].replace(".", "").lstrip("-").strip("0")
    return len(digits) <= 15


def is_time(value: Any) -> bool:
    """An RFC 3339 time with a zone, a day that exists."""
    if type(value) is not str or _at(value) is None:
        return False
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return False
    return True


def nullable(fits: Fits) -> Fits:
    """None fits too."""
    return lambda value: value is None or fits(value)


def _or_null(schema: dict[str, Any]) -> dict[str, Any]:
    return {"anyOf": [schema, {"type": "null"}]}


_UUID_SCHEMA = {"type": "string", "format": "uuid", "pattern": f"^{UUID.pattern}$"}
_HASH_SCHEMA = {"type": "string", "pattern": f"^{HASH.pattern}$"}


def uuid(null: bool = False) -> Checked:
    right, schema = "a UUID in lower case", _UUID_SCHEMA
    return Checked(nullable(is_uuid), right + " or null", _or_null(schema)) if null else Checked(is_uuid, right, schema)


def usual_uuid() -> Checked:
    return Checked(is_usual_uuid, "a UUID in lower case", _UUID_SCHEMA)


def uuids(most: int) -> Each:
    return Each(is_uuid, "a UUID in lower case", _UUID_SCHEMA, most)


def hash256(null: bool = False) -> Checked:
    right, schema = "64 lower-case hex digits of a SHA-256", _HASH_SCHEMA
    return Checked(nullable(is_hash), right + " or null", _or_null(schema)) if null else Checked(is_hash, right, schema)


def text(least: int, most: int, null: bool = False, required: bool = True) -> Checked:
    def fits(value: Any) -> bool:
        return is_text(value, least, most)

    right = f"a text of {least} to {most} characters without NUL or half a surrogate pair"
    schema = {"type": "string", "minLength": least, "maxLength": most}
    if null:
        return Checked(nullable(fits), right + ", or null", _or_null(schema), required)
    return Checked(fits, right, schema, required)


def reason() -> Checked:
    """A text that says something: spaces alone are empty."""

    def fits(value: Any) -> bool:
        return is_text(value, 1, TEXT_LIMIT) and not value.isspace()

    schema = {"type": "string", "minLength": 1, "maxLength": TEXT_LIMIT, "pattern": r"\S"}
    return Checked(fits, f"a reason of 1 to {TEXT_LIMIT} characters, not spaces alone", schema)


def texts(count: int, most: int, required: bool = True, null: bool = False) -> Checked:
    each = Each(
        lambda v: is_text(v, 1, most),
        f"a text of 1 to {most} characters",
        {"type": "string", "minLength": 1, "maxLength": most},
        count,
        required,
    )
    return (
        Checked(nullable(each.fits), each.right + ", or null", _or_null(each.json_schema), required) if null else each
    )


def whole(least: int, most: int = _SAFE_INT - 1, required: bool = True, null: bool = False) -> Checked:
    def fits(value: Any) -> bool:
        return type(value) is int and least <= value <= most

    right, schema = (
        f"a whole number from {least} to {most}",
        {"type": "integer", "minimum": least, "maximum": most},
    )
    if null:
        return Checked(nullable(fits), right + ", or null", _or_null(schema), required)
    return Checked(fits, right, schema, required)


def flag(required: bool = True) -> Checked:
    return Checked(lambda v: type(v) is bool, "true or false", {"type": "boolean"}, required)


def one_of(words: tuple[str, ...]) -> Checked:
    return Checked(lambda v: type(v) is str and v in words, " or ".join(words), {"enum": list(words)})


def obj(values: Fits, right: str, schema: dict[str, Any], most: int = 200, required: bool = True) -> Checked:
    """An object whose keys are short texts and whose values fit."""

    def fits(value: Any) -> bool:
        return (
            type(value) is dict
            and len(value) <= most
            and all(is_text(k, 1, 100) for k in value)
            and all(map(values, value.values()))
        )

    return Checked(
        fits,
        f"an object, its values {right}",
        {"type": "object", "maxProperties": most, "additionalProperties": schema},
        required,
    )
