"""The defaults of seed_data/defaults.toml: a value, and where it comes from."""

import tomllib
from functools import cache
from typing import Any

from fieldapp.places import folder


@cache
def defaults() -> dict[str, dict[str, Any]]:
    """{name: {"value", "origin", "source"}} as the file has them."""
    return tomllib.loads((folder("seed_data") / "defaults.toml").read_text("utf-8"))


def default(name: str) -> Any:
    """The value of one default; a KeyError means that the file lacks it."""
    return defaults()[name]["value"]


def origin(name: str) -> dict[str, str]:
    """{"origin", "source"} of one default, as an `expect` of a packet carries them."""
    found = defaults()[name]
    return {"origin": found["origin"], "source": found["source"]}
