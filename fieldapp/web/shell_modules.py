"""The phone's modules as they go over the wire: without comments, and which of them are wanted first."""

import posixpath
import re
from collections.abc import Iterable, Mapping

_STATIC_IMPORT = re.compile(rb"""\b(?:from|import)\s+["'](\.[^"']+)["']""")
_BLOCK = re.compile(rb"^[ \t]*/\*.*?\*/[ \t]*\n", re.DOTALL | re.MULTILINE)
_LINE = re.compile(rb"^[ \t]*//.*\n", re.MULTILINE)
_LICENCE = re.compile(rb"\A/\*[^\n]*\*/\n")
_INDENT = re.compile(rb"^[ \t]+", re.MULTILINE)


def lean(source: bytes) -> bytes:
    """A module without indentation and without comments that have lines of their own, but for a licence's in line 1.

    No text of ours spans lines (a test holds that), so every line's beginning is code.
    """
    licence = _LICENCE.match(source)
    head = licence[0] if licence else b""
    return head + _INDENT.sub(b"", _LINE.sub(b"", _BLOCK.sub(b"", source[len(head) :])))


def imported(files: Mapping[str, bytes], roots: Iterable[str]) -> list[str]:
    """`roots` and every module that they import statically, each before what it imports."""
    found: dict[str, None] = {}
    waiting = list(roots)
    while waiting:
        name = waiting.pop(0)
        if name in found or name not in files:
            continue
        found[name] = None
        base = posixpath.dirname(name)
        waiting += [posixpath.normpath(f"{base}/{path.decode()}") for path in _STATIC_IMPORT.findall(files[name])]
    return list(found)
