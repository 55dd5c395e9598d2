"""What a phone says that a new plan changed: figures old to new in the reader's unit, then steps by name."""

import json

import pytest
from plan.conftest import PEOPLE, UNIT, plan

from fieldapp.plan import packet

SAY = """async ([origin, old, next, show]) => {
  const { whatChanged } = await import(`${origin}/phone/packet.js`);
  const { lengthText } = await import(`${origin}/phone/dim.js`);
  return whatChanged(JSON.parse(old), JSON.parse(next), (nm) => lengthText(nm, show));
}"""


@pytest.fixture(scope="module")
def said(module_page):
    def told(old, new, show="mm"):
        return module_page.page.evaluate(SAY, [module_page.origin, json.dumps(old), json.dumps(new), show])

    return told


def built(people=PEOPLE, **more):
    return packet.build({**plan(), **more}, UNIT, people).packet


def test_the_opening_comes_first_old_to_new(said):
    # 2045 + 6 + 44.2 + 12 * 0.55 = 2101.8; 6 mm more of the kit's rise: by hand
    higher = built(head_kit={"profile": "straight", "rise": 50.2})
    lines = said(built(), higher)
    assert lines[0] == "Opening's height 2101.8\u00a0mm → 2107.8\u00a0mm"
    assert lines[1] == "Rise of the head kit 44.2\u00a0mm → 50.2\u00a0mm"
    assert lines[2].startswith("Changed: ")
    assert "Mark the opening" in lines[2]
    assert said(built(), higher, "in")[0].endswith("→ 82\u00a031/32\u00a0in")  # 2107.8 / 25.4 = 82.984


def test_steps_that_come_and_go_are_named_once_each(said):
    more = built(hardware={"limit": "chain", "closer": True})
    assert "Closer no → yes" in said(built(), more)
    assert any(line.startswith("New: ") for line in said(built(), more))
    assert any(line.startswith("No longer: ") for line in said(more, built()))


def test_a_plan_is_never_new_in_silence(said):
    assert said(built(), built(people=PEOPLE[:1])) == ["Who may look second"]
    ruled = {**built(), "sheets": [{"name": "frame", "part": "0" * 64}]}
    assert said(built(), ruled) == ["Rules behind the answers"]


def test_a_plan_of_before_figures_were_listed(said):
    older = {key: value for key, value in built().items() if key != "planned"}
    assert said(older, built(hand="right"))[0] == "Hinges right, end wall"
