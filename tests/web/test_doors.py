"""Who may pass: every route of the url map against every role, and what every answer carries."""

import json
import re

import pytest
from yard import CAST, FROM_HERE, uid

from fieldapp.store.people import ROLES
from fieldapp.web.app import bare_app
from fieldapp.web.doors import routes

RULES = [(row["rule"], method, row["who"]) for row in routes(bare_app()) for method in row["methods"]]
BY_ROLE = {"installer": "lena", "supervisor": "ruth", "administrator": "ada"}


ENDS = (("/sign-out", "POST"), ("/api/session", "DELETE"))  # these end the session that asks


def path_of(rule, shared):
    values = {"unit": shared.units["07"], "hash": "a" * 64, "code": "7K3MD9QX2P", "version": "v", "name": "frame"}
    values["number"] = "0"
    return re.sub(r"<(?:\w+:)?(\w+)>", lambda m: values.get(m[1], "x"), rule)


@pytest.fixture(scope="module")
def clients(shared):
    return {role: shared.client(name) for role, name in BY_ROLE.items()}


@pytest.fixture(scope="module")
def nobody(shared):
    return shared.client()


def _call(client, rule, method, shared):
    more = {"json": {}} if method in ("POST", "PUT") and rule.startswith("/api/") else {}
    return client.send(method, path_of(rule, shared), **more)


@pytest.mark.parametrize(("rule", "method", "who"), RULES)
def test_every_route_against_every_role(rule, method, who, shared, nobody, clients):
    if (rule, method) in ENDS:
        clients = {role: shared.client(name) for role, name in BY_ROLE.items()}
    answer = _call(nobody, rule, method, shared)
    if who == "anyone":
        assert answer.status_code not in (303,), answer.headers
        assert answer.status_code != 401 or "session" in rule or "sign-in" in rule
    elif rule.startswith("/api/"):
        assert (answer.status_code, answer.get_json()["type"]) == (401, "urn:fieldapp:sign_in")
    else:
        assert (answer.status_code, answer.headers["Location"]) == (303, "/sign-in")
    for role, client in clients.items():
        answer = _call(client, rule, method, shared)
        assert answer.status_code < 500
        if who != "anyone" and role not in who:
            assert answer.status_code == 403
            if rule.startswith("/api/"):
                assert answer.get_json()["type"] == "urn:fieldapp:not_allowed"
        else:
            assert answer.status_code not in (401, 403)
        check_headers(rule, answer)


def check_headers(path, answer):
    headers = answer.headers
    assert headers["Fieldapp-Api"] == "1"
    assert headers["Fieldapp-Shell"].startswith("0.")
    assert headers["X-Content-Type-Options"] == "nosniff"
    policy = headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy
    if path.startswith("/api/"):
        assert headers["Cache-Control"] in ("no-store", "private, no-cache")
        assert not 300 <= answer.status_code < 304
        assert "html" not in headers.get("Content-Type", "")


def test_who_is_anyone_or_known_roles():
    assert len(RULES) > 20
    for _, _, who in RULES:
        assert who == "anyone" or (who and set(who) <= set(ROLES))


def test_open_to_anyone_is_what_the_contract_lists():
    listed = {
        "/",
        "/static/<version>/<path:name>",
        "/manifest.webmanifest",
        "/sign-in",
        "/service-worker.js",
        "/shell.json",
        "/u/<code>",
        "/U/<code>",
        "/api/ping",
        "/api/openapi.json",
        "/health/live",
        "/health/ready",
        "/api/session",
    }
    found = {rule for rule, _, who in RULES if who == "anyone"}
    assert {rule for rule in found if not re.match(r"/(api/)?work\b", rule)} == listed


CHANGES = [(rule, method) for rule, method, _ in RULES if method not in ("GET",) and not rule.startswith("/api/work")]


@pytest.mark.parametrize(("rule", "method"), CHANGES)
@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "none"},
        {"Sec-Fetch-Site": ""},
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1:8000", "Sec-Fetch-Site": "cross-site"},
    ],
)
def test_what_changes_something_comes_from_our_pages(rule, method, headers, shared, nobody):
    api = {"Fieldapp-Api": "1", "Content-Type": "application/json"} if rule.startswith("/api/") else {}
    answer = nobody.http.open(path_of(rule, shared), method=method, headers={**api, **headers}, data=b"{}")
    assert answer.status_code == 403
    if rule.startswith("/api/"):
        assert answer.get_json()["type"] == "urn:fieldapp:cross_site"


