"""The phone's work screens, measured: thumb, sizes, contrast, cautions, one main action, no bare signs.

Contrast ratio and relative luminance after WCAG 2.2 (W3C Recommendation), "relative luminance" and "contrast ratio".
"""

import re
from pathlib import Path

import pytest
from demos import demo  # noqa: F401 - a fixture
from phones import new_phone  # noqa: F401 - a fixture

MEASURE = (Path(__file__).parent / "measures.js").read_text("utf-8")
SIZES = [(360, 640), (360, 560)]
LANGS = ["en", "x-pseudo"]
ALL = [(size, lang) for size in SIZES for lang in LANGS]
KINDS = ["true-frame/diagonal_bl_tr", "hinge-jamb/plumb_left", "hinge-jamb/plumb_right", "true-frame/string_gap",
         "tools/marked_rpm", "decide-structure/who", "tools/expires"]
SHEETS = ["rivet_sides", "seal", "wheel", "container", "opening"]
WORK = ["unit", "stage", "step", "read", "frame", "readings", "why", "sheet", "hold", "sign", "ask", "unread",
        "history", "note", "cannot"]


@pytest.fixture(scope="module")
def lena(new_phone):  # noqa: F811 - the fixture
    phone = new_phone().start("lena")
    phone.run("for (const unit of await store.units()) await store.noteUnit(unit.id, {seen: true})")
    yield phone
    assert phone.errors == []


@pytest.fixture(scope="module")
def unit(lena):
    """The carried unit with most entries, and what its plan holds."""
    lena.until("""for (const unit of await store.units()) if (!await store.packet(unit.packet)) return false;
        return true""")
    return lena.run("""const all = [];
        for (const {id, packet} of await store.units()) {
          all.push({id, entries: (await store.entries(id)).length, packet: await store.packet(packet)});
        }
        const {id, packet} = all.sort((a, b) => b.entries - a.entries)[0];
        const steps = packet.steps.map(({id, stage, hold, fields}) =>
          ({id, stage, hold, fields: fields.map((f) => f.id)}));
        return {id, steps, sheets: packet.sheets.map((s) => s.name)};""")


def hashes(unit):
    at = f"#unit/{unit['id']}"
    fields = {f"{step['id']}/{field}" for step in unit["steps"] for field in step["fields"]}
    stages = list(dict.fromkeys(step["stage"] for step in unit["steps"]))
    kinds = [kind for kind in KINDS if kind in fields]
    steps = [step["id"] for step in unit["steps"]]
    paths = [*(f"stage/{stage}" for stage in stages), *(f"step/{step}" for step in steps),
             *(f"read/{kind}" for kind in kinds), "frame", "readings/frame", "why/frame", "cannot/frame/push_head_left",
             *(f"sheet/{sheet}" for sheet in SHEETS if sheet in unit["sheets"]),
             *(f"hold/{step['id']}" for step in unit["steps"] if step["hold"]),
             "sign", f"ask/{steps[0]}", f"unread/{kinds[0]}", f"history/{steps[0]}", f"note/{steps[0]}"]
    return {"": at} | {path: f"{at}/{path}" for path in paths}


def measured(phone, unit, size, lang, theme="sun"):
    """{path: measures} of every screen of the unit."""
    page = phone.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    phone.run("await store.setting('lang', args[0]); await store.setting('theme', args[1])", lang, theme)
    found = {}
    for path, hash_ in hashes(unit).items():
        page.evaluate("""(hash) => new Promise((done) => {
            const seen = new MutationObserver(() => { seen.disconnect(); setTimeout(done, 40); });
            seen.observe(document.getElementById('main'), {childList: true});
            location.hash = hash;
            setTimeout(done, 3000);
        })""", hash_)
        found[path] = page.evaluate(MEASURE)
    return found


@pytest.fixture(scope="module")
def screens(lena, unit):
    return {(size, lang): measured(lena, unit, size, lang) for size, lang in ALL}


def every(screens, *combos):
    for combo in combos or ALL:
        for hash_, one in screens[combo].items():
            yield combo, hash_, one


def faults(lines):
    return "\n" + "\n".join(lines)


def test_every_screen_is_there(screens):
    for combo, hash_, one in every(screens):
        assert one["screen"] in WORK, (combo, hash_, one["title"])
        assert one["title"], (combo, hash_)


