"""The house rules that a machine can hold: layers, types, style, sizes, and what may not stand in the tree."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
BIN = Path(sys.executable).parent


def run(*words):
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{' '.join(map(str, words))}\n{done.stdout}\n{done.stderr}"


def files(*folders, endings):
    for folder in folders:
        yield from (p for p in sorted((ROOT / folder).rglob("*")) if p.suffix in endings
                    and "vendor" not in p.parts and "__pycache__" not in p.parts)


def test_ruff():
    run(BIN / "ruff", "check", "--no-cache", ".")


def test_mypy_strict():
    run(BIN / "mypy", "--no-incremental")


def test_imports_point_down_only():
    run(BIN / "lint-imports", "--no-cache")


def test_importing_trade_brings_no_server_along():
    run(sys.executable, "-c", "import sys, fieldapp.trade.estimate; bad = {'flask', 'sqlalchemy', 'marshmallow'} "
        "& set(sys.modules); sys.exit(f'brought along: {bad}' if bad else 0)")


@pytest.mark.parametrize("word", ["innerHTML", "outerHTML", "insertAdjacentHTML", "document.write"])
def test_text_enters_a_page_as_text(word):
    hits = [str(p) for p in files("static", "templates", endings={".js", ".html"}) if word in p.read_text("utf-8")]
    assert hits == []


def test_no_style_attributes_and_no_inline_scripts():
    """The Content-Security-Policy refuses both, so they would silently do nothing."""
    found = []
    for path in files("static", "templates", "seed_data", endings={".html", ".svg", ".toml"}):
        text = path.read_text("utf-8")
        if re.search(r"\sstyle\s*=", text) or re.search(r"<script(?![^>]*\ssrc=)", text):
            found.append(str(path))
    assert found == []


def test_files_are_small():
    """Past 400 lines there had better be a reason; there is none yet."""
    long = {str(p.relative_to(ROOT)): n for p in files("fieldapp", "static", "tests", endings={".py", ".js", ".css"})
            if (n := len(p.read_text("utf-8").splitlines())) > 400}
    assert long == {}


def test_top_level_stays():
    allowed = {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "fieldapp", "static",
               "templates", "tests", "seed_data"}
    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False).stdout
    if not tracked:
        tracked = "\n".join(p.name for p in ROOT.iterdir() if p.name in allowed)
    assert {line.split("/")[0] for line in tracked.splitlines() if not line.startswith(".")} <= allowed
