"""A figure far from the plan and kept as typed: office and phone name the same ones."""

from types import SimpleNamespace

import pytest

from fieldapp.web.office_far import kept_far

NM = 1_000_000
LINEAR = {"kind": "linear", "readings": {"height_left": {"from": 1, "to": 10_000},
                                         "plumb_left": {"from": -500, "to": 500}}}
DISC = {"kind": "rule", "inputs": [{"name": "disc.rpm", "from": 1, "to": 100_000}]}

# field, its value, whether it is far: figures invented
CASES = [
    ({"type": "length", "plan": 2000 * NM, "feeds": [{"sheet": "frame", "as": "height_left"}]}, {"nm": 0}, True),
    ({"type": "length", "plan": 2000 * NM, "feeds": [{"sheet": "frame", "as": "height_left"}]}, {"nm": 950 * NM}, True),
    ({"type": "length", "plan": 2000 * NM, "feeds": [{"sheet": "frame", "as": "height_left"}]},
     {"nm": 2007 * NM}, False),
    ({"type": "length", "feeds": [{"sheet": "frame", "as": "plumb_left"}]}, {"nm": -151 * NM}, True),
    ({"type": "length", "feeds": [{"sheet": "frame", "as": "plumb_left"}]}, {"nm": 149 * NM}, False),
    ({"type": "length", "expect": {"from": 4 * NM, "to": 6 * NM}}, {"nm": 12 * NM}, False),
    ({"type": "length", "expect": {"from": 4 * NM, "to": 6 * NM}}, {"nm": 50 * NM}, True),
    ({"type": "length", "expect": {"from": None, "to": 6 * NM}}, {"nm": 50 * NM}, False),
    ({"type": "length", "key": "signed"}, {"nm": 200 * NM}, True),
    ({"type": "number", "feeds": [{"sheet": "wheel", "as": "disc.rpm"}]}, {"number": 9_999_999, "ucum": "1"}, True),
    ({"type": "number", "feeds": [{"sheet": "wheel", "as": "disc.rpm"}]}, {"number": 10_200, "ucum": "1"}, False),
    ({"type": "number"}, {"number": 3, "ucum": "1"}, False),
]


@pytest.mark.parametrize(("field", "held", "far"), CASES)
def test_the_office_looks_first_at_a_figure_kept_far(field, held, far):
    step = {"id": "s", "say": "Step", "fields": [{"id": "f", "say": "Field", **field}]}
    known = SimpleNamespace(
        steps={"s": step}, sheets={"frame": LINEAR, "wheel": DISC},
        entries={"e": {"id": "e", "kind": "reading", "value": {"text": "9 mm", **held}}},
        field=lambda *_: step["fields"][0])
    now = {"id": "s", "values": {"f": ["e"]}, "outside": []}
    assert bool(kept_far(known, now)) is far
    assert not kept_far(known, {**now, "outside": ["f"]}), "named once"


def test_the_phone_names_the_same(module_page):
    got = module_page.page.evaluate("""async ([origin, cases, sheets]) => {
        const { farOff } = await import(`${origin}/phone/read_check.js`);
        return cases.map(([field, value]) => farOff({
            state: {steps: [{id: 's', values: {f: ['e']}}]}, entries: [{id: 'e', kind: 'reading', value}],
            sheet: (name) => sheets[name] ?? null}, {id: 's'}, {id: 'f', ...field}).length > 0);
    }""", [module_page.origin, [case[:2] for case in CASES], {"frame": LINEAR, "wheel": DISC}])
    assert got == [case[2] for case in CASES]
