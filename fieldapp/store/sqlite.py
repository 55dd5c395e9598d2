"""SQLite as the embedded store: settings of each connection, which BEGIN, and where its file may lie.

WAL, foreign keys on, synchronous FULL (a phone deletes what it was told is kept), a busy timeout; writers begin
IMMEDIATE, readers plainly (sqlite.org: lang_transaction, wal, pragma). PostgreSQL takes no notice of any of it.
"""

import sqlite3
from pathlib import Path

from sqlalchemy import Connection, Engine, event

from .base import WRITES

_WANTED = {"journal_mode": "wal", "foreign_keys": 1, "synchronous": 2}
# WAL needs memory shared on one host: these kinds of file system lie on another one (or pretend to).
_FAR_KINDS = frozenset(
    [
        "nfs",
        "nfs3",
        "nfs4",
        "cifs",
        "smbfs",
        "smb3",
        "smb2",
        "9p",
        "virtiofs",
        "vboxsf",
        "vmhgfs",
        "prl_fs",
        "afs",
        "ceph",
        "glusterfs",
        "lustre",
        "davfs",
        "ncpfs",
        "fuse.sshfs",
        "fuse.vmhgfs-fuse",
        "fuse.rclone",
        "fuse.glusterfs",
        "fuse.s3fs",
        "fuse.davfs2",
        "fuse.cephfs",
    ]
)
# Folders that a sync client copies file by file while they are open (common names, no source).
_SYNCED = (
    "dropbox",
    "onedrive",
    "google drive",
    "googledrive",
    "icloud",
    "nextcloud",
    "owncloud",
    "syncthing",
)


class StoreError(RuntimeError):
    """The database cannot be used; the text is one sentence that says why."""


def prepare(engine: Engine, busy_ms: int) -> None:
    """Hook the engine: pragmas at connect, IMMEDIATE or plain BEGIN."""

    def connect(raw: sqlite3.Connection, _record: object) -> None:
        raw.isolation_level = None  # or the driver would begin by itself, and not before a SELECT
        for pragma in (
            f"busy_timeout={int(busy_ms)}",
            "journal_mode=WAL",
            "foreign_keys=ON",
            "synchronous=FULL",
        ):
            raw.execute(f"PRAGMA {pragma}").fetchall()

    def begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get(WRITES)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    event.listen(engine, "connect", connect)
    event.listen(engine, "begin", begin)


def read_back(engine: Engine, busy_ms: int) -> list[str]:
    """What of the wanted settings does not hold on a fresh connection, a sentence each."""
    wanted = {**_WANTED, "busy_timeout": busy_ms}
    faults = []
    with engine.connect() as connection:
        for name, want in wanted.items():
            got = connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            if got != want:
                faults.append(f"SQLite's {name} is {got!r} on this file; {want!r} is needed")
    return faults


def refuse_far_folder(folder: Path, mounts: str | None = None) -> None:
    """Raise StoreError where `folder` lies on a network file system, a VM's share or in a folder that is synced.

    mounts: text of /proc/self/mountinfo (Linux); read when None. Where there is none nothing is refused by kind.
    """
    for part in folder.parts:
        if part.lower().startswith(_SYNCED):
            raise StoreError(
                f"the database would lie in {part!r}, a folder that is copied while open; use a local folder"
            )
    kind = _kind_of(folder, _mountinfo() if mounts is None else mounts)
    if kind in _FAR_KINDS:
        raise StoreError(
            f"the database would lie on a {kind} file system; SQLite's WAL needs one host's memory: use a "
            "local disk, or PostgreSQL by FIELDAPP_DATABASE"
        )


def _mountinfo() -> str:
    try:
        return Path("/proc/self/mountinfo").read_text("utf-8", "surrogateescape")
    except OSError:
        return ""


def _kind_of(folder: Path, mounts: str) -> str | None:
    """File system kind of the longest mount point above `folder`; of equals the last mounted. The root is never far:
    it is this machine's own, whatever carries it."""
    best, kind = Path("/"), None
    for line in mounts.splitlines():
        left, dash, right = line.partition(" - ")
        fields = left.split()
        if not dash or len(fields) < 5:
            continue
        point = Path(fields[4].replace("\\040", " "))
        if point != Path("/") and folder.is_relative_to(point) and len(point.parts) >= len(best.parts):
            best, kind = point, right.split()[0]
    return kind
