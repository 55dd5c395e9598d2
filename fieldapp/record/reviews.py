"""Reviews: what a supervisor's entry names, concessions that hold, and a sign-off's return or acceptance."""

from fieldapp.record.entries import Json, is_covered
from fieldapp.record.standing import Index


def reviews(index: Index, word: str) -> list[Json]:
    """Standing reviews of this word, by id, whose entry is here; nobody reviews her own."""
    found = []
    for review in index.of_kind("review"):
        of = index.counted.get(review["value"]["of"])
        if review["value"]["is"] == word and of is not None and of["person"] != review["person"]:
            found.append(review)
    return found


def _covered_here(index: Index, covers: list[str], step: str) -> set[str]:
    """Of what a sign-off covers that which lies on the step, releases aside."""
    known = (index.counted[key] for key in covers if key in index.counted)
    return {
        entry["id"] for entry in known if entry.get("step") == step and is_covered(entry) and entry["kind"] != "release"
    }


def concession_holds(index: Index, step: Json) -> bool:
    """Whether a concession holds for the step: what stands on it is what the `ask` or sign-off it names
    covers.

    The one it names need not stand any more: a new sign-off over the same work keeps what was conceded.
    """
    if not step.get("concession", False):
        return False
    here = {entry["id"] for entry in index.on_step(step["id"])}
    for review in reviews(index, "concession"):
        of = index.counted[review["value"]["of"]]
        if review.get("step") != step["id"]:
            continue
        if of["kind"] == "ask" and of.get("step") == step["id"] and set(of["value"]["covers"]) == here:
            return True
        if of["kind"] == "signoff" and _covered_here(index, of["value"]["covers"], step["id"]) == here:
            return True
    return False


def verdict_on(index: Index, signoff: str, acceptable: bool) -> Json | None:
    """{"id", "is"} of the sign-off's return, else of the acceptance that counts (`acceptable`), else None.

    Of several the greatest id, as of two issues.
    """
    for word in ("returned", "accepted") if acceptable else ("returned",):
        found = [review["id"] for review in reviews(index, word) if review["value"]["of"] == signoff]
        if found:
            return {"id": found[-1], "is": word}
    return None
