"""How a length is said: to 0.1 mm or to 1/32 in (a calliper's to 0.001 in), and in the sentences of sheets.

Twin: static/phone/lengths_say.js. Everything rounds from whole nanometres, halves away from zero, so that
server and phone, whose figures agree to about 1e-9 mm, say the same.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from .lengths_amount import mixed
from .lengths_text import number_text, shown

Show = Literal["mm", "in"]

NM_PER_MM = 1_000_000
_NM_PER_32ND = 793_750
_NM_PER_THOUSANDTH = 25_400
_SPACE, _MINUS = "\xa0", "−"
_PLACE = re.compile(r"\{([^{}^|]+)(\^|\|[^{}]*)?\}")


def say(mm: float, show: Show, point: str = ".") -> str:
    """A length in mm as people read it, `36.5 mm` or `1 7/16 in`, with no-break spaces and a minus sign."""
    if _metric(show):
        return _decimal(mm, point) + _SPACE + "mm"
    return _thirty_seconds(_away(_nm(mm), _NM_PER_32ND))


def say_up(mm: float, show: Show, point: str = ".") -> str:
    """The same, rounded up to the next 0.5 mm or 1/32 in; what lies on a step stays there."""
    if _metric(show):
        return _tenths(5 * _up(_nm(mm), NM_PER_MM // 2), point) + _SPACE + "mm"
    return _thirty_seconds(_up(_nm(mm), _NM_PER_32ND))


def say_fine(mm: float, show: Show, point: str = ".") -> str:
    """What a calliper or a gauge reads, to 0.1 mm or 0.001 in: of a grip, a hole or a seal 1/32 in says too little."""
    if _metric(show):
        return say(mm, show, point)
    count = _away(_nm(mm), _NM_PER_THOUSANDTH)
    whole, rest = divmod(abs(count), 1000)
    return (_MINUS if count < 0 else "") + f"{whole}{point}{rest:03}{_SPACE}in"


def fill(sentence: str, values: Mapping[str, float | str], show: Show, point: str = ".") -> str:
    """A sheet's sentence with its places filled; `point` is the language's decimal mark.

    `{name}` is a length in mm, `{name^}` one rounded up (`say_up`), `{name|fine}` one that a calliper reads
    (`say_fine`), `{name|%}` a percentage and `{name|C}` degrees Celsius to 0.1, `{name|n}` a bare number to 0.1,
    `{name|text}` a text as given. Raises ValueError for an unknown name, an unknown kind of place, a brace that is
    no place, and a value of the wrong kind.
    """
    if re.search("[{}]", _PLACE.sub("", sentence)):
        raise ValueError(f"a brace that is no place in “{sentence}”: write places as {{name}}")
    return _PLACE.sub(lambda found: _filled(found[1], found[2] or "", values, show, point), sentence)


def _filled(name: str, how: str, values: Mapping[str, float | str], show: Show, point: str) -> str:
    if name not in values:
        raise ValueError(f"no value for {{{name}}}; there are: {', '.join(sorted(values)) or 'none'}")
    value = values[name]
    if how == "|text":
        if not isinstance(value, str):
            raise ValueError(f"{{{name}{how}}} takes a text, not {shown(value)}")
        return value
    if isinstance(value, (str, bool)) or not isinstance(value, (int, float)):
        raise ValueError(f"{{{name}{how}}} takes a number, not {shown(value)}")
    match how:
        case "":
            return say(value, show, point)
        case "^":
            return say_up(value, show, point)
        case "|fine":
            return say_fine(value, show, point)
        case "|%":
            return _decimal(value, point) + _SPACE + "%"
        case "|C":
            return _decimal(value, point) + _SPACE + "°C"
        case "|n":
            return _decimal(value, point)
    raise ValueError(f"{{{name}{how}}} is no place: after the name comes ^, |fine, |%, |C, |n, |text or nothing")


def round_away(value: Fraction) -> int:
    """The nearest whole number, a half away from zero."""
    size = (2 * abs(value.numerator) + value.denominator) // (2 * value.denominator)
    return -size if value < 0 else size


def _metric(show: Show) -> bool:
    if show not in ("mm", "in"):
        raise ValueError(f"show is mm or in, not {shown(show)}")
    return show == "mm"


def _nm(mm: float) -> int:
    """Whole millionths of a number."""
    text = number_text(mm)
    if text.endswith(("NaN", "Infinity")):
        raise ValueError(f"{text} cannot be said: give a finite number")
    return round_away(Fraction(text) * NM_PER_MM)


def _away(nm: int, step: int) -> int:
    return round_away(Fraction(nm, step))


def _up(nm: int, step: int) -> int:
    return -(-nm // step)


def _decimal(value: float, point: str) -> str:
    return _tenths(_away(_nm(value), NM_PER_MM // 10), point)


def _tenths(tenths: int, point: str) -> str:
    whole, rest = divmod(abs(tenths), 10)
    return (_MINUS if tenths < 0 else "") + str(whole) + (f"{point}{rest}" if rest else "")


def _thirty_seconds(count: int) -> str:
    return mixed(Fraction(count, 32)).replace("-", _MINUS).replace(" ", _SPACE) + _SPACE + "in"
