"""Keys follow speech: twenty spoken readings, typed key by key as they are called out."""

import pytest

INCH = 25_400_000  # nm in an inch, exactly: ISO 31-1 and the international yard and pound agreement of 1959

# spoken, unit in force, keys, the text kept, nanometres by hand from the exact inch
SPOKEN = [
    ("eighty-eight and thirteen sixteenths", "in", "8 8 and 1 3 /16", "88 13/16 in", 88 * INCH + INCH * 13 // 16),
    ("eighty-eight and five eighths", "in", "8 8 and 5 /8", "88 5/8 in", 88 * INCH + INCH * 5 // 8),
    ("thirty-six", "in", "3 6", "36 in", 36 * INCH),
    ("thirty-six and a half", "in", "3 6 and /2", "36 1/2 in", 36 * INCH + INCH // 2),
    ("thirty-six and one half", "in", "3 6 and 1 /2", "36 1/2 in", 36 * INCH + INCH // 2),
    ("seven eighths", "in", "and 7 /8", "7/8 in", INCH * 7 // 8),
    ("an eighth", "in", "and /8", "1/8 in", INCH // 8),
    ("three thirty-seconds", "in", "and 3 /32", "3/32 in", INCH * 3 // 32),
    ("eighty-two and three quarters", "in", "8 2 and 3 /4", "82 3/4 in", 82 * INCH + INCH * 3 // 4),
    ("eighty-two and three eighths, no, quarters", "in", "8 2 and 3 /8 /4", "82 3/4 in", 82 * INCH + INCH * 3 // 4),
    ("thirty-seven, no, thirty-five and a sixteenth", "in", "3 7 rub 5 and /16", "35 1/16 in", 35 * INCH + INCH // 16),
    ("forty and thirteen, no, eleven sixteenths", "in", "4 0 and 1 3 rub 1 /16", "40 11/16 in",
     40 * INCH + INCH * 11 // 16),
    ("three foot", "in", "3 ft", "3 ft", 36 * INCH),
    ("three foot six and a half", "in", "3 ft 6 and /2", "3 ft 6 1/2 in", 42 * INCH + INCH // 2),
    ("six foot ten", "in", "6 ft 1 0", "6 ft 10 in", 82 * INCH),
    ("two two four six", "mm", "2 2 4 6", "2246 mm", 2_246_000_000),
    ("two two four six point five", "mm", "2 2 4 6 . 5", "2246.5 mm", 2_246_500_000),
    ("nought point eight, top left", "mm", "0 . 8 -", "-0.8 mm", -800_000),
    ("top left, a quarter", "in", "- and /4", "-1/4 in", -INCH // 4),
    ("nothing", "mm", "0 +", "0 mm", 0),
]


@pytest.mark.parametrize(("unit", "keys", "text", "nm"), [one[1:] for one in SPOKEN], ids=[one[0] for one in SPOKEN])
def test_keys_follow_speech(module_page, unit, keys, text, nm):
    got = module_page.page.evaluate("""async ([origin, keys, unit]) => {
        const { begin, press, withUnit } = await import(`${origin}/phone/pad_keys.js`);
        const { read } = await import(`${origin}/phone/lengths.js`);
        const kept = withUnit(keys.reduce(press, begin()).text, unit);
        return [kept, read(kept)];
    }""", [module_page.origin, keys.split(), unit])
    assert got == [text, nm]


def typed(page, keys):
    return page.page.evaluate("""async ([origin, keys]) => {
        const { begin, press } = await import(`${origin}/phone/pad_keys.js`);
        return keys.reduce(press, begin());
    }""", [page.origin, keys.split()])


def test_rubbing_out_goes_back_key_by_key(module_page):
    assert typed(module_page, "8 8 and 1 3 /16 rub") == {"text": "88 13", "face": 2}
    assert typed(module_page, "8 8 and 1 3 /16 rub rub rub") == {"text": "88 ", "face": 2}
    assert typed(module_page, "8 8 and 1 3 /16 rub rub rub rub") == {"text": "88", "face": 1}
    assert typed(module_page, "3 ft rub") == {"text": "3", "face": 1}
    assert typed(module_page, "rub rub") == {"text": "", "face": 1}


def test_a_second_point_a_second_foot_and_a_fraction_after_a_point_are_not_taken(module_page):
    assert typed(module_page, "3 . 5 . 2")["text"] == "3.52"
    assert typed(module_page, "3 ft 6 ft")["text"] == "3 ft 6"
    assert typed(module_page, "3 . 5 and")["face"] == 1


def checked(page, *cases):
    return page.call("phone/read_check.js", "checkLength", cases)


def test_a_figure_far_from_the_plan_is_asked_back_never_guessed(module_page):
    plan = {"plan": 2_246_000_000, "range": {"from": 1, "to": 10_000}}
    inches, right, tenfold, odd, comma = checked(
        module_page, ["2246", "in", plan], ["2246", "mm", plan], ["224.6", "mm", plan],
        ["3000", "mm", {"plan": 1_000_000_000}], ["1,234", "mm", {}])
    assert [choice["text"] for choice in inches["ask"]] == ["2246 mm", "2246 in"]
    assert inches["ask"][1]["asTyped"] is True
    assert (right["text"], right["nm"], right["far"]) == ("2246 mm", 2_246_000_000, False)
    assert [choice["text"] for choice in tenfold["ask"]] == ["2246 mm", "224.6 mm"]
    assert [choice["text"] for choice in odd["ask"]] == ["3000 mm"], "nothing likelier: as typed, or neither"
    assert odd["ask"][0]["asTyped"] is True
    assert odd["ask"][0]["nm"] == 3_000_000_000, "recorded as typed"
    assert odd["far"] is True, "with a word"
    assert len(comma["ask"]) == 2, "decimal or thousands: both readings are named"


def test_an_offset_of_feet_is_asked_back(module_page):
    far, = checked(module_page, ["+12", "in", {"signed": True, "range": {"from": -500, "to": 500}}])
    assert [choice["text"] for choice in far["ask"]] == ["12 mm", "12 in"]


def test_nothing_far_or_out_of_range_is_kept_at_one_touch(module_page):
    door = {"plan": 2_190_500_000, "range": {"from": 1, "to": 10_000}}
    nought, feet, near, low, wide, bevel = checked(
        module_page, ["0", "in", door], ["86 1/4 ft", "in", door], ["86 1/4", "in", door],
        ["0.1", "mm", {"range": {"from": 0.2, "to": 12}}],
        ["12", "mm", {"plan": 5_000_000, "within": {"from": 4_000_000, "to": 6_000_000}}],
        ["0", "mm", {"plan": 1_000_000, "within": {"from": 0, "to": 2_000_000}}])
    assert [choice["text"] for choice in nought["ask"]] == ["0 in"]
    assert nought["ask"][0]["asTyped"] is True
    assert feet["ask"][-1] == {"text": "86 1/4 ft", "nm": round(86.25 * 12 * INCH), "asTyped": True}
    assert [choice["text"] for choice in low["ask"]] == ["0.1 mm"]
    for plausible in (near, wide, bevel):
        assert "ask" not in plausible


def test_a_minus_where_no_sign_belongs_is_asked_about(module_page):
    asked, signed, allowed = checked(
        module_page, ["-86.5", "in", {"plan": 2_190_500_000, "range": {"from": 1, "to": 10_000}}],
        ["-3", "mm", {"signed": True, "range": {"from": -500, "to": 500}}],
        ["-3", "mm", {"within": {"from": -5_000_000, "to": 5_000_000}}])
    assert [choice["text"] for choice in asked["ask"]] == ["86.5 in", "-86.5 in"]
    assert [choice["nm"] for choice in asked["ask"]] == [INCH * 173 // 2, -INCH * 173 // 2]
    assert asked["minus"] is True
    assert "ask" not in signed
    assert "ask" not in allowed


def test_a_fraction_without_its_denominator_is_named(module_page):
    got = module_page.call("phone/read_check.js", "unfinished", [
        [typed(module_page, "8 6 and 1 1")], [typed(module_page, "8 6 and")], [typed(module_page, "and 7")],
        [{"text": "86 11"}],
        [typed(module_page, "8 6 and 1 1 /16")], [typed(module_page, "3 ft 6")], [typed(module_page, "8 6")],
        [{"text": "2 246"}]])
    assert got == [["86", "11"], ["86", ""], ["", "7"], ["86", "11"], None, None, None, None]


def test_a_level_turned_end_for_end_is_the_mean_a_half_away_from_zero(module_page):
    both, odd, low = module_page.call("phone/read_check.js", "turned", [
        [{"text": "1/4 in", "nm": 6_350_000}, {"text": "3/16 in", "nm": 4_762_500}],
        [{"text": "a", "nm": 1}, {"text": "b", "nm": 2}],
        [{"text": "a", "nm": -1}, {"text": "b", "nm": -2}]])
    assert both == {"text": "1/4 in; 3/16 in", "nm": 5_556_250, "reversed": True}  # server.md's example of a text
    assert (odd["nm"], low["nm"]) == (2, -2)


def test_a_number_out_of_range_or_with_a_stray_minus_is_asked_about(module_page):
    good, cold, less, many = module_page.call("phone/read_check.js", "checkNumber", [
        ["24", {"minus": False, "range": {"from": 1, "to": 600}}], ["-5,5", {"minus": True}],
        ["-24", {"minus": False}], ["601", {"minus": False, "range": {"from": 1, "to": 600}}]])
    assert good == {"text": "24", "number": 24}
    assert cold == {"text": "-5,5", "number": -5.5}
    assert [choice["number"] for choice in less["ask"]] == [24, -24]
    assert many["ask"] == [{"text": "601", "number": 601, "asTyped": True}]


def test_after_plus_minus_stands_what_the_bar_shows(module_page):
    item = {"estimate": 0, "u": 0.9, "chance_inside": 0.9246, "verdict": "too close to call"}
    fine = {"estimate": 0.2, "u": 0.05, "chance_inside": 1, "verdict": "inside"}
    mm, inches, small, none = (text.replace("\u00a0", " ") for text in module_page.call("phone/vial.js", "rangeText", [
        [item, "0 mm", "mm"], [item, "0 in", "in"], [fine, "0 in", "in"], [{**fine, "u": 0.001}, "0.2 mm", "mm"]]))
    # 1.96 standard deviations either side hold 95 % of a normal distribution: JCGM 100:2008, table G.1
    assert mm == "0 mm ± 1.8 mm, 19 times in 20, inside 92.4 times in 100"
    assert inches == "0 in ± 3/32 in (0 ± 1.8 mm), 19 times in 20, inside 92.4 times in 100"
    assert small == "0 in ± 1/32 in (0.2 ± 0.1 mm), 19 times in 20"
    assert none == "0.2 mm ± 0.1 mm, 19 times in 20", "no doubt is rounded to nothing"
