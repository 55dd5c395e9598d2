"""One answer to "what next": the unit, its stages, the frame's answer and a released hold point lead to the same step.

Screens are rendered over small made-up states (state.md's shapes); nothing here needs a server.
"""

import pytest

from fieldapp.trade import frame

SCREEN = """async ([origin, screen, at, made]) => {
  const { render } = await import(`${origin}/phone/screens/${screen}.js`);
  const plain = { stage: 'set', cautions: [], fields: [], needs: [] };
  const steps = made.steps.map((step) => ({ ...plain, say: step.id, ...step }));
  const state = made.steps.map(({ id, now }) => ({ id, is: 'open', missing: [], pairs: [], outside: [], unsettled: [],
    hold: null, values: {}, ...now }));
  const gone = [];
  const ctx = { at, unit: { id: 'u', number: '01' }, person: { id: 'lena', name: 'Lena', roles: [] }, drawings: [],
    packet: { steps, sheets: Object.keys(made.sheets ?? {}).map((name) => ({ name, part: name })), unit: {}, people: [],
      facts: [] }, entries: made.entries ?? [], refused: [],
    parts: made.sheets ?? {},
    settings: { show: 'mm' }, fresh: null,
    state: { is: 'working', steps: state, sheets: {}, signoffs: [], ...made.state },
    sheet: (name) => made.sheets?.[name] ?? null, sheetHash: () => 'x'.repeat(64), again() {},
    go: (to) => gone.push(to),
    make: (kind, value, where) => ({ id: 'new', kind, value, ...where }), status: async () => ({ is: 'sent' }),
    draft: async () => null, say() {}, store: { units: async () => [], entries: async () => [] },
    keep: async (all) => { gone.push(...all.map((e) => e.kind)); return true; } };
  const shown = await render(ctx);
  document.body.replaceChildren();
  const lay = (one) => Array.isArray(one) ? one.forEach(lay) : one && document.body.append(one);
  lay(shown.main);
  if (made.press) await shown.action.do?.();
  const key = (one) => one && { say: one.say, go: one.go ?? null, does: Boolean(one.do) };
  return { title: shown.title, main: document.body.innerText, action: key(shown.action), left: key(shown.left),
    right: key(shown.right), links: [...document.querySelectorAll('a')].map((a) => a.getAttribute('href')), gone };
}"""


def tick(id="ok", **more):
    return {"id": id, "type": "tick", "say": f"Is {id}", "required": True, **more}


DONE = {"is": "done", "values": {"ok": ["e1"]}}


def step(id, now, **more):
    return {"id": id, "now": now, "fields": [tick()], **more}


def seen(module_page, screen, steps, at=None, **made):
    return module_page.page.evaluate(
        SCREEN, [module_page.origin, screen, at or {}, {"steps": steps, **made}]
    )


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


SHEET = frame.sheet(914, 2057, "left")
KINDS = ["diagonal_bl_tr", "diagonal_tl_br", "plumb_left", "plumb_right", "width_sill", "width_head", "width_mid",
         "level_sill", "string_gap", "lean_left", "lean_right"]  # fmt: skip
ANSWERS = [{"sheet": "frame", "judged": [item["what"] for item in SHEET["judged"]]}]
FIELDS = [{"id": kind, "type": "length", "say": kind, "repeat": True, "required": False,
           "feeds": [{"sheet": "frame", "as": kind}]} for kind in KINDS]  # fmt: skip


def readings(off=None, kinds=KINDS):
    """One entry a kind, each as planned but for `off` {kind: mm}."""
    sides = {"plumb_left": 2057, "plumb_right": 2057, "lean_left": 2057, "lean_right": 2057, "level_sill": 914}
    made = []
    for n, kind in enumerate(kinds):
        mm = SHEET["readings"][kind]["constant"] + (off or {}).get(kind, 0)
        turned = {"reversed": True, "over": sides[kind] * 1_000_000} if kind in sides else {}
        made.append({"id": f"r{n:02d}", "kind": "reading", "step": "square", "field": kind, "round": None,
                     "packet": "p", "person": "lena", "at": "2026-11-25T10:42:00+00:00", "count": n,
                     "replaces": [], "sheet": "frame", "unit": "u",
                     "value": {"text": f"{mm:.1f} mm", "nm": round(mm * 1e6), **turned}})  # fmt: skip
    return made


RACK = {"diagonal_bl_tr": 914 / 2250.93 * 8, "diagonal_tl_br": -914 / 2250.93 * 8, "plumb_left": 8, "plumb_right": 8}
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
