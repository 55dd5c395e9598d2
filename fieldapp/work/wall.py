"""What several calculators ask about a wall."""

from typing import Any

from fieldapp.work.calculator import Json
from fieldapp.work.field_lengths import Length
from fieldapp.work.fields import Choice
from fieldapp.work.shapes import Shape

CORRUGATED = ("corrugated side", "corrugated end")
SMOOTH = "smooth insulated"
WALLS = (*CORRUGATED, SMOOTH)


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
