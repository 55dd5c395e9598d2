"""The wheel, as a stranger gets it: built, installed in an empty environment, demo run from another folder."""

import json
import signal
import subprocess
import sys
import urllib.request
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


def _pip(python, *words):
    return subprocess.run([python, "-m", "pip", "--disable-pip-version-check", *words],
                          capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The folder of an environment that holds nothing but the wheel and what it needs."""
    where = tmp_path_factory.mktemp("wheel")
    built = _pip(sys.executable, "wheel", "--no-deps", "-q", "-w", str(where), str(ROOT))
    if built.returncode and "No matching distribution" in built.stderr:
        pytest.skip("needs a package registry to build the wheel, and none answers")
    assert built.returncode == 0, built.stderr
    venv.create(where / "env", with_pip=True)
    python = where / "env" / "bin" / "python"
    done = _pip(python, "install", "-q", str(next(where.glob("fieldapp-*.whl"))))
    assert done.returncode == 0, done.stderr
    return where


def _get(address):
    with urllib.request.urlopen(address, timeout=10) as answer:
        return answer.read()


def test_demo_runs_from_another_folder(installed):
    elsewhere = installed / "elsewhere"
    elsewhere.mkdir()
    with subprocess.Popen([installed / "env" / "bin" / "fieldapp", "demo", "--port", "0", "--json"], cwd=elsewhere,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as demo:
        try:
            report = json.loads(demo.stdout.readline())
            assert {"installer", "supervisor"} <= {role for person in report["people"] for role in person["roles"]}
            shell = json.loads(_get(report["address"] + "/shell.json"))
            assert all(_get(report["address"] + path) for path in shell["files"])
        finally:
            demo.send_signal(signal.SIGTERM)
            assert demo.wait(10) == 0
        demo.stdout.close()
        demo.stderr.close()
    assert list(elsewhere.iterdir()) == []


def test_a_calculator_runs_alone(installed):
    tool = installed / "env" / "bin" / "fieldapp"
    example = subprocess.run([tool, "work", "frame", "--example"], capture_output=True, check=True).stdout
    answer = subprocess.run([tool, "work", "frame"], input=example, capture_output=True, check=True).stdout
    assert len(json.loads(answer)["judged"]) == 7
