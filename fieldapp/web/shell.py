"""The phone's shell: its version, the files it is made of, and serving them."""

import hashlib
import mimetypes
from dataclasses import dataclass
from pathlib import Path

from .. import __version__
from ..places import folder
from .shell_join import in_order, joined, module, stub
from .shell_modules import lean

mimetypes.add_type("text/javascript", ".js")
mimetypes.add_type("application/manifest+json", ".webmanifest")
WORKER = "phone/service-worker.js"
_PHONE = "phone/"
_STAMP = "__SHELL_VERSION__"
# The files that the phone's modules go out in, each with the modules that it is made for (and what they import, where
# no file before has it): what opens the phone; what a phone opened at a step runs; everything else.
_FILES = {
    "opening": ("app", "screens/sign_in", "screens/open_unit", "screens/is_it", "screens/phone_status"),
    "working": ("fold", "screens/unit", "screens/step"),
    "rest": (),
}


def _file(kind: str) -> str:
    return f"joined_{kind}.js"


def _served(kind: str) -> list[str]:
    return [_PHONE + _file(kind), *(f"{_PHONE}{name}.js" for name in _FILES[kind])]


_OPENING = _served("opening")
_WORKING = [_OPENING[0], _served("working")[0], f"{_PHONE}screens/step.js"]


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
        wanted = [n for n in self._phone() if n in _OPENING or not n.endswith(".js")]
        return ["/", "/manifest.webmanifest", *map(self.url, wanted)]

    @property
    def later(self) -> list[str]:
        """What is kept after the shell: the files of the work, and the screens' own addresses, by which the running
        phone asks for them. Every other module is served at its address, but no phone asks for it there."""
        asked = (_PHONE + "joined_", _PHONE + "screens/")
        return [self.url(n) for n in self._phone() if n not in _OPENING and n.endswith(".js") and n.startswith(asked)]

    @property
    def first(self) -> list[str]:
        """Addresses of the modules that the page names at once; without it each is found in the one before."""
        return list(map(self.url, _WORKING))

    @property
    def worker(self) -> str:
        """The service worker's source with the version stamped in."""
        return self.files[WORKER].decode().replace(_STAMP, self.version)

    def _phone(self) -> list[str]:
        return [n for n in sorted(self.files) if n.startswith("phone/") and n != WORKER]


def load() -> Shell:
    """Read static/ once; a running server serves one version, whole."""
    files = dict(_files(folder("static")))
    files |= _together({n.removeprefix(_PHONE): lean(files[n]).decode() for n in files if _is_module(n)})
    digest = hashlib.sha256()
    pages = _files(folder("templates") / "phone")
    for name, content in [*sorted(files.items()), *sorted(pages)]:
        digest.update(f"{name}\0{len(content)}\0".encode() + content)
    return Shell(f"{__version__}-{digest.hexdigest()[:10]}", files)


def _is_module(name: str) -> bool:
    return name.startswith(_PHONE) and name.endswith(".js") and name != WORKER


def _together(sources: dict[str, str]) -> dict[str, bytes]:
    """The few files that hold all modules, and a stub at each module's own address."""
    modules = {name: module(name, source) for name, source in sources.items()}
    held: dict[str, str] = {}
    for kind, made_for in _FILES.items():
        roots = [f"{name}.js" for name in made_for] or sorted(modules)
        held |= {name: _file(kind) for name in in_order(modules, roots) if name not in held}
    served = {_file(kind): joined(modules, _file(kind), held) for kind in _FILES}
    served |= {name: stub(modules[name], held[name]) for name in modules}
    return {_PHONE + name: text.encode() for name, text in served.items()}


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
