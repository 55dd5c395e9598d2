"""How a load makes ids, codes, hashes and times: at random and now, or, for a demo, the same each time."""

import hashlib
import secrets
from collections.abc import Callable
from dataclasses import dataclass

from argon2 import PasswordHasher

from fieldapp.store import ids, people


@dataclass(frozen=True)
class Making:
    """`new_id`, `seed` and `issue_id` take what the thing is called; `hashed` a person's name and password."""

    new_id: Callable[[str], str] = lambda _: ids.uuid7()
    seed: Callable[[str], str] = lambda _: secrets.token_hex(16)
    hashed: Callable[[str, str], str] = lambda _, password: people.hashed(password)
    issue_id: Callable[[str], str | None] = lambda _: None
    at_ms: int | None = None


def always_the_same(at_ms: int) -> Making:
    """For a seeded site: everything follows from its name. Never for real people: their passwords are printed."""
    hasher = PasswordHasher()

    def new_id(name: str) -> str:
        return ids.seeded_uuid7(at_ms, name)

    def hashed(name: str, password: str) -> str:
        return hasher.hash(password, salt=hashlib.sha256(f"demo {name}".encode()).digest()[:16])

    return Making(new_id, lambda name: f"demo {name}", hashed, new_id, at_ms)
