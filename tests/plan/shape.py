"""The packet's shape, after server.md, as a JSON Schema; keys that clients may ignore are let through."""

STAGES = [
    "plan",
    "ready",
    "measure",
    "set-out",
    "cut",
    "edges",
    "try",
    "set-and-fix",
    "seal",
    "hardware",
    "prove",
    "hand-over",
    "re-check",
]
TEXT = {"type": "string", "minLength": 1}
HASH = {"type": "string", "pattern": "^[0-9a-f]{64}$"}
WORDS = {"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"}
FIELD = {
    "type": "object",
    "required": ["id", "type", "required", "say"],
    "properties": {
        "id": {"type": "string", "pattern": "^[a-z][a-z0-9_]*$"},
        "say": TEXT,
        "type": {"enum": ["length", "number", "choice", "tick", "text", "date", "photo"]},
        "required": {"type": "boolean"},
        "expect": {
            "type": "object",
            "required": ["origin", "source"],
            "properties": {
                "from": {"type": "number"},
                "to": {"type": "number"},
                "u": {"type": "number", "minimum": 0},
                "origin": {"enum": ["M", "F", "D", "L"]},
                "source": TEXT,
            },
            "additionalProperties": False,
        },
        "ucum": TEXT,
        "repeat": {"type": "boolean"},
        "wrong": TEXT,
        "of_box": {"type": "boolean"},
        "options": {
            "type": "array",
            "minItems": 2,
            "items": {
                "type": "object",
                "required": ["id", "say", "ok"],
                "additionalProperties": False,
                "properties": {"id": TEXT, "say": TEXT, "ok": {"type": "boolean"}},
            },
        },
        "feeds": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["sheet", "as"],
                "additionalProperties": False,
                "properties": {"sheet": TEXT, "as": TEXT},
            },
        },
    },
}
SHAPE = {
    "type": "object",
    "required": ["packet", "unit", "lang", "steps", "sheets", "drawings", "people"],
    "properties": {
        "packet": {"const": 1},
        "lang": {"const": "en"},
        "unit": {
            "type": "object",
            "required": ["id", "number", "code", "short", "box"],
            "additionalProperties": False,
            "properties": {
                "id": TEXT,
                "number": TEXT,
                "code": {"pattern": "^[0-9A-HJKMNP-TV-Z]{10}$"},
                "short": {"pattern": "^[0-9A-HJKMNP-TV-Z]{5}$"},
                "box": {"type": ["string", "null"]},
            },
        },
        "steps": {
            "type": "array",
            "minItems": 40,
            "items": {
                "type": "object",
                "required": [
                    "id",
                    "stage",
                    "say",
                    "cautions",
                    "hold",
                    "needs",
                    "concession",
                    "signed",
                    "fields",
                    "answers",
                ],
                "properties": {
                    "id": WORDS,
                    "stage": {"enum": STAGES},
                    "say": TEXT,
                    "hold": {"type": "boolean"},
                    "cautions": {"type": "array", "items": TEXT, "minItems": 1},
                    "needs": {"type": "array", "items": WORDS},
                    "concession": {"type": "boolean"},
                    "signed": {"type": "boolean"},
                    "purpose": TEXT,
                    "fields": {"type": "array", "items": FIELD},
                    "answers": {
                        "type": "array",
                        "items": {
                            "type": "object",
                            "required": ["sheet", "judged"],
                            "additionalProperties": False,
                            "properties": {"sheet": TEXT, "judged": {"type": "array", "minItems": 1, "items": TEXT}},
                        },
                    },
                },
            },
        },
        "sheets": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["name", "part"],
                "additionalProperties": False,
                "properties": {"name": TEXT, "part": HASH},
            },
        },
        "drawings": {"type": "array", "items": {"type": "object", "required": ["id", "step", "say", "svg"]}},
        "people": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["id", "name", "release", "review"],
                "additionalProperties": False,
                "properties": {"id": TEXT, "name": TEXT, "release": {"type": "boolean"}, "review": {"type": "boolean"}},
            },
        },
    },
}
