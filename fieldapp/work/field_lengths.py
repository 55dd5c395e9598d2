"""Fields that are lengths: read as people type them, kept in mm."""

from typing import Any

from marshmallow import ValidationError, missing

from fieldapp.trade.lengths import NM_PER_MM, LengthError, read
from fieldapp.work.fields import LEAST, Asked, Json, range_words


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


class Measured(Length):
    """A length, or {"value": length, "u": standard uncertainty in mm}. Becomes mm, or {"value", "u"} in mm."""

    def __init__(self, say: str = "", least: float | None = LEAST, most: float | None = None, **more: Any):
        super().__init__(say, least, most, **more)
        self.plain, self.doubt = Length(say, least, most), Length("standard uncertainty", 0, needed=False)
        self.right = f'{self.plain.right}, or {{"value": length, "u": mm}}'

    def shape(self) -> Json:
        plain = super().shape()
        doubted = {"type": "object", "properties": {"value": plain, "u": self.doubt.shape()},
                   "required": ["value"], "additionalProperties": False}
        return {"anyOf": [*plain["anyOf"], doubted]}

    def take(self, value: Any) -> Any:
        if not isinstance(value, dict):
            return super().take(value)
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
