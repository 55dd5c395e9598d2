"""What a step, a hold point, the frame and the sign-off say of what stands there (screens.md 3 and 4)."""

import re
import tomllib

import pytest
from phone_screen import ANSWERS, DONE, FIELDS, KINDS, RACK, SHEET, readings, seen, step, tick

from fieldapp.places import folder
from fieldapp.trade import rivets
from fieldapp.trade.estimate import answer

OUT = {"is": "outside", "outside": ["angle"], "values": {"angle": ["a1"]}}
ANGLE = {"id": "angle", "type": "number", "ucum": "deg", "say": "Stop angle", "required": True,
         "expect": {"from": 90, "to": 95}}  # fmt: skip
READ = {"id": "a1", "kind": "reading", "step": "stop", "field": "angle", "round": None, "person": "lena",
        "at": "2026-11-25T10:42:00+00:00", "replaces": [],
        "value": {"text": "130", "number": 130, "ucum": "deg"}}  # fmt: skip


def plain(shown):
    return shown["main"].replace("\u00a0", " ")


def test_outside_says_the_figure_its_limit_and_what_to_do(module_page):
    steps = [{"id": "stop", "now": OUT, "fields": [ANGLE]}, step("end", DONE)]
    shown = plain(seen(module_page, "step", steps, {"step": "stop"}, entries=[READ]))
    assert "130 °, allowed 90 ° to 95 °. Recorded. Put it right, or ask for a concession." in shown
    never = [{**steps[0], "concession": False}, steps[1]]
    shown = plain(seen(module_page, "step", never, {"step": "stop"}, entries=[READ]))
    assert "Recorded. Put it right." in shown
    assert "ask for a concession" not in shown


def test_a_concession_is_asked_for_beside_the_figure_and_its_limit(module_page):
    steps = [{"id": "stop", "now": OUT, "fields": [ANGLE]}]
    shown = plain(seen(module_page, "ask", steps, {"step": "stop"}, entries=[READ]))
    assert "Stop angle: 130 °, allowed 90 ° to 95 °" in shown


def test_a_judged_quantity_outside_says_figure_and_limit_on_its_step(module_page):
    now = {"is": "outside", "outside": ["plumb_left"], "values": {"plumb_left": ["r02"]}}
    steps = [{"id": "square", "now": now, "fields": [], "answers": ANSWERS},
             {"id": "read", "now": {"is": "done"}, "fields": FIELDS}]  # fmt: skip
    made = {"entries": [{**one, "step": "read"} for one in readings(RACK)], "sheets": {"frame": SHEET}}
    shown = plain(seen(module_page, "step", steps, {"step": "square"}, **made))
    said = re.search(r"Plumb_left: [\d.]+ mm top right, allowed ± 1.6 mm. Recorded. Do the moves", shown)
    assert said, shown


def square(**now):
    return {"id": "square", "now": {"is": "done", "values": {"plumb_left": ["r02"]}, **now}, "fields": FIELDS,
            "answers": ANSWERS}  # fmt: skip


def test_each_reading_that_stands_is_shown_with_its_time(module_page):
    both = readings({}, ["width_head"]) + readings({"width_head": 5}, ["width_head"])
    both[1] |= {"id": "r99", "person": "omar", "at": "2026-11-25T10:50:00+00:00"}
    steps = [square(values={"width_head": ["r00", "r99"]})]
    shown = plain(seen(module_page, "step", steps, {"step": "square"}, entries=both, sheets={"frame": SHEET}))
    first, second = (f"{both[i]['value']['text']}" for i in (0, 1))
    assert first != second
    assert first in shown
    assert second in shown
    assert "omar, 25 Nov" in shown


def test_a_hold_point_that_rests_on_the_frame_shows_all_seven_lines(module_page):
    hold = {"id": "stop", "hold": True, "now": {"is": "shut", "values": {"ok": ["e3"]}}, "answers": ANSWERS,
            "look": ["The frame's answer, all seven lines."]}  # fmt: skip
    made = seen(
        module_page, "hold", [square(), hold], {"step": "stop"}, entries=readings(RACK), sheets={"frame": SHEET}
    )
    for name in ("head", "sill", "left jamb", "right jamb", "twist", "lean", "width at mid height"):
        assert name in made["main"], name
    assert "#unit/u/frame/frame" in made["links"]
    assert "hold point" in made["main"], "the crow's foot before anybody looked"


