"""What the work screens write: every entry as server.md's table has it, nothing lost, nothing guessed."""

import pytest
from demos import demo  # noqa: F401 - a fixture
from phones import new_phone  # noqa: F401 - a fixture

HERE = """for (const unit of await store.units()) if (!await store.packet(unit.packet)) return false;
    return (await store.units()).length > 0"""


class Work:
    """A lead without network on the carried unit with fewest entries."""

    def __init__(self, phone):
        self.phone, self.page = phone, phone.page
        phone.until(HERE, tries=300)
        phone.run("for (const unit of await store.units()) await store.noteUnit(unit.id, {seen: true})")
        phone.context.set_offline(True)
        self.unit = phone.run("""const all = [];
            for (const unit of await store.units()) all.push([(await store.entries(unit.id)).length, unit.id]);
            return all.sort((a, b) => a[0] - b[0])[0][1];""")

    def go(self, path):
        """Opens a screen of the unit anew."""
        self.page.evaluate("location.hash = '#phone'")
        self.phone.shows("phone_status")
        self.page.evaluate("hash => { location.hash = hash; }", f"#unit/{self.unit}/{path}")
        self.phone.shows(path.split("/")[0])

    def keys(self, text):
        for key in text.split():
            self.page.click(f'[data-key="{key}"]')

    def act(self):
        self.page.click("#key-action")

    def entries(self):
        return self.phone.run("return await store.entries(args[0])", self.unit)

    def new(self, before, count=1):
        """The entries kept since `before`, in the device's order."""
        self.phone.until(f"return (await store.entries('{self.unit}')).length >= {len(before) + count}")
        had = {entry["id"] for entry in before}
        return sorted((e for e in self.entries() if e["id"] not in had), key=lambda e: e["count"])

    def inches(self, wanted):
        self.phone.run("await store.setting('show', args[0])", "in" if wanted else "mm")

    def text(self, selector="main"):
        return self.page.inner_text(selector)


@pytest.fixture(scope="module")
def work(new_phone):  # noqa: F811 - the fixture
    made = Work(new_phone().start("lena"))
    yield made
    assert made.phone.errors == []


def test_a_diagonal_is_kept_as_typed_with_its_exact_length(work):
    work.inches(True)
    before = work.entries()
    work.go("read/true-frame/diagonal_bl_tr/frame")
    work.keys("8 8 and 1 3 /16")
    assert "2255.8" in work.text(".echo")
    work.act()
    entry, = work.new(before)
    assert entry["kind"] == "reading"
    assert entry["value"] == {"text": "88 13/16 in", "nm": 2_255_837_500}  # 88.8125 × 25.4 mm, exactly
    assert (entry["step"], entry["field"], entry["round"]) == ("true-frame", "diagonal_bl_tr", None)
    assert entry["sheet"]
    assert entry["packet"]


def test_the_left_key_takes_back_for_ten_seconds_what_was_just_kept(work):
    work.inches(False)
    before = work.entries()
    work.go("read/true-frame/width_head/frame")
    work.keys("8 8 1")
    work.act()
    reading, = work.new(before)
    work.page.wait_for_selector("#key-left:has-text('Take back')")
    work.page.click("#key-left")
    retract = work.new(before, 2)[-1]
    assert retract["kind"] == "retract"
    assert retract["value"] == {"because": "taken back at once"}
    assert retract["replaces"] == [reading["id"]]
    assert (retract["step"], retract["field"]) == ("true-frame", "width_head")


def test_take_back_leaves_by_itself_after_ten_seconds(work):
    """By a clock of the test's own: nothing waits."""
    page = work.phone.window()
    page.clock.install()
    work.phone.open(f"#unit/{work.unit}/step/choices", page=page)
    work.phone.shows("step", page=page)
    usual = page.inner_text("#key-left")
    page.click("#tick-agrees-true")
    page.wait_for_selector("#key-left:has-text('Take back')")
    page.clock.fast_forward(9_000)
    assert page.inner_text("#key-left") == "Take back"
    page.clock.fast_forward(1_500)
    page.wait_for_selector(f"#key-left:has-text('{usual}')")
    page.close()


