"""One shift for several gaps: how far a part moves so that every gap comes into its band."""

from typing import Any

from fieldapp.trade.estimate.band_values import Known, limit, tidy

Json = dict[str, Any]


def shift(spec: Json, known: dict[str, Known]) -> Json | None:
    """What one shift, added to every gap, can do; lengths in mm. None while nothing can be said.

    spec: {"of": [paths of gaps], "from": limit, "to": limit}. `shift`: the smallest by size that brings every
    gap into from ... to; `best`: the one that puts the middle of widest and narrowest gap on the middle of
    the band; both null where `tilt`, widest less narrowest, exceeds the band.
    """
    low, high = limit(spec["from"], known), limit(spec["to"], known)
    gaps = [known[path][0] for path in spec["of"] if path in known]
    if low is None or high is None or not gaps:
        return None
    widest, narrowest = max(gaps), min(gaps)
    tilt = tidy(widest - narrowest)
    made: Json = {"low": low, "high": high, "tilt": tilt, "shift": None, "best": None}
    if tilt <= tidy(high - low):
        least, most = tidy(low - narrowest), tidy(high - widest)
        made["shift"] = min(max(0.0, least), most) if most >= least else least
        made["best"] = tidy((low + high) / 2 - (widest + narrowest) / 2)
    return made
