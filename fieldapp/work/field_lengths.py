"""Fields that are lengths: read as people type them, kept in mm."""

from typing import Any

from marshmallow import ValidationError

from fieldapp.trade.lengths import NM_PER_MM, LengthError, read
from fieldapp.work.fields import LEAST, Asked, Doubted, Json, range_words


class Length(Asked):
    """A length as `lengths` reads it: a number of mm, or text with or without a unit. Becomes mm."""

    def __init__(self, say: str = "", least: float | None = LEAST, most: float | None = None, **more: Any):
        self.least, self.most = least, most
        self.right = f"a length, {range_words(least, most, 'mm')}"
        super().__init__(say, **more)

    def shape(self) -> Json:
        limits = {"minimum": self.least, "maximum": self.most}
        number = {"type": "number"} | {key: value for key, value in limits.items() if value is not None}
        return {"anyOf": [number, {"type": "string", "minLength": 1, "maxLength": 40}]}

    def take(self, value: Any) -> Any:
        try:
            mm = read(value) / NM_PER_MM + 0.0
        except LengthError as fault:
            raise ValidationError(str(fault)) from None
        if (self.least is not None and mm < self.least) or (self.most is not None and mm > self.most):
            raise self.refuse(value)
        return mm


class Measured(Doubted):
    """A length, or {"value": length, "u": standard uncertainty in mm}. Becomes mm, or {"value", "u"} in mm."""

    def __init__(self, say: str = "", least: float | None = LEAST, most: float | None = None, **more: Any):
        super().__init__(Length(say, least, most), Length("standard uncertainty", 0, needed=False),
                         '{"value": length, "u": mm}', **more)