def tilted(over=1000):
    return {"id": "t1", "kind": "reading", "step": "square", "field": "tilt", "round": None, "packet": "p",
            "person": "lena", "at": "2026-11-25T10:42:00+00:00", "count": 99, "replaces": [], "sheet": "frame",
            "unit": "u", "value": {"text": "3 mm", "nm": 3_000_000, "over": over * 1_000_000}}  # fmt: skip


@pytest.mark.parametrize("screen", ["frame", "why"])
def test_the_tilt_of_the_box_that_was_taken_into_account_is_said(module_page, screen):
    """3 mm over 1000 mm is 2.7 mm over a sill of 914 mm."""
    tilt = {"id": "tilt", "type": "length", "say": "Level of the box", "required": False, "level": True,
            "feeds": [{"sheet": "frame", "as": "tilt.along"}]}  # fmt: skip
    at = {"sheet": "frame"}
    one = {**square(), "fields": [*FIELDS, tilt]}
    shown = plain(seen(module_page, screen, [one], at, entries=[*readings(), tilted()], sheets={"frame": SHEET}))
    assert "Box 2.7 mm right high over the sill: taken into account." in shown
    shown = plain(seen(module_page, screen, [one], at, entries=readings(), sheets={"frame": SHEET}))
    assert "taken into account" not in shown


def test_nought_has_no_direction_and_names_are_those_of_the_sheet(module_page):
    said = module_page.page.evaluate("""async (origin) => {
      const { withWay } = await import(`${origin}/phone/frame_look.js`);
      const at = (show) => ({ settings: { show } });
      return [withWay(at('mm'), 'align_mid', -0.02), withWay(at('mm'), 'align_mid', -0.4),
        withWay(at('in'), 'twist', 0.2), withWay(at('mm'), 'twist', 0)];
    }""", module_page.origin)
    assert [text.replace("\u00a0", " ") for text in said] == ["0 mm", "0.4 mm narrow", "0 in", "0 mm"]
    shown = seen(module_page, "why", [square()], {"sheet": "frame"}, entries=readings(), sheets={"frame": SHEET})
    for item in SHEET["judged"]:  # the plan's name where it has one, as in the office
        name = item["what"] if item["what"] in KINDS else item["say"]
        assert (name[0].upper() + name[1:]) in shown["main"]


def test_could_be_either_names_the_reading_that_settles_it_and_takes_it_next(module_page):
    few = readings({"plumb_left": 1.4, "plumb_right": 1.4}, ["plumb_left", "plumb_right", "width_sill", "width_head"])
    shown = seen(module_page, "frame", [square()], {"sheet": "frame"}, entries=few, sheets={"frame": SHEET})
    assert shown["title"].startswith("Could be either. One more reading settles it: ")
    kind = shown["title"].split(": ")[1]
    assert kind in KINDS
    assert f"/read/square/{kind}" in shown["action"]["go"]


def returned(because="Water: test it again", **more):
    review = {"id": "v1", "kind": "review", "value": {"of": "s1", "is": "returned", "because": because},
              "person": "ruth", "at": "2026-11-25T12:00:00+00:00", "replaces": []}  # fmt: skip
    sign = {"id": "s1", "kind": "signoff", "value": {"covers": []}, "person": "lena",
            "at": "2026-11-25T11:00:00+00:00", "replaces": []}  # fmt: skip
    signoff = {"id": "s1", "is": "complete", "missing": 0, "review": {"id": "v1", "is": "returned"}, **more}
    return {"entries": [sign, review], "state": {"is": "returned", "signoffs": [signoff]}}


