"""SQLite as the contract of the store wants it: settings, BEGIN, waiting, refusing (measured before the build)."""

import sqlite3
import threading

import pytest
import yard as yards
from sqlalchemy import text

from fieldapp.settings import Settings
from fieldapp.store import facts, opening, sqlite
from fieldapp.store.base import WRITES, db, read, write
from fieldapp.store.sqlite import StoreError


def in_threads(app, count, work):
    faults = []

    def run():
        try:
            with app.app_context():
                work()
        except Exception as fault:
            faults.append(fault)

    threads = [threading.Thread(target=run) for _ in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return faults


def test_8_threads_of_50_read_then_update(yard):
    def raise_counter():
        for _ in range(50):
            with write() as session:
                facts.put(session, "tally", str(int(facts.get(session, "tally") or "0") + 1))

    assert in_threads(yard.app, 8, raise_counter) == []
    with read() as session:
        assert facts.get(session, "tally") == "400"


def test_begin_is_immediate_for_writers_and_plain_for_readers(yard):
    seen = []
    with db.engine.connect() as connection:
        raw = connection.connection.driver_connection
        raw.set_trace_callback(seen.append)
        connection.execute(text("SELECT 1"))
        connection.rollback()
        connection.execution_options(**{WRITES: True}).execute(text("SELECT 1"))
        connection.rollback()
        raw.set_trace_callback(None)
        assert raw.isolation_level is None
    assert [line for line in seen if line.startswith("BEGIN")] == ["BEGIN", "BEGIN IMMEDIATE"]


def test_settings_of_every_connection(yard):
    wanted = {"journal_mode": "wal", "foreign_keys": 1, "synchronous": 2, "busy_timeout": 10_000}
    connections = [db.engine.connect() for _ in range(4)]
    for connection in connections:
        assert {name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in wanted} == wanted
    for connection in connections:
        connection.close()
    assert sqlite.read_back(db.engine, 10_000) == []
    assert "busy_timeout" in sqlite.read_back(db.engine, 1)[0]


def test_start_refuses_where_a_setting_does_not_hold(tmp_path, monkeypatch):
    monkeypatch.setitem(sqlite._WANTED, "synchronous", 3)
    with pytest.raises(StoreError, match="synchronous"):
        opening.open_store(Settings(tmp_path, f"sqlite:///{tmp_path / 'x.sqlite3'}"))


def test_a_reader_does_not_wait_for_a_writer_and_sees_one_moment(yard):
    writer = sqlite3.connect(yard.site / "fieldapp.sqlite3", isolation_level=None)
    with read() as session:
        before = facts.epoch(session)
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("UPDATE fact SET value = 'other' WHERE name = 'epoch'")
        with read() as other:
            assert facts.epoch(other) == before
        writer.execute("COMMIT")
        assert session.execute(text("SELECT value FROM fact WHERE name = 'epoch'")).scalar() == before
    with read() as session:
        assert facts.epoch(session) == "other"
    writer.close()


def test_a_writer_waits_for_another_and_then_goes_on(yard):
    other = sqlite3.connect(yard.site / "fieldapp.sqlite3", isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    threading.Timer(0.3, lambda: other.execute("COMMIT")).start()
    with write() as session:
        facts.put(session, "late", "here")
    with read() as session:
        assert facts.get(session, "late") == "here"
    other.close()


def test_a_failed_write_leaves_nothing(yard):
    def fail_half_way():
        with write() as session:
            facts.put(session, "half", "done")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        fail_half_way()
    with read() as session:
        assert facts.get(session, "half") is None


@pytest.fixture
def locked(tmp_path):
    made = yards.make(tmp_path / "site", busy_ms=100)
    clients = made.client("lena"), made.client()
    other = sqlite3.connect(made.site / "fieldapp.sqlite3", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    yield clients
    other.execute("ROLLBACK")
    other.close()


def test_a_lock_over_the_limit_is_not_now(locked):
    lena, nobody = locked
    entry = lena.entry()
    answer = lena.sync([entry])
    assert (answer.status_code, answer.get_json()["type"], answer.get_json()["retry"]) == (
        503,
        "urn:fieldapp:not_now",
        "later",
    )
    assert int(answer.headers["Retry-After"]) >= 1
    assert lena.sync([]).status_code == 200  # reading does not wait
    assert lena.get("/api/units").status_code in (200, 503)
    page = nobody.http.post(
        "/sign-in", data={"name": "lena", "password": "x"}, headers={"Sec-Fetch-Site": "same-origin"}
    )
    assert (page.status_code, page.mimetype) == (503, "text/html")


def test_after_the_lock_the_same_entry_is_kept(tmp_path):
    made = yards.make(tmp_path / "site", busy_ms=100)
    lena = made.client("lena")
    other = sqlite3.connect(made.site / "fieldapp.sqlite3", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    entry = lena.entry()
    assert lena.sync([entry]).status_code == 503
    other.execute("ROLLBACK")
    other.close()
    assert lena.answer_to(entry)[0] == "kept"


def test_foreign_keys_hold(yard):
    with pytest.raises(Exception, match="FOREIGN KEY"), write() as session:
        session.execute(text("INSERT INTO photo_named (sha256, unit_id) VALUES ('a', 'nowhere')"))


# --- where the file may lie (text of /proc/self/mountinfo: proc(5))
MOUNTS = """22 1 8:1 / / rw - ext4 /dev/sda1 rw
30 22 0:40 / /mnt/share rw - nfs4 server:/x rw
31 22 0:41 / /mnt/with\\040space rw - cifs //server/x rw
32 30 8:2 / /mnt/share/local rw - ext4 /dev/sdb1 rw
33 22 0:42 / /host rw - virtiofs host rw
34 22 0:43 / /over rw - ext4 /dev/sdc1 rw
35 22 0:44 / /over rw - 9p share rw
"""


@pytest.mark.parametrize("path", ["/mnt/share", "/mnt/share/site/deep", "/mnt/with space/site", "/host/a", "/over/x"])
def test_far_folders_are_refused(path):
    with pytest.raises(StoreError, match="local disk"):
        sqlite.refuse_far_folder(sqlite.Path(path), MOUNTS)


@pytest.mark.parametrize("path", ["/", "/srv/site", "/mnt/share/local/site", "/mnt/shared"])
def test_local_folders_are_not(path):
    sqlite.refuse_far_folder(sqlite.Path(path), MOUNTS)
    sqlite.refuse_far_folder(sqlite.Path(path), MOUNTS.replace(" / / rw - ext4", " / / rw - 9p"))
    sqlite.refuse_far_folder(sqlite.Path(path), "no such\nlines at all - \n")


@pytest.mark.parametrize("path", ["/home/x/Dropbox/site", "/home/x/OneDrive - Firm/site", "/home/x/Google Drive/a"])
def test_folders_that_are_synced_are_refused(path):
    with pytest.raises(StoreError, match="copied while open"):
        sqlite.refuse_far_folder(sqlite.Path(path), MOUNTS)


def test_start_up_asks_the_real_mounts(tmp_path, monkeypatch):
    monkeypatch.setattr(sqlite, "_mountinfo", lambda: f"1 0 0:1 / {tmp_path} rw - nfs server:/x rw\n")
    with pytest.raises(StoreError, match="nfs"):
        opening.open_store(Settings(tmp_path, f"sqlite:///{tmp_path / 'x.sqlite3'}"))


def test_a_database_that_is_none(tmp_path):
    (tmp_path / "x.sqlite3").write_bytes(b"not a database, but long enough to look at" * 30)
    with pytest.raises(StoreError):
        opening.open_store(Settings(tmp_path, f"sqlite:///{tmp_path / 'x.sqlite3'}"))
    for address in ("sqlite://", "sqlite:///:memory:", "what", "oracle9://x"):
        with pytest.raises(StoreError, match="FIELDAPP_DATABASE"):
            opening.open_store(Settings(tmp_path, address))
