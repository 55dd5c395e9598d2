"""First stage of the fold: a set of entries, condensed to what a state can depend on.

What is held is {"fold": n, "entries": {id: {"kind", "person", and of step, field, round, value, replaces,
packet, quarantined what is there}}}. It depends on the set alone: order, repetition and batching leave it the
same.
"""

import json
from collections.abc import Iterable
from typing import Any

from fieldapp.record.entries import FOLDED, Json

FOLD = 1
_RANKS = {None: 0, "kept": 1, "quarantined": 2}


def _condensed(entry: Json) -> Json:
    kept: Json = {"kind": entry["kind"], "person": entry.get("person")}
    for key in ("step", "field", "round", "packet"):
        if entry.get(key) is not None:
            kept[key] = entry[key]
    if entry.get("replaces"):
        kept["replaces"] = sorted(set(entry["replaces"]))
    value = entry.get("value") or {}
    wanted = FOLDED.get(entry["kind"], ())
    if entry["kind"] == "note" and entry.get("field") is None:
        wanted = ()  # a remark: its words count for nothing in the state
    told = {key: value[key] for key in wanted if value.get(key) is not None}
    if told:
        kept["value"] = told
    standing = (entry.get("server") or {}).get("standing")
    if standing is not None:
        kept["server"] = standing
    return kept


def _stronger(one: Json, other: Json) -> Json:
    """Of two accounts of one id the server's beats the phone's own, and *quarantined* beats *kept*.

    The rest cannot differ where the server keeps its word (`id_taken`); should it, the later in the order of
    their JSON texts is taken, so that the choice does not hang on which came first.
    """
    ranks = [_RANKS.get(account.get("server"), 0) for account in (one, other)]
    if ranks[0] != ranks[1]:
        return one if ranks[0] > ranks[1] else other
    if one == other:
        return one
    return max(
        one,
        other,
        key=lambda account: json.dumps(account, sort_keys=True, ensure_ascii=False, separators=(",", ":")),
    )


def gather(held: Json | None, entries: Iterable[Json]) -> Json:
    """What is held (None: nothing yet) and these wire entries, as one set. `held` is left as it is.

    An admission is an entry like any other (a review that is `admitted`), so it needs no argument of its own.
    Raises ValueError when `held` is of another version of the fold: fold the unit's entries anew then.
    """
    if held is not None and held.get("fold") != FOLD:
        raise ValueError(f"held by fold {held.get('fold')!r}; this is fold {FOLD}: gather the unit's entries anew")
    together: dict[str, Any] = dict(held["entries"]) if held else {}
    for entry in entries:
        new = _condensed(entry)
        had = together.get(entry["id"])
        together[entry["id"]] = new if had is None else _stronger(had, new)
    return {"fold": FOLD, "entries": together}