def test_a_returned_unit_goes_on_with_what_the_return_names_and_is_not_signed_again_at_once(module_page):
    steps = [step("Leaf", DONE), step("Water", DONE)]
    shown = seen(module_page, "unit", steps, **returned())
    assert shown["action"] == {"say": "Go on: Water", "go": "#unit/u/step/Water", "does": False}
    assert "Nothing new since it was returned." in shown["main"]
    assert seen(module_page, "stage", steps, {"stage": "set"}, **returned())["action"] == shown["action"]
    shown = seen(module_page, "unit", [step("Leaf", DONE)], **returned())
    assert shown["action"]["say"] == "See why it was returned"
    assert seen(module_page, "unit", steps, **returned(**{"is": "stale"}))["action"]["say"] == "All steps done. Sign."


def test_a_return_that_names_a_field_or_what_is_judged_leads_to_its_step(module_page):
    field = {"id": "gap", "type": "length", "say": "Gap at the left end", "required": False}
    steps = [step("Leaf", DONE), {**step("Head seal", DONE), "fields": [tick(), field]}, {**square(), "now": DONE}]
    for because, name in (("The gap at the left end looks odd", "Head seal"), ("I doubt the twist.", "square")):
        more = {**returned(because), "sheets": {"frame": SHEET}}
        assert seen(module_page, "unit", steps, **more)["action"]["say"] == f"Go on: {name}", because


def test_a_return_that_names_no_step_leads_to_the_stages_not_in_a_circle(module_page):
    steps = [step("Leaf", DONE, stage="prove"), step("Core", DONE, stage="edges"), step("Later", DONE, stage="re-check", signed=False)]  # noqa: E501
    shown = seen(module_page, "sign", steps, press=True, **returned("Do it again"))
    assert "Returned: Do it again" in shown["main"]
    assert shown["action"] == {"say": "Choose where to read again", "go": None, "does": True}
    assert [link for link in shown["links"] if "/stage/" in link] == ["#unit/u/stage/prove", "#unit/u/stage/edges"]
    assert not any("/stage/" in link for link in seen(module_page, "sign", steps, **returned("Leaf: again"))["links"])


def rivet_sheet():
    tables = folder("seed_data") / "tables"
    rivet, doubt = (tomllib.loads((tables / f"{name}.toml").read_text("utf-8")) for name in ("rivets", "doubt"))
    return rivets.sheet("rivet_sides", 4.8, ["Flange", "Wall"], "sides", rivet, doubt)


@pytest.mark.parametrize("beside", [True, False])
def test_another_row_than_the_one_answered_is_said_and_looked_at(module_page, beside):
    sheet = rivet_sheet()
    inputs = {"stack.0.thickness": {"value": 1.5}, "stack.1.thickness": {"value": 2.0}}
    told = answer(sheet, {"inputs": inputs})["row"]
    rows = [row["name"] for row in sheet["rows"]["rows"]]
    chosen = next(row for row in rows if row != told) if beside else told
    stack = [{"id": f"stack{i}", "type": "length", "say": f"Stack {i}", "required": True,
              "feeds": [{"sheet": "rivet_sides", "as": f"stack.{i}.thickness"}]} for i in (0, 1)]  # fmt: skip
    row = {"id": "row", "type": "choice", "say": "Row", "required": True,
           "options": [{"id": name, "say": f"Row {name}"} for name in rows]}  # fmt: skip
    common = {"step": "sides", "round": None, "person": "lena", "at": "2026-11-25T10:42:00+00:00", "replaces": [],
              "packet": "p", "unit": "u", "count": 1, "sheet": "rivet_sides"}  # fmt: skip
    entries = [{**common, "id": f"e{i}", "kind": "reading", "field": f"stack{i}", "value": {"text": f"{mm} mm",
                "nm": round(mm * 1e6)}} for i, mm in enumerate((1.5, 2.0))]  # fmt: skip
    entries.append({**common, "id": "e2", "kind": "choice", "field": "row", "value": {"chosen": chosen}})
    now = {"is": "done", "values": {"stack0": ["e0"], "stack1": ["e1"], "row": ["e2"]}}
    steps = [{"id": "sides", "now": now, "fields": [*stack, row], "answers": [{"sheet": "rivet_sides", "judged": []}]}]
    said = f"Row {chosen}, but the answer is row {told}"
    for screen, at in (("step", {"step": "sides"}), ("stage", {"stage": "set"}), ("unit", {}), ("sign", {})):
        shown = seen(module_page, screen, steps, at, entries=entries, sheets={"rivet_sides": sheet})
        assert (said.lower() in shown["main"].lower()) is beside, (screen, shown["main"])
    # before one is chosen the answer stands over the rows, is marked among them, and is what the main action takes
    steps[0]["now"] = {"is": "open", "missing": ["row"], "values": {"stack0": ["e0"], "stack1": ["e1"]}}
    few = {"entries": entries[:2], "sheets": {"rivet_sides": sheet}}
    shown = seen(module_page, "step", steps, {"step": "sides"}, press=True, **few)
    assert shown["main"].index(f"Sides: row {told}") < shown["main"].index(f"Row {rows[0]}")
    assert f"Row {told}, the answer" in shown["main"]
    assert shown["action"]["say"] == f"Use row {told}"
    assert shown["gone"][-1] == "choice"