def test_1_controls_lie_under_the_thumb(screens):
    found = []
    for combo, hash_, one in every(screens, ((360, 640), "en")):
        least = 190 if one["screen"] == "read" else 100
        found += [f"{hash_}: {c['name']} at y {c['y']:.0f}" for c in one["controls"] if c["y"] < least]
        right, bottom = one["action"]["box"]
        assert right >= 340, f"{hash_}: the main action is not at the right"
        assert bottom >= combo[0][1] - 16, f"{hash_}: the main action is not at the foot"
    assert not found, faults(found)


def test_2_controls_are_large_and_apart(screens):
    found = []
    for (size, lang), hash_, one in every(screens):
        key = 72 if size[1] >= 600 else 64
        for c in one["controls"]:
            least = key if c["pad"] else 64
            if c["h"] < least - 0.5:
                found.append(f"{size} {lang} {hash_}: {c['name']} is {c['h']:.0f} px high")
            if c["clipped"]:
                found.append(f"{size} {lang} {hash_}: {c['name']} is cut off")
        found += [f"{size} {lang} {hash_}: {a['name']} and {b['name']} are {gap:.0f} px apart"
                  for a, b, gap in near(one["controls"])]
        if one["wide"]:
            found.append(f"{size} {lang} {hash_}: wider than the window")
    assert not found, faults(found)


def near(controls):
    """Keys of one block that lie closer than 16 px, with the gap between them."""
    keys = [c for c in controls if c["list"]]
    for i, a in enumerate(keys):
        for b in keys[i + 1:]:
            if a["list"] != b["list"] or a["foot"] != b["foot"]:
                continue
            across = max(b["x"] - a["x"] - a["w"], a["x"] - b["x"] - b["w"])
            along = max(b["y"] - a["y"] - a["h"], a["y"] - b["y"] - b["h"])
            gap = max(across, along)
            if gap < 15.5:
                yield a, b, gap


def test_2_text_is_large(screens):
    found = []
    for combo, hash_, one in every(screens):
        for text in one["texts"]:
            least = 34 if text["figure"] else 16
            if text["size"] < least - 0.1:
                found.append(f"{combo} {hash_}: {text['text']!r} is {text['size']:.1f} px, at least {least}")
    assert not found, faults(found)


def test_2_the_whole_pad_is_in_sight(screens):
    found = [f"{combo} {hash_}: {c['name']} ends at {c['y'] + c['h']:.0f}, the title block starts at {one['top']:.0f}"
             for combo, hash_, one in every(screens, *[(size, "en") for size in SIZES]) if one["screen"] == "read"
             for c in one["controls"] if c["pad"] and c["y"] + c["h"] > one["top"]]
    assert not found, faults(found)


SIGHT = """() => {
    const top = document.querySelector('.title-block').getBoundingClientRect().top;
    return [...document.querySelectorAll('.pad button, .ask button')]
        .map(key => [key.innerText.trim() || key.dataset.key, key.getBoundingClientRect().bottom])
        .filter(([, end]) => end > top + 0.5)
        .map(([name, end]) => `${name} ends at ${end}, the title block starts at ${top}`);
}"""


def open_screen(phone, hash_):
    phone.page.evaluate("""(hash) => new Promise((done) => {
        const drawn = document.body.dataset.drawn; let tries = 0;
        const there = () => document.body.dataset.drawn !== drawn && !document.body.hasAttribute('aria-busy');
        const look = () => there() || (tries += 1) > 150 ? setTimeout(done, 40) : setTimeout(look, 20);
        location.hash = hash; look();
    })""", hash_)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("show", ["mm", "in"])
