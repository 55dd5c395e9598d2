"""/api/openapi.json: valid OpenAPI 3.1, every route under /api/, and true of real answers."""

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator
from yard import uid

from fieldapp.web.app import bare_app
from fieldapp.web.doors import routes


@pytest.fixture(scope="module")
def spec(shared):
    return shared.client().get("/api/openapi.json").get_json()


def test_it_is_valid(spec):
    OpenAPIV31SpecValidator(spec).validate()
    assert spec["openapi"].startswith("3.1")


def test_every_route_is_described(spec):
    for row in routes(bare_app()):
        if row["rule"].startswith("/api/"):
            path = row["rule"].replace("<", "{").replace(">", "}")
            for method in row["methods"]:
                assert method.lower() in spec["paths"][path], row


def valid(spec, schema, value):
    Draft202012Validator({**schema, "components": spec["components"]}).validate(value)


def answer_schema(spec, path, method="get", status="200"):
    return spec["paths"][path][method]["responses"][status]["content"]["application/json"]["schema"]


def test_what_else_server_md_says_of_a_route(spec):
    packet = spec["paths"]["/api/units/{unit}/packet"]["get"]
    assert {"lang", "If-None-Match"} <= {p["name"] for p in packet["parameters"]}
    assert {"200", "304"} <= set(packet["responses"])
    assert {"200", "201"} <= set(spec["paths"]["/api/photos/{hash}"]["put"]["responses"])


def test_real_answers_are_as_described(spec, shared):
    lena, unit = shared.client("lena"), shared.units["07"]
    entries = [lena.entry("reading", {"text": "3", "nm": 3_000_000}, field="gap"), lena.entry(value={}), "x"]
    valid(spec, answer_schema(spec, "/api/sync", "post"), lena.sync(entries, {unit: None, uid(4): None}).get_json())
    for path, real in (
        ("/api/units", "/api/units"),
        ("/api/units/{unit}", f"/api/units/{unit}"),
        ("/api/session", "/api/session"),
        ("/api/units/{unit}/entries", f"/api/units/{unit}/entries"),
        ("/api/ping", "/api/ping"),
    ):
        valid(spec, answer_schema(spec, path), lena.get(real).get_json())
    valid(spec, {"$ref": "#/components/schemas/Problem"}, lena.get("/api/units/x").get_json())
    valid(spec, {"$ref": "#/components/schemas/Problem"}, lena.post("/api/sync", {}).get_json())


def test_an_entry_that_is_kept_fits_and_one_that_is_refused_does_not(spec, shared):
    lena = shared.client("lena")
    schema = {"$ref": "#/components/schemas/Entry", "components": spec["components"]}
    check = Draft202012Validator(schema)
    assert check.is_valid(lena.entry("tick", {"ticked": True}))
    assert not check.is_valid({**lena.entry(), "count": -1})
    assert not check.is_valid({**lena.entry(), "colour": "red"})
    assert not check.is_valid(lena.entry("tick", {"ticked": "yes"}))
