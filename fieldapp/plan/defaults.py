"""The defaults of seed_data/defaults.toml: a value, and where it comes from. Plans take them by InForce."""

import tomllib
from functools import cache
from typing import Any

from fieldapp.places import folder


@cache
def defaults() -> dict[str, dict[str, Any]]:
    """{name: {"value", "origin", "source"}} as the file has them."""
    return tomllib.loads((folder("seed_data") / "defaults.toml").read_text("utf-8"))