def test_a_row_too_close_to_another_is_not_offered_before_the_stack_is_measured_again(module_page):
    """3.1 mm lies 0.08 mm from the end of row 62: what is to be measured again has no row to be used yet."""
    sheet = rivet_sheet()
    inputs = {"stack.0.thickness": {"value": 1.5}, "stack.1.thickness": {"value": 1.6}}
    found = answer(sheet, {"inputs": inputs})
    assert (found["row"], found["pick"]["other_row"], found["pick"]["measure_again"]) == ("62", "64", True)
    stack = [{"id": f"stack{i}", "type": "length", "say": f"Stack {i}", "required": True,
              "feeds": [{"sheet": "rivet_sides", "as": f"stack.{i}.thickness"}]} for i in (0, 1)]  # fmt: skip
    row = {"id": "row", "type": "choice", "say": "Row", "required": True,
           "options": [{"id": one["name"], "say": f"Row {one['name']}"} for one in sheet["rows"]["rows"]]}  # fmt: skip
    entries = [{"step": "sides", "round": None, "person": "lena", "at": "2026-11-25T10:42:00+00:00", "replaces": [],
                "packet": "p", "unit": "u", "count": 1, "sheet": "rivet_sides", "id": f"e{i}", "kind": "reading",
                "field": f"stack{i}", "value": {"text": f"{mm} mm", "nm": round(mm * 1e6)}}
               for i, mm in enumerate((1.5, 1.6))]  # fmt: skip
    steps = [{"id": "sides", "fields": [*stack, row], "answers": [{"sheet": "rivet_sides", "judged": []}],
              "now": {"is": "open", "missing": ["row"], "values": {"stack0": ["e0"], "stack1": ["e1"]}}}]  # fmt: skip
    for screen, at in (("step", {"step": "sides"}), ("sheet", {"sheet": "rivet_sides"})):
        shown = seen(module_page, screen, steps, at, entries=entries, sheets={"rivet_sides": sheet})
        assert "measure the stack again" in shown["main"]
        assert "the answer" not in shown["main"]
        assert not shown["action"]["say"].startswith("Use row"), screen


def test_signing_stands_once_under_its_own_name(module_page):
    steps = [step("Keys and sheet", DONE, stage="Sign and hand over")]
    steps.append(step("Leaf", {"is": "open"}, stage="Sign and hand over"))
    shown = seen(module_page, "unit", steps)
    assert shown["main"].count("Sign and hand over") == 1
    assert "Your signature" in shown["main"]


@pytest.mark.parametrize(("screen", "words"), [("is_it", "plan"), ("unit", "It comes with the next signal")])
def test_a_unit_whose_plan_is_not_here_yet_says_so(module_page, screen, words):
    """ctx as it is between the first sign-in and the plan's coming: no packet, no drawings, no state."""
    title, text, action = module_page.page.evaluate("""async ([origin, screen]) => {
      const { render } = await import(`${origin}/phone/screens/${screen}.js`);
      const shown = await render({ unit: { id: 'u', number: '07', short: null, crew: null }, packet: null, at: {},
        settings: { show: 'mm' }, person: { id: 'lena' }, entries: [], store: {} });
      const text = [shown.main].flat(3).map((one) => one?.textContent ?? one ?? '').join(' ');
      return [shown.title, text, shown.action.go];
    }""", [module_page.origin, screen])
    assert "07" in title
    assert words in text
    assert action == "#open"
