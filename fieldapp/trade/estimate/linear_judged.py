"""Estimates, doubts and verdicts of a linear sheet's judged quantities. Twin:
static/phone/estimate_judged.js.
"""

from typing import Any, NamedTuple

from fieldapp.trade.estimate.chance import NOT_KNOWN, OUTSIDE, chance_inside, verdict
from fieldapp.trade.estimate.linear_table import Sparse, Table, root
from fieldapp.trade.estimate.linear_update import State


class Judged(NamedTuple):
    """One judged quantity: estimate, u and tolerance in mm, and the chance that it lies inside."""

    what: str
    row: Sparse
    estimate: float
    u: float
    tolerance: float
    chance: float

    @property
    def verdict(self) -> str:
        """`inside`, `outside` or `too close to call`."""
        return verdict(self.chance)

    @property
    def known(self) -> bool:
        """Whether its doubt is no wider than its tolerance."""
        return self.u <= self.tolerance


def judged(table: Table, state: State, only: list[str] | None = None) -> list[Judged]:
    """Every judged quantity, or only some, in the sheet's order."""
    items = zip(table.sheet["judged"], table.judged, strict=True)
    return [one(state, item, row) for item, row in items if only is None or item["what"] in only]


def one(state: State, item: dict[str, Any], row: Sparse) -> Judged:
    """One judged quantity."""
    estimate, u, tolerance = state.value(row), root(state.variance(row)), float(item["tolerance"])
    return Judged(item["what"], row, estimate, u, tolerance, chance_inside(estimate, u, -tolerance, tolerance))


def said(item: Judged) -> str:
    """The verdict for the record: `not known` where u is above the tolerance and it is not outside."""
    word = item.verdict
    return word if item.known or word == OUTSIDE else NOT_KNOWN
