"""Hold points: which releases of a step are good, and whether the best of them is stated or confirmed."""

from fieldapp.record.entries import Json
from fieldapp.record.standing import Index

STATED = "stated"
CONFIRMED = "confirmed"


def _is_good(release: Json, here: list[Json]) -> bool:
    """It covers all that stands on the step, and its second is not someone who made any of that herself and
    released."""
    value = release["value"]
    covers = set(value["covers"])
    if any(entry["id"] not in covers for entry in here):
        return False
    own = value["second"] == release["person"]
    return not (own and any(entry["person"] == release["person"] for entry in here))


def good_releases(index: Index, step: str) -> dict[str, str]:
    """The step's good releases by id, each *stated* or *confirmed*.

    Confirmed: by the second person's own `confirm`, or entered by herself on a step where she made none of
    the entries.
    """
    here = index.on_step(step)
    borne_out = {(entry["value"]["of"], entry["person"]) for entry in index.of_kind("confirm")}
    found = {}
    for release in index.of_kind("release"):
        if release.get("step") == step and _is_good(release, here):
            second = release["value"]["second"]
            sure = second == release["person"] or (release["id"], second) in borne_out
            found[release["id"]] = CONFIRMED if sure else STATED
    return found


def standing_of(releases: dict[str, str]) -> str | None:
    """What the hold point's good releases make of it; None: it is shut."""
    if CONFIRMED in releases.values():
        return CONFIRMED
    return STATED if releases else None
