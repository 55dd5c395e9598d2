"""What the form of a unit's choices asks, group by group: every choice of plan/choices.py."""

from dataclasses import dataclass

from ..plan.choices import HANDS, WALLS


@dataclass(frozen=True)
class Asked:
    """One field. `path`: of the choice; kind: pick, row, length, number, count, flag, text; `default`: the one that
    stands where it is left empty, of a span with the end's number (`limit.0`); `end`: the one that stands instead on
    an end wall; `hint`: what empty means where no default says it, or says besides; `catalogue`: whose rows, or for
    rivets whose diameters, are the options."""

    path: str
    say: str
    kind: str = "length"
    options: tuple[str, ...] = ()
    default: str = ""
    unit: str = "mm"
    hint: str = ""
    numbers: bool = False
    end: str = ""
    catalogue: str = ""


def _pick(path: str, say: str, *options: str) -> Asked:
    return Asked(path, say, "pick", options)


def _row(path: str, say: str, catalogue: str) -> Asked:
    return Asked(path, say, "row", catalogue=catalogue)


def _flag(path: str, say: str) -> Asked:
    return Asked(path, say, "flag")


def _sized(path: str, say: str, hint: str = "", default: str = "") -> Asked:
    return Asked(path, say, hint=hint, default=default)


def _number(path: str, say: str, unit: str, default: str = "", hint: str = "") -> Asked:
    return Asked(path, say, "number", default=default, unit=unit, hint=hint)


GROUPS: tuple[tuple[str, tuple[Asked, ...]], ...] = (
    (
        "Door and wall",
        (
            _pick("wall", "Wall", *WALLS),
            _row("profile", "Wall’s profile", "profiles"),
            _pick("hand", "Hinges, seen from outside", *HANDS),
            Asked("drawing", "Drawing or maker’s sheet", "text", hint="left empty: the maker’s sheet"),
            _sized("frame.width", "Frame over all, width"),
            _sized("frame.height", "Frame over all, height"),
            _sized("corners.width", "Between the inner corners, width"),
            _sized("corners.height", "Between the inner corners, height"),
            _sized("flange", "Frame’s sheet, thickness"),
            _pick("glass", "Glass", "none", "half", "full"),
            _flag("fire_rated", "Fire-rated"),
            _flag("reversible", "May be turned end for end"),
        ),
    ),
    (
        "Room around the frame",
        (
            _sized("clearance.left", "Clearance, left", default="clearance"),
            _sized("clearance.right", "Clearance, right", default="clearance"),
            _sized("clearance.head", "Clearance, head", default="clearance"),
            _sized("clearance.sill", "Packing under the sill", hint="left empty: 0\u00a0mm, none"),
            _sized("opening.width", "Opening on the drawing, width", hint="where the drawing shows it"),
            _sized("opening.height", "Opening on the drawing, height", hint="where the drawing shows it"),
        ),
    ),
    (
        "Head",
        (
            _pick("head_kit.profile", "Head kit", "none", "straight", "angled"),
            _sized("head_kit.rise", "Rise of the kit", hint="with a kit"),
            _pick("head_seal.kind", "Seal at the head", "bulb", "bead"),
            _sized("head_seal.free_height", "Bulb’s free height", hint="bulb"),
            _number(
                "head_seal.compression",
                "Bulb’s compression",
                "%",
                default="bulb_compression",
                hint="with a band below, its middle",
            ),
            _number("head_seal.band.0", "Compression allowed, from", "%", default="seal_band.0"),
            _number("head_seal.band.1", "Compression allowed, to", "%", default="seal_band.1"),
            _sized("head_seal.thickness", "Bead’s thickness", hint="bead"),
        ),
    ),
    (
        "Sides and fixings",
        (
            _pick("side_edges.kind", "Edges of the cut", "sealant", "edge trim"),
            _sized("side_edges.thickness", "Edge trim’s thickness", hint="edge trim"),
            Asked("rivet", "Rivet’s diameter", "row", default="rivet_diameter", numbers=True, catalogue="rivets"),
            _sized("needs_land", "Land needed each side", default="needs_land"),
            _sized("strip", "Strip left under the sill", hint="smooth wall: 0\u00a0mm", default="strip"),
            _row("sealant", "Sealant", "sealants"),
            _row("disc", "Cutting disc", "discs"),
            Asked("holes.side", "Holes in each jamb", "count", unit="", hint="where the drawing shows them"),
            Asked("holes.per_flat", "Holes in each inner flat at the head", "count", unit="", hint="corrugated"),
            Asked("holes.head", "Holes in the head", "count", unit="", hint="smooth wall"),
            Asked("holes.sill", "Holes in the sill", "count", unit="", hint="where the drawing shows them"),
        ),
    ),
    (
        "Hardware and mass",
        (
            _pick("hardware.limit", "Limit of swing", "chain", "stop"),
            _number("hardware.limit_angle.0", "Stops at, from", "°", default="limit.0"),
            _number("hardware.limit_angle.1", "Stops at, to", "°", default="limit.1"),
            _flag("hardware.closer", "Closer"),
            _flag("hardware.panic_bar", "Panic bar"),
            _number("mass.leaf", "Mass of the leaf", "kg", hint="left empty: the crew weighs it"),
            _number("mass.total", "Mass of door with frame", "kg", hint="left empty: the crew weighs it"),
            _number("mass.panel", "Mass of what is cut out", "kg"),
        ),
    ),
    (
        "Site, and limits of the maker’s sheet",
        (
            Asked("rail", "Rail that the tilt is read over", default="rail", end="end_rail"),
            _number("watch_minutes", "Fire watch", "min", default="watch_minutes"),
            _number("wind_limit", "Limit of wind for the lift", "m/s", default="wind_limit"),
            _sized("tolerance.square", "Square", default="square"),
            _sized("tolerance.plumb", "Plumb", default="plumb"),
            _sized("tolerance.twist", "Twist", default="twist"),
            _sized("tolerance.align", "Middle of the width", default="align"),
            _sized("tolerance.lean", "Lean", default="lean"),
        ),
    ),
)
