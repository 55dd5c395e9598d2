"""What a calculator is: one entry of the registry, read by command line, HTTP API, API description and pages."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from math import isfinite
from typing import Any

from marshmallow import Schema, ValidationError

from fieldapp.trade.lengths import LengthError
from fieldapp.work.shapes import json_schema, problems

Json = dict[str, Any]
Problems = dict[str, list[str]]
DIALECT = {"$schema": "https://json-schema.org/draft/2020-12/schema"}


@dataclass(frozen=True)
class Calculator:
    """A pure function of `trade` with all that people and programs need to know of it.

    say: one line. run: takes the input as `trade` wants it (mm), gives the answer. example: an input that runs.
    formulas, limits, sources: lines for the reference page. read: checks an input in place of the `takes` schema.
    drawn: [(what it shows, SVG)] of a checked input and its answer, for the page only. measured: the same of what is
    measured, by the fields' names.
    """

    name: str
    say: str
    run: Callable[[Json], Json]
    takes: Schema
    gives: Schema
    example: Json
    sources: tuple[str, ...]
    formulas: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    read: Callable[[Json], tuple[Json, Problems]] | None = field(default=None)
    drawn: Callable[[Json, Json], list[tuple[str, str]]] | None = field(default=None)
    measured: Callable[[], tuple[str, str] | list[tuple[str, str]]] | None = field(default=None)

    @property
    def input_schema(self) -> Json:
        """JSON Schema of the input."""
        return DIALECT | json_schema(self.takes)

    @property
    def answer_schema(self) -> Json:
        """JSON Schema of the answer."""
        return DIALECT | json_schema(self.gives)

    def check(self, line: Json) -> tuple[Json, Problems]:
        """(what `run` takes, problems by dotted path) of an input as it came."""
        if self.read is not None:
            return self.read(line)
        try:
            return dict(self.takes.load(line)), {}
        except ValidationError as fault:
            return {}, problems(fault.messages)

    def answer(self, line: Json) -> tuple[Json | None, Problems]:
        """(answer, {}) or (None, problems); never raises for what came in."""
        given, found = self.check(line)
        if found:
            return None, found
        try:
            return _clean(self.run(given)), {}
        except LengthError as fault:
            return None, {"line": [str(fault)]}

    def drawings(self, line: Json, answer: Json) -> list[tuple[str, str]]:
        """The answer drawn: [(what it shows, SVG)]; [] where nothing is. line: an input that `answer` took."""
        return self.drawn(self.check(line)[0], answer) if self.drawn else []

    @cached_property
    def pictures(self) -> list[tuple[str, str]]:
        """What is measured: [(what it shows, SVG)]."""
        made = self.measured() if self.measured else []
        return made if isinstance(made, list) else [made]


def _clean(value: Any) -> Any:
    """The same without -0. Raises ValueError for a number that is not finite: a fault of ours, not of the input."""
    if isinstance(value, dict):
        return {name: _clean(inner) for name, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_clean(inner) for inner in value]
    if isinstance(value, float):
        if not isfinite(value):
            raise ValueError(f"an answer holds {value}")
        return value + 0.0
    return value
