"""The reference tables of seed_data/tables that sheets are made with."""

import tomllib
from functools import cache
from typing import Any

from fieldapp.places import folder


@cache
def table(name: str) -> dict[str, Any]:
    """seed_data/tables/NAME.toml as it stands; each figure carries its source there."""
    return tomllib.loads((folder("seed_data") / "tables" / f"{name}.toml").read_text("utf-8"))
