"""The sentences about rivets: which row, which metals, what to do where one is drilled out."""

from typing import Any

ROW_SAYS = {
    "inside": "{place|text}: row {row|text}. Grip {value|fine}, {margin|fine} from its nearer end.",
    "close": "{place|text}: row {row|text} or {other|text}? Grip {value|fine}, {margin|fine} from the nearer end: "
             "measure the stack again.",
    "edge": "{place|text}: row {row|text} at its limit. Grip {value|fine}, {margin|fine} from the end of its range: "
            "measure the stack again.",
    "outside": "{place|text}: grip {value|fine}, but so doubtful that no row is sure. Measure the stack with a "
               "calliper.",
    "thin": "{place|text}: no row. Grip {value|fine} is too thin for the shortest.",
    "thick": "{place|text}: no row. Grip {value|fine} is too thick for the longest.",
    "between": "{place|text}: no row. Grip {value|fine} lies between two rows.",
    "thin_close": "{place|text}: grip {value|fine} is too thin by a hair; row {other|text} may serve. Measure "
                  "the stack again.",
    "thick_close": "{place|text}: grip {value|fine} is too thick by a hair; row {other|text} may serve. Measure "
                   "the stack again.",
    "between_close": "{place|text}: grip {value|fine} lies between two rows; row {other|text} may serve. Measure "
                     "the stack again.",
}
BOTH_RULES = ("{say|text}: no figure keeps both rules, at least {low} for the diameter and at most {high} "
              "for the thinnest sheet. Ask for a smaller rivet or the maker's rule.")
CLAMP = "Close the sheets with a clamp first: the rivet does not pull them together."

# From the metal that gives way to the one that lasts, in salt water: from memory, check against your copy.
# Carbon steel fastener in stainless not sound: cd.textfiles.com/swextrav4-3/science/ssteel.zip:GALVANIC.TXT.
METALS = ("zinc-coated steel", "aluminium", "steel", "stainless")
AGAIN = {
    "same": "The hole still fits: set the same rivet again.",
    "next_diameter": "The hole no longer fits: take the next diameter, which has its edge distance here. "
                     "Never a longer rivet.",
    "new_hole": "The hole no longer fits, and no next diameter has its edge distance here: drill a new "
                "hole three diameters away. Never a longer rivet.",
}
NO_EDGE = " Its edge distance was not given: measure it before you drill."


def metal_says(metals: dict[str, Any]) -> list[str]:
    """A sentence where the rivet would be the small anode: less noble than the much larger sheet."""
    rivet, sheet = metals.get("rivet"), metals.get("sheet")
    if rivet is None or sheet is None or METALS.index(rivet) >= METALS.index(sheet):
        return []
    return [f"A rivet of {rivet} in {sheet} is the small anode: where it gets wet it corrodes first. Choose "
            f"a rivet as lasting as the sheet, or keep water out."]


def again_says(again: str | None, edge_known: bool) -> list[str]:
    """What to do with the hole of a drilled-out rivet."""
    if again is None:
        return []
    return [AGAIN[again] + (NO_EDGE if again == "new_hole" and not edge_known else "")]
