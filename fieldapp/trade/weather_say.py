"""The sentences about dew."""

from typing import Any

from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.units import amount

Json = dict[str, Any]

SCOPE = "3 K and 85 % are a rule for paint; for sealant the maker's sheet decides."
WHERE = "The steel is {size|text} {side|text} the dew point of {dew|text}."
MARGIN = {
    "inside": " That reaches the {needs|text} asked for.",
    "too close to call": " Too close to the {needs|text} asked for to call: read all three again, or wait.",
    "outside": " {needs|text} is asked for: wait, or warm the steel.",
}
WET = " Water settles on it: dry it first."
HUMIDITY = {
    "inside": "Humidity {is|%}: within the {most|%} asked for.",
    "too close to call": "Humidity {is|%}: too close to {most|%} to call. Read it again, or wait.",
    "outside": "Humidity {is|%}: above the {most|%} asked for. Wait.",
}
FROST = "The steel is at or below freezing: frost can lie on it and look dry. Wait, or warm it, then wipe it dry."
BELOW_ZERO = "The air is below freezing: the true frost point lies a little higher than this dew point."


def sentences(margin: Json, damp: Json, dew: float, steel: float, air: float, show: Show) -> list[str]:
    """What is said of margin and humidity (both judged), and of frost; dew, steel and air in degC."""
    above = margin["estimate"] > 0
    blanks = {"size": amount(abs(margin["estimate"]), "K", show), "side": "above" if above else "below",
              "dew": amount(dew, "°C", show), "needs": amount(margin["from"], "K", show)}
    wet = WET if not above and margin["verdict"] == "outside" else ""
    first = WHERE + wet + MARGIN[margin["verdict"]]
    humidity = fill(HUMIDITY[damp["verdict"]], {"is": damp["estimate"], "most": damp["to"]}, show)
    frost = [FROST] if steel <= 0 else []
    return [fill(first, blanks, show), *frost, humidity, *([BELOW_ZERO] if air < 0 else []), SCOPE]
