"""Container numbers: published identifications of ISO 6346."""

from itertools import product

import pytest

from fieldapp.trade import containers

# lobster-world: CSQU305438 -> 3; prefixlist.com/?p=1055: MWCU605978 -> 4, sum 7858; packagist.org
# stormpat/container-validator: TEXU3070079; libraries.io/npm/is-container: MSKU6011672, CMAU5110875;
# github.com/langerheiko/Calc-ILU-check-digit: ZEPU0037255
PUBLISHED = ["CSQU3054383", "MWCU6059784", "TEXU3070079", "MSKU6011672", "CMAU5110875", "ZEPU0037255"]


def answer(text):
    return containers.container({"identification": text})


def by_hand(ten):
    """Another route to the remainder: the letters' values written out, Horner from the right."""
    written = [
        "0",
        "1",
        "2",
        "3",
        "4",
        "5",
        "6",
        "7",
        "8",
        "9",
        "A10",
        "B12",
        "C13",
        "D14",
        "E15",
        "F16",
        "G17",
        "H18",
        "I19",
        "J20",
        "K21",
        "L23",
        "M24",
        "N25",
        "O26",
        "P27",
        "Q28",
        "R29",
        "S30",
        "T31",
        "U32",
        "V34",
        "W35",
        "X36",
        "Y37",
        "Z38",
    ]
    values = {word[0]: int(word) if word[0].isdigit() else int(word[1:]) for word in written}
    total = 0
    for c in reversed(ten):
        total = 2 * total + values[c]
    return total % 11


@pytest.mark.parametrize("text", PUBLISHED)
def test_published_identifications_are_right(text):
    found = answer(text)
    assert (found["valid"], found["because"], found["likely"]) == (True, [], [])
    assert found["check_digit"] == found["given"] == int(text[-1])
    assert found["remainder"] == by_hand(text[:10])
    assert answer(text[:10]) | {"say": []} == found | {"given": None, "valid": None, "say": []}


def test_the_published_sums():
    # prefixlist.com/?p=1055: 24+70+52+256+96+0+320+1152+1792+4096 = 7858; lobster-world: 6185
    for ten, total in (("MWCU605978", 7858), ("CSQU305438", 6185)):
        assert sum(containers.VALUES[c] * 2**i for i, c in enumerate(ten)) == total


def test_a_wrong_published_one_and_what_would_mend_it():
    # packagist.org stormpat/container-validator names TEXU3070070 as the wrong form of TEXU3070079
    found = answer("texu 307007-0")
    assert (found["valid"], found["because"], found["check_digit"], found["given"]) == (False, ["check_digit"], 9, 0)
    assert found["likely"][-1] == {"identification": "TEXU3070079", "how": "check_digit"}


def slips(text):
    """Everything one slip away, by brute force over all texts that differ as the contract says."""
    alike, misread = ["O0", "I1", "Z2", "S5", "G6", "B8"], ["17", "38", "56", "06", "08", "68", "09", "49", "89", "35"]
    to_digit = {pair[0]: pair[1] for pair in alike}
    to_letter = {pair[1]: pair[0] for pair in alike}
    letters = "".join(to_letter.get(c, c) if c.isdigit() else c for c in text[:4])
    digits = "".join(to_digit.get(c, c) if c.isalpha() else c for c in text[4:])
    found = {letters + digits: "look_alike"}
    for i in range(10):
        found.setdefault(text[:i] + text[i + 1] + text[i] + text[i + 2 :], "swap")
    for i, pair in product(range(4, 10), misread):
        for one, other in (pair, pair[::-1]):
            if text[i] == one:
                found.setdefault(text[:i] + other + text[i + 1 :], "misread")
    for digit in "0123456789":
        found.setdefault(text[:10] + digit, "check_digit")
    return {slipped: how for slipped, how in found.items() if slipped != text and is_right(slipped)}


def is_right(text):
    form = text[:4].isalpha() and text[3] in "UJZ" and text[4:].isdigit()
    return form and by_hand(text[:10]) % 10 == int(text[10])


@pytest.mark.parametrize(
    "text",
    [
        "CSQU3054338",
        "C5QU3054383",
        "CSQU3O5438B",
        "CSQ3U054383",
        "TEXU3070070",
        "SCQU3054383",
        "MSKU6011612",
        "CSQX3054383",
        "0SQU305A383",
        "CSQU305438S",
        "CSQU305438X",
    ],
)
def test_likely_is_what_brute_force_finds(text):
    found = answer(text)
    assert found["valid"] is False
    assert {one["identification"]: one["how"] for one in found["likely"]} == slips(text)
    order = ["look_alike", "swap", "misread", "check_digit"]
    assert [one["how"] for one in found["likely"]] == sorted((one["how"] for one in found["likely"]), key=order.index)


@pytest.mark.parametrize(
    ("text", "because"),
    [
        ("C5QU3054383", ["letters"]),
        ("CSQU3O54383", ["digits"]),
        ("CSQX3054383", ["category"]),
        ("C5QXA054383", ["letters", "digits", "category"]),
        ("CSQU305438X", ["digits"]),
        ("CSQ13054383", ["letters"]),
    ],
)
def test_what_is_wrong_with_the_form(text, because):
    found = answer(text)
    assert (found["valid"], found["because"]) == (False, because)
    assert (found["check_digit"], found["given"], found["remainder"]) == (None, None, None)


def test_a_remainder_of_ten_counts_as_nought_and_is_said():
    ten = next(f"CSQU{n:06}" for n in range(1000) if by_hand(f"CSQU{n:06}") == 10)
    found = answer(ten + "0")
    assert (found["valid"], found["remainder"], found["check_digit"]) == (True, 10, 0)
    assert any("advises against" in sentence for sentence in found["say"])
    assert any("does not prove" in sentence for sentence in found["say"])


@pytest.mark.parametrize(
    "text", ["CSQU30543", "CSQU30543833", "CSQU305438é", "ſSQU3054383", "１２３U3054383", "---", "CSQU_3054383"]
)
def test_what_cannot_be_read(text):
    assert containers.fault(text)


@pytest.mark.parametrize("text", [" csqu-305.438 3 ", "CSQU–305438‑3", "CSQU\u00a0305438\u202f3"])
def test_spaces_dashes_and_case_do_not_matter(text):
    assert containers.fault(text) is None
    assert answer(text)["valid"] is True
