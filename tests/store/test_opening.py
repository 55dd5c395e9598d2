"""Opening a site: migrations, secret, first facts, another version's database; settings."""

import os
import stat
import subprocess
import sys

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import text

from fieldapp import settings
from fieldapp.settings import Settings, SettingsError
from fieldapp.site import make
from fieldapp.store import facts, opening
from fieldapp.store.base import db, read, write
from fieldapp.store.sqlite import StoreError


def site_settings(folder):
    return Settings(folder, f"sqlite:///{folder / 'fieldapp.sqlite3'}")


def test_migrations_make_what_the_models_say(tmp_path):
    app = opening.open_store(site_settings(tmp_path))
    with app.app_context(), db.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, db.metadata) == []


def test_opened_twice_nothing_changes(tmp_path):
    def looked():
        app = opening.open_store(site_settings(tmp_path))
        with app.app_context(), read() as session:
            return facts.epoch(session), facts.site_device(session)

    first = looked()
    assert all(first)
    assert looked() == first


START = """import sys
from pathlib import Path
from fieldapp.settings import Settings
from fieldapp.store import facts, opening
from fieldapp.store.base import read
folder = Path(sys.argv[1])
app = opening.open_store(Settings(folder, f"sqlite:///{folder / 'fieldapp.sqlite3'}"))
with app.app_context(), read() as session:
    print(facts.epoch(session), opening.secret(folder).hex())
"""


def test_three_that_start_at_once(tmp_path):
    started = [
        subprocess.Popen([sys.executable, "-c", START, str(tmp_path)], stdout=subprocess.PIPE, text=True)
        for _ in range(3)
    ]
    said = {process.communicate()[0] for process in started}
    assert [process.returncode for process in started] == [0, 0, 0]
    assert len(said) == 1


def test_a_database_of_another_version_is_refused(tmp_path):
    app = opening.open_store(site_settings(tmp_path))
    with app.app_context(), write() as session:
        session.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(StoreError, match="another version"):
        opening.open_store(site_settings(tmp_path))


def test_the_secret_is_the_owners_alone(tmp_path):
    secret = opening.secret(tmp_path)
    assert len(secret) == 32
    assert stat.S_IMODE(os.stat(tmp_path / "secret").st_mode) == 0o600
    assert opening.secret(tmp_path) == secret
    assert [path.name for path in tmp_path.iterdir()] == ["secret"]


def test_counts_of_the_site_are_given_once(tmp_path):
    app = opening.open_store(site_settings(tmp_path))
    with app.app_context(), write() as session:
        assert [facts.next_count(session), facts.next_count(session, 3), facts.next_count(session)] == [1, 2, 5]


def test_new_site_then_a_fresh_link_until_somebody_is_in(tmp_path):
    site = tmp_path / "site"
    first, second = make.new_site(site), make.new_site(site)
    assert first != second
    assert first.startswith("/sign-in?first=")
    app = opening.open_store(settings.load(site, environ={}))
    with app.app_context(), write() as session:
        from fieldapp.store import people

        people.add_person(session, "ida", ["administrator"])
    with pytest.raises(make.SiteError, match="administrator already"):
        make.new_site(site)
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "a file").touch()
    with pytest.raises(make.SiteError, match="neither empty"):
        make.new_site(tmp_path / "other")


# --- settings


def test_environment_before_file_before_default(tmp_path):
    assert settings.load(tmp_path, 8123, {}).address == "http://127.0.0.1:8123"
    (tmp_path / "settings.toml").write_text('address = "https://yard.example"\ntrusted_proxies = 1\n')
    found = settings.load(tmp_path, None, {})
    assert (found.address, found.trusted_proxies, found.https, found.given_address) == (
        "https://yard.example",
        1,
        True,
        True,
    )
    found = settings.load(
        tmp_path,
        None,
        {
            "FIELDAPP_ADDRESS": "http://box:8000",
            "FIELDAPP_TRUSTED_PROXIES": "2",
            "FIELDAPP_DATABASE": "postgresql+psycopg://x@y/z",
        },
    )
    assert (found.address, found.trusted_proxies, found.database) == (
        "http://box:8000",
        2,
        "postgresql+psycopg://x@y/z",
    )


@pytest.mark.parametrize(
    ("typed", "origin"),
    [
        ("https://yard.example", "https://yard.example"),
        ("https://Yard.Example:443/", "https://yard.example"),
        ("http://box:80", "http://box"),
        ("http://[::1]:8000", "http://[::1]:8000"),
        ("https://yard.example:8443", "https://yard.example:8443"),
    ],
)
def test_origins_as_browsers_write_them(tmp_path, typed, origin):
    assert settings.load(tmp_path, None, {"FIELDAPP_ADDRESS": typed}).address == origin


@pytest.mark.parametrize(
    "typed",
    [
        "yard.example",
        "ftp://x",
        "https://",
        "https://x/path",
        "https://x?y",
        "https://a b",
        "http://x:port",
        "https://user@x",
        "http://x:99999",
    ],
)
def test_addresses_that_are_none(tmp_path, typed):
    with pytest.raises(SettingsError, match="FIELDAPP_ADDRESS"):
        settings.load(tmp_path, None, {"FIELDAPP_ADDRESS": typed})


@pytest.mark.parametrize(
    "toml",
    [
        'colour = "red"',
        "trusted_proxies = true",
        'trusted_proxies = "1"',
        "address = 5",
        "x ==",
        "trusted_proxies = 11",
    ],
)
def test_files_that_do_not_fit(tmp_path, toml):
    (tmp_path / "settings.toml").write_text(toml)
    with pytest.raises(SettingsError):
        settings.load(tmp_path, None, {})


def test_the_site_of_the_command_line_comes_first(tmp_path):
    assert settings.site_folder("/a", {"FIELDAPP_SITE": "/b"}).as_posix() == "/a"
    assert settings.site_folder(None, {"FIELDAPP_SITE": "/b"}).as_posix() == "/b"
    assert settings.site_folder(None, {}) is None
