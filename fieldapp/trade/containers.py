"""Container numbers: ISO 6346 check digit, and the slips that would mend a wrong one.

Letters A 10, B 12 … Z 38 without 11, 22, 33; sum of value * 2^i from the left, i = 0 … 9; modulo 11; 10
counts as 0 (ISO 6346, seen at prefixlist.com/?p=1055). Which characters are taken for each other: own list.
"""

from typing import Any

from fieldapp.trade.estimate import digits
from fieldapp.trade.lengths import shown

Json = dict[str, Any]

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MODULUS = 11
_NUMBERS = [n for n in range(10, 39) if n % MODULUS]
VALUES: dict[str, int] = {str(n): n for n in range(10)} | dict(zip(LETTERS, _NUMBERS, strict=True))
IGNORED = " \t\r\n\u00a0\u2007\u2009\u202f.-\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
PARTS: list[Json] = [
    {"name": "owner", "from": 0, "to": 3, "of": "letters"},
    {"name": "category", "from": 3, "to": 4, "of": "letters", "one_of": "UJZ"},
    {"name": "serial", "from": 4, "to": 10, "of": "digits"},
    {"name": "check_digit", "from": 10, "to": 11, "of": "digits"},
]
LOOK_ALIKES = ("O0", "I1", "Z2", "S5", "G6", "B8")
MISREAD = ("17", "38", "56", "06", "08", "68", "09", "49", "89", "35")
WANTED = ("three letters of the owner, U, J or Z, six digits, and the check digit if it can be read: "
          "CSQU3054383")
SAYS = {
    "right": "{text|text}: the check digit agrees.",
    "no_digit": "{text|text}: its check digit would be {digit|text}. Read the one on the box.",
    "letters": "{text|text}: its first four characters are letters.",
    "digits": "{text|text}: what follows the fourth letter is digits.",
    "category": "{text|text}: the fourth letter is U, J or Z.",
    "check_digit": "{text|text}: its check digit would be {digit|text}, not {given|text}. Read it again, "
                   "every character.",
    "likely": "Perhaps {text|text}: {how|text}.",
    "ten": "Its sum leaves 10, which counts as 0: the standard advises against such numbers, so read it "
           "again.",
    "proof": "A right number does not prove that the box exists, or that it is this one.",
    "unreadable": "“{text|text}” is no container number: it has " + WANTED + ".",
}
HOWS = {"look_alike": "a letter taken for a digit, or a digit for a letter", "swap": "two neighbours swapped",
        "misread": "one digit misread", "check_digit": "the check digit misread"}


def sheet(name: str = "container") -> Json:
    """The digit sheet of a container's identification: input and judged quantity `identification`."""
    return {"name": name, "kind": "digit", "source": "ISO 6346",
            "inputs": [{"name": "identification", "say": "Container number"}],
            "judged": [{"what": "identification", "say": "Container number"}],
            "ignored": IGNORED, "values": VALUES, "weights": [2**i for i in range(10)], "modulus": MODULUS,
            "counts_as": {"10": 0}, "parts": PARTS, "look_alikes": [list(pair) for pair in LOOK_ALIKES],
            "misread": [list(pair) for pair in MISREAD], "misread_in": "serial", "says": SAYS, "hows": HOWS}


def fault(identification: str) -> str | None:
    """Why a text cannot be read as ten or eleven characters A-Z, 0-9; None where it can."""
    if digits.read(sheet(), identification) is not None:
        return None
    return f"{shown(identification)} is no container number: it has {WANTED}"


def container(given: Json) -> Json:
    """Whether an identification is right, and what it may have been (contract: container).

    given: identification, a text for which `fault` is None.
    """
    found = digits.answer(sheet(), {"inputs": {"identification": given["identification"]}})
    kept = ("owner", "category", "serial", "check_digit", "given", "valid", "remainder", "because", "likely",
            "say")
    return {key: found[key] for key in kept}
