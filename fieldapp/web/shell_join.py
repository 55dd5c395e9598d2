"""The phone's small modules as the few files that go over the wire.

A slow phone pays for every file (some 12 ms each at a processor four times slower), not for its length: a hundred small
modules would keep a lead waiting for seconds. So the server puts modules together once, when it starts, and serves in
each one's own place a stub that passes its exports on: an address still leads to the one instance of its module.
Nothing is shortened or renamed, and only the forms of import and export named here are taken; a test holds the sources
to them.
"""

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

_FROM = r"""\s+from\s+["'](\.[^"']+)["'];[ \t]*$"""
_NAMES = re.compile(r"^import\s+\{([^}]*)\}" + _FROM, re.MULTILINE)
_WHOLE = re.compile(r"^import\s+\*\s+as\s+([\w$]+)" + _FROM, re.MULTILINE)
_PASSED = re.compile(r"^export\s+\{([^}]*)\}" + _FROM, re.MULTILINE)
_LISTED = re.compile(r"^export\s+\{([^}]*)\};[ \t]*$", re.MULTILINE)
_MADE = re.compile(r"^export\s+(?=(?:async\s+function|function\*?|const|class)\s+([\w$]+))", re.MULTILINE)
_LATE = re.compile(r"""\bimport\(["'](\.[^"']+)["']\)""")
_NAMED_LATE = re.compile(r"\bimport\(`\./")
# A browser that knows this line compiles the whole file while it is read, on another core; for others it is a comment.
_EAGER = "//# allFunctionsCalledOnLoad"
_LEFT = re.compile(r"^(?:import\b(?!\()|export\b).*", re.MULTILINE)


@dataclass(frozen=True)
class Module:
    """needs: the modules it imports; exports: exported name → how it is called inside; code: its text in a function."""

    name: str
    needs: tuple[str, ...]
    exports: Mapping[str, str]
    code: str

    @property
    def held(self) -> str:
        """The name that its exports have in the file it is put into."""
        return _held(self.name)


def _held(name: str) -> str:
    return "$" + re.sub(r"\W", "_", name.removesuffix(".js"))


def module(name: str, source: str) -> Module:
    """One module, read. Raises ValueError, showing the line, for a form of import or export that is not taken."""
    needs: dict[str, None] = {}
    exports: dict[str, str] = {}

    def held(path: str) -> str:
        found = posixpath.normpath(posixpath.join(posixpath.dirname(name), path))
        needs[found] = None
        return _held(found)

    def names(match: re.Match[str]) -> str:
        taken = (f"{theirs}: {ours}" for theirs, ours in _pairs(match[1]))
        return f"const {{ {', '.join(taken)} }} = {held(match[2])};"

    def passed(match: re.Match[str]) -> str:
        exports.update((outside, f"{held(match[2])}.{inside}") for inside, outside in _pairs(match[1]))
        return ""

    def listed(match: re.Match[str]) -> str:
        exports.update((outside, inside) for inside, outside in _pairs(match[1]))
        return ""

    def made(match: re.Match[str]) -> str:
        exports[match[1]] = match[1]
        return ""

    code = _WHOLE.sub(lambda match: f"const {match[1]} = {held(match[2])};", _NAMES.sub(names, source))
    code = _MADE.sub(made, _LISTED.sub(listed, _PASSED.sub(passed, code)))
    if left := _LEFT.search(code):
        raise ValueError(f"{name}: {left[0][:80]!r} is no form that shell_join takes: see the other modules")
    here = posixpath.join(".", posixpath.dirname(name), "")
    return Module(name, tuple(needs), exports, _NAMED_LATE.sub(f"import(`{here}", code))


def _pairs(listed: str) -> Iterator[tuple[str, str]]:
    """`a, b as c` → (a, a), (b, c)."""
    for part in filter(None, map(str.strip, listed.split(","))):
        first, *rest = part.split(" as ")
        yield first.strip(), rest[0].strip() if rest else first.strip()


def in_order(modules: Mapping[str, Module], roots: Iterable[str]) -> list[str]:
    """`roots` and all that they import, each after what it imports. Raises ValueError for a circle."""
    order: dict[str, None] = {}

    def visit(name: str, way: tuple[str, ...]) -> None:
        if name in way:
            raise ValueError(f"modules import each other in a circle: {' -> '.join([*way, name])}")
        if name not in order:
            for needed in modules[name].needs:
                visit(needed, (*way, name))
            order[name] = None

    for root in roots:
        visit(root, ())
    return list(order)


def joined(modules: Mapping[str, Module], file: str, held: Mapping[str, str]) -> str:
    """The text of `file`, which holds the modules that `held` (module → its file) gives it, in that order."""
    inside = [modules[name] for name, its_file in held.items() if its_file == file]
    elsewhere = {n: held[n] for module in inside for n in module.needs if held[n] != file}
    parts = [_EAGER]
    for other in sorted(set(elsewhere.values())):
        names = sorted(modules[n].held for n, its_file in elsewhere.items() if its_file == other)
        parts.append(f'import {{ {", ".join(names)} }} from "./{other}";')
    for one in inside:
        exports = ", ".join(f"{outside}: {within}" for outside, within in one.exports.items())
        parts.append(f"const {one.held} = (() => {{\n{_late(modules, one, held)}\nreturn {{ {exports} }};\n}})();")
    parts.append(f"export {{ {', '.join(one.held for one in inside)} }};")
    return "\n".join(parts) + "\n"


def _late(modules: Mapping[str, Module], one: Module, held: Mapping[str, str]) -> str:
    """`one`'s code; what it fetches by its name while it runs comes from the file that holds it."""

    def fetched(match: re.Match[str]) -> str:
        name = posixpath.normpath(posixpath.join(posixpath.dirname(one.name), match[1]))
        return f'import("./{held[name]}").then((file) => file.{modules[name].held})'

    return _LATE.sub(fetched, one.code)


def stub(found: Module, file: str) -> str:
    """What stands at a module's own address: its exports, from the file that holds it."""
    up = "../" * found.name.count("/") or "./"
    if not found.exports:
        return f'import "{up}{file}";\n'
    names = ", ".join(found.exports)
    return f'import {{ {found.held} }} from "{up}{file}";\nexport const {{ {names} }} = {found.held};\n'
