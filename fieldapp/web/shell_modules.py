"""The phone's modules as they go over the wire: without comments."""

import re

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
