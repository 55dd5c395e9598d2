"""What newer editions of the catalogues alone would do to a plan: its pick list may come out otherwise, no more."""

from typing import Any

from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.in_force import InForce
from fieldapp.plan.picks import picks

Json = dict[str, Any]


def editions_say(names: list[str], choices: Json, was: InForce, now: InForce) -> tuple[str, bool]:
    """(a sentence, whether a plan under `now` is worth its issue) where `change.editions_alone` names these catalogues.

    was: the editions of the plan in force; choices: as kept, which both take. It is worth it where the door's pick list
    comes out otherwise.
    """
    numbers = (f"{CATALOGUES[name].say.lower()} {was.numbers[name]} → {now.numbers[name]}" for name in names)
    newer = f"catalogues of another edition are in force ({', '.join(numbers)})"
    old, new = (picks([{"number": "", "choices": choices, "under": under}])["lines"] for under in (was, now))
    if old == new:
        told = f"Nothing changed: {newer}, and this plan takes nothing from what is new in them. Nothing was issued."
        return told, False
    told = f"Nothing that you chose or that the crew sees changes: {newer}, and the pick list alone would go by them."
    return told, True