def test_2_the_whole_pad_is_in_sight_in_every_state(lena, unit, size, show):
    page, found = lena.page, []
    page.set_viewport_size({"width": size[0], "height": size[1]})
    lena.run("await store.setting('lang', 'en'); await store.setting('show', args[0])", show)
    lena.run("await store.setting('level', null)")

    def seen(state):
        page.wait_for_timeout(30)
        found.extend(f"{state}: {line}" for line in page.evaluate(SIGHT))

    def act(*keys):
        for key in keys:
            page.click(f".pad [data-key='{key}']" if key != "action" else "#key-action")

    def read(path):
        open_screen(lena, "#phone")
        lena.run("await store.draft(args[0], null)", f"read/{unit['id']}/{path.removesuffix('/frame')}")
        open_screen(lena, f"#unit/{unit['id']}/read/{path}")

    read(next(f"hinge-jamb/{field}" for step in unit["steps"] if step["id"] == "hinge-jamb"
              for field in step["fields"] if field.startswith("plumb")))
    seen("length of the level")
    act("action")
    seen("length of the level, nothing typed")
    act(*("1200" if show == "mm" else "48"), "action")
    page.wait_for_selector("#key-right:has-text('level')")
    if ask := page.query_selector(".ask .key >> nth=-1"):
        ask.click()
    seen("level, empty")
    act("action")
    seen("level, an alert")
    act(*(["1", "2", ".", "5"] if show == "mm" else ["1"]), "+")
    seen("level, with a way")
    act("action")
    page.wait_for_selector("#key-action:has-text('not turned')")
    act("-", *(["1", "2", ".", "5"] if show == "mm" else ["1", "and", "1", "1", "/16"]))
    seen("level turned, with a way")
    read("true-frame/diagonal_bl_tr/frame")
    if ask := page.query_selector(".ask .key >> nth=-1"):
        seen("two that stand")
        ask.click()
    for key in "86":
        act(key)
    if show == "in":
        act("and", "1", "1", "action")
        seen("fraction without its denominator")
        act("/16")
    seen("a three-line action")
    page.fill("#figure", "36 9/8")
    seen("a figure that cannot be")
    page.fill("#figure", "0")
    seen("far from the plan")
    act("action")
    page.wait_for_selector(".ask")
    seen("the question of a far figure")
    open_screen(lena, "#open")
    page.focus("#code")
    page.wait_for_selector(".code-pad")
    seen("code")
    for digit in "23456":
        page.click(f".code-pad button:text-is('{digit}')")
    page.click("#key-action")
    page.wait_for_selector(".code-fault:not([hidden])")
    seen("a wrong code")
    assert page.evaluate("document.querySelector('#code').getBoundingClientRect().top >= 0 && main.scrollTop === 0")
    for _ in "23456":
        page.click(".code-pad button:text-is('rub out')")
    lena.run("await store.setting('show', 'mm')")
    assert not found, faults(found)


def test_2_no_side_key_breaks_within_a_word(screens):
    plain = [(size, "en") for size in SIZES]
    found = [f"{combo} {hash_}: {key['name']}" for combo, hash_, one in every(screens, *plain)
             for key in one["controls"] if key["broken"]]
    assert not found, faults(found)


REACH = (Path(__file__).parent / "reach.js").read_text("utf-8")
TWICE = ["#open", "#settings", "#phone", "", "stage/set-and-fix", "step/true-frame",
         "read/true-frame/diagonal_bl_tr/frame", "read/true-frame/string_gap", "frame", "readings/frame", "why/frame",
         "cannot/frame/push_head_left", "sign"]


@pytest.mark.parametrize("size", SIZES)
def test_2_text_of_twice_the_size_covers_nothing_and_every_control_is_reached(lena, unit, size):
    lena.page.set_viewport_size({"width": size[0], "height": size[1]})
    lena.run("await store.setting('lang', 'en'); await store.setting('level', 0)")
    found = []
    for path in TWICE:
        open_screen(lena, path if path.startswith("#") else f"#unit/{unit['id']}/{path}".rstrip("/"))
        lena.page.evaluate("document.documentElement.style.fontSize = '32px'")
        lena.run("const frame = await part('frame'); await frame.refresh(); return null")
        found += [f"{path}: {line}" for line in lena.page.evaluate(REACH)]
        lena.page.evaluate("document.documentElement.style.fontSize = ''")
    assert not found, faults(found)


def test_row_a_stays_one_row_and_says_no_signal_on_a_step_too(lena, unit):
    lena.page.set_viewport_size({"width": 360, "height": 640})
    lena.run("await store.setting('lang', 'en')")
    lena.context.set_offline(True)
    lena.run("await sync.sendNow(true).catch(() => null)")
    for path in ("step/true-frame", "frame", ""):
        open_screen(lena, f"#unit/{unit['id']}/{path}".rstrip("/"))
        height, said, seen = lena.page.evaluate("""() => {
            document.querySelector('.row-a .saved > span').textContent = '16 on this phone';
            const cell = document.querySelector('.row-a .context > span'), first = cell.firstChild;
            const [box, word] = [cell.getBoundingClientRect(), first.getBoundingClientRect()];
            return [document.querySelector('.row-a').getBoundingClientRect().height, first.textContent,
                    word.right <= box.right + 0.5 && word.bottom <= box.bottom + 0.5];
        }""")
        assert said == "no signal", path
        assert seen, f"{path}: no signal is out of sight"
        assert height <= 38, path
    lena.context.set_offline(False)


