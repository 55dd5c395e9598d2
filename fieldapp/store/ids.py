"""Ids and hashes: UUIDv7 (RFC 9562, 5.7), RFC 3339 times, SHA-256 names."""

import hashlib
import re
import secrets
import time
from datetime import UTC, datetime

UUID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")
HASH = re.compile(r"[0-9a-f]{64}")


def uuid7(at_ms: int | None = None, tail: bytes | None = None) -> str:
    """A UUIDv7 as lower-case text: 48 bits of Unix milliseconds, version, 74 random bits.

    at_ms: milliseconds since 1970, now when None; tail: 10 bytes instead of random ones, for ids that are the same
    each time.
    """
    stamp = (time.time_ns() // 1_000_000 if at_ms is None else at_ms) & (1 << 48) - 1
    rest = bytearray(secrets.token_bytes(10) if tail is None else tail)
    rest[0] = 0x70 | rest[0] & 0x0F
    rest[2] = 0x80 | rest[2] & 0x3F
    text = (stamp.to_bytes(6, "big") + bytes(rest)).hex()
    return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"


def seeded_uuid7(at_ms: int, seed: str) -> str:
    """A UUIDv7 that is always the same for a seed text."""
    return uuid7(at_ms, hashlib.sha256(seed.encode()).digest()[:10])


def rfc3339(ms: int) -> str:
    """Milliseconds since 1970 as RFC 3339 with milliseconds, in UTC: 2026-11-25T09:42:07.120Z."""
    moment = datetime.fromtimestamp(ms // 1000, UTC)
    return f"{moment:%Y-%m-%dT%H:%M:%S}.{ms % 1000:03d}Z"


def sha256(data: bytes) -> str:
    """SHA-256 in lower-case hex."""
    return hashlib.sha256(data).hexdigest()
