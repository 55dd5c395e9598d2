"""Settings: environment first, then `settings.toml` in the site, then the defaults."""

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

DEFAULT_PORT = 8000
_KNOWN = {"database": str, "address": str, "trusted_proxies": int}


class SettingsError(ValueError):
    """A setting that cannot be used; the text names it, shows its value and says what would be right."""


@dataclass(frozen=True)
class Settings:
    """What a site runs with.

    site: the folder that holds secrets, photos and (by default) the database.
    database: SQLAlchemy address.
    address: public origin, `scheme://host[:port]`; labels, cookie and origin check use it, never the request.
    given_address: whether somebody set `address` (else loopback names pass too).
    trusted_proxies: how many proxies in front may say who the client is.
    busy_ms: how long a writer waits for another writer, in ms.
    """

    site: Path
    database: str
    address: str = f"http://127.0.0.1:{DEFAULT_PORT}"
    given_address: bool = False
    trusted_proxies: int = 0
    busy_ms: int = 10_000

    @property
    def https(self) -> bool:
        return self.address.startswith("https://")

    @property
    def origins(self) -> frozenset[str]:
        """Origins whose pages are ours."""
        if self.given_address:
            return frozenset({self.address})
        port = urlsplit(self.address).port
        tail = f":{port}" if port and port != 80 else ""
        return frozenset(f"http://{name}{tail}" for name in ("127.0.0.1", "localhost", "[::1]"))


def site_folder(given: str | None, environ: Mapping[str, str] = os.environ) -> Path | None:
    """The site named on the command line, else `FIELDAPP_SITE`, else None."""
    name = given or environ.get("FIELDAPP_SITE")
    return Path(name).expanduser().absolute() if name else None


def load(site: Path, port: int | None = None, environ: Mapping[str, str] = os.environ) -> Settings:
    """Settings of `site`; `port` makes the default address.

    Raises SettingsError for a setting that cannot be used.
    """
    found = _from_file(site / "settings.toml")
    for name in _KNOWN:
        text = environ.get(f"FIELDAPP_{name.upper()}")
        if text:
            found[name] = text
    address = found.get("address")
    return Settings(
        site=site,
        database=str(found.get("database") or f"sqlite:///{site / 'fieldapp.sqlite3'}"),
        address=_origin(str(address)) if address else f"http://127.0.0.1:{port or DEFAULT_PORT}",
        given_address=bool(address),
        trusted_proxies=_count(found.get("trusted_proxies", 0)),
    )


def _from_file(path: Path) -> dict[str, object]:
    if not path.is_file():
        return {}
    try:
        found = tomllib.loads(path.read_text("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise SettingsError(f"settings.toml of the site cannot be read: {fault}") from None
    for name, value in found.items():
        if name not in _KNOWN:
            raise SettingsError(f"settings.toml knows no {name!r}; it knows {', '.join(sorted(_KNOWN))}")
        if not isinstance(value, _KNOWN[name]) or isinstance(value, bool):
            raise SettingsError(f"settings.toml: {name} is {value!r}; a {_KNOWN[name].__name__} would be right")
    return dict(found)


def _origin(text: str) -> str:
    """`https://host[:port]` in the form browsers write an Origin; raises SettingsError."""
    wrong = SettingsError(f"FIELDAPP_ADDRESS is {text!r}; https://host or http://host:port would be right")
    try:
        parts = urlsplit(text.strip())
        host, port = parts.hostname, parts.port
    except ValueError:
        raise wrong from None
    if parts.scheme not in ("http", "https") or not host or parts.path.strip("/") or parts.query or parts.fragment:
        raise wrong
    if parts.username is not None or any(c.isspace() for c in host):
        raise wrong
    shown = f"[{host}]" if ":" in host else host
    usual = 443 if parts.scheme == "https" else 80
    return f"{parts.scheme}://{shown}" + (f":{port}" if port and port != usual else "")


def _count(value: object) -> int:
    try:
        number = int(str(value))
    except ValueError:
        number = -1
    if not 0 <= number <= 10:
        raise SettingsError(f"FIELDAPP_TRUSTED_PROXIES is {value!r}; a count from 0 to 10 would be right")
    return number
