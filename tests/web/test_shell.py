"""The shell: one version, whole; the worker; labels; health; the page of an error."""

import json
import posixpath
import re

import pytest
from yard import FROM_HERE

from fieldapp.places import folder
from fieldapp.web.shell_modules import lean

PHONE = folder("static") / "phone"


@pytest.fixture(scope="module")
def nobody(shared):
    return shared.client()


def test_the_same_bytes_for_everyone_and_no_redirect(shared, nobody):
    bodies = set()
    for client in (nobody, shared.client("lena"), shared.client("ruth")):
        answer = client.get("/")
        assert answer.status_code == 200
        assert "Set-Cookie" not in answer.headers
        bodies.add(answer.get_data())
    assert len(bodies) == 1


def test_the_shell_has_no_inline_script_and_no_style_attribute(nobody):
    page = nobody.get("/").get_data(as_text=True)
    assert " style=" not in page
    assert all("src=" in tag for tag in re.findall(r"<script[^>]*>", page))
    assert not re.search(r"\son\w+=", page)


def test_every_file_that_the_worker_keeps_is_there(nobody):
    body = nobody.get("/shell.json").get_json()
    assert body["version"] == nobody.get("/").headers["Fieldapp-Shell"]
    assert body["files"][0] == "/"
    assert any(name.endswith("phone/app.js") for name in body["files"])
    assert isinstance(body["later"], list)
    for name in body["files"] + body["later"]:
        answer = nobody.get(name)
        assert (answer.status_code, bool(answer.get_data())) == (200, True), name
        if name.startswith("/static/"):
            assert name.startswith(f"/static/{body['version']}/")
            assert "immutable" in answer.headers["Cache-Control"]
        if name.endswith(".js"):
            assert answer.content_type.startswith("text/javascript")
    assert not any("service-worker" in name for name in body["files"])


def test_what_the_page_asks_for_is_kept(nobody):
    body = nobody.get("/shell.json").get_json()
    files = body["files"] + body["later"]
    asked = re.findall(r'(?:src|href)="(/[^"]*)"', nobody.get("/").get_data(as_text=True))
    assert asked
    assert set(asked) <= set(files)


@pytest.mark.parametrize(
    "name",
    [
        "/static/0.0.0-x/phone/app.js",
        "/static/{}/phone/none.js",
        "/static/{}/../../pyproject.toml",
        "/static/{}/phone/../../fieldapp/cli.py",
        "/static/{}/",
        "/static/{}/%2e%2e/%2e%2e/LICENSE",
    ],
)
def test_nothing_else_is_served(nobody, name):
    answer = nobody.get(name.format(nobody.get("/shell.json").get_json()["version"]))
    assert answer.status_code == 404


def test_the_worker(nobody):
    answer = nobody.get("/service-worker.js")
    assert answer.content_type.startswith("text/javascript")
    assert (answer.headers["Cache-Control"], answer.headers["Service-Worker-Allowed"]) == ("no-cache", "/")
    text = answer.get_data(as_text=True)
    assert nobody.get("/shell.json").get_json()["version"] in text
    assert "__SHELL_VERSION__" not in text
    assert not re.search(r"^\s*import\b", text, re.MULTILINE)


def test_the_manifest(nobody):
    answer = nobody.get("/manifest.webmanifest")
    assert answer.content_type.startswith("application/manifest+json")
    body = json.loads(answer.get_data())
    assert (body["start_url"], body["scope"], body["display"]) == ("/", "/", "standalone")
    assert body["icons"]
    for icon in body["icons"]:
        assert nobody.get(icon["src"]).status_code == 200


def test_a_label_without_a_session_says_nothing_of_the_unit(shared, nobody):
    unit = shared.client("lena").get("/api/units").get_json()["units"][0]
    known, unknown = nobody.get(f"/u/{unit['code']}"), nobody.get("/u/0000000000")
    assert known.status_code == 200
    assert known.get_data() == unknown.get_data()
    assert unit["number"] not in re.findall(r"\b\d\d\b", known.get_data(as_text=True))
    assert "sign-in" in known.get_data(as_text=True)


@pytest.mark.parametrize("shape", ["/u/{}", "/U/{}"])
def test_a_label_leads_to_its_unit(shared, shape):
    lena, ruth, pia, ada = (shared.client(name) for name in ("lena", "ruth", "pia", "ada"))
    unit = lena.get("/api/units").get_json()["units"][0]
    for code in (unit["code"], unit["code"].lower()):
        path = shape.format(code)
        assert (lena.get(path).status_code, lena.get(path).headers["Location"]) == (303, f"/#unit/{unit['id']}")
        assert ruth.get(path).headers["Location"] == f"/office/units/{unit['id']}"
        assert ada.get(path).headers["Location"] == f"/#unit/{unit['id']}"
        assert pia.get(path).status_code == 404
    for nowhere in (unit["short"], "x", "%00", "🌧", "a" * 500):
        assert lena.get(shape.format(nowhere)).status_code == 404


