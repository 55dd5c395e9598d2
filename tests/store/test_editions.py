"""Editions of catalogues: numbered, kept byte for byte, the newest in force; an older site gets the table."""

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import inspect, text
from sqlalchemy.exc import IntegrityError

from fieldapp.plan.catalogue import CATALOGUES, edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.settings import Settings
from fieldapp.site import editions as kept
from fieldapp.store import editions, facts, opening
from fieldapp.store.base import db, read, write
from fieldapp.store.models import Edition

SOMEBODY = "0199c0de-0000-7000-8000-00000000000a"


@pytest.fixture
def app(tmp_path):
    found = opening.open_store(Settings(tmp_path, f"sqlite:///{tmp_path / 'fieldapp.sqlite3'}"))
    with found.app_context():
        yield found


def add(name="profiles", rows=None, **more):
    hash, body = edition(name, seed()[name] if rows is None else rows)
    with write() as session:
        return editions.add(session, name, hash, body, SOMEBODY, **more)


def test_the_newest_is_in_force_and_the_old_ones_stay(app):
    rows = seed()["profiles"]
    first, second = add(), add(rows=[rows[0] | {"depth": 38.0}, rows[1]])
    with read() as session:
        assert (first.number, second.number) == (0, 1)
        assert editions.newest(session, "profiles").hash == second.hash
        assert editions.rows(editions.numbered(session, "profiles", 0)) == rows
        assert [each.number for each in editions.of(session, "profiles")] == [1, 0]
        assert editions.of_hash(session, second.hash).number == 1
        assert editions.newest(session, "rivets") is None
    twice = Edition(catalogue="profiles", number=1, hash="", body="", person_id="", at=0, because="")
    with read() as session:
        session.add(twice)
        with pytest.raises(IntegrityError):
            session.flush()


def test_a_hash_that_is_not_the_bodys_is_refused(app):
    with write() as session, pytest.raises(ValueError, match="hash to"):
        editions.add(session, "profiles", "0" * 64, b"{}", SOMEBODY)


def test_a_site_starts_with_the_seeds_once_and_a_shops_own_stay(app):
    kept.start()
    kept.start()
    rows = seed()["profiles"]
    add(rows=rows[::-1])
    kept.start()
    with read() as session:
        assert {name: len(editions.of(session, name)) for name in CATALOGUES} == {
            name: 2 if name == "profiles" else 1 for name in CATALOGUES
        }
        assert editions.newest(session, "rivets").person_id == facts.SITE_PERSON
        found = kept.in_force(session)
    assert found.numbers == {name: int(name == "profiles") for name in CATALOGUES}
    assert found.rows["profiles"] == rows[::-1]


def test_a_newer_programs_seed_follows_the_older_ones(app, monkeypatch):
    kept.start()
    newer = seed()
    newer["discs"][0]["printed speed"] = 13_200.0
    monkeypatch.setattr(kept, "seed", lambda: newer)
    kept.start()
    with read() as session:
        assert [each.number for each in editions.of(session, "discs")] == [1, 0]
        assert kept.in_force(session).rows["discs"][0]["printed speed"] == 13_200.0


def test_a_site_of_the_version_before_is_brought_up_and_back(tmp_path):
    settings = Settings(tmp_path, f"sqlite:///{tmp_path / 'fieldapp.sqlite3'}")
    app = opening.open_store(settings)
    config = Config(str(opening.MIGRATIONS / "alembic.ini"))
    config.set_main_option("script_location", str(opening.MIGRATIONS))
    with app.app_context():
        command.downgrade(config, "0001")
        assert "edition" not in inspect(db.engine).get_table_names()
        with write() as session:
            session.execute(text("INSERT INTO crew (id, name) VALUES ('c', 'north')"))
    with opening.open_store(settings).app_context(), read() as session:
        assert "edition" in inspect(db.engine).get_table_names()
        assert session.scalar(text("SELECT name FROM crew")) == "north"
