"""Opening a site's database: settings, migrations, read-back, the site's own facts."""

import os
import secrets
from pathlib import Path

import flask_migrate
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from flask import Flask
from sqlalchemy import make_url
from sqlalchemy.exc import ArgumentError, DatabaseError, NoSuchModuleError

from ..settings import Settings
from . import facts, sqlite
from .base import db, read, write
from .sqlite import StoreError

MIGRATIONS = Path(__file__).resolve().parent / "migrations"
_migrate = flask_migrate.Migrate(compare_type=True)


def open_store(settings: Settings) -> Flask:
    """A bare Flask app with the database attached and brought up to date: for commands that serve nothing.

    Use its functions inside `app.app_context()`. Raises StoreError.
    """
    app = Flask("fieldapp.store", static_folder=None)
    attach(app, settings)
    return app


def attach(app: Flask, settings: Settings) -> None:
    """Give `app` the site's database, migrated, with its settings read back. Raises StoreError."""
    app.config["SQLALCHEMY_DATABASE_URI"] = settings.database
    app.config["FIELDAPP_SETTINGS"] = settings
    file = _file(settings.database)
    if file:
        sqlite.refuse_far_folder(file.resolve().parent)
    try:
        db.init_app(app)
        _migrate.init_app(app, db, directory=str(MIGRATIONS))
        with app.app_context():
            _start(settings, file)
    except DatabaseError as fault:
        raise StoreError(f"the database cannot be used: {fault.orig}") from None
    except (NoSuchModuleError, ModuleNotFoundError) as fault:
        raise StoreError(f"FIELDAPP_DATABASE names a database without a driver here: {fault}") from None


def _start(settings: Settings, file: Path | None) -> None:
    if file:
        sqlite.prepare(db.engine, settings.busy_ms)
        faults = sqlite.read_back(db.engine, settings.busy_ms)
        if faults:
            raise StoreError("; ".join(faults))
    _bring_up()
    with read() as session:
        new = not facts.started(session)
    if new:
        with write() as session:
            facts.first_start(session)


def secret(site: Path) -> bytes:
    """The site's secret, 32 random bytes made at first start, readable by the owner alone."""
    path = site / "secret"
    if not path.exists():
        fresh = path.with_name(f".secret-{secrets.token_hex(6)}")
        with open(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="ascii") as out:
            out.write(secrets.token_hex(32))
            out.flush()
            os.fsync(out.fileno())
        try:
            os.link(fresh, path)  # the first of two that start at once wins
        except FileExistsError:
            pass
        except OSError:
            os.replace(fresh, path)
        fresh.unlink(missing_ok=True)
    return bytes.fromhex(path.read_text("ascii").strip())


def close_files() -> None:
    """Put everything into the one database file and let go of it, so that it can be moved. Needs an app context."""
    if db.engine.dialect.name == "sqlite":
        with db.engine.connect() as connection:
            connection.rollback()
            raw = connection.connection.driver_connection
            assert raw is not None
            raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
    db.engine.dispose()


def revision() -> tuple[str | None, str | None]:
    """The migration the database is at, and the newest that this version knows. Needs an app context."""
    newest = ScriptDirectory(str(MIGRATIONS)).get_current_head()
    with db.engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision(), newest


def _bring_up() -> None:
    at, newest = revision()
    if at == newest:
        return
    known = {script.revision for script in ScriptDirectory(str(MIGRATIONS)).walk_revisions()}
    if at is not None and at not in known:
        raise StoreError(f"the site's database is at {at!r}, made by another version of fieldapp; use that version")
    flask_migrate.upgrade()


def _file(address: str) -> Path | None:
    """The SQLite file of a database address; None for another database."""
    try:
        url = make_url(address)
    except ArgumentError:
        raise StoreError(
            f"FIELDAPP_DATABASE is {address!r}; sqlite:////folder/file or "
            "postgresql+psycopg://user@host/name would be right"
        ) from None
    if url.get_backend_name() != "sqlite":
        return None
    if not url.database or url.database == ":memory:":
        raise StoreError("FIELDAPP_DATABASE names no file; sqlite:////folder/file would be right")
    return Path(url.database)


__all__ = ["StoreError", "attach", "close_files", "open_store", "revision", "secret"]
