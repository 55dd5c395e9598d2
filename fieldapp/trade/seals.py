"""The bulb seal at the head: is it compressed enough, everywhere, and what one shift would do.

compression % = 100 * (free height - gap) / free height. Band 40 to 50 %: common practice, no source
(seed_data/tables/seals.toml). Lengths mm. A band of 40 to 50 % on 12 mm is 1.2 mm wide: a rule or a tape can
never decide it, a calliper or taper gauge can.
"""

from typing import Any

from fieldapp.trade.corrugation import developed
from fieldapp.trade.estimate import band
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]

GAP_SAYS = {
    "inside": "{where|text}: compressed {estimate|%}. Within {low|%} to {high|%}.",
    "too close to call": "{where|text}: compressed {estimate|%}, too close to {low|%} to {high|%} to call. "
                         "Measure the gap again with a calliper or a taper gauge.",
    "below": "{where|text}: compressed {estimate|%}, too little: {low|%} to {high|%} closes it. Never make "
             "it up with sealant.",
    "above": "{where|text}: compressed {estimate|%}, too much: {low|%} to {high|%} lasts.",
    "nothing": "{where|text}: the seal does not touch. It needs {low|%} to {high|%}.",
}
SHIFT_SAYS = {
    "stay": "Leave the head where it is: every gap lies within {low|fine} to {high|fine}.",
    "up": "Press the head up by {by|fine}: every gap then lies within {low|fine} to {high|fine}.",
    "down": "Let the head down by {by|fine}: every gap then lies within {low|fine} to {high|fine}.",
    "none": "No one shift serves: the gaps differ by {tilt|fine}, the band is {wide|fine} wide. Does the frame slope, "
            "or the cut? Read the head's level before you move anything.",
}


def sheet(name: str, gaps: list[str], table: Json, doubt: Json, *, free_height: float | Json | None = None,
          limits: list[float] | None = None) -> Json:
    """The band sheet of a bulb seal.

    gaps: what each place is called; inputs gaps.0.value, gaps.1.value … and free_height (mm; the figure
    given, or {"value", "u"}, stands until one is measured; None: it must be measured). limits: [from, to] in
    %, else the table's. doubt: seed_data/tables/doubt.toml. Judged: gap_0, gap_1 … (%). A gap not read
    leaves its own verdict open; the shift reckons with those that are read.
    """
    low, high = limits or table["band"]
    free: Json = {"name": "free_height", "say": "Free height of the seal", "unit": "mm", "u": doubt["gauge"],
                  "from": 0.01, "to": 200}
    paths = [f"gaps.{i}.value" for i in range(len(gaps))]
    return {"name": name, "kind": "band", "source": table["source"],
            "inputs": [free if free_height is None else free | {"value": free_height},
                       *({"name": path, "say": f"Gap, {where}", "unit": "mm", "u": doubt["gauge"],
                          "from": 0, "to": 100} for path, where in zip(paths, gaps, strict=True))],
            "values": [{"name": f"gap_{i}", "ratio": [path, "free_height"]} for i, path in enumerate(paths)],
            "judged": [{"what": f"gap_{i}", "value": f"gap_{i}", "from": low, "to": high, "unit": "%",
                        "say": where, "sentences": GAP_SAYS,
                        "texts": {"where": where[:1].upper() + where[1:]}}
                       for i, where in enumerate(gaps)],
            "shift": {"of": paths, "say": SHIFT_SAYS,
                      "from": {"least": ["free_height"], "times": 1 - high / 100},
                      "to": {"least": ["free_height"], "times": 1 - low / 100}}}


def _ordered(given: Json, profiles: Json) -> tuple[float, float, float] | None:
    """(developed, ratio, order length) of the edge; None where wall or width is missing."""
    if "wall" not in given or "width" not in given:
        return None
    profile = given.get("profile") or profiles.get(given["wall"])
    width = given["width"]
    along = width if profile is None else developed(profile, width, given.get("starts"))
    return along, along / width, along * (1 + given.get("waste", 0) / 100)


def _plain(measured: float | Json) -> float:
    return float(measured["value"]) if isinstance(measured, dict) else measured


def _bare(gap: Json) -> float | Json:
    return {"value": gap["value"], "u": gap["u"]} if "u" in gap else float(gap["value"])


def seal(given: Json, table: Json, profiles: Json, doubt: Json) -> Json:
    """Compression at each gap, the shift that serves, and the length to order (contract: seal).

    given: free_height, gaps [{"where", "value", "u"}], and where known band, wall, width, starts, profile,
    waste (%), show. Lengths mm; a measured one is a number or {"value", "u"}.
    """
    show: Show = given.get("show", "mm")
    where = [gap.get("where", "head") for gap in given["gaps"]]
    made = sheet("seal", where, table, doubt, limits=given.get("band"))
    inputs = {"free_height": given["free_height"]} | {
        f"gaps.{i}.value": _bare(gap) for i, gap in enumerate(given["gaps"])}
    found = band.answer(made, {"inputs": inputs, "show": show})
    free, move = _plain(given["free_height"]), found["shift"]
    ordered = _ordered(given, profiles)
    gaps = [{"where": name, "compression": judged["estimate"], "u": judged["u"], "verdict": judged["verdict"],
             "touches": gap["value"] < free}
            for name, judged, gap in zip(where, found["judged"], given["gaps"], strict=True)]
    judged = [{**one, "what": f"{name}.compression"}
              for name, one in zip(where, found["judged"], strict=True)]
    order = [fill("Order {order}: the edge is {along} long along the sheet.",
                  {"order": ordered[2], "along": ordered[0]}, show)] if ordered else []
    along, ratio, length = ordered or (None, None, None)
    return {"gaps": gaps, "gap_from": move["low"], "gap_to": move["high"], "shift": move["shift"],
            "shift_best": move["best"], "tilt": move["tilt"], "developed": along, "ratio": ratio,
            "order_length": length, "judged": judged, "say": [*found["say"], *order]}
