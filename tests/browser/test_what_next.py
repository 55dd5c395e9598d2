"""One answer to "what next": the unit, its stages, the frame's answer and a released hold point lead to the same step.

Screens are rendered over small made-up states (state.md's shapes); nothing here needs a server.
"""

import re

import pytest
from phone_screen import ANSWERS, DONE, FIELDS, RACK, SHEET, readings, seen, step, tick

from fieldapp.trade import stance
from fieldapp.web.office_standing import NO

OUTSIDE = [step("level", DONE), step("square", {"is": "outside", "outside": ["ok"], "values": {"ok": ["e2"]}}),
           step("pin", {"is": "open", "missing": ["ok"]}), step("later", {"is": "open"}, stage="seal")]  # fmt: skip


@pytest.mark.parametrize(("screen", "at"), [("unit", {}), ("stage", {"stage": "set"}), ("stage", {"stage": "seal"})])
def test_what_is_outside_is_not_walked_past(module_page, screen, at):
    shown = seen(module_page, screen, OUTSIDE, at)
    assert shown["action"]["say"] == "Go on: square"
    assert shown["action"]["go"] == "#unit/u/step/square"


def test_once_the_office_is_asked_the_work_goes_on(module_page):
    ask = {"id": "a", "kind": "ask", "step": "square", "value": {"because": "no room"}}
    assert seen(module_page, "unit", OUTSIDE, entries=[ask])["action"]["say"] == "Go on: pin"


def test_two_accounts_are_not_walked_past(module_page):
    steps = [step("a", {"is": "open", "pairs": ["ok"], "values": {"ok": ["x", "y"]}}), step("b", {"is": "open"})]
    assert seen(module_page, "unit", steps)["action"]["say"] == "Go on: a"


def test_a_released_hold_point_leads_where_the_unit_does(module_page):
    hold = step("stop", {"is": "done", "hold": "stated", "values": {"ok": ["e3"]}}, hold=True)
    steps = [OUTSIDE[1], hold, step("pin", {"is": "open"})]
    there = [seen(module_page, screen, steps, at)["action"] for screen, at in
             (("unit", {}), ("stage", {"stage": "set"}))]  # fmt: skip
    assert there[0] == there[1]
    assert there[0]["say"] == "Go on: square"


def test_a_step_that_asks_nothing_needed_is_stopped_at_and_not_called_done(module_page):
    may = {"id": "sides", "fields": [tick(required=False)], "now": {"is": "done"}}
    steps = [step("a", DONE), may, step("head", {"is": "open"})]
    shown = seen(module_page, "unit", steps)
    assert shown["action"]["say"] == "Go on: sides"
    stage = seen(module_page, "stage", steps, {"stage": "set"})
    row = stage["main"].split("sides")[1].split("head")[0]
    assert "done" not in row
    assert "if you can" in row
    past = [*steps[:2], step("head", DONE), step("end", {"is": "open"})]
    assert seen(module_page, "unit", past)["action"]["say"] == "Go on: end", "the work went past it"


REFUSED = step("stop", {"is": "shut", "outside": ["ok"], "values": {"ok": ["e3"]}}, hold=True, concession=False,
               answers=[{"sheet": "frame", "judged": []}])  # fmt: skip


def test_a_stop_answered_not_done_leads_to_the_frame_and_offers_no_second_look(module_page):
    steps = [step("square", DONE), REFUSED, step("head", {"is": "open"})]
    unit = seen(module_page, "unit", steps)
    assert unit["action"] == {"say": "Go on: stop", "go": "#unit/u/step/stop", "does": False}
    entries = [{"id": "e3", "kind": "tick", "step": "stop", "field": "ok", "value": {"ticked": False}, "replaces": []}]
    shown = module_page.page.evaluate("""async ([origin, steps, entries]) => {
      const { refusal } = await import(`${origin}/phone/flow.js`);
      const ctx = { packet: { steps }, state: { steps: steps.map(({ id, now }) => ({ id, missing: [], pairs: [],
        outside: [], unsettled: [], hold: null, values: {}, ...now })) },
        sheet: () => ({ corrections: [1] }), entries };
      const before = refusal(ctx, steps[1]);
      ctx.entries = [...entries, { id: 'e4', kind: 'round', value: { sheet: 'frame' }, replaces: [] }];
      return [before, refusal(ctx, steps[1])];
    }""", [module_page.origin, steps, entries])
    assert shown[0] == {"frame": "frame"}
    assert shown[1]["field"]["id"] == "ok", "read again since: the answer is given anew, no circle"


