"""Codes of units: what a label carries and what people type.

32 letters (no I, L, O, U); a label's code is 10 of them, 50 random bits. The short code is 4 letters and a check
character c = a·d0 + a²·d1 + a³·d2 + a⁴·d3 over the field of 32 elements (a a root of x⁵ + x² + 1): it catches every
wrong letter and every swap of two. (General coding theory: a Reed-Solomon parity symbol.)
"""

import hashlib
import re
import secrets

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
CODE_LENGTH = 10
_MAPPED = str.maketrans("OIL", "011")
_OTHER = re.compile(r"[^0-9A-Z]")


def _doubled(element: int) -> int:
    """a · element in the field of 32."""
    element <<= 1
    return element ^ 0b100101 if element & 32 else element


def check_letter(four: str) -> str:
    """The check character of four letters: 7K3M gives Q."""
    total = 0
    for place, letter in enumerate(four, 1):
        element = LETTERS.index(letter)
        for _ in range(place):
            element = _doubled(element)
        total ^= element
    return LETTERS[total]


def tidy(typed: str) -> str:
    """What was typed or scanned, in our letters: case, spaces and dashes do not matter, o is 0, i and l are 1."""
    return _OTHER.sub("", typed.upper().translate(_MAPPED))


def short_adds_up(short: str) -> bool:
    """Whether a tidy short code is five of our letters and its check character fits."""
    return len(short) == 5 and all(c in LETTERS for c in short) and check_letter(short[:4]) == short[4]


def shown(short: str) -> str:
    """A short code as people read it: 7K3-MQ."""
    return f"{short[:3]}-{short[3:]}"


def new_code(seed: str | None = None) -> str:
    """A label's code: random, or always the same from a seed text."""
    return _letters(CODE_LENGTH, seed)


def new_short(seed: str | None = None) -> str:
    """A short code with its check character: random, or always the same from a seed text."""
    four = _letters(4, seed and f"short {seed}")
    return four + check_letter(four)


def _letters(count: int, seed: str | None) -> str:
    raw = secrets.token_bytes(count) if seed is None else hashlib.sha256(seed.encode()).digest()[:count]
    return "".join(LETTERS[byte % 32] for byte in raw)
