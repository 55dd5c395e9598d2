"""The frame's drawing: as read, as the moves should leave it, arrows with amounts, and all of it in words."""

import re

import pytest

from fieldapp.trade import frame
from fieldapp.trade.estimate import answer
from fieldapp.work.frame import CALCULATOR

SIZES = [(914, 2057, "left"), (780, 2000, "right"), (2400, 1200, "left")]
DRAW = """async ([origin, sheet, said, moves, options]) => {
  const { drawFrame } = await import(`${origin}/phone/draw_frame.js`);
  const node = drawFrame(sheet, said.judged, moves, options);
  document.body.replaceChildren(node);
  const box = node.viewBox.baseVal;
  const texts = [...node.querySelectorAll("text")];
  const lines = [...node.querySelectorAll("path.ink[stroke-linejoin], path.chalk[stroke-width='2']")];
  const beyond = (b) => b.x < 0 || b.y < -3 || b.x + b.width > box.width || b.y + b.height > box.height;
  return { said: node.querySelector("desc").textContent, texts: texts.map((t) => t.textContent),
    outlines: lines.map((p) => p.getAttribute("d")), outside: texts.filter((t) => beyond(t.getBBox())).length };
}"""


def drawn(module_page, size, show="mm", made=()):
    """What the phone draws of a frame that is well read and out of true, with what was answered of it."""
    sheet = frame.sheet(*size)
    values = {"plumb_left": 6, "plumb_right": 6.5, "level_sill": 3, "level_head": 2.5, "lean_left": -3, "lean_right": 3,
              "string_gap": 3, "width_mid": sheet["readings"]["width_mid"]["constant"] + 4}  # fmt: skip
    readings = [{"of": kind, "value": values.get(kind, sheet["readings"][kind]["constant"]), "u": 0.1}
                for kind in sheet["next"]["can_read"] if not kind.startswith("diagonal")]  # fmt: skip
    said = answer(sheet, {"rounds": [{"readings": readings}], "show": show})
    moves = [{**move, "made": move["do"] in made} for move in said["corrections"]]
    options = {"after": said["after"], "show": show}
    return said, module_page.page.evaluate(DRAW, [module_page.origin, sheet, said, moves, options])


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("show", ["mm", "in"])
def test_every_move_has_its_number_and_amount_and_the_frame_after_them_is_drawn(module_page, size, show):
    said, seen = drawn(module_page, size, show)
    assert len(said["corrections"]) >= 3
    for n, move in enumerate(said["corrections"], 1):
        amount = re.search(r"(\d[\d./\s]*?)\s(?:mm|in)\b", move["say"]).group(1)
        assert str(n) in seen["texts"]
        assert amount in seen["texts"], (move, seen["texts"])
        assert f"{n}: {move['say']}" in seen["said"]
    assert show in seen["texts"]
    assert "after" in seen["texts"]
    assert seen["outside"] == 0, seen["texts"]
    before, after = seen["outlines"][:2]
    assert before != after


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("way", ["left", "right"])
def test_how_many_times_the_faults_are_drawn_stands_clear_of_the_head_s_arrow(module_page, size, way):
    sheet = frame.sheet(*size)
    judged = [{"what": one["what"], "tolerance": 1.6, "estimate": 6, "u": 0.1} for one in sheet["judged"]]
    moves = [{"do": f"push_head_{way}", "by": 6, "say": "Push"}]
    assert module_page.page.evaluate("""async ([origin, sheet, judged, moves]) => {
      const { drawFrame } = await import(`${origin}/phone/draw_frame.js`);
      const node = drawFrame(sheet, judged, moves, {});
      document.body.replaceChildren(node);
      const label = [...node.querySelectorAll("text")].find((t) => t.textContent.startsWith("drawn")).getBBox();
      const parts = [...node.querySelectorAll("circle, path[transform], text.halo")];
      const top = (part) => part.getBoundingClientRect().top - node.getBoundingClientRect().top;
      const scale = node.getBoundingClientRect().width / node.viewBox.baseVal.width;
      return parts.filter((part) => top(part) / scale < label.y + label.height - 1.5).map((part) => part.outerHTML);
    }""", [module_page.origin, sheet, judged, moves]) == []  # fmt: skip


def test_the_frame_after_the_moves_stands_nearer_to_the_plan(module_page):
    _, seen = drawn(module_page, SIZES[0])
    before, after = ([float(x) for x in re.findall(r"-?[\d.]+", one)] for one in seen["outlines"][:2])
    plan_left = before[0]  # the bottom left corner stands where it is planned
    top = 4  # index of the top left corner's x: bl, left mid, tl
    assert abs(before[top] - plan_left) > 4 * abs(after[top] - plan_left)


def test_when_every_move_is_made_nothing_is_foretold(module_page):
    said, _ = drawn(module_page, SIZES[0])
    _, seen = drawn(module_page, SIZES[0], made=[move["do"] for move in said["corrections"]])
    assert "after" not in seen["texts"]
    assert "after the moves" not in seen["said"]
    assert "made" in seen["said"]


