"""What the office says of a plan: its page's headline, each plan issued and what it changed, and who was first."""

from ..plan.change import changes, said
from ..plan.packet import Built
from .office_unit import Json, Known
from .office_words import things, when


def title(known: Known, made: Built | None, faults: list[str], filled: bool = False) -> str:
    """The page's answer in a sentence."""
    if faults:
        return f"{known.label()}: {things(len(faults), 'choice does', 'choices do')} not fit; nothing is issued"
    if filled:
        return f"{known.label()}: filled in from the catalogue. Nothing is issued yet"
    if made is None:
        return f"{known.label()}: {'the plan in force' if known.unit.packet else 'no plan is issued yet'}"
    return f"{known.label()}: what the new plan would change. It is not issued yet"


def overtaken(known: Known, issue: Json) -> str:
    """Who issued another plan meanwhile, and what to do."""
    return (
        f"{known.who(issue['person'])} issued another plan meanwhile, {when(issue['at'])} UTC: "
        f"{issue['value'].get('because') or 'no reason given'}. What you typed stands below; look at what it changes "
        "now, then issue it."
    )


def worked(known: Known) -> list[Json]:
    """Every plan issued after another, the newest first: when, who, why, and what it changed.

    [{"at", "who", "because", "said": [text], "plan": first 12 of its hash}]
    """
    issues = [one for one in known.entries.values() if one["kind"] == "issue"]
    issues.sort(key=lambda one: int(one["server"]["seq"]))
    by_id = {one["id"]: one for one in issues}
    made = []
    for issue in issues:
        before = next((by_id[id] for id in issue["replaces"] if id in by_id), None)
        if before is None:
            continue
        old, new = (known.packets.get(one["value"]["packet"], {}) for one in (before, issue))
        made.append(
            {
                "at": when(issue["at"]),
                "who": known.who(issue["person"]),
                "because": issue["value"].get("because") or "",
                "said": said(changes(old, new)),
                "plan": issue["value"]["packet"][:12],
            }
        )
    return made[::-1]
