"""The frame as it stands, drawn from what was judged: the plan dashed, the faults exaggerated.

Seen from outside. The factor is chosen so that the largest fault is about a tenth of the drawn width and is written
beside the drawing. SVG with classes and presentation attributes only.
"""

from collections.abc import Mapping, Sequence
from html import escape

from fieldapp.plan.move_arrows import Move, Point, arrows

FACTORS = (10, 20, 30, 50, 100)
_LEFT, _TOP, _HEIGHT = 60.0, 40.0, 320.0
_BESIDE, _ABOVE = 130.0, 84.0  # room for arrows and their figures


def factor(faults: list[float], width: float) -> int:
    """The exaggeration for these faults [mm] of a frame `width` [mm] wide: 10, 20, 30, 50 or 100."""
    largest = max((abs(fault) for fault in faults), default=0.0)
    wanted = 0.1 * width / largest if largest else FACTORS[-1]
    return min(FACTORS, key=lambda each: abs(each - wanted))


def corners(width: float, height: float, faults: Mapping[str, float]) -> dict[str, tuple[float, float]]:
    """Corner positions [mm], z up, of a frame with these estimates [mm] of judged quantities; signs of words.md.

    Both jambs stand on the sill; what a quantity nobody has read would add is left out.
    """
    left, right = faults.get("plumb_left", 0.0), faults.get("plumb_right", 0.0)
    square = faults.get("square_sill", 0.0)
    sill = square - left * width / height if "square_sill" in faults else 0.0
    head = faults["square_head"] - left * width / height if "square_head" in faults else sill
    return {"bl": (0.0, 0.0), "br": (width, sill), "tl": (left, height), "tr": (width + right, height + head)}


def drawing(
    width: float,
    height: float,
    hinge: str,
    faults: Mapping[str, float],
    say: str,
    moves: Sequence[Move] | None = None,
    after: Mapping[str, float] | None = None,
) -> str:
    """SVG of the frame. faults: estimates [mm] of those judged quantities that are known; say: for a screen reader.

    moves: in order, an arrow each with its number and how far (room is left for them where it is a list, even an empty
    one); after: estimates [mm] with the moves made, a thin line.
    """
    left, top = (_BESIDE, _ABOVE) if moves is not None else (_LEFT, _TOP)
    scale = _HEIGHT / height
    times = factor(
        [faults[key] for key in faults if key in ("plumb_left", "plumb_right", "square_head", "square_sill")],
        width,
    )
    plan = {"bl": (0.0, 0.0), "br": (width, 0.0), "tl": (0.0, height), "tr": (width, height)}

    def drawn(off: Mapping[str, float]) -> dict[str, Point]:
        real = corners(width, height, off)
        points = {key: (_far(plan, real, key, 0, times), _far(plan, real, key, 1, times)) for key in plan}
        return {key: (left + scale * x, top + scale * (height - z)) for key, (x, z) in points.items()}

    stands = drawn(faults)
    low, high = ("bl", "tl") if hinge == "left" else ("br", "tr")
    hinges = "".join(
        f'<path class="ink" stroke-width="6" d="M{_at(_along(stands[low], stands[high], part - 0.03))}'
        f'L{_at(_along(stands[low], stands[high], part + 0.03))}"/>'
        for part in (0.15, 0.5, 0.85)
    )
    right, foot = left + width * scale, top + _HEIGHT
    hatch = "".join(f"M{x} {foot + 4}L{x - 10} {foot + 14}" for x in range(20, int(right) + int(left), 18))
    then = f'<path class="chalk" fill="none" stroke-width="2" d="{_outline(drawn(after))}"/>' if after else ""
    return (
        f'<svg class="drawing" viewBox="0 0 {right + left:.0f} {foot + 24:.0f}" role="img">'
        "<title>The frame as it stands</title>"
        f"<desc>{escape(say)}</desc>"
        f'<text x="8" y="20">drawn ×{times}</text>'
        '<path class="pencil" stroke-width="2" stroke-dasharray="14 3 2 3 2 3" d="'
        f'{_outline(drawn({}))}"/>'
        f'<path class="ink" stroke-width="5" stroke-linejoin="miter" d="{_outline(stands)}"/>{hinges}'
        f'<path class="ink" stroke-width="3" d="M8 {foot + 4}H{right + left - 8:.0f}"/>'
        f'<path class="hatch" stroke-width="1.5" d="{hatch}"/>{then}{arrows(stands, moves or [])}</svg>'
    )


def _far(plan: Mapping[str, Point], real: Mapping[str, Point], key: str, axis: int, times: int) -> float:
    return plan[key][axis] + times * (real[key][axis] - plan[key][axis])


def _at(point: Point) -> str:
    return f"{point[0]:.1f} {point[1]:.1f}"


def _outline(points: Mapping[str, Point]) -> str:
    return f"M{_at(points['bl'])}L{_at(points['tl'])}L{_at(points['tr'])}L{_at(points['br'])}Z"


def _along(start: tuple[float, float], end: tuple[float, float], part: float) -> tuple[float, float]:
    return start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])


def vial(estimate: float, u: float, low: float | None, high: float | None, verdict: str) -> str:
    """A level's vial to scale, 120 × 24: lines at the limits, bar the 95 % range, bubble the estimate, clipped."""
    if low is None and high is None:
        return ""
    half = (high - low) / 2 if low is not None and high is not None else max(2 * u, 0.1 * abs(estimate), 0.1)
    middle = (
        (low + high) / 2
        if low is not None and high is not None
        else (low if low is not None else high or 0.0)
    )

    def x(value: float) -> float:
        return round(min(118.0, max(2.0, 60 + 60 * (value - middle) / (3 * half))), 1)

    limits = "".join(f"M{x(limit)} 2V22" for limit in (low, high) if limit is not None)
    name = verdict.replace(" ", "-")
    return (
        f'<svg class="shape vial {name}" width="120" height="24" viewBox="0 0 120 24" aria-hidden="true">'
        f'<path class="hair" stroke-width="1.5" d="M2 12H118"/><path class="ink" stroke-width="3" d="{limits}"/>'
        f'<path stroke="currentColor" stroke-width="5" d="M{x(estimate - 1.96 * u)} 12H{x(estimate + 1.96 * u)}"/>'
        f'<circle class="ball" cx="{x(estimate)}" cy="12" r="6" stroke="currentColor" stroke-width="3"/></svg>'
    )