def test_a_stop_before_a_frame_out_of_true_leads_where_the_unit_does(module_page):
    square = {"is": "outside", "outside": ["plumb_left"], "values": {"plumb_left": ["r02"]}}
    steps = [{"id": "square", "now": square, "fields": FIELDS, "answers": ANSWERS},
             {**REFUSED, "now": {"is": "open", "missing": ["ok"], "outside": ["plumb_left"]}}]  # fmt: skip
    made = {"entries": readings(RACK), "sheets": {"frame": SHEET}}
    shown = seen(module_page, "hold", steps, {"step": "stop"}, **made)
    assert shown["action"] == seen(module_page, "unit", steps, **made)["action"]
    assert shown["action"]["say"] == "Go on: square"


def test_the_left_key_of_a_step_is_a_way_back_though_something_is_outside(module_page):
    square = {"is": "outside", "outside": ["square_head"], "values": {"plumb_left": ["r02"]}}
    steps = [OUTSIDE[0], {"id": "square", "now": square, "fields": FIELDS, "answers": ANSWERS}, OUTSIDE[2]]
    shown = seen(module_page, "step", steps, {"step": "square"}, entries=readings(RACK), sheets={"frame": SHEET})
    assert shown["action"]["say"].startswith("See the")
    assert shown["left"] == {"say": "Step before", "go": "#unit/u/step/level", "does": False}
    assert "#unit/u/step/pin" in shown["links"], "the next step stands in the page"
    shown = seen(module_page, "step", OUTSIDE, {"step": "square"})
    assert shown["left"] == {"say": "Step before", "go": "#unit/u/step/level", "does": False}
    assert shown["right"]["say"] == "Ask for a concession"
    assert shown["action"] == {"say": "Next step", "go": "#unit/u/step/pin", "does": False}


# Figures mixed up on purpose (mm off the plan): the middle width was read three times, and three others fit nothing.
MIXED = [("plumb_right", 0.2), ("level_head", 34.9), ("width_mid", 77.0), ("lean_left", 2.3), ("width_head", 0.3),
         ("diagonal_tl_br", 1.5), ("lean_right", -127.1), ("lean_right", -127.2), ("plumb_left", 0.6),
         ("level_head", 35.7), ("width_mid", 75.7), ("width_mid", 74.9)]  # fmt: skip


def mixed(figures):
    made = []
    for n, (kind, off) in enumerate(figures):
        [one] = readings({kind: off}, [kind])
        made.append({**one, "id": f"r{n:02d}", "count": n})
    return made


def test_a_reading_is_not_asked_for_without_end_while_figures_are_set_aside(module_page):
    one = {"id": "square", "now": {"is": "open"}, "fields": FIELDS, "answers": ANSWERS}
    at = {"sheet": "frame"}
    shown = seen(module_page, "frame", [one], at, entries=mixed(MIXED), sheets={"frame": SHEET})
    assert re.fullmatch(r"\d+ figures do not fit the others\. Measure again: (\w+)", shown["title"])
    kind = shown["title"].split(": ")[1]
    assert kind != "width_mid"
    assert f"/read/square/{kind}" in shown["action"]["go"]
    # asked for once or twice it is asked for again, and nobody says "could be either" of a frame that is outside
    shown = seen(module_page, "frame", [one], at, entries=mixed(MIXED[:-1]), sheets={"frame": SHEET})
    assert not shown["title"].startswith(("Could be either", "2 figures", "3 figures"))


