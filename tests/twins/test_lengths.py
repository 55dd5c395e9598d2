"""Both twins of `lengths` over one case file: the same nanometres, sentences and readings, exactly."""

import json
import unicodedata

import pytest
from twins.make_lengths import FILE, written

from fieldapp.trade.lengths import LengthError, fill, read, say, say_fine, say_up

CASES = json.loads(FILE.read_text(encoding="ascii"))
MODULE = "phone/lengths.js"
READ = CASES["read"] + CASES["numbers"]


def test_the_case_file_is_what_its_generator_makes():
    assert FILE.read_text(encoding="ascii") == written()


@pytest.mark.parametrize("kind", ["read", "numbers"])
def test_python_reads_every_case(kind):
    assert [read(given) for given, _ in CASES[kind]] == [nm for _, nm in CASES[kind]]


def test_every_refused_case_is_refused():
    assert [row for row in CASES["refused"] if len(row) != 4] == []
    for given, sentence, _, readings in CASES["refused"]:
        with pytest.raises(LengthError) as caught:
            read(given)
        assert (str(caught.value), caught.value.readings) == (sentence, readings)


def test_python_says_and_fills_every_case():
    said = [[say(mm, show), say_up(mm, show), say_fine(mm, show)] for mm, show, *_ in CASES["said"]]
    assert said == [row[2:] for row in CASES["said"]]
    assert [fill(*row[:4]) for row in CASES["filled"]] == [row[4] for row in CASES["filled"]]


def test_phone_reads_every_case(module_page):
    assert module_page.call(MODULE, "read", [[given] for given, _ in READ]) == [nm for _, nm in READ]


@pytest.mark.parametrize("kind", ["refused", "noise"])
def test_phone_answers_with_the_same_figures_sentences_and_readings(module_page, kind):
    script = """async ([module, given]) => {
        const {LengthError, read} = await import(module);
        return given.map(value => {
            try { return [value, read(value)]; } catch (e) {
                if (!(e instanceof LengthError)) return ['another error', String(e)];
                return [value, e.message, e.code, e.readings];
            }
        });
    }"""
    given = [row[0] for row in CASES[kind]]
    assert module_page.page.evaluate(script, [f"{module_page.origin}/{MODULE}", given]) == CASES[kind]


def test_phone_refuses_what_json_has_no_word_for(module_page):
    script = """async module => {
        const {LengthError, read} = await import(module);
        const given = [NaN, Infinity, -Infinity, undefined, 5n, Symbol('a'), () => 1, new Date(0)];
        given.push('\\ud800', '9\\udc00');
        return given.map(value => {
            try { return read(value); } catch (e) { return e instanceof LengthError ? e.message : String(e); }
        });
    }"""
    found = module_page.page.evaluate(script, f"{module_page.origin}/{MODULE}")
    numbers = [float("nan"), float("inf"), float("-inf")]
    assert found == [refusal(value) for value in [*numbers, None, *[object()] * 4, "\ud800", "9\udc00"]]


def refusal(value):
    with pytest.raises(LengthError) as caught:
        read(value)
    return str(caught.value)


def test_phone_says_and_fills_the_same(module_page):
    amounts = [row[:2] for row in CASES["said"]]
    assert module_page.call(MODULE, "say", amounts) == [row[2] for row in CASES["said"]]
    assert module_page.call(MODULE, "sayUp", amounts) == [row[3] for row in CASES["said"]]
    assert module_page.call(MODULE, "sayFine", amounts) == [row[4] for row in CASES["said"]]
    filled = CASES["filled"]
    assert module_page.call(MODULE, "fill", [row[:4] for row in filled]) == [row[4] for row in filled]


@pytest.mark.parametrize(("sentence", "values", "word"), [
    ("{a} {b}", {"a": 1}, "{b}"), ("{toString}", {}, "{toString}"), ("{a|m}", {"a": 1}, "{a|m}"),
    ("{a", {"a": 1}, "brace"), ("{}", {}, "brace"), ("{a}", {"a": "x"}, "x"), ("{a|text}", {"a": 1}, "text"),
    ("{a|n}", {"a": True}, "true")])
def test_both_refuse_a_sentence_that_cannot_be_filled(module_page, sentence, values, word):
    with pytest.raises(ValueError) as caught:
        fill(sentence, values, "mm")
    assert word in str(caught.value)
    assert module_page.call(MODULE, "fill", [[sentence, values, "mm"]]) == [{"threw": str(caught.value)}]


def test_phone_knows_the_decimal_digits_of_every_script(module_page):
    digits = [chr(code) for code in range(0x110000) if unicodedata.category(chr(code)) == "Nd"]
    assert len(digits) > 600
    assert module_page.call(MODULE, "read", [[f"{digit}.{digit}"] for digit in digits]) \
        == [unicodedata.decimal(digit) * 1_100_000 for digit in digits]


def test_phone_knows_every_dash(module_page):
    dashes = [chr(code) for code in range(0x110000) if unicodedata.category(chr(code)) == "Pd"] + ["−"]
    assert module_page.call(MODULE, "read", [[dash + "5"] for dash in dashes]) == [-5_000_000] * len(dashes)
