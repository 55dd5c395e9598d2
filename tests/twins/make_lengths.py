"""Makes tests/twins/lengths.json, the cases that both twins of `lengths` are held to.

Run it from the top of the repository: `python tests/twins/make_lengths.py`. What is read right is composed
from parts, so its nanometres are worked out here and not by `lengths`; sentences come from the Python twin,
whose own rules are tested in tests/trade/test_lengths.py.
"""

import json
import random
from fractions import Fraction
from pathlib import Path

from fieldapp.trade.lengths import LengthError, fill, read, say, say_fine, say_up

FILE = Path(__file__).with_name("lengths.json")
# NIST SP 811 (2008), appendix B: 1 in = 25.4 mm, 1 ft = 0.3048 m, both exact.
NM = {"mm": 10**6, "cm": 10**7, "m": 10**9, "in": 25_400_000, "ft": 304_800_000}
WORDS = {
    "mm": ["mm", " mm", " MM", " millimetre", " millimetres", " Millimeter", "millimeters"],
    "cm": ["cm", " cm", " Cm", " centimetre", " centimetres", " centimeter", " centimeters"],
    "m": ["m", " m", " metre", " metres", " meter", " METERS"],
    "in": ["in", " in", " in.", " inch", " Inches", '"', "″", "“", "”", "''", "′′", "’’", ' "'],
    "ft": ["ft", " ft", " ft.", " foot", " FEET", "'", "′", "‘", "’", " '"],
}
VULGAR = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
DASHES = ["-", "‐", "‑", "‒", "–", "—", "−", "－"]
SPACES = [" ", "\xa0", "\u2009", "\u202f", "  "]
ZEROS = [0x660, 0x6F0, 0x966, 0x9E6, 0xE50, 0xFF10, 0x104A0, 0x1D7CE, 0x1D7F6]

REFUSED = """\
abc|NaN|inf|-inf|1e3|0x10|1_000|-|+|.|,|-.|"|'|mm|/|1/|/2|½½|1/2/4|1//2|5 yd|5 km|5 thou|5 µm|5 mm.|5 m²
毫米|1,234|-1,234|+36,125 in|36,125"|36,125 mm|999,999 ft|12,345 cm|1,234' 6"|3' 6,125"|1,234 1/2
100,000 m|36 - 1/2|36 -1/2|36- 1/2|36 - ½|36 -½ in|- 36 - 1/2 mm|0 - 1/2|-0 - 1/2|3 - 1/2 ft|3' 6 - 1/2"
1 - 63/64 cm|36 – 1/2|3 6|-3 6|3 6 in|3 6"|3 6 mm|3 6 ft|36 48|3 12|3.5 6|3 6.5|3 6 1/2|3 6 1/2 mm|3 6½
1 234 5|3 60|0 234|12 34 m|1 2 3|3 6/8 9|1 m 20 cm|1 cm 5 mm|3 in 2 ft|3 ft 2 ft|3 ft 20 cm
3 ft 6 in 2 mm|36" 1/2|1 m 20|6 in 3|1/3|⅓|36 ⅔|1/5|36 1/10|1/128|1/1|1/0|36 3/12|⅒|36 9/8|8/8|361/2
36 64/64|2/2 ft|3' 9/8"|36.5 1/2|36,5 1/2|36.5½|36. 1/2|.5 1/2 in|3.5 ft 6 in|3,5' 6|3 1/2' 6|3½ ft 6 in
½' 6|3' 12|3' 12"|3' 11 64/64"|3' 600|3ft.5|3ft.5in|-3ft.11 in|--5|+-5|-+5|- -5|+ + 5|−−5|36-6|3 - 6
36 + 1/2|3'-6-1/2-|3' - - 6|36 1 / 2|1.234,|1,234.|1,23,456|12,34,567|1,234,56|1.23.456|1 2345
12345 678 9|100.000001 m|100001|-100001|101 m|10001 cm|3938 in|329 ft|328' 11"|1,000,000|1.000.000
9999999999999999|1234567890123456|0.1234567890123456|0000000000000000|<b>9</b>|{given}|$&|1,234.5.6
1.234,5,6|5,,5|5..5|3''6''|3' 6' 2"|٣٦٫١٢٥٫١|٣٦,١٢٥|１,２３４|-½-|½ 36|36 in in|36 in mm|in 36|$36|36%
""".strip("\n").replace("\n", "|").split("|")
OTHERS = [
    "", "   ", " " * 41, "36\n1/2", "1\t234", "9\u200b14", "\\1", "914\x00", "\u202e914", "9" * 15 + "0",
    "9" * 41,
    "😀" * 40, "😀" * 41, None, True, False, [], [914], {}, {"value": 3}, 100_001, -100_000.5, 1e21, -1.25e22,
    1e300,
]


