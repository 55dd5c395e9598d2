"""Making a site's folder: a new one with its first link, a demo's, and who holds it now."""

import os
import secrets
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from typing import IO

from flask import Flask

from .. import __version__
from ..settings import Settings, SettingsError, load
from ..store import facts, opening, people
from ..store.base import now_ms, read, write
from ..store.ids import sha256

if sys.platform != "win32":  # there the database's own check alone tells versions apart
    import fcntl

_DAY_MS = 86_400_000
_SEEDING = ".seeding-"


class SiteError(RuntimeError):
    """The folder cannot be used as asked; the text is one sentence."""


def is_site(site: Path) -> bool:
    """Whether somebody made a site here."""
    return (site / "secret").is_file()


def new_site(site: Path) -> str:
    """Make a site, or find one that nobody can sign in to yet; the path of a fresh one-time link.

    Raises SiteError, SettingsError, StoreError, OSError.
    """
    if not is_site(site):
        _want_empty(site)
    site.mkdir(mode=0o700, parents=True, exist_ok=True)
    opening.secret(site)
    app = opening.open_store(load(site))
    token = secrets.token_urlsafe(24)
    with app.app_context():
        with read() as session:
            if any("administrator" in person.role_set for person in people.everybody(session)):
                raise SiteError(f"{site} has an administrator already, who lets others in")
        with write() as session:
            people.put_first_link(session, sha256(token.encode()), now_ms() + _DAY_MS)
    return f"/sign-in?first={token}"


def demo_site(site: Path, seed: Callable[[Flask], object]) -> None:
    """Seed an empty folder, or go on with a demo that is there.

    Seeding happens beside and moves in whole, the database last: a demo killed while seeding starts afresh.
    Raises SiteError, StoreError, OSError.
    """
    _clear_cut_short(site)
    if (site / "fieldapp.sqlite3").exists():
        _want_demo(site)
        return
    _want_empty(site)
    site.mkdir(mode=0o700, parents=True, exist_ok=True)
    fresh = site / f"{_SEEDING}{secrets.token_hex(4)}"
    fresh.mkdir(mode=0o700)
    app = opening.open_store(demo_settings(fresh))
    seed(app)
    with app.app_context():
        with write() as session:
            facts.put(session, "demo", __version__)
        opening.close_files()
    opening.secret(fresh)
    for path in sorted(fresh.iterdir(), key=lambda path: path.name.startswith("fieldapp.sqlite3")):
        path.rename(site / path.name)
    fresh.rmdir()


def _clear_cut_short(site: Path) -> None:
    """Take away what a killed seeding left. The folder was empty before it, so without a database all of it is that."""
    left = list(site.glob(f"{_SEEDING}*"))
    if left and not (site / "fieldapp.sqlite3").exists():
        left = list(site.iterdir())
    for path in left:
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink()


def demo_settings(site: Path, port: int | None = None) -> Settings:
    """A demo's settings: always SQLite in its own folder, whatever database a real site uses."""
    return load(site, port, {k: v for k, v in os.environ.items() if k != "FIELDAPP_DATABASE"})


def _want_demo(site: Path) -> None:
    with opening.open_store(demo_settings(site)).app_context(), read() as session:
        if facts.get(session, "demo") is None:
            raise SiteError(f"{site} is a site of real people; `fieldapp serve --site {site}` serves it")


def _want_empty(site: Path) -> None:
    if site.exists() and not site.is_dir():
        raise SiteError(f"{site} is a file; a folder would be right")
    if site.exists() and any(site.iterdir()):
        raise SiteError(f"{site} is neither empty nor a site; an empty folder would be right")


def hold(site: Path) -> IO[str]:
    """Say that this version serves the site, as long as the file stays open. Raises SiteError where another does."""
    file = open(site / "in-use", "a+", encoding="utf-8")  # noqa: SIM115 - held for the process's life
    if sys.platform == "win32":
        return file
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        file.truncate(0)
        file.write(__version__)
        file.flush()
        fcntl.flock(file, fcntl.LOCK_SH)
    except OSError:
        file.seek(0)
        other = file.read().strip()
        if other != __version__:
            file.close()
            raise SiteError(f"{site} is in use by version {other or 'unknown'}; this is {__version__}") from None
        fcntl.flock(file, fcntl.LOCK_SH)
    return file


__all__ = ["SettingsError", "SiteError", "demo_settings", "demo_site", "hold", "is_site", "new_site"]