def test_the_length_of_the_level_is_asked_once_and_never_taken_for_the_sides(work):
    work.inches(False)
    work.go("read/hinge-jamb/plumb_left")
    assert "Length of your level" in work.text()
    assert work.text("#key-action") == "Keep the length"
    work.act()
    assert "Type the figure first." in work.text(".echo")
    work.keys("1 2 0 0")
    work.act()
    work.page.wait_for_selector("#key-right:has-text('level 1200 mm')")
    assert work.phone.run("return await store.setting('level')") == 1_200_000_000
    work.go("read/hinge-jamb/lean_left")
    assert "level 1200 mm" in work.text("#key-right").replace("\u00a0", " "), "remembered, and shown"
    assert "as it lies" in work.text()
    work.page.click("#key-right")
    work.keys("whole-side")
    work.page.wait_for_selector("#key-right:has-text('whole side')")
    assert work.phone.run("return await store.setting('level')") == 0
    work.page.click("#key-right")
    work.keys("1 2 0 0")
    work.act()
    work.page.wait_for_selector("#key-right:has-text('level 1200 mm')")


def test_a_level_is_read_as_it_lies_and_turned(work):
    work.inches(True)
    before = work.entries()
    work.go("read/hinge-jamb/plumb_left")
    work.keys("- and 1 /4")
    work.act()
    work.page.wait_for_selector("#key-action:has-text('not turned')")
    work.keys("- and 3 /16")
    work.act()
    entry, = work.new(before)
    # the mean of 6.35 and 4.7625 mm; the text holds both as typed, and a direction key wrote the sign
    assert entry["value"]["text"] == "-1/4 in; -3/16 in"
    assert entry["value"]["nm"] == -5_556_250
    assert entry["value"]["reversed"] is True
    assert entry["value"]["over"] == 1_200_000_000, "the level's own length, told before"


def test_a_figure_without_its_way_is_asked_back(work):
    work.inches(False)
    before = work.entries()
    work.go("read/hinge-jamb/lean_left")
    work.keys("2")
    work.act()
    work.page.wait_for_selector(".ask")
    keys = [key.inner_text().strip() for key in work.page.query_selector_all(".ask .key")]
    assert keys == ["top in", "top out", "Neither"]
    work.page.click(".ask .key >> nth=1")
    work.page.wait_for_selector("#key-action:has-text('not turned')")
    work.act()
    entry, = work.new(before)
    assert entry["value"]["text"] == "2 mm"
    assert entry["value"]["nm"] == 2_000_000
    assert "reversed" not in entry["value"]


def test_inches_typed_for_millimetres_are_asked_back_and_neither_keeps_nothing(work):
    work.inches(True)
    before = work.entries()
    work.go("read/true-frame/height_left/frame")
    work.keys("2 0 3 9")
    work.act()
    work.page.wait_for_selector(".ask")
    keys = [key.inner_text().replace("\u00a0", " ") for key in work.page.query_selector_all(".ask .key")]
    assert keys == ["2039 mm", "2039 in, as typed", "Neither"]
    work.page.click(".ask .key >> nth=2")
    work.page.wait_for_selector('[data-key="1"]')
    assert len(work.entries()) == len(before)
    work.act()
    work.page.click(".ask .key >> nth=0")
    entry, = work.new(before)
    assert entry["value"] == {"text": "2039 mm", "nm": 2_039_000_000}


def test_what_is_being_typed_is_there_again_after_a_reload(work):
    work.inches(False)
    work.go("read/true-frame/width_sill/frame")
    work.keys("8 7 9 . 5")
    key = f"read/{work.unit}/true-frame/width_sill"
    work.phone.until(f"return (await store.draft('{key}'))?.lines?.[0] === '879.5'")
    work.page.reload()
    work.phone.shows("read")
    assert "879.5" in work.text(".figure.entry")
    work.phone.run("await store.draft(args[0], null)", key)


def test_hard_keys_and_paste_reach_the_figure(work):
    work.inches(False)
    work.go("read/true-frame/width_mid/frame")
    work.page.keyboard.type("880.5")
    assert "880.5" in work.text(".figure.entry")
    work.page.keyboard.press("Backspace")
    work.page.keyboard.press("Backspace")
    assert work.text(".echo").replace("\u00a0", " ") == "= 34 21/32 in"  # 880 / 25.4 is 34.646, to 1/32


def test_not_done_asks_why_and_the_why_is_a_remark(work):
    before = work.entries()
    work.go("step/choices")
    work.page.click("#tick-agrees-false")
    work.phone.shows("note")
    work.act()
    work.page.wait_for_selector("p.alert:has-text('Say why first.')")
    work.page.fill("#note", "The wall is a side wall")
    work.act()
    work.phone.shows("step")
    tick, note = work.new(before, 2)[-2:]
    assert (tick["kind"], tick["value"], tick["field"]) == ("tick", {"ticked": False}, "agrees")
    assert note["kind"] == "note"
    assert note["field"] is None
    assert "The wall is a side wall" in note["value"]["text"]
    assert "outside" in work.text("#field-agrees")
    work.page.click("#tick-agrees-true")
    again = work.new(before, 3)[-1]
    assert again["replaces"] == [tick["id"]]


