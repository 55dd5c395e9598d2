"""The QR code of a unit's label: the address it carries, and the symbol as SVG at true size."""

from dataclasses import dataclass
from functools import lru_cache
from ipaddress import ip_address
from urllib.parse import urlsplit

import qrcode
from markupsafe import Markup
from qrcode import constants
from qrcode.exceptions import DataOverflowError

SIDE_MM = 50  # read from about 50 cm: a tenth of the distance (rule of thumb)
QUIET = 4  # modules of white on each side (ISO/IEC 18004)
# H only while its finer modules stay wide enough for a worn label; below half a millimetre a camera gives up.
_LEVELS = ((constants.ERROR_CORRECT_H, "H", 0.7), (constants.ERROR_CORRECT_Q, "Q", 0.5))


class LabelError(ValueError):
    """An address that fits no label; the text says how long it is and what would be right."""


@dataclass(frozen=True)
class Symbol:
    """text: what is encoded; level: error correction, H or Q; version: 1 to 40; rows: the modules with the quiet
    zone, True for dark."""

    text: str
    level: str
    version: int
    rows: tuple[tuple[bool, ...], ...]

    @property
    def module_mm(self) -> float:
        """Width of one module in mm."""
        return SIDE_MM / len(self.rows)

    @property
    def svg(self) -> Markup:
        """The symbol with its quiet zone, SIDE_MM wide and high, one path of dark runs on white."""
        side = len(self.rows)
        return Markup(
            '<svg class="qr" xmlns="http://www.w3.org/2000/svg" role="img" width="{mm}mm" height="{mm}mm" '
            'viewBox="0 0 {side} {side}" shape-rendering="crispEdges"><title>QR code of {text}</title>'
            '<path fill="#fff" d="M0 0h{side}v{side}h-{side}z"/><path fill="#000" d="{runs}"/></svg>'
        ).format(mm=SIDE_MM, side=side, text=self.text, runs=_runs(self.rows))


def address(origin: str, code: str) -> str:
    """What a label carries: `HTTPS://HOST[:PORT]/U/CODE`, all upper case, so that it packs as alphanumeric.

    origin: `scheme://host[:port]`; scheme and host mean the same in any case (RFC 3986, 6.2.2.1).
    """
    return f"{origin}/U/{code}".upper()


def leads_here_only(origin: str) -> bool:
    """Whether the origin's host is a loopback name (RFC 6761, 6.3) or address, so that no other machine gets there."""
    host = (urlsplit(origin).hostname or "").rstrip(".")
    if host == "localhost" or host.endswith(".localhost"):
        return True
    try:
        found = ip_address(host)
    except ValueError:
        return False
    return found.is_loopback or found.is_unspecified


@lru_cache(maxsize=512)
def symbol(text: str) -> Symbol:
    """The QR code of `text`, at the highest error correction whose modules are wide enough. Raises LabelError."""
    for level, name, least_mm in _LEVELS:
        code = qrcode.QRCode(error_correction=level, border=QUIET)
        code.add_data(text, optimize=0)  # one run: alphanumeric where every letter allows it
        try:
            code.make(fit=True)
        except (DataOverflowError, ValueError):  # over version 40: which of the two depends on how far
            continue
        rows = tuple(tuple(bool(module) for module in row) for row in code.get_matrix())
        if SIDE_MM / len(rows) >= least_mm:
            return Symbol(text, name, code.version, rows)
    raise LabelError(
        f"a label's address has {len(text)} letters; up to about 500 fit {SIDE_MM} mm: "
        "give FIELDAPP_ADDRESS a shorter name"
    )


def _runs(rows: tuple[tuple[bool, ...], ...]) -> str:
    """Path of the dark modules, one rectangle for each run in a row."""
    parts = []
    for y, row in enumerate(rows):
        x = 0
        while x < len(row):
            width = 0
            while x + width < len(row) and row[x + width]:
                width += 1
            if width:
                parts.append(f"M{x} {y}h{width}v1h-{width}z")
            x += width + 1
    return "".join(parts)
