"""Which terms explain a difference: one or two amounts left out, or counted twice."""

from itertools import combinations
from typing import Any

from fieldapp.trade.estimate.band_values import tidy

Json = dict[str, Any]
OUT, TWICE = "left out", "counted twice"


def explain(by: float, u: float, terms: list[Json], within: float) -> tuple[list[Json], float]:
    """([{"term", "how"}], what is left over): the fewest of `terms` ({"term", "mm"}) that make up `by`.

    All in mm. At most two, all left out or all counted twice, within the greater of `within` and 2 u; then
    the smallest left over, then the order of the terms. ([], by) where nothing does. Zeros explain nothing.
    """
    near = max(within, 2 * u)
    usable = [term for term in terms if term["mm"] != 0]
    for count in (1, 2):
        found = []
        for order, chosen in enumerate(combinations(usable, count)):
            amount = sum(term["mm"] for term in chosen)
            for how, left in ((OUT, tidy(by + amount)), (TWICE, tidy(by - amount))):
                if abs(left) <= near:
                    found.append((abs(left), order, how, left, chosen))
        if found:
            _, _, how, left, chosen = min(found, key=lambda one: one[:2])
            return [{"term": term["term"], "how": how} for term in chosen], left
    return [], by
