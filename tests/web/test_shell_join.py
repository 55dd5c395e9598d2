"""Small modules put together: what is taken, what is refused, and that nothing is lost on the way."""

import re

import pytest

from fieldapp.places import folder
from fieldapp.web import shell
from fieldapp.web.shell_join import in_order, joined, module, stub

PHONE = folder("static") / "phone"
SOURCES = sorted(p.relative_to(PHONE).as_posix() for p in PHONE.rglob("*.js") if p.name != "service-worker.js")

A = """import { b as other, c } from "./deep/b.js";
import * as all from "./deep/b.js";
export { c } from "./deep/b.js";
export async function one() { return (await import("./deep/b.js")).b; }
export const two = 2;
const inner = 3;
export { inner as three };
"""
B = """import {
  helper,
} from "../d.js";
export const b = 1, ignored = 2;
export function* c() { yield import(`./screens/${helper}.js`); }
export class K {}
"""


@pytest.fixture
def three():
    return {name: module(name, text) for name, text in
            {"a.js": A, "deep/b.js": B, "d.js": "export const helper = 1;\n"}.items()}


def test_what_a_module_needs_and_gives(three):
    assert three["a.js"].needs == ("deep/b.js",)
    assert dict(three["a.js"].exports) == {
        "c": "$deep_b.c", "one": "one", "two": "two", "three": "inner"}
    assert three["deep/b.js"].needs == ("d.js",)
    assert set(three["deep/b.js"].exports) == {"b", "c", "K"}
    assert "const { b: other, c: c } = $deep_b;" in three["a.js"].code
    assert "const all = $deep_b;" in three["a.js"].code
    assert "import(`./deep/screens/${helper}.js`)" in three["deep/b.js"].code


def test_each_stands_after_what_it_imports(three):
    assert in_order(three, ["a.js"]) == ["d.js", "deep/b.js", "a.js"]


def test_one_file(three):
    text = joined(three, "x.js", dict.fromkeys(in_order(three, ["a.js"]), "x.js"))
    assert re.findall(r"^const (\$\w+) = ", text, re.MULTILINE) == ["$d", "$deep_b", "$a"]
    assert 'import("./x.js").then((file) => file.$deep_b)' in text
    assert text.endswith("export { $d, $deep_b, $a };\n")


def test_a_later_file_takes_from_an_earlier_one(three):
    text = joined(three, "y.js", {"d.js": "x.js", "deep/b.js": "x.js", "a.js": "y.js"})
    assert 'import { $deep_b } from "./x.js";' in text
    assert "export { $a };" in text


def test_a_stub_passes_on_the_exports(three):
    assert stub(three["deep/b.js"], "x.js") == (
        'import { $deep_b } from "../x.js";\nexport const { b, c, K } = $deep_b;\n')
    assert stub(module("app.js", "go();\n"), "x.js") == 'import "./x.js";\n'


@pytest.mark.parametrize("line", [
    'import thing from "./b.js";', 'import "./b.js";', "export default 1;", "export let n = 1;", "export { a }",
    'export * from "./b.js";', 'import { a } from "library";',
])
def test_another_form_is_refused_by_its_line(line):
    with pytest.raises(ValueError, match=re.escape(f"m.js: {line!r}"[:60])):
        module("m.js", f"const a = 1;\n{line}\n")


def test_a_circle_is_named():
    two = {name: module(name, f'import {{ x }} from "./{other}.js";\nexport const x = 1;\n')
           for name, other in (("a.js", "b"), ("b.js", "a"))}
    with pytest.raises(ValueError, match=re.escape("a.js -> b.js -> a.js")):
        in_order(two, ["a.js"])


@pytest.mark.parametrize("name", SOURCES)
def test_every_module_of_ours_is_taken(name):
    """Every line that begins with `export` names something that the stub passes on."""
    source = (PHONE / name).read_text("utf-8")
    named = re.findall(r"^export (?:async )?(?:function\*?|const|class) ([\w$]+)", source, re.MULTILINE)
    assert set(named) <= set(module(name, source).exports)


def test_every_module_is_in_one_file_and_has_its_stub():
    files = shell.load().files
    held = [name for text in (files[f"phone/joined_{kind}.js"].decode() for kind in ("opening", "working", "rest"))
            for name in re.findall(r"^const (\$\w+) = \(\(\) => \{$", text, re.MULTILINE)]
    assert sorted(held) == sorted("$" + re.sub(r"\W", "_", name.removesuffix(".js")) for name in SOURCES)
    assert all(b"/joined_" in files[f"phone/{name}"] for name in SOURCES)
