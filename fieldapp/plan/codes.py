"""The two codes of a unit: the label's ten letters, and the short one that a person types.

Alphabet: the digits and A to Z without I, L, O, U: 32 letters, so one letter carries 5 bits and the label's ten
carry 50. The short code is four letters and a check character. Reading the 32 letters as the elements of the
field of 2^5 (x^5 + x^2 + 1), the five letters c0…c4 of a right code fulfil c0·1 + c1·2 + c2·4 + c3·8 + c4·16 = 0.
The five weights differ and none is zero, so any one wrong letter and any swap of two letters breaks the sum.
Its twin is static/phone/codes.js.
"""

import secrets
from collections.abc import Callable, Container

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LABEL_LETTERS = 10
SHORT_LETTERS = 5
WEIGHTS = (1, 2, 4, 8, 16)
_REDUCE = 0b100101
_LOOKALIKES = {"O": "0", "I": "1", "L": "1"}


def multiply(a: int, b: int) -> int:
    """The product of two elements (0 … 31) of the field of 2^5."""
    product = 0
    while b:
        if b & 1:
            product ^= a
        a <<= 1
        if a & 32:
            a ^= _REDUCE
        b >>= 1
    return product


def _sum(letters: str) -> int:
    total = 0
    for letter, weight in zip(letters, WEIGHTS, strict=False):
        total ^= multiply(ALPHABET.index(letter), weight)
    return total


def with_check(four: str) -> str:
    """`four` letters of ALPHABET and their check character: five letters."""
    wanted = _sum(four)
    last = next(n for n in range(32) if multiply(n, WEIGHTS[4]) == wanted)
    return four + ALPHABET[last]


def normalise(typed: str) -> str:
    """What a person typed, as code letters: capitals, O read as 0, I and L as 1, spaces and dashes dropped."""
    kept = (letter for letter in typed.upper() if not letter.isspace() and letter not in "-‐‑‒–—−.")
    return "".join(_LOOKALIKES.get(letter, letter) for letter in kept)


def check(typed: str) -> str | None:
    """The five letters of a right short code, however it was typed; None when it does not add up."""
    letters = normalise(typed)
    if len(letters) != SHORT_LETTERS or any(letter not in ALPHABET for letter in letters):
        return None
    return letters if _sum(letters) == 0 else None


def shown(short: str) -> str:
    """`7K3MQ` as it is printed: `7K3-MQ`."""
    return f"{short[:3]}-{short[3:]}"


def new_label(taken: Container[str] = (), pick: Callable[[str], str] = secrets.choice) -> str:
    """A label code that is not in `taken`. It says nothing about job, customer or order."""
    return _new(lambda: "".join(pick(ALPHABET) for _ in range(LABEL_LETTERS)), taken)


def new_short(taken: Container[str] = (), pick: Callable[[str], str] = secrets.choice) -> str:
    """A short code that is not in `taken`, check character included."""
    return _new(lambda: with_check("".join(pick(ALPHABET) for _ in range(SHORT_LETTERS - 1))), taken)


def _new(make: Callable[[], str], taken: Container[str]) -> str:
    while (code := make()) in taken:
        pass
    return code
