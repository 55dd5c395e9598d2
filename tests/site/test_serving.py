"""`fieldapp` as a process: options, start report, signals, ports, a killed server and what it had said is kept."""

import json
import random
import re
import signal
import socket
import stat
import threading
import time

import pytest
from servers import Server, run, server

from fieldapp.site import serve
from fieldapp.store import ids


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """A real site with its administrator, made by the commands and the pages alone."""
    folder = tmp_path_factory.mktemp("real") / "site"
    code, out, _ = run("new-site", folder)
    assert code == 0
    link = re.search(r"/sign-in\?first=(\S+)", out)[1]
    with server("serve", "--site", folder, "--port", 0) as running:
        status, headers, _ = running.ask(
            "POST",
            "/sign-in",
            f"first={link}&name=ida&password=long+enough".encode(),
            **{"Content-Type": "application/x-www-form-urlencoded"},
        )
        assert (status, headers["Location"]) == (303, "/office/units")
        assert running.end() == 0
    return folder


def test_new_site_then_serve(site):
    with server("serve", "--site", site, "--port", 0) as running:
        assert running.report == {
            "address": f"http://127.0.0.1:{running.port}",
            "site": str(site),
            "version": "0.1.0",
            "api": 1,
            "people": [],
        }
        assert running.sign_in("ida", "long enough")[1]["roles"] == ["administrator"]
        assert running.ask("GET", "/health/ready")[0] == 200
        assert running.end(signal.SIGINT) == 0
    assert stat.S_IMODE((site / "secret").stat().st_mode) == 0o600
    code, _, err = run("new-site", site)
    assert (code, err.count("\n")) == (1, 1)


def test_a_port_in_use_is_one_line(site):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        for words in (("serve", "--site", site), ("demo",)):
            code, out, err = run(*words, "--port", port)
            assert (code, out, err.count("\n")) == (1, "", 1)
            assert str(port) in err


def test_the_next_free_port_where_none_was_asked_for():
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(serve.PortTaken, match=str(port)):
            serve.listen("127.0.0.1", port)
        with serve.listen("127.0.0.1", port, or_next=True) as other:
            assert port < other.getsockname()[1] < port + 100


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("nothing",),
        ("serve",),
        ("demo", "--port", "x"),
        ("demo", "--port", "65536"),
        ("demo", "--port", "-1"),
        ("demo", "--host"),
        ("demo", "--host", "0.0.0.0"),
        ("demo", "--colour"),
        ("new-site",),
        ("load",),
        ("revoke",),
        ("revoke", "--device", "x"),
        ("revoke", "--device", "a", "--person", "b"),
        ("routes", "--xml"),
    ],
)
def test_wrong_options_are_exit_2(words):
    code, out, err = run(*words)
    assert (code, out) == (2, "")
    assert err
    assert "Traceback" not in err


def test_another_host_wants_an_address():
    code, _, err = run("demo", "--host", "0.0.0.0", "--port", 0)
    assert code == 2
    assert "FIELDAPP_ADDRESS" in err
    assert "https" in err


@pytest.mark.parametrize("how", ["file", "full", "nowhere"])
def test_folders_that_cannot_be_used_are_one_line(tmp_path, how):
    folder = tmp_path / "there"
    if how == "file":
        folder.write_text("a file")
    elif how == "full":
        folder.mkdir()
        (folder / "something").touch()
    words = ("serve", "--site", folder) if how == "nowhere" else ("demo", "--site", folder, "--port", 0)
    code, out, err = run(*words)
    assert (code, out, err.count("\n")) == (1, "", 1), err
    assert str(folder) in err


def test_a_site_held_by_another_version(site):
    with server("serve", "--site", site, "--port", 0) as running:
        (site / "in-use").write_text("9.9")
        code, out, err = run("serve", "--site", site, "--port", 0)
        assert (code, out, err.count("\n")) == (1, "", 1)
        assert "9.9" in err
        running.end()


def test_demo_refuses_a_site_of_real_people(site):
    code, _, err = run("demo", "--site", site, "--port", 0)
    assert code == 1
    assert "real people" in err


def test_settings_that_do_not_fit_are_one_line(site):
    code, _, err = run("serve", "--site", site, "--port", 0, FIELDAPP_ADDRESS="yard")
    assert (code, err.count("\n")) == (1, 1)
    assert "FIELDAPP_ADDRESS" in err


