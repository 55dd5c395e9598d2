"""The phone's shell: its version, the files it is made of, and serving them."""

import hashlib
import mimetypes
from dataclasses import dataclass
from pathlib import Path

from .. import __version__
from ..places import folder
from .shell_modules import imported, lean

mimetypes.add_type("text/javascript", ".js")
mimetypes.add_type("application/manifest+json", ".webmanifest")
WORKER = "phone/service-worker.js"
_STAMP = "__SHELL_VERSION__"
# What opens the phone: who it is, its units, what is unsent. The screens of the work come after it.
_OPENING = ["phone/app.js", *(f"phone/screens/{name}.js" for name in ("sign_in", "open_unit", "is_it", "phone_status"))]
# What a phone opened at a step runs first; the page names it all at once, so that it is fetched at once.
_WORKING = ["phone/app.js", "phone/fold.js", *(f"phone/screens/{name}.js" for name in ("open_unit", "unit", "step"))]


@dataclass(frozen=True)
class Shell:
    """version: `__version__-digest` of everything served under /static/ and of the shell's page; files: relative
    name → bytes; the worker's source is among them, but is served at /service-worker.js alone."""

    version: str
    files: dict[str, bytes]

    def url(self, name: str) -> str:
        """Address of a static file: `phone/app.js` → `/static/<version>/phone/app.js`."""
        return f"/static/{self.version}/{name}"

    @property
    def kept(self) -> list[str]:
        """The shell: the page, what it opens with, styles and icons. With `later` it is all that the worker keeps."""
        opening = set(imported(self.files, _OPENING))
        wanted = [n for n in self._phone() if n in opening or not n.endswith(".js")]
        return ["/", "/manifest.webmanifest", *map(self.url, wanted)]

    @property
    def later(self) -> list[str]:
        """What is kept after the shell: the modules of the work screens and the calculators."""
        opening = set(imported(self.files, _OPENING))
        return [self.url(n) for n in self._phone() if n not in opening and n.endswith(".js")]

    @property
    def first(self) -> list[str]:
        """Addresses of the modules that the page names at once; without it each is found in the one before."""
        return list(map(self.url, imported(self.files, _WORKING)))

    @property
    def worker(self) -> str:
        """The service worker's source with the version stamped in."""
        return self.files[WORKER].decode().replace(_STAMP, self.version)

    def _phone(self) -> list[str]:
        return [n for n in sorted(self.files) if n.startswith("phone/") and n != WORKER]


def load() -> Shell:
    """Read static/ once; a running server serves one version, whole."""
    files = {name: lean(body) if name.endswith(".js") else body for name, body in _files(folder("static"))}
    digest = hashlib.sha256()
    pages = _files(folder("templates") / "phone")
    for name, content in [*sorted(files.items()), *sorted(pages)]:
        digest.update(f"{name}\0{len(content)}\0".encode() + content)
    return Shell(f"{__version__}-{digest.hexdigest()[:10]}", files)


def _files(base: Path) -> list[tuple[str, bytes]]:
    return [
        (path.relative_to(base).as_posix(), path.read_bytes())
        for path in base.rglob("*")
        if path.is_file() and not path.name.startswith(".")
    ]


def kind_of(name: str) -> str:
    """Content type of a static file by its name."""
    kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
    return f"{kind}; charset=utf-8" if kind.startswith("text/") or kind.endswith(("json", "xml")) else kind
