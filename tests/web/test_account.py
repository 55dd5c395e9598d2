"""Signing in and out, the cookie, limits, the first administrator."""

import re
from concurrent.futures import ThreadPoolExecutor

import pytest
import yard as yards
from yard import FROM_HERE, PASSWORD, uid

from fieldapp.store import people, sign_ins
from fieldapp.store.base import read, write
from fieldapp.store.models import SignIn
from fieldapp.web.sessions import is_local


def sign_in(client, **more):
    return client.post("/api/session", {"name": "lena", "password": PASSWORD, "device": None, **more})


def test_in_who_out(yard):
    nobody = yard.client()
    assert nobody.get("/api/session").status_code == 401
    answer = sign_in(nobody)
    north = answer.get_json()["person"]["crew"]
    assert answer.get_json() == {
        "api": 1,
        "person": {"id": yard.people["lena"], "name": "lena", "roles": ["installer"], "crew": north},
    }
    assert north["name"] == "north"
    assert nobody.get("/api/session").get_json() == answer.get_json()
    assert nobody.send("DELETE", "/api/session").status_code == 204
    assert nobody.get("/api/session").status_code == 401


def test_cookie_over_plain_http(yard):
    cookie = sign_in(yard.client()).headers["Set-Cookie"]
    assert cookie.startswith("session=")
    assert {"HttpOnly", "Path=/", "SameSite=Lax", f"Max-Age={90 * 86400}"} <= set(cookie.split("; "))
    assert "Secure" not in cookie


def test_cookie_over_https(tmp_path):
    yard = yards.make(tmp_path / "site", address="https://doors.example", given_address=True)
    answer = yard.app.test_client().post(
        "/api/session",
        json={"name": "lena", "password": PASSWORD},
        base_url=("https://doors.example"),
        headers={"Origin": "https://doors.example", "Fieldapp-Api": "1"},
    )
    cookie = answer.headers["Set-Cookie"]
    assert cookie.startswith("__Host-session=")
    assert {"Secure", "HttpOnly", "Path=/", "SameSite=Lax"} <= set(cookie.split("; "))
    assert "Domain" not in cookie
    other = yard.app.test_client().post(
        "/api/session",
        json={},
        base_url="https://doors.example",
        headers={"Origin": "http://127.0.0.1:8000", "Fieldapp-Api": "1"},
    )
    assert other.status_code == 403


@pytest.mark.parametrize("written", ["Lena", "LENA", "lEnA"])
def test_capitals_make_no_difference_to_a_name(yard, written):
    assert sign_in(yard.client(), name=written).get_json()["person"]["name"] == "lena"
    page = form(yard.client(), name=written, password=PASSWORD)
    assert (page.status_code, page.headers["Location"]) == (303, "/")


def test_two_names_that_differ_by_capitals_alone_are_each_meant_exactly(yard):
    with yard.app.app_context(), write() as session:
        people.add_person(session, "LENA", ["installer"])
    with yard.app.app_context(), read() as session:
        assert [(found := people.by_name(session, name)) and found.name for name in ("lena", "LENA", "Lena")] == [
            "lena",
            "LENA",
            None,
        ]


def test_a_name_is_held_back_however_it_is_written(yard):
    nobody = yard.client()
    for i in range(10):
        assert sign_in(nobody, name="lena" if i % 2 else "Lena", password="wrong").status_code == 401
    assert sign_in(nobody, name="LENA").status_code == 429


def test_wrong_is_the_same_whoever_does_not_exist(yard):
    nobody = yard.client()
    answers = [sign_in(nobody, name="lena", password="wrong"), sign_in(nobody, name="nobody", password="wrong")]
    assert [a.status_code for a in answers] == [401, 401]
    assert answers[0].get_data() == answers[1].get_data()
    assert "Set-Cookie" not in answers[0].headers
    assert answers[0].get_json()["type"] == "urn:fieldapp:sign_in"


@pytest.mark.parametrize(
    ("body", "path"),
    [
        ({}, "name"),
        ({"name": "lena"}, "password"),
        ({"name": 5, "password": "x"}, "name"),
        ({"name": "", "password": "x"}, "name"),
        ({"name": "a\0b", "password": "x"}, "name"),
        ({"name": "\ud800", "password": "x"}, "name"),
        ({"name": "x" * 101, "password": "x"}, "name"),
        ({"name": "lena", "password": "x" * 1001}, "password"),
        ({"name": "lena", "password": None}, "password"),
        ({"name": "lena", "password": "x", "more": 1}, "more"),
        ({"name": "lena", "password": "x", "device": "d"}, "device"),
        ({"name": "lena", "password": "x", "device": {}}, "device.id"),
        ({"name": "lena", "password": "x", "device": {"id": "q", "label": ""}}, "device.id"),
        ({"name": "lena", "password": "x", "device": {"id": uid(1), "label": 4}}, "device.label"),
    ],
)
def test_bodies_that_do_not_fit(shared, body, path):
    answer = shared.client().post("/api/session", body)
    assert answer.status_code == 422
    assert path in answer.get_json()["problems"], answer.get_json()


