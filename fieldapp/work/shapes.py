"""Objects and lists of fields: strict about unknown, missing and null, all problems together, with JSON Schemas."""

from typing import Any

from marshmallow import RAISE, Schema, ValidationError

from fieldapp.work.fields import MOST_ITEMS, Asked, Json, wrong

UNKNOWN = "no such field here; "
OWN = "_schema"  # where marshmallow puts what is wrong with an object or list itself


class Shape(Schema):
    """An object of `Asked` fields; an unknown field is a problem of its own name."""

    class Meta:
        unknown = RAISE

    def __init__(self, **more: Any):
        super().__init__(**more)
        self.error_messages = {**self.error_messages, "unknown": f"{UNKNOWN}{', '.join(self.fields)} are"}


def json_schema(schema: Schema) -> Json:
    """The JSON Schema (2020-12) of a Shape."""
    asked = {name: field for name, field in schema.fields.items() if isinstance(field, Asked)}
    return {"type": "object", "properties": {name: field.json_schema() for name, field in asked.items()},
            "required": [name for name, field in asked.items() if field.required], "additionalProperties": False}


class Part(Asked):
    """An object inside an object."""

    def __init__(self, schema: type[Schema], say: str = "", **more: Any):
        self.schema = schema()
        self.right = f"an object with {', '.join(self.schema.fields)}"
        super().__init__(say, **more)

    def shape(self) -> Json:
        return json_schema(self.schema)

    def take(self, value: Any) -> Any:
        if not isinstance(value, dict):
            raise self.refuse(value)
        return self.schema.load(value)


class Items(Asked):
    """A list of fields of one kind; offered: how many blank ones a form has beside those that are filled."""

    def __init__(self, of: Asked, say: str = "", least: int = 1, most: int = MOST_ITEMS, offered: int = 1, **more: Any):
        self.of, self.least, self.most, self.offered = of, least, most, offered
        count = f"{least} to {most}" if least != most else str(least)
        self.right = f"a list of {count}: {of.words()}"
        super().__init__(say, **more)

    def shape(self) -> Json:
        return {"type": "array", "items": self.of.json_schema(), "minItems": self.least, "maxItems": self.most}

    def take(self, value: Any) -> list[Any]:
        if not isinstance(value, list):
            raise self.refuse(value)
        made: list[Any] = []
        faults: dict[Any, Any] = {}
        if not self.least <= len(value) <= self.most:
            faults[OWN] = [f"{len(value)} given; {self.right} would be right"]
        for i, item in enumerate(value[:self.most]):
            try:
                made.append(self.of.deserialize(item))
            except ValidationError as fault:
                faults[i] = fault.messages
        if faults:
            raise ValidationError(faults)
        return made


class Fixed(Asked):
    """One fixed word, or else another field: `"none"` or an object."""

    def __init__(self, word: str, other: Asked, say: str = "", **more: Any):
        self.word, self.other = word, other
        self.right = f"“{word}” or {other.words()}"
        super().__init__(say, **more)

    def shape(self) -> Json:
        return {"anyOf": [{"const": self.word}, self.other.shape()]}

    def take(self, value: Any) -> Any:
        if value == self.word:
            return value
        if not isinstance(value, dict):
            raise self.refuse(value)
        return self.other.deserialize(value)


class ByKind(Asked):
    """An object whose `kind` says which fields it has."""

    def __init__(self, kinds: dict[str, type[Schema]], say: str = "", **more: Any):
        self.kinds = {kind: schema() for kind, schema in kinds.items()}
        self.right = " or ".join(f"{kind} with {', '.join(n for n in schema.fields if n != 'kind')}"
                                 for kind, schema in self.kinds.items())
        super().__init__(say, **more)

    def shape(self) -> Json:
        return {"anyOf": [json_schema(schema) for schema in self.kinds.values()]}

    def take(self, value: Any) -> Any:
        if not isinstance(value, dict):
            raise self.refuse(value)
        kind, right = value.get("kind"), " or ".join(self.kinds)
        if "kind" not in value:
            raise ValidationError({"kind": [f"missing; {right} would be right"]})
        if not isinstance(kind, str) or kind not in self.kinds:
            raise ValidationError({"kind": [wrong(kind, right)]})
        return self.kinds[kind].load(value)


def problems(messages: Any, path: str | None = None) -> dict[str, list[str]]:
    """marshmallow's nested messages as {dotted path: [sentences]}, lists counted from 0."""
    if isinstance(messages, dict):
        found: dict[str, list[str]] = {}
        for name, inner in messages.items():
            # a field that somebody calls so is unknown, and named like any other
            own = name == OWN and not (isinstance(inner, list) and str(inner[0]).startswith(UNKNOWN))
            here = path if own else str(name) if path is None else f"{path}.{name}"
            for where, sentences in problems(inner, here).items():
                found.setdefault(where, []).extend(sentences)
        return found
    sentences = messages if isinstance(messages, list) else [messages]
    return {"line" if path is None else path: [str(sentence) for sentence in sentences]}
