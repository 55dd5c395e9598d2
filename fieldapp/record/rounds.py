"""Rounds of readings of one sheet: which is the present, what leads to it, where two phones split."""

from dataclasses import dataclass

from fieldapp.record.entries import Json
from fieldapp.record.standing import Index

Round = str | None  # the id of the entry that opened it; None is the opening


@dataclass(frozen=True)
class Rounds:
    """`ids`: every standing round; `heads`: those without a follower; `chain`: what counts, oldest first, up
    to the present; `back`: all that leads to the present, newest first, also what a fresh start leaves
    behind."""

    ids: list[str]
    heads: list[Round]
    chain: list[Round]
    back: list[Round]

    @property
    def split(self) -> list[str]:
        """The rounds that two phones opened without sight of each other; [] when there is one present."""
        return [head for head in self.heads if head is not None] if len(self.heads) > 1 else []


ALONE = Rounds([], [None], [None], [None])  # of what feeds no sheet with rounds
_OPENING = Rounds([], [None], [None], [None])  # a sheet with rounds before the first: what names one waits for it


def _after(entry: Json) -> list[str]:
    return list(entry.get("value", {}).get("after", []))


def _parents(own: str, known: dict[str, Json], stands: frozenset[str]) -> set[Round]:
    """The standing rounds that this one follows. A round taken back is passed over to those it followed
    itself (state.md is silent: its readings are gone, but the rounds before it are not); one not here is the
    opening."""
    found: set[Round] = set()
    seen = {own}
    stack = _after(known[own])
    while stack:
        key = stack.pop()
        if key in seen:
            continue
        seen.add(key)
        if key not in known:
            found.add(None)
        elif key in stands:
            found.add(key)
        else:
            stack += _after(known[key])
    return found or {None}


def _back(head: Round, parents: dict[str, set[Round]]) -> list[Round]:
    """What leads to the head, nearest first, of equals the greatest id; the opening last."""
    order: list[Round] = []
    opening = head is None
    level, seen = ([head] if head is not None else []), {head}
    while level:
        order += level
        before = {key for one in level for key in parents[one]} - seen
        opening = opening or None in before
        seen |= before
        level = sorted((key for key in before if key is not None), reverse=True)
    return [*order, None] if opening else order


def _chain(head: Round, parents: dict[str, set[Round]], known: dict[str, Json]) -> list[Round]:
    """From the opening, or from the last round that starts afresh by naming two, up to the head."""
    chain: list[Round] = []
    seen: set[Round] = set()
    at = head
    while at not in seen:
        chain.append(at)
        seen.add(at)
        if at is None or len(parents[at]) > 1 or len(set(_after(known[at]))) > 1:
            break
        (at,) = parents[at]
    return chain[::-1]


def rounds_of(index: Index, sheet: str) -> Rounds:
    """The rounds of the sheet of this name."""
    known = index.rounds.get(sheet, {})
    parents = {key: _parents(key, known, index.stands) for key in sorted(known) if key in index.stands}
    if not parents:
        return _OPENING
    followed = {before for each in parents.values() for before in each}
    heads: list[Round] = [key for key in parents if key not in followed] or [None]
    if len(heads) > 1:
        return Rounds(list(parents), heads, [], [])
    return Rounds(list(parents), heads, _chain(heads[0], parents, known), _back(heads[0], parents))
