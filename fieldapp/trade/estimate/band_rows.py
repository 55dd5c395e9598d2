"""Which row of a table serves a value: the choice of one length out of a printed list.

A row is {"name", "from", "to"} as printed and, where the row before ends less than a set gap below it,
"above": that end, from which on (itself left out) this row serves.
"""

from typing import Any

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import OUTSIDE, TOO_CLOSE, chance_inside, verdict

Json = dict[str, Any]


def breaks(rows: list[Json], gap: float) -> list[Json]:
    """The rows (printed ends, rising) with the break, "above", put in where two lie less than `gap` apart."""
    made = []
    for i, row in enumerate(rows):
        close = i > 0 and row["from"] - rows[i - 1]["to"] < gap - 1e-9
        made.append({**row, "above": rows[i - 1]["to"]} if close else dict(row))
    return made


def _low(row: Json) -> float:
    return float(row["above"] if "above" in row else row["from"])


def serves(row: Json, value: float) -> bool:
    """Whether the row serves the value; both in the unit of the rows."""
    return (value > row["above"] if "above" in row else value >= row["from"]) and bool(value <= row["to"])


def _across(rows: list[Json], i: int, value: float) -> str | None:
    """The row across the nearer end of row i, where there is a break."""
    below, above = value - _low(rows[i]), rows[i]["to"] - value
    if above <= below:
        return rows[i + 1]["name"] if i + 1 < len(rows) and "above" in rows[i + 1] else None
    return rows[i - 1]["name"] if "above" in rows[i] else None


def _none(rows: list[Json], value: float, chances: list[float]) -> Json:
    best = max(range(len(rows)), key=lambda i: (chances[i], -i))
    doubt = verdict(chances[best]) != OUTSIDE
    why = "thin" if value < rows[0]["from"] else "thick" if value > rows[-1]["to"] else "between"
    return {"row": None, "margin_below": None, "margin_above": None, "chance_inside": chances[best],
            "verdict": TOO_CLOSE if doubt else OUTSIDE, "measure_again": doubt,
            "other_row": rows[best]["name"] if doubt else None, "why": why, "half": None}


def pick(rows: list[Json], value: float, u: float) -> Json:
    """The row for a value of standard uncertainty u, what is left to its ends, and how sure that is.

    `why` is the word for the sentence: inside, close, outside (a row that the doubt is too wide for),
    thin, thick or between; `half` is half of what the row serves.
    """
    chances = [chance_inside(value, u, _low(row), row["to"]) for row in rows]
    i = next((i for i, row in enumerate(rows) if serves(row, value)), None)
    if i is None:
        return _none(rows, value, chances)
    row, judged = rows[i], verdict(chances[i])
    doubt = judged == TOO_CLOSE
    return {"row": row["name"],
            "margin_below": tidy(value - row["from"]), "margin_above": tidy(row["to"] - value),
            "chance_inside": chances[i], "verdict": judged, "measure_again": doubt,
            "other_row": _across(rows, i, value) if doubt else None,
            "why": "close" if doubt else judged, "half": (row["to"] - _low(row)) / 2}
