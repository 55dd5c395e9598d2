"""What several calculators ask about a wall."""

from typing import Any

from fieldapp.plan.tables import table
from fieldapp.trade import corrugation
from fieldapp.work.calculator import Json
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice, number_words
from fieldapp.work.shapes import Shape

CORRUGATED = ("corrugated side", "corrugated end")
SMOOTH = "smooth insulated"
WALLS = (*CORRUGATED, SMOOTH)
LEAST_PITCH = 50


class Profile(Shape):
    outer = Length("outer flat")
    slope = Length("slope, its horizontal projection")
    inner = Length("inner flat")
    depth = Length("depth")


def wall(say: str = "the wall", **more: Any) -> Choice:
    """Which wall."""
    return Choice(say, WALLS, **more)


def smooth_faults(data: Json, original: Json, names: tuple[str, ...]) -> dict[str, list[str]]:
    """Problems of fields that only a corrugated wall takes."""
    if data.get("wall") != SMOOTH:
        return {}
    return {name: [f"given for a {SMOOTH} wall, which has no corrugation; leave it out"]
            for name in names if name in original}


def drawn_profile(given: Json) -> Json | None:
    """The profile that an answered input was worked out with: its own, else the table's; None for a smooth wall."""
    found: Json | None = None if given["wall"] == SMOOTH else given.get("profile") or table("profiles")[given["wall"]]
    return found


def profile_of(data: Json, original: Json) -> Json:
    """The profile given, as far as it is right, else that of the wall by the table."""
    found: Json = data.get("profile", {}) if "profile" in original else table("profiles")[data["wall"]]
    return found


def pitch_faults(profile: Json) -> dict[str, list[str]]:
    """The problem of a corrugation too fine to be one: what counts flats would never end."""
    # of an object with a problem marshmallow hands on what is right in it
    if not {"outer", "slope", "inner"} <= profile.keys():
        return {}
    pitch = corrugation.pitch(profile)
    return {} if pitch >= LEAST_PITCH else {"profile": [
        f"a pitch of {number_words(pitch)} mm given; at least {LEAST_PITCH} mm would be right"]}