def test_ping(nobody):
    body = nobody.get("/api/ping").get_json()
    assert (body["app"], body["api"], body["oldest"]) == ("fieldapp", 1, 1)
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", body["time"])
    assert body["epoch"]


def test_health(yard):
    client = yard.client()
    assert client.get("/health/live").status_code == 200
    assert client.get("/health/ready").get_json() == {"ready": True, "because": []}
    folder = yard.site / "photos"
    folder.rmdir()
    folder.write_text("in the way")
    answer = client.get("/health/ready")
    assert (answer.status_code, answer.get_json()["ready"]) == (503, False)
    assert "photos" in answer.get_json()["because"][0]


def test_errors_of_pages_are_pages(nobody):
    answer = nobody.get("/nowhere")
    assert (answer.status_code, answer.mimetype) == (404, "text/html")
    assert "<h1" in answer.get_data(as_text=True)
    odd = nobody.get("/<script>alert(1)</script>")
    assert "<script>alert" not in odd.get_data(as_text=True)


def test_a_fault_of_ours_is_no_500(yard, monkeypatch, caplog):
    from fieldapp.store import units

    lena = yard.client("lena")

    def broken(*_args, **_more):
        raise RuntimeError("something broke, with a secret")

    monkeypatch.setattr(units, "visible", broken)
    answer = lena.get("/api/units")
    assert (answer.status_code, answer.get_json()["type"], answer.get_json()["retry"]) == (
        503,
        "urn:fieldapp:not_now",
        "later",
    )
    assert answer.headers["Retry-After"]
    assert "secret" not in answer.get_data(as_text=True)
    assert "something broke" in caplog.text


def test_an_after_request_fault_is_no_500(yard, monkeypatch):
    from fieldapp.web import headers

    monkeypatch.setattr(headers, "gzip", None)
    answer = yard.client().get("/api/ping", **{"Accept-Encoding": "gzip"})
    assert answer.status_code in (200, 503)


def test_head_and_options(nobody):
    assert nobody.http.head("/api/ping").get_data() == b""
    assert nobody.http.options("/api/units", headers=FROM_HERE).status_code in (200, 401)


def test_what_opens_the_phone_is_kept_first_and_whole(nobody):
    """Each module of the shell finds what it imports in the shell; only what a screen fetches itself comes later."""
    body = nobody.get("/shell.json").get_json()
    for name in (n for n in body["files"] if n.endswith(".js")):
        source = nobody.get(name).get_data(as_text=True)
        for path in re.findall(r"""(?:from|import)\s+["'](\.[^"']+)["']""", source):
            assert posixpath.normpath(f"{posixpath.dirname(name)}/{path}") in body["files"], (name, path)
    kept = set(body["files"] + body["later"])
    kept = {n.rsplit("/phone/", 1)[1] for n in kept if "/phone/" in n}
    here = {p.relative_to(PHONE).as_posix() for p in PHONE.rglob("*") if p.is_file()} - {"service-worker.js"}
    screens = {name for name in here if name.startswith("screens/")}
    joined = {"joined_opening.js", "joined_working.js", "joined_rest.js"}
    assert kept == joined | screens | {name for name in here if not name.endswith(".js")} | {"app.js"}


def test_a_phone_asks_for_nothing_that_is_not_kept(nobody):
    """What a kept module imports, statically or by a name, is kept; what it makes a name for is a screen."""
    body = nobody.get("/shell.json").get_json()
    kept = body["files"] + body["later"]
    for name in (n for n in kept if n.endswith(".js")):
        source = nobody.get(name).get_data(as_text=True)
        for path in re.findall(r"""(?:from\s+|import\s+|\bimport\()["'](\.[^"']+)["']""", source):
            assert posixpath.normpath(f"{posixpath.dirname(name)}/{path}") in kept, (name, path)
        assert set(re.findall(r"\bimport\(`([^$`]*)\$", source)) <= {"./screens/"}, name


@pytest.mark.parametrize("path", sorted(PHONE.rglob("*.js")), ids=lambda p: p.name)
def test_no_text_spans_lines(path):
    """Lines are stripped on the way out, so a text over two lines would change."""
    assert [n for n, line in enumerate(path.read_text("utf-8").splitlines(), 1) if line.count("`") % 2] == []


def test_comments_stay_at_home():
    source = (
        b"/* licence */\n/** What.\n * More. */\nexport const a = 1;  // kept: it shares its line\n"
        b"  // gone\n  const b = `//`;\n"
    )
    assert lean(source) == b"/* licence */\nexport const a = 1;  // kept: it shares its line\nconst b = `//`;\n"