def test_a_name_is_held_back_after_ten_failures(yard):
    nobody = yard.client()
    for _ in range(10):
        assert sign_in(nobody, password="wrong").status_code == 401
    answer = sign_in(nobody)
    assert (answer.status_code, answer.get_json()["retry"]) == (429, "later")
    assert 0 < int(answer.headers["Retry-After"]) <= 300
    assert sign_in(nobody, name="omar").status_code == 200
    page = nobody.send("POST", "/sign-in", data={"name": "lena", "password": PASSWORD})
    assert (page.status_code, "Retry-After" in page.headers) == (429, True)


def test_the_limit_outlives_the_process(yard):
    nobody = yard.client()
    for _ in range(10):
        sign_in(nobody, password="wrong")
    again = yards.create_app(yard.site, yard.app.config["FIELDAPP_SETTINGS"]).test_client()
    answer = again.post("/api/session", json={"name": "lena", "password": PASSWORD}, headers=FROM_HERE)
    assert answer.status_code == 429


def test_a_success_forgets_the_names_failures(yard):
    nobody = yard.client()
    for _ in range(3):
        for _ in range(9):
            sign_in(nobody, password="wrong")
        assert sign_in(nobody).status_code == 200


def test_a_whole_yard_on_one_address_is_let_in(yard):
    for _ in range(60):
        assert sign_in(yard.client()).status_code == 200


def test_an_address_is_held_back_after_two_hundred_failures(yard):
    with yard.app.app_context(), write() as session:
        for number in range(200):
            sign_ins.failed(session, f"guess {number}", "127.0.0.1")
    assert sign_in(yard.client()).status_code == 429


def test_signing_in_again_ends_the_session_before(yard):
    client = yard.client("lena")
    before = client.http.get_cookie("session").value
    assert sign_in(client, name="omar").status_code == 200
    with yard.app.app_context(), read() as session:
        assert sign_ins.visitor(session, before) is None


def test_a_session_ends_90_days_after_its_last_use(yard):
    client = yard.client("lena")
    day = 86_400_000
    for age, status in ((89 * day, 200), (91 * day, 401)):
        with yard.app.app_context(), write() as session:
            session.query(SignIn).update({"used": sign_ins.now_ms() - age})
        assert client.get("/api/session").status_code == status


def test_the_browser_keeps_the_cookie_90_days_from_the_last_use_too(yard):
    client = yard.client("lena")
    token = client.http.get_cookie("session").value

    def given(path):
        return client.get(path).headers.get("Set-Cookie", "")

    assert given("/api/session") == "", "used just now"
    with yard.app.app_context(), write() as session:
        session.query(SignIn).update({"used": sign_ins.now_ms() - 86_400_000})
    for shared_by_caches in ("/", "/shell.json", yard.app.config["FIELDAPP_SHELL"].url("phone/app.js")):
        assert given(shared_by_caches) == ""
    renewed = given("/api/units").split("; ")
    assert {f"session={token}", f"Max-Age={90 * 86400}", "HttpOnly"} <= set(renewed)
    assert given("/api/units") == ""


def test_the_database_holds_no_token(yard):
    token = yard.client("lena").http.get_cookie("session").value
    with yard.app.app_context(), read() as session:
        assert token not in {row.token for row in session.query(SignIn)}


@pytest.mark.parametrize("token", ["", "x", "w.x", "a" * 3000, "w." + "é"])
def test_cookies_of_others(shared, token):
    client = shared.client()
    client.http.set_cookie("session", token)
    assert client.get("/api/session").status_code == 401
    assert client.get("/sign-in").status_code == 200


# --- pages


def form(client, path="/sign-in", **fields):
    return client.http.post(path, data=fields, headers={"Sec-Fetch-Site": "same-origin"})


def test_the_form_leads_to_the_page_that_was_wanted(yard):
    client = yard.client()
    asked = client.get("/office/units?limit=5")
    assert (asked.status_code, asked.headers["Location"]) == (303, "/sign-in")
    page = client.get("/sign-in")
    assert page.status_code == 200
    assert 'action="/sign-in"' in page.get_data(as_text=True)
    wrong = form(client, name="ruth", password="wrong")
    assert wrong.status_code == 401
    assert "Name or password is not right." in wrong.get_data(as_text=True)
    done = form(client, name="ruth", password=PASSWORD)
    assert (done.status_code, done.headers["Location"]) == (303, "/office/units?limit=5")


def test_the_form_leads_back_to_a_label(yard):
    client = yard.client()
    assert client.get("/u/7k3md9qx2p").status_code == 200
    assert form(client, name="lena", password=PASSWORD).headers["Location"] == "/u/7k3md9qx2p"