def test_two_accounts_are_both_shown_and_one_entry_settles_them(work):
    """Two made without sight of each other: as they come from two phones."""
    work.phone.run("""const device = await store.value('device'); const me = await store.session();
        const unit = await store.unit(args[0]);
        const made = [5_000_000, 6_000_000].map((nm) => entry.make('reading', {text: `${nm / 1e6} mm`, nm},
          {unit: unit.id, step: 'place', field: 'keep_clear', packet: unit.packet},
          {person: me.id, device: device.id}));
        await store.keep(made);""", work.unit)
    before = work.entries()
    work.go("step/place")
    shown = work.text("#field-keep_clear")
    assert "two accounts" in shown
    assert "5 mm" in shown
    assert "6 mm" in shown
    work.page.click("#field-keep_clear .account .key >> nth=1")
    kept, = work.new(before)
    assert kept["value"]["nm"] == 6_000_000
    assert len(kept["replaces"]) == 2
    work.page.wait_for_selector("#field-keep_clear .dim")


def test_a_move_follows_what_was_told_and_the_round_follows_the_moves(work):
    """A frame 8 mm out of rack, everything else true: the phone tells to push the head, and keeps what it told."""
    work.phone.run("""const device = await store.value('device'); const me = await store.session();
        const unit = await store.unit(args[0]); const packet = await store.packet(unit.packet);
        const part = packet.sheets.find((sheet) => sheet.name === 'frame').part; const sheet = await store.part(part);
        const [W, H] = [sheet.readings.width_sill.constant, sheet.readings.height_left.constant];
        const D = Math.hypot(W, H);
        const of = {diagonal_bl_tr: D + W / D * 8, diagonal_tl_br: D - W / D * 8, plumb_left: 8, plumb_right: 8,
                    width_sill: W, width_head: W, width_mid: W, level_sill: 0, string_gap: 0,
                    lean_left: 0, lean_right: 0};
        const feeds = (f, kind) => f.feeds?.some((feed) => feed.sheet === 'frame' && feed.as === kind);
        const at = (kind) => packet.steps.find((step) => step.fields.some((f) => feeds(f, kind)));
        const side = {plumb_left: H, plumb_right: H, lean_left: H, lean_right: H, level_sill: W};
        await store.keep(Object.entries(of).map(([kind, mm]) => entry.make('reading',
          {text: `${mm.toFixed(1)} mm`, nm: Math.round(mm * 1e6),
           ...(side[kind] && {reversed: true, over: side[kind] * 1e6})},
          {unit: unit.id, step: at(kind).id, field: kind, packet: unit.packet, sheet: part},
          {person: me.id, device: device.id})));
        """, work.unit)
    before = work.entries()
    work.go("frame")
    assert "move" in work.text("h1")
    work.act()
    told, move = work.new(before, 2)
    assert (told["kind"], move["kind"]) == ("told", "move")
    assert told["value"]["sheet"] == "frame"
    assert told["sheet"] == move["sheet"]
    assert move["value"] == {"sheet": "frame", **told["value"]["moves"][0]}
    assert move["value"]["do"] == "push_head_left"
    assert 6_000_000 <= move["value"]["nm"] <= 9_000_000
    assert set(told["value"]) == {"sheet", "from", "verdicts", "set_aside", "moves", "next", "chosen", "tools",
                                  "can_read"}
    assert told["value"]["verdicts"]["plumb_left"] == "outside"
    for _ in told["value"]["moves"][1:]:
        work.page.wait_for_selector("#key-action:has-text('Move')")
        work.act()
    work.page.wait_for_selector("#key-action:has-text('Read again')")
    work.act()
    work.phone.shows("readings")
    made = work.new(before, 3)
    assert [e["kind"] for e in made].count("told") == 1, "told once, not at every move"
    opened = made[-1]
    assert (opened["kind"], opened["value"]) == ("round", {"sheet": "frame", "after": []})
    work.inches(False)
    work.act()
    work.phone.shows("read")
    if work.text("#key-action") == "Keep the length":  # what is asked first is a level, and its length is not known yet
        work.keys("1 2 0 0")
        work.act()
        work.page.wait_for_selector("#key-right:has-text('level 1200 mm')")
    work.keys("0")
    work.act()
    work.page.wait_for_timeout(300)
    if work.page.locator("#key-action:has-text('not turned')").count():
        work.act()
    reading = work.new(before, len(made) + 1)[-1]
    assert reading["round"] == opened["id"], "read after the moves: in the new round"


