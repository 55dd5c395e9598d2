"""Codes: every wrong letter and every swap of neighbours is caught, on both sides (offline.md's promise for typed codes)."""

from itertools import product
from random import Random

from fieldapp.plan import codes

SOME = [codes.with_check("".join(Random(n).choices(codes.ALPHABET, k=4))) for n in range(60)]


def wrong_by_one(code):
    return [code[:at] + letter + code[at + 1:]
            for at, letter in product(range(5), codes.ALPHABET) if letter != code[at]]


def swapped(code):
    return [code[:at] + code[at + 1] + code[at] + code[at + 2:] for at in range(4) if code[at] != code[at + 1]]


def test_the_field_is_a_field():
    # A field has an inverse for each element but zero, and no two products a·x and a·y agree.
    for a in range(1, 32):
        assert sorted(codes.multiply(a, b) for b in range(32)) == list(range(32))


def test_any_wrong_letter_and_any_swap_of_neighbours_is_caught():
    for code in SOME:
        assert codes.check(code) == code
        for wrong in wrong_by_one(code) + swapped(code):
            assert codes.check(wrong) is None, (code, wrong)


def test_typed_by_hand():
    code = codes.with_check("0A1K")
    assert codes.check(f" {code[:3].lower()} - {code[3:].lower()}") == code
    assert codes.check(code.replace("0", "o").replace("1", "l")) == code
    for wrong in ("", "U" + code[1:], code[:4], code + "0", "ñ" + code[1:]):
        assert codes.check(wrong) is None


def test_the_label_is_fifty_bits_and_new_codes_avoid_those_taken():
    first = codes.new_label(pick=Random(7).choice)
    assert len(first) == 10
    assert set(first) <= set(codes.ALPHABET)
    assert codes.new_label({first}, Random(7).choice) != first
    short = codes.new_short(pick=Random(7).choice)
    assert codes.new_short({short}, Random(7).choice) != short
    assert codes.shown("7K3MQ") == "7K3-MQ"


def test_the_phone_says_the_same(module_page):
    typed = [*SOME, *wrong_by_one(SOME[0]), *swapped(SOME[1]), SOME[2].lower(), f"{SOME[3][:3]}-{SOME[3][3:]}", "", "U0000",
             "o1l-00", "00000", "ñandu", "7k3 mq"]
    there = module_page.call("phone/codes.js", "check", [[text] for text in typed])
    assert there == [codes.check(text) for text in typed]
    assert module_page.call("phone/codes.js", "normalise", [[text] for text in typed]) == [codes.normalise(t) for t in typed]