def test_a_call_under_way_finishes(site):
    """A body that is still on its way when the signal comes is answered."""
    with server("serve", "--site", site, "--port", 0) as running:
        sock = socket.create_connection(("127.0.0.1", running.port))
        body = json.dumps({"name": "ida", "password": "long enough", "device": None}).encode()
        head = (
            f"POST /api/session HTTP/1.1\r\nHost: 127.0.0.1\r\nSec-Fetch-Site: same-origin\r\nFieldapp-Api: 1\r\n"
            f"Content-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n"
        ).encode()
        sock.sendall(head + body[:10])
        time.sleep(0.3)
        running.process.send_signal(signal.SIGTERM)
        time.sleep(0.3)
        sock.sendall(body[10:])
        sock.settimeout(10)
        assert b"200 OK" in sock.recv(1000)
        sock.close()
        assert running.process.wait(10) == 0


def test_what_is_no_http_is_a_problem(site):
    with server("serve", "--site", site, "--port", 0) as running:
        for raw in (
            b"nonsense\r\n\r\n",
            b"GET / HTTP/1.1\r\nbad header\r\n\r\n",
            b"GET /\x00 HTTP/1.1\r\n\r\n",
            b"POST /api/sync HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 99999999999\r\n\r\n",
            b"GET /api/ping HTTP/1.1\r\nHost: 127.0.0.1\r\nX: " + b"y" * 300_000 + b"\r\n\r\n",
        ):
            with socket.create_connection(("127.0.0.1", running.port)) as sock:
                sock.settimeout(10)
                try:
                    sock.sendall(raw)
                    answer = sock.recv(4000)
                except OSError:
                    continue  # it hung up while we still sent
            if answer:
                assert b" 500 " not in answer.splitlines()[0]
                assert b"Traceback" not in answer
                assert b"application/problem+json" in answer or b"text/html" in answer
        assert running.ask("GET", "/api/ping")[0] == 200
        assert running.end() == 0


def test_body_over_a_mebibyte_is_answered(site):
    with server("serve", "--site", site, "--port", 0) as running:
        for size, path in ((2 << 20, "/api/session"), (13 << 20, "/api/session"), (20 << 20, "/api/sync")):
            status, _, body = running.ask("POST", path, b" " * size)
            assert (status, body["type"]) in ((413, "urn:fieldapp:too_big"), (401, "urn:fieldapp:sign_in"))
        assert running.end() == 0


def test_revoke_on_a_running_site(site):
    with server("serve", "--site", site, "--port", 0) as running:
        cookie, _ = running.sign_in("ida", "long enough")
        assert running.ask("GET", "/api/session", cookie=cookie)[0] == 200
        code, out, _ = run("revoke", "--person", "ida", FIELDAPP_SITE=str(site))
        assert code == 0
        assert "ida" in out
        assert running.ask("GET", "/api/session", cookie=cookie)[0] == 401
        running.end()
    assert run("revoke", "--person", "nobody", "--site", site)[0] == 1
    assert run("revoke", "--device", ids.uuid7(), "--site", site)[0] == 0


# --- the demo


def entry(person, unit, device, count):
    return {
        "id": ids.uuid7(),
        "v": 1,
        "unit": unit,
        "step": None,
        "field": None,
        "round": None,
        "kind": "note",
        "value": {"text": f"note {count}"},
        "replaces": [],
        "packet": None,
        "sheet": None,
        "person": person,
        "device": device,
        "count": count,
        "at": "2026-11-25T10:42:07.120Z",
        "offset_ms": None,
    }


def everything(running, cookie, unit):
    found, after = [], ""
    while after is not None:
        _, _, body = running.ask(
            "GET", f"/api/units/{unit}/entries?limit=500{after and f'&after={after}'}", cookie=cookie
        )
        found += body["entries"]
        after = body["next"]
    return found


class Sender(threading.Thread):
    """A phone that sends until the server is gone; what it was told is kept is in `told`."""

    def __init__(self, running, cookie, person, unit, outbox):
        super().__init__(daemon=True)
        self.running, self.cookie, self.person, self.unit = running, cookie, person, unit
        self.outbox, self.told, self.device = outbox, set(), ids.uuid7()

    def run(self):
        while True:
            self.outbox += [entry(self.person, self.unit, self.device, n) for n in range(random.randint(1, 40))]
            try:
                status, _, body = self.running.ask(
                    "POST",
                    "/api/sync",
                    {"device": self.device, "entries": self.outbox[-500:], "units": {}},
                    self.cookie,
                    timeout=5,
                )
            except (OSError, ValueError, AssertionError):
                return
            except Exception:  # cut off in the middle of an answer
                return
            assert status == 200, body
            self.told |= {r["id"] for r in body["results"] if r["answer"] in ("kept", "had_it")}


@pytest.fixture(scope="module")
def demo_site(tmp_path_factory):
    return tmp_path_factory.mktemp("demo") / "site"


