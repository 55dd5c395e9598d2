"""Codes: every wrong letter and every swap of neighbours is caught, on both sides (offline.md 89)."""

from itertools import product

from fieldapp.store import codes

SOME = [codes.new_short(f"some {n}") for n in range(60)]


def wrong_by_one(code):
    return [
        code[:at] + letter + code[at + 1 :] for at, letter in product(range(5), codes.LETTERS) if letter != code[at]
    ]


def swapped(code):
    return [code[:at] + code[at + 1] + code[at] + code[at + 2 :] for at in range(4) if code[at] != code[at + 1]]


def test_any_wrong_letter_and_any_swap_of_neighbours_is_caught():
    for code in SOME:
        assert codes.short_adds_up(code)
        for wrong in wrong_by_one(code) + swapped(code):
            assert not codes.short_adds_up(wrong), (code, wrong)


def test_the_phone_says_the_same(module_page):
    typed = [
        *SOME,
        *wrong_by_one(SOME[0]),
        *swapped(SOME[1]),
        SOME[2].lower(),
        f"{SOME[3][:3]}-{SOME[3][3:]}",
        "",
        "U0000",
        "o1l-00",
        "00000",
        "7k3 mq",
        "7K3-MR",
    ]
    tidy = [codes.tidy(text) for text in typed]
    assert module_page.call("phone/codes.js", "normalise", [[text] for text in typed]) == tidy
    there = module_page.call("phone/codes.js", "check", [[text] for text in typed])
    assert there == [text if codes.short_adds_up(text) else None for text in tidy]
    assert module_page.call("phone/codes.js", "shown", [["7K3MQ"]]) == [codes.shown("7K3MQ")]
