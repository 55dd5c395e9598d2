"""The drawings of a packet: the unit, one a frame reading, the marks of the opening, the rivets."""

from typing import Any

from fieldapp.plan.dimensions import Plan
from fieldapp.plan.door_picture import Door, head_kit, outline, section, swing
from fieldapp.plan.pictures import dot, line, picture, ring, strokes, text
from fieldapp.plan.reading_pictures import reading_picture
from fieldapp.trade.lengths import say

Json = dict[str, Any]


def drawings(plan: Plan, kinds: list[str]) -> list[Json]:
    """[{"id", "step", "say", "svg"}]: `unit`, `opening`, `rivets`, then `read-KIND` a frame reading."""
    made = [
        _entry("unit", None, *_unit(plan)),
        _entry("opening", "mark", *_opening(plan)),
        _entry("rivets", "rivets", *_rivets(plan)),
    ]
    return made + [_entry(f"read-{kind}", None, *reading_picture(plan, kind)) for kind in kinds]


def _entry(name: str, step: str | None, said: str, svg: str) -> Json:
    return {"id": name, "step": step, "say": said, "svg": svg}


def _unit(plan: Plan) -> tuple[str, str]:
    texts = plan.texts
    kit_and_seal = f"{texts['kit']}, {texts['seal']}"
    said = f"Door in a {texts['wall']}, hinges {texts['hinge']} seen from outside, {kit_and_seal}."
    door = Door(34, 86, 46, 146, plan.choices.hand)
    parts = [section(plan, 6, 114, 20), *head_kit(door, plan.choices.kit), *outline(door), swing(door)]
    if plan.choices.glass != "none":
        low = 0.55 if plan.choices.glass == "half" else 0.15
        parts.append(
            line(
                "pencil",
                [door.at(0.25, low), door.at(0.25, 0.88), door.at(0.75, 0.88), door.at(0.75, low)],
                2,
                close=True,
            )
        )
    if plan.choices.panic_bar:
        parts.append(line("ink", [door.at(0.15, 0.45), door.at(0.85, 0.45)], 4))
    return said, picture(120, 160, "The unit", said, parts)


def _opening(plan: Plan) -> tuple[str, str]:
    wide, high = plan.dims["opening_width"], plan.dims["opening_height"]
    said = (
        f"Opening to cut, seen from outside: {say(wide, 'mm')} wide, {say(high, 'mm')} high. "
        "The waste is hatched."
    )
    left, right, top, foot = 84.0, 236.0, 70.0, 360.0
    box = [(left, top), (right, top), (right, foot), (left, foot)]
    parts = [
        section(plan, 20, 332, 34),
        _hatch(left, right, top, foot),
        line("ink", box, 4, "10 5", close=True),
        *(ring("ink", x, y, 6, 3) for x, y in box),
        *_measured((left, 396), (right, 396), say(wide, "mm"), say(wide, "in"), ((left + right) / 2, 422)),
        *_measured(
            (56, top),
            (56, foot),
            say(high, "mm"),
            say(high, "in"),
            ((left + right) / 2, (top + foot) / 2 + 6),
        ),
    ]
    if plan.flags["standing_strip"]:
        parts.append(line("ink", [(left - 30, foot + 12), (right + 30, foot + 12)], 3))
        parts.append(text("ink", right + 10, foot + 4, f"strip {say(plan.dims['strip'], 'mm')}", "start", 18))
    return said, picture(352, 452, "The opening", said, parts)


def _measured(
    start: tuple[float, float], end: tuple[float, float], first: str, second: str, at: tuple[float, float]
) -> list[str]:
    return [
        line("ink", [start, end], 3),
        strokes("ink", [start, end], 8, 3),
        text("ink", *at, first, size=22),
        text("pencil", at[0], at[1] + 22, second, size=18),
    ]


def _hatch(left: float, right: float, top: float, foot: float) -> str:
    """45° hatching of the waste, clear of the middle where the figure stands."""
    inset, reach = 10.0, 44.0
    lines = []
    for y in (top + reach + inset, foot - inset):
        for x in (left + inset, left + inset + 30, right - inset - reach - 30, right - inset - reach):
            lines.append(line("hatch", [(x, y), (x + reach, y - reach)], 2))
    return "".join(lines)


def _rivets(plan: Plan) -> tuple[str, str]:
    where = "in each inner flat crossed" if plan.choices.corrugated else "through the frame's own holes"
    said = (
        "Rivets: at the sides in the land, in pairs from the hinges, one low on each side first; "
        f"at the head {where}, last. First fixings are filled."
    )
    door = Door(86, 266, 66, 330, plan.choices.hand)
    parts = [*head_kit(door, plan.choices.kit), *outline(door, width=4)]
    for number, up in enumerate((0.05, 0.3, 0.55, 0.8, 0.96)):
        for across in (-0.09, 1.09):
            x, y = door.at(across, up)
            parts.append(dot("chalk", x, y, 7) if number == 0 else ring("ink", x, y, 6, 3))
    for across in (0.08, 0.29, 0.5, 0.71, 0.92):
        x, _ = door.at(across, 1)
        parts.append(ring("pencil", x, door.top - 34, 6, 3))
    parts += [
        text("chalk", 176, 356, "1 low, each side"),
        text("ink", 176, 208, "2 by pairs, sides"),
        text("pencil", 176, 22, "3 head last"),
    ]
    return said, picture(352, 372, "The rivets", said, parts)