def test_a_step_behind_a_shut_hold_point_leads_to_it(module_page):
    steps = [step("stop", {"is": "shut"}, hold=True), step("end", {"is": "open"})]
    shown = seen(module_page, "step", steps, {"step": "end"})
    assert shown["action"]["go"] == "#unit/u/hold/stop"


def test_past_a_step_that_waits_nobody_walks_again_through_what_is_done(module_page):
    """The box stands twisted, and the work before a hold point was done all the same."""
    steps = [OUTSIDE[1], step("services", DONE), step("people", DONE), step("stack", {"is": "open"}, stage="measure")]
    shown = seen(module_page, "step", steps, {"step": "square"})
    assert shown["action"] == {"say": "Go on: stack", "go": "#unit/u/step/stack", "does": False}
    shown = seen(module_page, "step", steps, {"step": "services"})
    assert shown["action"] == {"say": "Next step", "go": "#unit/u/step/people", "does": False}, "looked through by hand"
    shown = seen(module_page, "step", steps[:3], {"step": "square"})
    assert shown["action"]["go"] == "#unit/u/sign"
    # nor once the office is asked; where the step's own answer has still something to say, the way on stands beside it
    ask = {"id": "a", "kind": "ask", "step": "square", "person": "lena", "at": "2026-11-25T10:42:00+00:00",
           "value": {"because": "no room"}}  # fmt: skip
    shown = seen(module_page, "step", steps, {"step": "square"}, entries=[ask])
    assert shown["action"]["say"] == "Go on: stack"
    out = {"is": "outside", "outside": ["plumb_left"], "values": {"plumb_left": ["r00"]}}
    steps[0] = {"id": "square", "now": out, "fields": FIELDS, "answers": ANSWERS}
    few = [*readings({"plumb_left": 25}, ["plumb_left"]), ask]
    shown = seen(module_page, "step", steps, {"step": "square"}, entries=few, sheets={"frame": SHEET})
    assert shown["action"]["go"] == "#unit/u/frame/frame"
    assert "#unit/u/step/stack" in shown["links"]


def test_a_frame_of_which_nothing_is_read_is_read_not_looked_up(module_page):
    jamb = {"id": "jamb", "now": {"is": "open"}, "answers": [{"sheet": "frame", "judged": ["plumb_left"]}],
            "fields": [field for field in FIELDS if field["id"] in ("plumb_left", "lean_left")]}  # fmt: skip
    square = {"id": "square", "now": {"is": "open"}, "fields": FIELDS, "answers": ANSWERS}
    made = {"sheets": {"frame": SHEET}}
    shown = seen(module_page, "step", [jamb, square], {"step": "jamb"}, **made)
    assert shown["action"] == {"say": "Read plumb_left", "go": "#unit/u/read/jamb/plumb_left", "does": False}
    shown = seen(module_page, "step", [jamb, square], {"step": "square"}, **made)
    assert shown["action"] == {"say": "Read the frame", "go": "#unit/u/frame/frame", "does": False}
    cannot = {"id": "n1", "kind": "note", "step": "jamb", "person": "lena", "at": "2026-11-25T10:42:00+00:00",
              "value": {"text": "Not read, plumb_left: The tool is not here"}}  # fmt: skip
    shown = seen(module_page, "step", [jamb, square], {"step": "jamb"}, entries=[cannot], **made)
    assert shown["action"]["say"] == "Read the frame", "no circle through what cannot be read"
    out = {"is": "outside", "outside": ["plumb_left"], "values": {"plumb_left": ["r00"]}}
    shown = seen(module_page, "step", [{**jamb, "now": out}, square], {"step": "jamb"},
                 entries=readings({"plumb_left": 25}, ["plumb_left"]), **made)  # fmt: skip
    assert shown["action"] == {"say": "See the answer", "go": "#unit/u/frame/frame", "does": False}, "not just past it"