def test_a_killed_demo_has_lost_nothing_and_doubled_nothing(demo_site):
    """Killed again and again while two phones send: what was said to be kept is there, once, and a retry says so."""
    outboxes, told, reports, cookies = ([], []), set(), [], None
    rounds = 5
    for turn in range(rounds):
        with server("demo", "--site", demo_site, "--port", 0) as running:
            reports.append(running.report["people"])
            passwords = {p["name"]: p["password"] for p in running.report["people"]}
            if cookies is None:
                cookies = [running.sign_in(name, passwords[name]) for name in ("lena", "omar")]
            _, _, body = running.ask("GET", "/api/units", cookie=cookies[0][0])
            unit = body["units"][0]["id"]
            senders = [
                Sender(running, cookie, person["id"], unit, box)
                for (cookie, person), box in zip(cookies, outboxes, strict=True)
            ]
            for sender in senders:
                sender.start()
            time.sleep(random.uniform(0.3, 1.2) if turn < rounds - 1 else 0.5)
            running.kill()
            for sender in senders:
                sender.join(10)
                told |= sender.told
    assert all(report == reports[0] for report in reports)
    with server("demo", "--site", demo_site, "--port", 0) as running:
        found = everything(running, cookies[0][0], unit)
        there = [e["id"] for e in found]
        assert len(told) > 20
        assert told <= set(there)
        assert len(there) == len(set(there))
        assert [e["server"]["seq"] for e in found] == list(range(1, len(found) + 1))
        for (cookie, _), box in zip(cookies, outboxes, strict=True):
            for start in range(0, len(box), 500):
                some = box[start : start + 500]
                _, _, body = running.ask(
                    "POST", "/api/sync", {"device": ids.uuid7(), "entries": some, "units": {}}, cookie
                )
                for sent, result in zip(some, body["results"], strict=True):
                    assert result["answer"] == ("had_it" if sent["id"] in there else "kept")
        ids_now = [e["id"] for e in everything(running, cookies[0][0], unit)]
        assert len(ids_now) == len(set(ids_now))
        assert {e["id"] for box in outboxes for e in box} <= set(ids_now)
        assert running.end() == 0


def test_the_demo_is_the_same_each_time(demo_site, tmp_path):
    """Ids, codes, hashes and passwords of two demos in two folders."""

    def looked(running):
        people = {p["name"]: p for p in running.report["people"]}
        cookie, _ = running.sign_in("ruth", people["ruth"]["password"])
        _, _, body = running.ask("GET", "/api/units?limit=500", cookie=cookie)
        return people, [(u["id"], u["code"], u["short"], u["packet"]) for u in body["units"]]

    with (
        server("demo", "--site", demo_site, "--port", 0) as one,
        server("demo", "--site", tmp_path / "other", "--port", 0) as two,
    ):
        assert looked(one) == looked(two)
        people, _ = looked(one)
        roles = {role for person in people.values() for role in person["roles"]}
        assert {"installer", "supervisor", "administrator"} <= roles
        seen = []
        for name in ("lena", "pia"):
            cookie, _ = one.sign_in(name, people[name]["password"])
            seen.append({u["id"] for u in one.ask("GET", "/api/units?limit=500", cookie=cookie)[2]["units"]})
        assert seen[0]
        assert seen[1]
        assert not seen[0] & seen[1]


def test_a_demo_without_a_site_leaves_nothing():
    with server("demo", "--port", 0) as running:
        from pathlib import Path

        folder = Path(running.report["site"])
        assert folder.is_dir()
        assert running.end() == 0
        assert not folder.exists()


@pytest.mark.parametrize(("how", "code"), [(signal.SIGKILL, -signal.SIGKILL), (signal.SIGTERM, 0)])
def test_a_demo_ended_while_seeding_starts_afresh(tmp_path, how, code):
    folder = tmp_path / "site"
    import subprocess

    from servers import COMMAND, environment

    process = subprocess.Popen(
        [COMMAND, "demo", "--site", str(folder), "--port", "0"],
        env=environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    for _ in range(600):
        if list(folder.glob(".seeding-*/fieldapp.sqlite3")):
            break
        time.sleep(0.05)
    process.send_signal(how)
    assert process.wait(10) == code
    assert not (folder / "fieldapp.sqlite3").exists(), "it did not seed to the end"
    with server("demo", "--site", folder, "--port", 0) as running:
        assert running.report["people"]
        running.end()
    assert not list(folder.glob(".seeding-*"))


def test_the_log_is_json_lines(demo_site):
    running = Server(("demo", "--site", demo_site, "--port", 0))
    running.ask("GET", "/nowhere%0aINFO%20admin")
    running.end()
    for line in running.log.splitlines():
        json.loads(line)