@pytest.mark.parametrize(("name", "home"), [("lena", "/"), ("ruth", "/office/"), ("ada", "/office/units")])
def test_without_a_wanted_page_one_comes_home(yard, name, home):
    assert form(yard.client(), name=name, password=PASSWORD).headers["Location"] == home


@pytest.mark.parametrize(
    "path",
    [
        "//evil.example",
        "/\\evil.example",
        "\\\\evil.example",
        "///evil.example",
        "/\t/evil.example",
        "https:evil.example",
        "javascript:alert(1)",
        "",
        "/\x00",
        "/a\nb",
    ],
)
def test_paths_that_lead_elsewhere(path):
    assert not is_local(path)


def test_a_forged_wanted_path_is_not_followed(yard):
    client = yard.client()
    client.http.set_cookie("session", "w." + "Ii8vZXZpbC5leGFtcGxlIg.Z.x")
    assert form(client, name="lena", password=PASSWORD).headers["Location"] == "/"


def test_sign_out_form(yard):
    client = yard.client("ruth")
    answer = client.http.post("/sign-out", headers={"Sec-Fetch-Site": "same-origin"})
    assert (answer.status_code, answer.headers["Location"]) == (303, "/sign-in")
    assert client.get("/api/session").status_code == 401


@pytest.mark.parametrize("fields", [{}, {"name": "lena"}, {"password": "x"}, {"name": "a\0", "password": "x"}])
def test_forms_that_do_not_fit(shared, fields):
    assert form(shared.client(), **fields).status_code == 422


def test_a_large_form_is_refused(shared):
    answer = shared.client().http.post(
        "/sign-in", data={"name": "x" * (2 << 20)}, headers={"Sec-Fetch-Site": "same-origin"}
    )
    assert answer.status_code == 413


# --- the first administrator


def first_link(yard, token="first-token", good=True):
    with yard.app.app_context(), write() as session:
        ends = sign_ins.now_ms() + (60_000 if good else -1)
        people.put_first_link(session, yards.ids.sha256(token.encode()), ends)
    return token


def test_the_first_link_works_once(yard):
    token, client = first_link(yard), yard.client()
    page = client.get(f"/sign-in?first={token}").get_data(as_text=True)
    assert re.search(rf'name="first" value="{token}"', page)
    assert form(client, first=token, name="ida", password="short").status_code == 422
    assert form(client, first=token, name="lena", password="long enough").status_code == 422
    done = form(client, first=token, name="ida", password="long enough")
    assert done.status_code == 303
    assert client.get("/api/session").get_json()["person"]["roles"] == ["administrator"]
    assert form(yard.client(), first=token, name="eve", password="long enough").status_code == 404
    assert yard.client().get(f"/sign-in?first={token}").status_code == 404


def test_two_that_use_the_first_link_at_once(yard):
    token = first_link(yard)
    with ThreadPoolExecutor(4) as pool:
        answers = list(
            pool.map(
                lambda n: form(yard.client(), first=token, name=f"p{n}", password="long enough").status_code, range(4)
            )
        )
    assert sorted(answers) == [303, 404, 404, 404]


def test_a_first_link_that_ended(yard):
    token = first_link(yard, good=False)
    assert yard.client().get(f"/sign-in?first={token}").status_code == 404
    assert form(yard.client(), first=token, name="ida", password="long enough").status_code == 404


# --- who asks, behind a proxy and without one


def tries(yard, name, forwarded):
    return (
        yard.app.test_client()
        .post(
            "/api/session",
            json={"name": name, "password": "wrong"},
            headers={**FROM_HERE, "X-Forwarded-For": forwarded},
        )
        .status_code
    )


@pytest.mark.parametrize(("proxies", "status"), [(0, 429), (1, 401)])
def test_the_address_is_believed_from_trusted_proxies_only(tmp_path, proxies, status):
    yard = yards.make(tmp_path / "site", trusted_proxies=proxies)
    with yard.app.app_context(), write() as session:
        for number in range(200):
            sign_ins.failed(session, f"guess {number}", "127.0.0.1")
    assert tries(yard, "lena", "10.0.0.9") == status


def test_two_behind_one_trusted_proxy_have_limits_of_their_own(tmp_path):
    yard = yards.make(tmp_path / "site", trusted_proxies=1)
    with yard.app.app_context(), write() as session:
        for number in range(200):
            sign_ins.failed(session, f"guess {number}", "10.0.0.8")
    assert (tries(yard, "lena", "10.0.0.8"), tries(yard, "lena", "9.9.9.9, 10.0.0.9")) == (429, 401)


def test_a_revoked_phone_that_opens_a_page_can_still_sync(yard):
    client = yard.client("lena")
    with yard.app.app_context(), write() as session:
        people.revoke_person(session, "lena")
    assert client.get("/office/").status_code == 303
    assert client.answer_to(client.entry())[0] == "kept"
