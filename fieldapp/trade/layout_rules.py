"""The rules that a place must keep, all but `land`, as what they leave of possible centres. Lengths mm."""

from math import cos, inf, radians
from typing import Any, NamedTuple

Json = dict[str, Any]
Range = tuple[float, float]

DUST = 1e-9  # mm: what binary sums may leave; a limit that is reached counts as kept


class Rules(NamedTuple):
    """ends: {rule: least and greatest centre}. zones: centres strictly between these overlap a keep-clear zone."""

    ends: dict[str, Range]
    zones: list[Range]

    def broken(self, centre: float) -> list[str]:
        """The rules that a centre breaks: wall, between, keep_clear, swing, in this order."""
        far = [rule for rule, (low, high) in self.ends.items() if not low - DUST <= centre <= high + DUST]
        inside = any(low + DUST < centre < high - DUST for low, high in self.zones)
        return [rule for rule in ("wall", "between", "keep_clear", "swing")
                if rule in far or (rule == "keep_clear" and inside)]

    def free(self, low: float, high: float) -> list[Range]:
        """The unbroken ranges of centres in low … high that keep all rules, rising; a range may be a point."""
        low = max([low, *(least for least, _ in self.ends.values())])
        high = min([high, *(most for _, most in self.ends.values())])
        found, at = [], low
        for start, end in [*self.zones, (inf, inf)]:
            stop = min(start, high)
            if stop >= at - DUST:
                found.append((min(at, stop), stop))
            at = max(at, end)
            if start >= high:
                break
        return found


def rules(given: Json, width: float, opens_to: float) -> Rules:
    """The rules of an input for an opening `width` wide. opens_to: degrees, where the swing does not say."""
    half = width / 2
    reach = half + given["flange"]["covers"]
    ends = {"wall": (given["wall_from"] + reach, given["wall_to"] - reach)}
    if "between" in given:
        ends["between"] = (given["between"][0] + half, given["between"][1] - half)
    if "swing" in given:
        ends["swing"] = _swing(given["swing"], opens_to)
    zones = sorted((zone["from"] - reach, zone["to"] + reach) for zone in given.get("keep_clear", []))
    return Rules(ends, zones)


def _swing(swing: Json, opens_to: float) -> Range:
    """The centres for which the leaf's sweep stays in its clear stretch; the hinge stands half a leaf off centre."""
    leaf = swing["leaf"]
    behind = leaf * max(0.0, -cos(radians(swing.get("opens_to", opens_to))))
    left, right = (behind, 0.0) if swing["hand"] == "left" else (0.0, behind)
    return swing["clear_from"] + leaf / 2 + left, swing["clear_to"] - leaf / 2 - right