def shape(rng):
    """One text and its exact nanometres."""
    unit = rng.choice(["", *NM])
    whole = rng.randrange(0, 320)
    top, below = rng.choice([(n, d) for d in (2, 4, 8, 16, 32, 64) for n in (0, 1, d // 2, d - 1)])
    kind = rng.choice(["number", "decimal", "fraction", "mixed", "sign", "feet", "feet and mixed", "groups"])
    word = rng.choice(WORDS[unit]) if unit else ""
    if kind in ("feet", "feet and mixed"):
        return feet(rng, kind, whole, top, below)
    if kind == "groups":
        return groups(rng)
    if kind == "number":
        return f"{whole}{word}", Fraction(whole) * NM[unit or "mm"]
    if kind == "decimal":
        places = rng.randrange(1, 8)
        part = rng.randrange(10**places)
        # comma and just three digits can be read in two ways, unless nothing but a zero stands before it
        mark = "." if places == 3 and whole else rng.choice(".,")
        lead = "" if not whole and rng.random() < 0.5 else str(whole)
        value = whole + Fraction(part, 10**places)
        return f"{lead}{mark}{part:0{places}d}{word}", value * NM[unit or "mm"]
    if kind == "fraction":
        return f"{top}/{below}{word}", Fraction(top, below) * NM[unit or "in"]
    if kind == "sign":
        sign, (top, below) = rng.choice(list(VULGAR.items()))
        join = rng.choice(["", "-", *SPACES, rng.choice(DASHES)])
        return f"{whole}{join}{sign}{word}", (whole + Fraction(top, below)) * NM[unit or "in"]
    join = rng.choice([*SPACES, rng.choice(DASHES)])
    slash = rng.choice("/⁄∕")
    return f"{whole}{join}{top}{slash}{below}{word}", (whole + Fraction(top, below)) * NM[unit or "in"]


def feet(rng, kind, whole, top, below):
    inches = rng.randrange(12)
    mark = rng.choice([word for word in WORDS["ft"] if word != " ft."])
    gap = rng.choice(["", " ", "-", " - ", "- ", " -", rng.choice(DASHES)])
    end = rng.choice(["", *WORDS["in"]])
    if kind == "feet":
        part = rng.choice(["", ".5", ",25", ".0625"])
        value = inches + Fraction(part.replace(",", ".") or 0)
        return f"{whole}{mark}{gap}{inches}{part}{end}", whole * NM["ft"] + value * NM["in"]
    join = rng.choice([" ", "-"])
    return (f"{whole}{mark}{gap}{inches}{join}{top}/{below}{end}",
            whole * NM["ft"] + (inches + Fraction(top, below)) * NM["in"])


def groups(rng):
    value = rng.randrange(1000, 100_000)
    tail = rng.choice(["", "5", "25", "125", "0625"])
    separator = rng.choice([",", ".", " ", "\xa0", "\u2009", "\u202f"])
    if not tail and separator in ",.":
        separator = " "
    mark = {",": ".", ".": ","}.get(separator) or rng.choice(".,")
    text = f"{value:,}".replace(",", separator) + (mark + tail if tail else "")
    return text, (value + Fraction(int(tail or 0), 10**len(tail))) * NM["mm"]


def dressed(rng, text, nm):
    """The same with a sign, other digits, white space around it."""
    sign = rng.choice(["", "", "-", "- ", "+", "+ ", rng.choice(DASHES)])
    if rng.random() < 0.2:
        zero = rng.choice(ZEROS)
        text = "".join(chr(zero + int(c)) if c in "0123456789" else c for c in text)
    text = rng.choice(["", "", " ", "\xa0", "\n"]) + sign + text + rng.choice(["", "", " ", "\t", "\u2003"])
    return text, -nm if sign.strip() and sign.strip() != "+" else nm


def read_cases(rng, count=700):
    found = {}
    while len(found) < count:
        text, exact = dressed(rng, *shape(rng))
        if len(text) <= 40 and abs(exact) <= 10**11:
            scaled = 2 * abs(exact)
            nearest = (scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
            found[text] = -nearest if exact < 0 else nearest
    return [[text, nm] for text, nm in found.items()]


def number_cases(rng):
    exact = [[0, 0], [914, 914_000_000], [36.5, 36_500_000], [-12.7, -12_700_000], [5e-7, 1], [-5e-7, -1],
             [4.9e-7, 0], [1e-300, 0], [0.1 + 0.2, 300_000], [100_000, 10**11], [-100_000.0, -(10**11)]]
    return exact + [[n / 1000, n * 1000] for n in (rng.randrange(-10**8, 10**8) for _ in range(60))]


def noise(rng, count=500):
    """Texts of the characters that lengths are made of; few of them are lengths."""
    parts = [*"0123456789 -.,/½'\"+ ", "36", "125", "1/2", "3/4", "in", "ft", "mm"]
    return sorted({"".join(rng.choices(parts, k=rng.randrange(2, 9))) for _ in range(count)})


def answer(given):
    """The given value, then its nanometres, or the refusal."""
    try:
        return [given, read(given)]
    except LengthError as error:
        return [given, str(error), error.code, error.readings]


def say_cases(rng):
    values = [0, 0.04, 0.05, -0.04, -0.05, 0.5, 0.5000000000001, 0.4999999999999, 2.65, 2.6499999999999995,
              12.7, 914, -927.1, 1e-9, -1e-9, 0.79375, 0.396875, 0.3968749, 25.4, 25.3, 1234.5678, 99999.95,
              -25.35]
    values += [rng.uniform(-3000, 3000) for _ in range(120)] + [n * 0.79375 / 2 for n in range(-40, 40)]
    return [[mm, show, say(mm, show), say_up(mm, show), say_fine(mm, show)] for mm in values for show in ("mm", "in")]


def fill_cases():
    sentences = ["Raise the left end {by}; trim {trim^} at the {where|text}.",
                 "{p|%} of {lo|n} to {hi|n}, {t|C}", "{a.0.b} {a.0.b^} {a.0.b|fine}",
                 "{by|fine} {trim|fine}", "nothing to fill", ""]
    values = {"by": 1.5, "trim": 0.12, "where": "left {by}", "p": 40.83, "lo": 40, "hi": 49.96, "t": -2.04,
              "a.0.b": -927.1}
    return [[sentence, values, show, point, fill(sentence, values, show, point)]
            for sentence in sentences for show in ("mm", "in") for point in ".,"]


def cases():
    rng = random.Random(254)
    return {"read": read_cases(rng), "numbers": number_cases(rng),
            "refused": [answer(given) for given in REFUSED + OTHERS],
            "noise": [answer(given) for given in noise(rng)],
            "said": say_cases(rng), "filled": fill_cases()}


def written() -> str:
    lists = (f'"{name}": [\n' + ",\n".join(map(json.dumps, rows)) + "\n]" for name, rows in cases().items())
    return "{" + ",\n".join(lists) + "}\n"


if __name__ == "__main__":
    FILE.write_text(written(), encoding="ascii")