def test_the_contract_s_example_is_drawn_too(module_page):
    said, _ = CALCULATOR.answer(CALCULATOR.example)
    sheet = frame.sheet(914, 2057, "left")
    moves = [{**move, "made": False} for move in said["corrections"]]
    seen = module_page.page.evaluate(
        DRAW, [module_page.origin, sheet, said, moves, {"after": said["after"], "show": "mm"}]
    )
    assert [text for text in seen["texts"] if re.fullmatch(r"[\d.]+", text)] == ["1", "1.5", "2", "5"]


def test_in_and_out_have_signs_of_their_own_never_an_upright_arrow(module_page):
    """A point for what comes towards the viewer, a cross for what goes away: the usual sign of drawings for a
    direction through the page (common practice, no source). Seen from outside, out is towards the viewer."""
    moves = ["head_in", "head_out", "twist_left_in", "twist_left_out", "twist_right_in", "twist_right_out"]
    assert module_page.call("phone/draw_frame.js", "moveWay", [[m] for m in moves]) == ["in", "out"] * 3
    assert module_page.call("phone/draw_frame.js", "moveWay", [["raise_bl"], ["lower_br"]]) == ["up", "down"]
    ways = module_page.call("phone/ways.js", "wayOf", [["lean", -2], ["lean", 2], ["twist", -2], ["twist", 2]])
    assert [way["arrow"] for way in ways] == ["in", "out", "out", "out"]
    assert [way["word"] for way in ways] == ["top in", "top out", "left out", "right out"]
    drawn = module_page.page.evaluate("""async ([origin, sheet]) => {
      const { drawFrame } = await import(`${origin}/phone/draw_frame.js`);
      const { arrow } = await import(`${origin}/phone/shapes.js`);
      const parts = (node) => [node.querySelectorAll("circle.sign").length, node.querySelectorAll("path.sign").length];
      const judged = sheet.judged.map(({ what, tolerance }) => ({ what, tolerance, estimate: 1, u: 0.1 }));
      const one = (move) => {
        const node = drawFrame(sheet, judged, [{ do: move, by: 3.5, say: move }]);
        document.body.replaceChildren(node);
        const box = node.viewBox.baseVal;
        const out = [...node.querySelectorAll(".sign, text")].filter((n) => { const b = n.getBBox();
          return b.x < 0 || b.y < -3 || b.x + b.width > box.width || b.y + b.height > box.height; });
        return [...parts(node), out.length];
      };
      return [parts(arrow("in")), parts(arrow("out")), one("twist_right_in"), one("head_out"), one("twist_left_out")];
    }""", [module_page.origin, frame.sheet(*SIZES[0])])  # fmt: skip
    assert drawn == [[1, 1], [2, 0], [1, 1, 0], [2, 0, 0], [2, 0, 0]]


ROUNDS = """async ([origin, sheet, given, show]) => {
  const { roundByRound } = await import(`${origin}/phone/screens/why.js`);
  const made = roundByRound({ settings: { show }, packet: { steps: [] } }, { sheet, given });
  if (made === null) return null;
  document.body.replaceChildren(...made);
  return [...document.querySelectorAll("li")].map((item) => item.textContent.replaceAll("\\u00a0", " "));
}"""


def test_rounds_stand_side_by_side_with_what_was_told_and_made_and_what_it_did(module_page):
    sheet = frame.sheet(*SIZES[0])
    true = {kind: sheet["readings"][kind]["constant"] for kind in sheet["next"]["can_read"] if kind[:4] != "diag"}
    first = [{"of": kind, "value": value + 6 * kind.startswith("plumb")} for kind, value in true.items()]
    second = [{"of": kind, "value": value} for kind, value in true.items()]
    given = {"rounds": [{"readings": first, "done": [{"do": "push_head_left", "by": 5.5}]}, {"readings": second}]}
    told = answer(sheet, {"rounds": [{"readings": first}]})
    lines = module_page.page.evaluate(ROUNDS, [module_page.origin, sheet, given, "mm"])
    judged = [answer(sheet, {"rounds": rounds})["judged"][2]["estimate"] for rounds in
              ([{"readings": first}], given["rounds"])]  # fmt: skip
    plumb = next(line for line in lines if line.startswith("Plumb left") or "left jamb" in line)
    assert [round(float(x), 1) for x in re.findall(r"[\d.]+(?= mm)", plumb)] == [round(abs(x), 1) for x in judged]
    assert "→" in plumb
    by = told["corrections"][0]["by"]
    assert lines[-2].startswith(f"{len(first)} readings. Told: push the head to the left {by:g} mm")
    assert lines[-2].endswith("Made: push the head to the left 5.5 mm.")
    assert lines[-1].endswith("Made: nothing.")
    assert module_page.page.evaluate(ROUNDS, [module_page.origin, sheet, {"rounds": given["rounds"][:1]}, "mm"]) is None