@pytest.mark.parametrize("origin", ["http://127.0.0.1:8000", "http://localhost:8000", "http://[::1]:8000"])
def test_an_origin_of_ours_passes_where_the_browser_says_no_more(origin, nobody):
    answer = nobody.http.post(
        "/api/session", json={"name": "x", "password": "y"}, headers={"Origin": origin, "Fieldapp-Api": "1"}
    )
    assert answer.status_code == 401


@pytest.mark.parametrize(
    ("missing", "headers"),
    [
        ("Fieldapp-Api", {"Sec-Fetch-Site": "same-origin", "Content-Type": "application/json"}),
        ("number", {**FROM_HERE, "Fieldapp-Api": "one", "Content-Type": "application/json"}),
        ("type", {**FROM_HERE, "Content-Type": "text/plain"}),
        ("form", {**FROM_HERE, "Content-Type": "application/x-www-form-urlencoded"}),
    ],
)
def test_api_asks_for_its_header_and_a_type(missing, headers, nobody):
    answer = nobody.http.post("/api/session", data=b"{}", headers=headers)
    assert answer.get_json()["type"] == "urn:fieldapp:cross_site", missing


def test_an_old_client_is_told_to_update(nobody):
    for answer in (
        nobody.get("/api/ping", **{"Fieldapp-Api": "0"}),
        nobody.send("POST", "/api/session", json={}, headers={"Fieldapp-Api": "0"}),
    ):
        assert (answer.status_code, answer.get_json()["retry"]) == (426, "after_update")


@pytest.mark.parametrize(
    "path", ["/api/units/", "/api//units", "/api/", "/api/none", "/api/units/../units", "/API/units"]
)
def test_nothing_under_api_redirects_or_is_html(path, nobody):
    answer = nobody.get(path)
    assert answer.status_code == 404
    if path.startswith("/api/"):
        assert answer.content_type == "application/problem+json"


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("PUT", "/api/units"),
        ("POST", "/api/ping"),
        ("PATCH", "/api/sync"),
        ("GET", "/api/sync"),
        ("DELETE", "/"),
        ("TRACE", "/api/ping"),
    ],
)
def test_wrong_methods(method, path, shared, nobody):
    answer = nobody.http.open(path, method=method, headers=FROM_HERE)
    assert answer.status_code == 405
    assert "Allow" in answer.headers
    if path.startswith("/api/"):
        assert answer.content_type == "application/problem+json"


@pytest.mark.parametrize(
    "id", ["x", "0", "..", "%00", "%ff", "'; DROP TABLE unit", "a" * 3000, uid(5), uid(5).upper(), "🌧"]
)
@pytest.mark.parametrize(
    "rule", ["/api/units/{}", "/api/units/{}/entries", "/api/units/{}/packet", "/api/packets/{}", "/api/photos/{}"]
)
def test_ids_that_lead_nowhere(rule, id, clients):
    answer = clients["installer"].get(rule.format(id))
    assert answer.status_code == 404
    assert json.loads(answer.get_data())["type"] == "urn:fieldapp:not_found"


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8000", "127.0.0.1.evil.example", "[", ""])
def test_only_our_own_host_is_answered(host, nobody):
    answer = nobody.get("/api/ping", Host=host)
    assert answer.status_code == 400
    assert answer.content_type == "application/problem+json"
    assert nobody.get("/health/live", Host=host or "x").status_code in (200, 400)


def test_what_the_request_says_of_its_way_changes_nothing(nobody):
    plain = nobody.get("/u/7K3MD9QX2P")
    told = nobody.get(
        "/u/7K3MD9QX2P",
        **{"X-Forwarded-Host": "evil.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": "9.9.9.9"},
    )
    assert plain.get_data() == told.get_data()


def test_an_error_to_options_has_its_type(nobody):
    answer = nobody.http.options("/api/units")
    assert (answer.status_code, answer.content_type) == (401, "application/problem+json")


def test_gzip_for_whoever_takes_it(nobody):
    plain, packed = nobody.get("/"), nobody.get("/", **{"Accept-Encoding": "gzip"})
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Accept-Encoding" in packed.headers["Vary"]
    assert "Content-Encoding" not in nobody.get("/", **{"Accept-Encoding": "gzip;q=0"}).headers


def test_the_cast_has_every_role():
    assert {role for roles, _ in CAST.values() for role in roles} == set(ROLES)
