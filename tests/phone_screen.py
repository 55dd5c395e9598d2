"""Phone screens rendered over small made-up states (state.md's shapes), without a server; and a frame as read."""

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


SHEET = frame.sheet(914, 2057, "left")
KINDS = ["diagonal_bl_tr", "diagonal_tl_br", "plumb_left", "plumb_right", "width_sill", "width_head", "width_mid",
         "level_sill", "level_head", "string_gap", "lean_left", "lean_right"]  # fmt: skip
ANSWERS = [{"sheet": "frame", "judged": [item["what"] for item in SHEET["judged"]]}]
FIELDS = [{"id": kind, "type": "length", "say": kind, "repeat": True, "required": False,
           "feeds": [{"sheet": "frame", "as": kind}]} for kind in KINDS]  # fmt: skip


def readings(off=None, kinds=KINDS):
    """One entry a kind, each as planned but for `off` {kind: mm}."""
    sides = dict.fromkeys(("plumb_left", "plumb_right", "lean_left", "lean_right"), 2057)
    sides |= {"level_sill": 914, "level_head": 914}
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
