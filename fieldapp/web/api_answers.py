"""JSON Schemas of what goes down. Clients ignore unknown fields, so none of them is closed."""

from typing import Any

from . import entry_schemas

_TEXT = {"type": "string"}
_TEXT_OR_NULL = {"type": ["string", "null"]}
_TEXTS = {"type": "array", "items": _TEXT}


def _object(needed: dict[str, Any], **others: Any) -> dict[str, Any]:
    return {"type": "object", "required": list(needed), "properties": {**needed, **others}}


def _ref(name: str) -> dict[str, str]:
    return {"$ref": f"#/components/schemas/{name}"}


_NAMED = _object({"id": _TEXT, "name": _TEXT})
_PROBLEMS = {"type": "object", "additionalProperties": _TEXTS}
_RETRY = {"enum": ["never", "later", "after_sign_in", "after_update"]}
_ITEM = {
    "id": _TEXT,
    "number": _TEXT,
    "code": _TEXT,
    "short": _TEXT,
    "job": _NAMED,
    "crew": _NAMED,
    "packet": _TEXT_OR_NULL,
    "stage": _TEXT_OR_NULL,
    "waiting": _TEXTS,
}

ANSWERS: dict[str, dict[str, Any]] = {
    "Problem": _object(
        {"type": _TEXT, "title": _TEXT, "status": {"type": "integer"}, "detail": _TEXT, "retry": _RETRY},
        problems=_PROBLEMS,
    ),
    "Ping": _object(
        {
            "app": {"const": "fieldapp"},
            "api": {"type": "integer"},
            "oldest": {"type": "integer"},
            "time": _TEXT,
            "epoch": _TEXT,
        }
    ),
    "Session": _object(
        {
            "person": _object(
                {"id": _TEXT, "name": _TEXT, "roles": _TEXTS, "crew": {"anyOf": [_NAMED, {"type": "null"}]}}
            ),
            "api": {"type": "integer"},
        }
    ),
    "UnitItem": _object(_ITEM),
    "Unit": _object({**_ITEM, "state": {"type": ["object", "null"]}}, fault=_TEXT),
    "Packet": {"type": ["object", "array"]},
    "KeptEntry": _object(
        {
            **{name: {} for name in entry_schemas.ENTRY.fields},
            "server": _object(
                {
                    "seq": {"type": "integer"},
                    "received": _TEXT,
                    "standing": {"enum": ["kept", "quarantined"]},
                }
            ),
        }
    ),
    "Photo": _object({"sha256": _TEXT, "kept": _TEXT, "width": {"type": "integer"}, "height": {"type": "integer"}}),
    "SyncAnswer": _object(
        {
            "time": _TEXT,
            "epoch": _TEXT,
            "results": {
                "type": "array",
                "items": _object(
                    {
                        "index": {"type": "integer"},
                        "id": _TEXT_OR_NULL,
                        "answer": {"enum": ["kept", "had_it", "refused"]},
                    },
                    why=_object({"code": _TEXT, "say": _TEXT, "retry": _RETRY}, problems=_PROBLEMS),
                ),
            },
            "units": {
                "type": "object",
                "additionalProperties": _object(
                    {
                        "entries": {"type": "array", "items": _ref("KeptEntry")},
                        "cursor": _TEXT,
                        "more": {"type": "boolean"},
                        "packet": _TEXT_OR_NULL,
                    }
                ),
            },
            "assigned": {"type": "array", "items": _object({"id": _TEXT, "packet": _TEXT_OR_NULL})},
            "gone": {"type": "object", "additionalProperties": _TEXT},
        }
    ),
}
