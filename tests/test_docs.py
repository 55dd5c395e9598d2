"""What is documented is there, and what is there is documented."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from fieldapp import settings
from fieldapp.web.problems import TITLES
from fieldapp.work.registry import CALCULATORS

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def test_the_first_paragraph_states_the_job():
    first = README.split("\n\n")[1]
    assert all(word in first for word in ("doors", "freight containers", "without signal", "supervisor"))


@pytest.mark.parametrize("name", ["site", *settings._KNOWN])
def test_every_setting_is_in_the_readme(name):
    assert f"`FIELDAPP_{name.upper()}`" in README


@pytest.mark.parametrize("code", TITLES)
def test_every_error_code_is_explained(code):
    assert f"`{code}`" in DEVELOPERS


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_calculator_is_named(name):
    assert re.search(rf"\b{name}\b", README)


@pytest.mark.parametrize("room", sorted(p.name for p in (ROOT / "fieldapp").iterdir() if (p / "__init__.py").exists()))
def test_every_room_is_in_the_table(room):
    assert f"`fieldapp/{room}/`" in DEVELOPERS


def test_the_commands_are_one_line_each():
    lines = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert [line.rsplit("&& ", 1)[1] for line in lines] == [
        ".venv/bin/fieldapp demo", ".venv/bin/pytest -n auto --dist loadfile"]


@pytest.mark.parametrize("line", [line for line in README.splitlines() if line.startswith(".venv/bin/fieldapp ")])
def test_every_command_of_the_readme_exists(line):
    command = line.split()[1]
    done = subprocess.run([sys.executable, "-m", "fieldapp.cli", command, "--help"], capture_output=True, text=True,
                          check=False, cwd=ROOT)
    assert done.returncode == 0, done.stderr


NAMED = re.findall(r"`((?:fieldapp|static|tests|seed_data|templates)/[\w./-]+)`", README + DEVELOPERS)


@pytest.mark.parametrize("path", NAMED)
def test_every_path_that_is_named_is_there(path):
    assert (ROOT / path).exists()
