"""What changed between two editions of a catalogue, row by row."""

from typing import Any

from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.catalogue_columns import Row

Json = dict[str, Any]


def changes(name: str, before: list[Row], after: list[Row]) -> list[Json]:
    """[{"id", "is": new, gone or changed, "cells": [{"column", "was", "now"}]}], in the order of the newer edition,
    what is gone last. Rows are the same where their ids are, capitals aside."""
    old = {row["id"].casefold(): row for row in before}
    new = {row["id"].casefold(): row for row in after}
    found = []
    for key, row in new.items():
        if key not in old:
            found.append({"id": row["id"], "is": "new", "cells": _cells(name, {}, row)})
        elif cells := _cells(name, old[key], row):
            found.append({"id": row["id"], "is": "changed", "cells": cells})
    return found + [
        {"id": row["id"], "is": "gone", "cells": _cells(name, row, {})} for key, row in old.items() if key not in new
    ]


def _cells(name: str, before: Row, after: Row) -> list[Json]:
    pairs = ((column.head, before.get(column.name), after.get(column.name)) for column in CATALOGUES[name].columns)
    return [{"column": head, "was": was, "now": now} for head, was, now in pairs if was != now]
