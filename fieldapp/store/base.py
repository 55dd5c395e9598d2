"""Database handle and the two kinds of transaction: `read()` and `write()`."""

import contextlib
import time
from collections.abc import Iterator
from typing import TYPE_CHECKING

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Engine
from sqlalchemy.orm import DeclarativeBase, Session


class _Base(DeclarativeBase):
    pass


db = SQLAlchemy(model_class=_Base)

if TYPE_CHECKING:
    Model = _Base
else:
    Model = db.Model

# The option that tells sqlite.py's hook which BEGIN a transaction needs; other databases take no notice of it.
WRITES = "fieldapp_writes"


@contextlib.contextmanager
def read() -> Iterator[Session]:
    """A session in one read transaction: sees one moment, never waits for a writer. Needs an app context."""
    with Session(db.engine, expire_on_commit=False) as session:
        yield session


@contextlib.contextmanager
def write() -> Iterator[Session]:
    """A session in one write transaction, committed at the end, rolled back by an exception. Needs an app context."""
    with Session(_writer(db.engine), expire_on_commit=False) as session, session.begin():
        session.connection()  # begin at once, so that what is read next is already under the write lock
        yield session


def _writer(engine: Engine) -> Engine:
    return engine.execution_options(**{WRITES: True})


def now_ms() -> int:
    """Server time, whole milliseconds since 1970, UTC."""
    return time.time_ns() // 1_000_000
