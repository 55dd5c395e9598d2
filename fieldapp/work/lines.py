"""One JSON object out of bytes, strictly: what cannot be read is said in a sentence, and never raises anything else.

Refused: not UTF-8, not JSON, not an object, longer than 1 MiB, deeper than 20, a field twice, NaN or Infinity,
half a surrogate pair.
"""

import json
import re
from typing import Any, NoReturn

from fieldapp.trade.lengths import shown

MOST_BYTES = 1 << 20
MOST_DEPTH = 20
MOST_DIGITS = 100  # a whole number longer than that is kept as a float, to be refused where it stands
RIGHT = "one JSON object would be right"
TOO_LONG = f"more than {MOST_BYTES} bytes given; at most {MOST_BYTES} would be right"
# an unfinished text runs to the end, or looking for its end would start anew at every quotation mark
_BRACKETS = re.compile(r'"(?:[^"\\]|\\.)*(?:"|\\?\Z)|[\[\]{}]', re.DOTALL)
_HALF = re.compile("[\ud800-\udfff]")


class LineError(ValueError):
    """A line that cannot be read; the text says what was given and what would be right."""


def parse(raw: bytes) -> dict[str, Any]:
    """The object that a line holds. Raises LineError, and nothing else."""
    if len(raw) > MOST_BYTES:
        raise LineError(TOO_LONG)
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise LineError(f"byte {fault.start} is not UTF-8; {RIGHT}") from None
    if _too_deep(text):
        raise LineError(f"deeper than {MOST_DEPTH}: {shown(text.strip())} given; {RIGHT}, at most that deep")
    return _object(text)


def _object(text: str) -> dict[str, Any]:
    try:
        found = json.loads(text, object_pairs_hook=_pairs, parse_constant=_constant, parse_int=_whole)
    except json.JSONDecodeError as fault:
        where = f"{fault.msg[:1].lower()}{fault.msg[1:].removesuffix(' at')} at character {fault.pos + 1}"
        raise LineError(f"{shown(text.strip()) or 'nothing'} is not JSON ({where}); {RIGHT}") from None
    if not isinstance(found, dict):
        raise LineError(f"{shown(text.strip())} is no object; {RIGHT}")
    if _HALF.search(json.dumps(found, ensure_ascii=False)):
        raise LineError("a text holds half a surrogate pair; whole characters would be right")
    return found


def _too_deep(text: str) -> bool:
    """Whether brackets are nested deeper than is taken, those inside texts left out."""
    depth = 0
    for found in _BRACKETS.finditer(text):
        if found[0] in "[{":
            depth += 1
            if depth > MOST_DEPTH:
                return True
        elif found[0] in "]}":
            depth -= 1
    return False


def _pairs(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for name, value in pairs:
        if name in made:
            raise LineError(f"the field {shown(name)} is given twice; once would be right")
        made[name] = value
    return made


def _constant(word: str) -> NoReturn:
    raise LineError(f"{word} given, which is no JSON number; a finite number would be right")


def _whole(digits: str) -> int | float:
    return int(digits) if len(digits) <= MOST_DIGITS else float(digits)