def test_a_move_without_room_is_a_reading_of_nothing_there(work):
    before = work.entries()
    work.go("cannot/frame/push_head_left")
    work.page.click("text=No room at the left top")
    entry, = work.new(before)
    assert (entry["kind"], entry["value"]) == ("reading", {"text": "0 mm", "nm": 0})
    feeds = work.phone.run("""const unit = await store.unit(args[0]); const packet = await store.packet(unit.packet);
        return packet.steps.find((s) => s.id === args[1]).fields.find((f) => f.id === args[2]).feeds;""",
                           work.unit, entry["step"], entry["field"])
    assert {"sheet": "frame", "as": "room.left_top"} in feeds


def test_a_container_number_one_slip_off_says_what_it_likely_is(work):
    """CSQU305438 with check digit 3 is the usual worked example of ISO 6346; here with 54 swapped."""
    work.go("read/right-box/identification")
    work.page.fill("#written", "CSQU3045383")
    work.act()
    work.phone.shows("step")
    work.go("sheet/container")
    assert "CSQU3054383" in work.text()
    assert "outside" in work.text()


@pytest.fixture
def fullest(work, monkeypatch):
    """The same lead at the carried unit with most entries, whose steps are all open to her."""
    monkeypatch.setattr(work, "unit", work.phone.run("""const all = [];
        for (const unit of await store.units()) all.push([(await store.entries(unit.id)).length, unit.id]);
        return all.sort((a, b) => b[0] - a[0])[0][1];"""))
    return work


def test_a_figure_kept_far_from_the_plan_is_named_wherever_answers_stand(fullest):
    work = fullest
    work.inches(False)
    before = work.entries()
    work.go("read/true-frame/height_right/frame")
    work.keys("0")
    work.act()
    work.page.click(".ask .key >> nth=0")
    work.new(before)
    named = "far from the plan, kept as typed"
    work.go("why/frame")
    rows = [row.inner_text() for row in work.page.query_selector_all("main h2:has-text('Not used') + ul li")]
    assert any("0" in row and named in row for row in rows), rows
    work.go("step/true-frame")
    assert named in work.text("#field-height_right")
    assert work.page.query_selector("#field-height_right .shape.is-outside"), "a shape too"
    work.go("sign")
    assert named in work.text()
    work.go("read/true-frame/height_right/frame")
    assert "stands 0" in work.text(".under").replace("\u00a0", " "), "what stands, with who and when"
    assert work.text("#key-left").strip() in ("Back", "Take back")
    assert work.page.query_selector("#key-right .units"), "beside in or mm"


def test_no_two_keys_of_a_screen_do_the_same(work):
    work.inches(False)
    for path in ("cannot/frame/push_head_left", "readings/frame", "unread/true-frame/string_gap"):
        work.go(path)
        keys = [key.inner_text() for key in work.page.query_selector_all(".row-b .key")]
        assert "Back" not in keys or path == "readings/frame", (path, keys)
        if path == "readings/frame" and "So far" in keys:
            work.page.click(".row-b .key:has-text('So far')")
            work.phone.shows("frame")
            assert work.text("h1") != "What to read now"


def test_how_a_thing_is_read_is_seen_before_it_is_read(fullest):
    step, field, how = fullest.phone.run("""const unit = (await store.units()).find((u) => u.id === args[0]);
        const packet = await store.packet(unit.packet);
        const had = new Set((await store.entries(unit.id)).map((e) => `${e.step}/${e.field}`));
        return packet.steps.flatMap((s) => s.fields.map((f) => [s.id, f.id, f.how, f.type]))
            .find(([s, f, how, type]) => how && type === 'length' && !had.has(`${s}/${f}`)).slice(0, 3);""",
        fullest.unit)
    fullest.go(f"step/{step}")
    assert fullest.page.locator(f"#field-{field} .how").inner_text() == how


def test_the_plan_is_said_in_the_unit_that_was_chosen(work):
    work.inches(False)
    work.go("read/true-frame/diagonal_tl_br/frame")
    assert "mm" in work.text(".under")
    work.page.click("#key-right")
    work.page.wait_for_selector("#key-right .units .on:text-is('in')")
    assert "in" in work.text(".under")
    assert "mm" not in work.text(".under")
    work.page.click("#key-right")
