"""SVG in the manner of a drawing office: small parts that the drawings share.

Classes `ink`, `pencil`, `chalk`, `hair`, `hatch`, `paper` take their colour from the page that shows them
(currentColor stands in); widths and dashes are presentation attributes, never a style attribute. Pixels, y
downwards.
"""

from xml.sax.saxutils import escape

SHARE = 0.06  # crow's feet and 45° strokes, of the drawing's width


def _number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def line(
    kind: str, points: list[tuple[float, float]], width: float, dash: str = "", close: bool = False
) -> str:
    """An open or closed line through the points."""
    path = "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in points) + ("Z" if close else "")
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<path class="{kind}" d="{path}" fill="none" stroke="currentColor" '
        f'stroke-width="{_number(width)}"{dashed}/>'
    )


def area(kind: str, points: list[tuple[float, float]]) -> str:
    path = "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in points) + "Z"
    return f'<path class="{kind}" d="{path}" fill="currentColor" stroke="none"/>'


def dot(kind: str, x: float, y: float, r: float) -> str:
    return (
        f'<circle class="{kind}" cx="{_number(x)}" cy="{_number(y)}" r="{_number(r)}" fill="currentColor"/>'
    )


def ring(kind: str, x: float, y: float, r: float, width: float) -> str:
    return (
        f'<circle class="{kind}" cx="{_number(x)}" cy="{_number(y)}" r="{_number(r)}" fill="none" '
        f'stroke="currentColor" stroke-width="{_number(width)}"/>'
    )


def text(kind: str, x: float, y: float, said: str, anchor: str = "middle", size: float = 18) -> str:
    """Words or a figure; 18 px, never under 16 where the drawing fills a phone's width."""
    return (
        f'<text class="{kind}" x="{_number(x)}" y="{_number(y)}" text-anchor="{anchor}" fill="currentColor" '
        f'font-size="{_number(size)}">{escape(said)}</text>'
    )


def strokes(kind: str, ends: list[tuple[float, float]], reach: float, width: float) -> str:
    """The 45° strokes at the ends of a dimension line."""
    return "".join(line(kind, [(x - reach, y + reach), (x + reach, y - reach)], width) for x, y in ends)


def stretch(kind: str, start: tuple[float, float], end: tuple[float, float], width: float = 6) -> str:
    """What is measured: a thick line with a dot at each end."""
    return line(kind, [start, end], width) + dot(kind, *start, width) + dot(kind, *end, width)


def picture(width: float, height: float, title: str, told: str, parts: list[str]) -> str:
    """The whole drawing; `title` and `told` say in words what is drawn."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" '
        f'viewBox="0 0 {_number(width)} {_number(height)}">'
        f"<title>{escape(title)}</title><desc>{escape(told)}</desc>{''.join(parts)}</svg>"
    )
