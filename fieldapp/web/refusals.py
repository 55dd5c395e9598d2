"""Answers to single entries: kept, had it, or refused because."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

_RETRY = {"other_person": "after_sign_in", "too_new": "later", "too_old": "after_update"}


@dataclass(frozen=True)
class Why:
    """Why an entry is refused: a code of server.md, a sentence, problems by path for `bad_shape`."""

    code: str
    say: str
    problems: Mapping[str, list[str]] = field(default_factory=dict)

    def wire(self) -> dict[str, Any]:
        """As it goes down."""
        body: dict[str, Any] = {"code": self.code, "say": self.say, "retry": _RETRY.get(self.code, "never")}
        if self.problems:
            body["problems"] = dict(self.problems)
        return body


def bad_shape(problems: Mapping[str, list[str]], index: int) -> Why:
    """`problems` by path within the entry; in the answer the path says which entry of the call."""
    paths = {f"entries.{index}.{path}".rstrip("."): sentences for path, sentences in problems.items()}
    first = next(iter(problems.items()))
    return Why("bad_shape", f"{first[0] or 'entry'}: {first[1][0]}", paths)