def test_what_need_not_be_read_says_so_beside_its_limit(module_page):
    limit = {"from": 25_000_000, "to": None}
    land = {"id": "land", "type": "length", "say": "Land", "required": False, "expect": limit}
    shown = seen(module_page, "step", [step("a", DONE, fields=[land])], {"step": "a"})
    assert "at least 25 mm" in shown["main"].replace("\u00a0", " ")
    assert "touch to read, if you can" in shown["main"]
    shown = seen(module_page, "step", [step("a", DONE, fields=[{**land, "required": True}])], {"step": "a"})
    assert "if you can" not in shown["main"]


def test_a_figure_that_a_sheet_rests_on_keeps_its_direction(module_page):
    sheet = stance.sheet("stance", {"warp": 6, "source": "x"}, {"corner": 1})
    field = {"id": "near_right", "type": "length", "say": "Near right", "required": True, "key": "signed",
             "feeds": [{"sheet": "stance", "as": "near_right"}]}  # fmt: skip
    entry = {"id": "e1", "kind": "reading", "step": "a", "field": "near_right", "round": None, "packet": "p",
             "person": "lena", "at": "2026-11-25T10:42:00+00:00", "count": 1, "replaces": [], "sheet": "stance",
             "unit": "u", "value": {"text": "-9", "nm": -9_000_000}}  # fmt: skip
    steps = [{"id": "a", "now": {"is": "open", "values": {"near_right": ["e1"]}}, "fields": [field],
              "answers": [{"sheet": "stance", "judged": ["warp"]}]}]  # fmt: skip
    shown = seen(module_page, "sheet", steps, {"sheet": "stance"}, entries=[entry], sheets={"stance": sheet})
    assert "lower" in shown["main"]


OPEN = """async ([origin, rows]) => {
  const { render } = await import(`${origin}/phone/screens/open_unit.js`);
  const units = rows.map((row) => ({ job: null, packet: null, short: '', code: '', ...row }));
  return (await render({ at: {}, settings: { pad: 'own' }, draft: async () => null, keys() {},
    store: { units: async () => units } })).action.say;
}"""


@pytest.mark.parametrize(("here", "first"), [({"stage": None, "of": "plan"}, "Open 01"),
                                             ({"stage": None, "of": "cut"}, "Open 03"), (None, "Open 03")])  # fmt: skip
def test_another_unit_is_not_the_one_just_signed(module_page, here, first):
    """What this phone's own entries have made of a unit counts, until the office says another stage of it."""
    rows = [{"id": "a", "number": "01", "stage": "plan"},
            {"id": "c", "number": "03", "stage": "plan", "here": here, "opened": 5}]  # fmt: skip
    assert module_page.page.evaluate(OPEN, [module_page.origin, rows]) == first


def test_a_concession_granted_is_said_before_the_fields_and_wherever_what_it_lets_stand_is_named(module_page):
    """What may stay is still outside; the crew reads that the office lets it, and what it wants done for that."""
    strip = {"id": "middle", "type": "length", "say": "Strip, middle", "required": True, "wrong": "Dress it down.",
             "expect": {"from": 3_300_000, "to": 6_300_000}}  # fmt: skip
    made = {"step": "strip", "round": None, "packet": "p", "person": "pia", "at": "2026-11-25T10:42:00+00:00",
            "replaces": [], "unit": "u", "count": 1}  # fmt: skip
    entries = [{**made, "id": "e1", "kind": "reading", "field": "middle", "value": {"text": "2.3 mm", "nm": 2_300_000}},
               {**made, "id": "e2", "kind": "ask", "value": {"because": "the disc dipped", "covers": ["e1"]}},
               {**made, "id": "e3", "kind": "review", "person": "ruth",
                "value": {"is": "concession", "of": "e2", "because": "steel packer 8 mm, bedded"}}]  # fmt: skip

    def shown(screen, is_):
        now = {"is": is_, "outside": ["middle"], "values": {"middle": ["e1"]}}
        steps = [step("strip", now, fields=[strip], stage="edges")]
        return seen(module_page, screen, steps, {"step": "strip", "stage": "edges"}, entries=entries)["main"]

    page = shown("step", "passed")
    assert page.index("steel packer 8 mm, bedded") < page.index("Strip, middle")
    assert "Recorded. The office lets it stand" in page
    assert "ask for a concession" not in page
    page = shown("step", "outside")
    assert "ask for a concession" in page, "a change after it: it holds no longer"
    assert page.index("steel packer 8 mm, bedded") > page.index("Strip, middle"), "a remark, not what is to be done"
    for screen in ("unit", "stage", "sign"):
        assert "strip, middle, by a concession" in shown(screen, "passed").lower(), screen
        assert "by a concession" not in shown(screen, "outside"), screen


