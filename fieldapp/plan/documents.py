"""A document: a value as canonical JSON, named by the SHA-256 of its bytes."""

import hashlib
import json
from typing import Any


def document(value: Any) -> tuple[str, bytes]:
    """(SHA-256, bytes) of a packet, part or edition: JSON with sorted keys and no spaces: same value, same bytes."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    encoded = text.encode("utf-8")
    return hashlib.sha256(encoded).hexdigest(), encoded