def test_4_a_placeholder_has_contrast_in_both_themes(lena):
    for theme in ("sun", "blueprint"):
        lena.run("await store.setting('theme', args[0])", theme)
        open_screen(lena, "#phone")
        open_screen(lena, "#open")
        ink, ground = lena.page.evaluate("""() => {
            const field = document.getElementById('code');
            return [getComputedStyle(field, '::placeholder').color, getComputedStyle(field).backgroundColor];
        }""")
        rgb = [[float(part) for part in re.findall(r"[\d.]+", colour)] for colour in (ink, ground)]
        assert ratio(*rgb) >= 7, theme
    lena.run("await store.setting('theme', 'sun')")


def luminance(colour):
    parts = [c / 255 for c in colour[:3]]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def ratio(one, other):
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_the_standard_does():
    assert ratio([0, 0, 0], [255, 255, 255]) == pytest.approx(21)  # WCAG 2.2: from 1 to 21
    assert ratio([0x77] * 3, [255] * 3) == pytest.approx(4.48, abs=0.01)  # #777 on white: just under 4.5


def tokens(theme):
    css = (Path(__file__).parents[2] / "static/phone/phone.css").read_text("utf-8")
    selector = ":root" if theme == "sun" else r":root\[data-theme=blueprint\]"
    block = re.search(selector + r" \{([^}]*)\}", css)[1]
    return {name: [int(value[i:i + 2], 16) for i in (0, 2, 4)]
            for name, value in re.findall(r"--([a-z-]+): #([0-9A-F]{6})", block)}


@pytest.mark.parametrize("theme", ["sun", "blueprint"])
def test_4_the_style_sheets_pairs_have_contrast(theme):
    colour = {**tokens("sun"), **tokens(theme)}
    for ground in ("paper", "card"):
        for word in ("ink", "pencil", "chalk", "inside", "outside", "close"):
            assert ratio(colour[word], colour[ground]) >= 7, f"{word} on {ground}"
        assert ratio(colour["hair"], colour[ground]) >= 3, f"hair on {ground}"
    assert ratio(colour["paper"], colour["chalk"]) >= 7
    assert ratio(colour["caution"], colour["caution-ink"]) >= 7


@pytest.mark.parametrize("theme", ["sun", "blueprint"])
def test_4_every_text_has_contrast_where_it_stands(lena, unit, screens, theme):
    shown = screens[(360, 640), "en"] if theme == "sun" else measured(lena, unit, (360, 640), "en", theme)
    lena.run("await store.setting('theme', 'sun')")
    found = {f"{hash_}: {t['text']!r} {t['ink']} on {t['ground']}" for hash_, one in shown.items()
             for t in one["texts"] if ratio(t["ink"], t["ground"]) < 7}
    assert not found, faults(sorted(found))


def test_5_a_direction_is_never_a_bare_sign(screens):
    signed = re.compile(r"(?<!\w)[−-]\s?\d")
    found = [f"{hash_}: {t['text']!r}" for _, hash_, one in every(screens, ((360, 640), "en"))
             for t in one["texts"] if signed.search(t["text"]) and "°C" not in t["text"]]
    assert not found, faults(found)


def test_9_cautions_stand_before_fields_whole_and_in_sight(screens):
    seen = 0
    for combo, hash_, one in every(screens):
        if not hash_.startswith("step/"):
            continue
        seen += len(one["cautions"])
        assert one["cautionsFirst"], f"{combo} {hash_}: a field stands before a caution"
        for caution in one["cautions"]:
            assert caution["note"] == "note"
            assert not caution["folded"]
            assert caution["bottom"] <= one["top"], f"{combo} {hash_}: a caution is out of sight"
    assert seen > 100


def test_10_one_main_action_named_by_what_it_does(screens):
    labels = set()
    for combo, hash_, one in every(screens):
        action = one["action"]
        assert action["count"] == 1, (combo, hash_)
        assert action["label"], (combo, hash_)
        assert action["lines"] <= 3, f"{combo} {hash_}: {action['label']!r} takes {action['lines']} lines"
        if combo[1] == "en":
            labels.add(action["label"])
    long = sorted(label for label in labels if len(label) > 34)
    assert not long, faults(long)
    assert not labels & {"OK", "Submit", "Save", "Next", "Yes"}, sorted(labels)