def test_a_concession_that_is_not_granted_leads_back_to_the_step_with_what_the_office_wants(module_page):
    """The words are those of the record's page: office_standing.NO."""
    ask = {"id": "b1", "kind": "ask", "step": "square", "person": "lena", "at": "2026-11-25T10:42:00+00:00",
           "value": {"because": "no room", "covers": []}}  # fmt: skip
    no = {**ask, "id": "b2", "kind": "note", "person": "ruth", "value": {"text": f"{NO['concession']}: dress it"}}
    assert seen(module_page, "unit", OUTSIDE, entries=[ask])["action"]["say"] == "Go on: pin"
    assert seen(module_page, "unit", OUTSIDE, entries=[ask, no])["action"]["say"] == "Go on: square"
    shown = seen(module_page, "step", OUTSIDE, {"step": "square"}, entries=[ask, no])
    assert shown["main"].index("Not granted: dress it") < shown["main"].index("Is ok")
    assert shown["main"].count("dress it") == 1
    assert shown["right"]["say"] == "Ask for a concession"
    for is_ in ("passed", "done"):  # the office thought better of it, or it was put right: the no is a remark of then
        steps = [step("square", {"is": is_, "values": {"ok": ["e2"]}})]
        shown = seen(module_page, "step", steps, {"step": "square"}, entries=[ask, no])
        assert shown["main"].index("Not granted: dress it") > shown["main"].index("Is ok"), is_
    again = {**ask, "id": "b3", "replaces": ["b1"]}
    assert seen(module_page, "unit", OUTSIDE, entries=[ask, no, again])["action"]["say"] == "Go on: pin"


def test_a_frame_all_inside_can_be_read_again_when_the_leaf_catches(module_page):
    """Nothing more is wanted of it, and what catches is in the frame: the new round starts with the diagonals."""
    afresh = {"id": "r99", "kind": "round", "step": "square", "field": None, "round": None, "packet": "p", "count": 99,
              "person": "lena", "at": "2026-11-25T11:00:00+00:00", "replaces": [], "sheet": "frame", "unit": "u",
              "value": {"sheet": "frame", "after": []}}  # fmt: skip
    one = {"id": "square", "now": {"is": "done"}, "fields": FIELDS, "answers": ANSWERS}
    few = [{**reading, "value": {**reading["value"], "u": 100_000}} for reading in readings()]
    for screen in ("readings", "frame"):
        made = {"entries": [*few, afresh], "sheets": {"frame": SHEET}}
        shown = seen(module_page, screen, [one], {"sheet": "frame"}, **made)
        assert shown["action"]["say"] == "Read diagonal_bl_tr", shown["title"]
        assert "/read/square/diagonal_bl_tr/frame" in shown["action"]["go"]
    made = {"entries": few, "sheets": {"frame": SHEET}}
    assert seen(module_page, "frame", [one], {"sheet": "frame"}, **made)["title"] == "Leave it alone.", "nothing wanted"
