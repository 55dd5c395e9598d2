"""`fieldapp revoke`: a phone or a person is let in nowhere from the next call on."""

import sys
from pathlib import Path

from ..settings import load
from ..store import opening, people
from ..store.base import write


def run(site: Path, *, device: str | None, person: str | None) -> int:
    """Revoke one of the two; 0, or 1 with a sentence on standard error. Raises StoreError, SettingsError."""
    with opening.open_store(load(site)).app_context(), write() as session:
        if device is not None:
            people.revoke_device(session, device)
            print(f"Phone {device} is revoked: what it still sends is kept apart until a supervisor admits it.")
            return 0
        if not people.revoke_person(session, person or ""):
            print(f"fieldapp: nobody here is called {person!r}", file=sys.stderr)
            return 1
    print(f"{person} is revoked: what still comes from them is kept apart until a supervisor admits it.")
    return 0
