"""/api/openapi.json: every route under /api/, from the declarations at the doors and the schemas that check."""

import json
import re
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from flask import Blueprint, Flask, Response, current_app, make_response
from marshmallow import fields
from werkzeug.routing import Rule

from .. import __version__
from . import account, entry_schemas, sync
from .api_answers import ANSWERS
from .doors import ANYONE, declaration, door

description = Blueprint("description", __name__)
_PARAMETER = re.compile(r"<(?:[^:<>]+:)?([^<>]+)>")
_PROBLEM = {
    "description": "What is wrong",
    "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
}
_CHANGES = [{"name": "Fieldapp-Api", "in": "header", "required": True, "schema": {"type": "integer"}}]
_PAGES = [
    {
        "name": "limit",
        "in": "query",
        "schema": {"type": "integer", "minimum": 1, "maximum": 500, "default": 200},
    },
    {"name": "after", "in": "query", "schema": {"type": "string"}},
]
_LANG = [{"name": "lang", "in": "query", "schema": {"type": "string", "default": "en"}}]
_MATCH = [{"name": "If-None-Match", "in": "header", "schema": {"type": "string"}}]


@door(description, "/api/openapi.json", who=ANYONE, doc={"summary": "This description"})
def openapi() -> Response:
    """OpenAPI 3.1."""
    response = make_response(json.dumps(describe(current_app)))
    response.content_type = "application/json"
    return response


def describe(app: Flask) -> dict[str, Any]:
    """The whole description."""
    spec = _components()
    for rule in sorted(app.url_map.iter_rules(), key=lambda rule: rule.rule):
        if rule.rule.startswith("/api/"):
            spec.path(_PARAMETER.sub(r"{\1}", rule.rule), operations=_operations(app, rule))
    found: dict[str, Any] = spec.to_dict()
    return found


def _components() -> APISpec:
    plugin = MarshmallowPlugin()
    spec = APISpec(
        "fieldapp",
        __version__,
        "3.1.0",
        [plugin],
        info={
            "description": "What the phone and the office may rely on. Lengths are whole nanometres, times RFC 3339."
        },
    )
    assert plugin.converter is not None  # made by APISpec's constructor
    plugin.converter.add_attribute_function(_own_schema)  # type: ignore[no-untyped-call]
    for name, schema in {
        "SyncBody": sync.SyncBody,
        "SessionBody": account.SessionBody,
        "EntryEnvelope": entry_schemas.ENTRY,
        "LengthReadingValue": entry_schemas.LENGTH_READING,
        "NumberReadingValue": entry_schemas.NUMBER_READING,
        **{f"{kind.capitalize()}Value": s for kind, s in entry_schemas.VALUES.items()},
    }.items():
        spec.components.schema(name, schema=schema)
    values = [
        "LengthReadingValue",
        "NumberReadingValue",
        *(f"{kind.capitalize()}Value" for kind in entry_schemas.VALUES),
    ]
    spec.components.schema(
        "Entry",
        {
            "allOf": [
                {"$ref": "#/components/schemas/EntryEnvelope"},
                {"properties": {"value": {"anyOf": [{"$ref": f"#/components/schemas/{name}"} for name in values]}}},
            ]
        },
    )
    for name, answer in ANSWERS.items():
        spec.components.schema(name, answer)
    spec.components.security_scheme("cookie", {"type": "apiKey", "in": "cookie", "name": "session"})
    return spec


def _own_schema(_converter: Any, field: fields.Field[Any], **_: Any) -> dict[str, Any]:
    return dict(getattr(field, "json_schema", {}))


def _operations(app: Flask, rule: Rule) -> dict[str, Any]:
    wants = declaration(app, rule.endpoint)
    methods = (rule.methods or set()) - {"HEAD", "OPTIONS"}
    return {method.lower(): _operation(rule, method, wants) for method in sorted(methods)}


def _operation(rule: Rule, method: str, wants: dict[str, Any]) -> dict[str, Any]:
    doc = dict(wants["doc"] or {})
    names = _PARAMETER.findall(rule.rule)
    parameters = [{"name": name, "in": "path", "required": True, "schema": {"type": "string"}} for name in names]
    changes = method != "GET" and wants["asks_origin"]
    operation: dict[str, Any] = {
        "operationId": f"{method.lower()}_{re.sub('[^a-z]+', '_', rule.rule.lower()).strip('_')}",
        "summary": doc.get("summary", rule.rule),
        "parameters": [
            *parameters,
            *(_PAGES if "list" in doc else []),
            *(_LANG if doc.get("lang") else []),
            *(_MATCH if doc.get("tagged") else []),
            *(_CHANGES if changes else []),
        ],
        "responses": {
            str(doc.get("status", 200)): _answer(doc),
            **({"201": _answer(doc)} if doc.get("may_create") else {}),
            **({"304": {"description": "As it was"}} if doc.get("tagged") else {}),
            "default": _PROBLEM,
        },
    }
    if wants["who"] != ANYONE:
        operation["security"] = [{"cookie": []}]
        operation["description"] = f"For: {', '.join(wants['who'])}."
    body = _body(doc)
    return {**operation, "requestBody": body} if body else operation


def _body(doc: dict[str, Any]) -> dict[str, Any] | None:
    if doc.get("picture"):
        return {"required": True, "content": {f"image/{kind}": {} for kind in ("jpeg", "png", "webp")}}
    if "body_schema" in doc:
        return {"required": True, "content": {"application/json": {"schema": doc["body_schema"]}}}
    if "body" in doc:
        return {
            "required": True,
            "content": {"application/json": {"schema": {"$ref": f"#/components/schemas/{doc['body']}"}}},
        }
    return None


def _answer(doc: dict[str, Any]) -> dict[str, Any]:
    if doc.get("status") == 204:
        return {"description": "Done"}
    if doc.get("picture_answer"):
        return {"description": "The picture", "content": {"image/jpeg": {}}}
    schema: dict[str, Any] = {"type": "object"}
    if "answer_schema" in doc:
        schema = doc["answer_schema"]
    elif "answer" in doc:
        schema = {"$ref": f"#/components/schemas/{doc['answer']}"}
    elif "list" in doc:
        item = {"units": "UnitItem", "entries": "KeptEntry"}[doc["list"]]
        schema = {
            "type": "object",
            "required": [doc["list"], "next"],
            "properties": {
                doc["list"]: {"type": "array", "items": {"$ref": f"#/components/schemas/{item}"}},
                "next": {"type": ["string", "null"]},
            },
        }
    return {"description": "The answer", "content": {"application/json": {"schema": schema}}}
