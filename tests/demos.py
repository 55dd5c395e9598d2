"""A seeded demo server for browser tests, started by the command that the README names."""

import json
import os
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest


class Demo:
    """A running demo: `address`, and the cast by name with their passwords."""

    def __init__(self, process, report):
        self.process = process
        self.address = report["address"]
        self.people = {person["name"]: person for person in report["people"]}

    def password(self, name):
        return self.people[name]["password"]


@contextmanager
def running(*options, tree=None):
    """`fieldapp demo` with `options` until the block ends; its log goes to standard error. `tree`: a copy of ours
    whose code and files are used instead."""
    command = [str(Path(sys.executable).parent / "fieldapp"), "demo", "--port", "0", "--json", *options]
    environ = {**os.environ, **({"PYTHONPATH": str(tree)} if tree else {})}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environ) as process:
        try:
            line = process.stdout.readline()
            assert line, f"no start report: exit {process.wait(10)}"
            yield Demo(process, json.loads(line))
        finally:
            process.terminate()
            process.wait(10)


@pytest.fixture(scope="module")
def demo():
    with running() as found:
        yield found
