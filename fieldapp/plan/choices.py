"""A unit's choices: door, wall, hand, kit, seals, hardware: one set, or a sentence for each fault."""

from dataclasses import dataclass, field
from typing import Any

from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.reader import Reader

SIDE_WALL = "corrugated side"
END_WALL = "corrugated end"
SMOOTH_WALL = "smooth insulated"
WALLS = (SIDE_WALL, END_WALL, SMOOTH_WALL)
KIT_OF_WALL = {SIDE_WALL: "angled", END_WALL: "straight", SMOOTH_WALL: "none"}
HANDS = ("left", "right")


@dataclass(frozen=True)
class Choices:
    """What the plan of one unit chose. Lengths in mm, masses in kg, angles in degrees, wind in m/s.

    `frame` is the frame's outside, as the opening takes it; `corners` lies between the inner reference
    corners, where the leaf's edges meet. `tolerance` holds only what the maker's sheet sets, and `holes` only
    what it shows: `side` holes in each jamb, `head`, `sill`, and on a corrugated wall `per_flat`, in each inner flat
    that the head crosses. `flange` is the frame's sheet, None the usual. `profile`, `sealant`, `disc`
    name a row of their catalogue, None the usual one.
    """

    wall: str
    hand: str
    frame_width: float
    frame_height: float
    corners_width: float
    corners_height: float
    drawing: str = "the maker's sheet"
    clearance: dict[str, float] = field(default_factory=dict)
    kit: str = "none"
    rise: float = 0.0
    seal: str = "bead"
    free_height: float = 0.0
    compression: float = 0.0
    seal_band: tuple[float, float] = (40.0, 50.0)
    bead: float = 0.0
    side_edges: str = "sealant"
    edge_trim: float = 0.0
    rivet: float = 4.8
    needs_land: float = 25.0
    strip: float = 0.0
    leaf_mass: float | None = None
    total_mass: float | None = None
    panel_mass: float | None = None
    limit: str = "chain"
    limit_from: float = 90.0
    limit_to: float = 95.0
    panic_bar: bool = False
    closer: bool = False
    glass: str = "none"
    fire_rated: bool = False
    reversible: bool = False
    drawing_width: float | None = None
    drawing_height: float | None = None
    rail: float = 6000.0
    watch_minutes: float = 60.0
    wind_limit: float = 8.0
    tolerance: dict[str, float] = field(default_factory=dict)
    holes: dict[str, int] = field(default_factory=dict)
    flange: float | None = None
    profile: str | None = None
    sealant: str | None = None
    disc: str | None = None
    makers: frozenset[str] = frozenset()

    @property
    def corrugated(self) -> bool:
        return self.wall != SMOOTH_WALL


def check(choices: dict[str, Any], under: InForce | None = None) -> list[str]:
    """A sentence for each fault: its path, the value and what would be right; [] when the choices fit.

    under: the catalogues' editions that rivet, profile, sealant and disc are chosen from; edition 0 when None.
    """
    return _read(choices, under or seeded())[1]


def read(choices: dict[str, Any], under: InForce | None = None) -> Choices:
    """The choices of a plan; raises ValueError with all the sentences of `check` when they do not fit."""
    found, faults = _read(choices, under or seeded())
    if faults or found is None:
        raise ValueError("\n".join(faults))
    return found


def _read(raw: dict[str, Any], under: InForce) -> tuple[Choices | None, list[str]]:
    top = Reader(raw)
    values: dict[str, Any] = {"wall": top.one_of("wall", WALLS), "hand": top.one_of("hand", HANDS)}
    _read_door(top, values, under)
    _read_head(top, values, under)
    _read_rest(top, values, under)
    _read_named(top, values, under)
    values["makers"] = frozenset(top.given)
    faults = top.close()
    return (None, faults) if faults else (Choices(**values), [])


def _read_door(top: Reader, values: dict[str, Any], under: InForce) -> None:
    values["drawing"] = top.text("drawing", "the maker's sheet")
    for name in ("frame", "corners"):
        part = top.table(name)
        values[f"{name}_width"] = part.length("width", 300, 3000)
        values[f"{name}_height"] = part.length("height", 300, 4000)
        if name == "corners":
            for side in ("width", "height"):
                if part.sound and values[f"frame_{side}"] and values[f"corners_{side}"] >= values[f"frame_{side}"]:
                    part.fault(
                        side,
                        values[f"corners_{side}"],
                        f"less than the frame's {side} over all, {values[f'frame_{side}']:g} mm",
                    )
    room = top.table("clearance", optional=True)
    values["clearance"] = {
        side: room.length(side, 0, 500, 0.0 if side == "sill" else under.default("clearance"))
        for side in ("left", "right", "head", "sill")
    }
    drawn = top.table("opening", optional=True)
    values["drawing_width"] = drawn.length("width", 300, 4000, None)
    values["drawing_height"] = drawn.length("height", 300, 5000, None)


def _read_head(top: Reader, values: dict[str, Any], under: InForce) -> None:
    wanted = KIT_OF_WALL.get(values["wall"] or "")
    kit = top.table("head_kit", word="none")
    values["kit"], values["rise"] = "none", 0.0
    if kit is not None:
        values["kit"] = kit.one_of("profile", ("angled", "straight"))
        values["rise"] = kit.length("rise", 0, 1000)
    if wanted and top.sound and values["kit"] not in (wanted, "none"):
        top.fault("head_kit.profile", values["kit"], f"{wanted!r} on a {values['wall']} wall")
    seal = top.table("head_seal")
    assert seal is not None
    values["seal"] = seal.one_of("kind", ("bulb", "bead"))
    if values["seal"] == "bulb":
        values["free_height"] = seal.length("free_height", 1, 200)
        values["seal_band"] = seal.span("band", 0, 95, tuple(under.default("seal_band")))
        # a band of the maker's own is planned for at its middle: the usual compression may lie outside it
        middle = sum(values["seal_band"]) / 2 if "head_seal.band" in top.given else under.default("bulb_compression")
        values["compression"] = seal.number("compression", 0, 95, middle)
        low, high = values["seal_band"]
        if seal.sound and not low <= values["compression"] <= high:
            seal.fault("compression", values["compression"], f"{low:g} to {high:g}, as its band allows")
    elif values["seal"] == "bead":
        values["bead"] = seal.length("thickness", 0, 200)
    edges = top.table("side_edges")
    assert edges is not None
    values["side_edges"] = edges.one_of("kind", ("edge trim", "sealant"))
    values["edge_trim"] = edges.length("thickness", 0.01, 100) if values["side_edges"] == "edge trim" else 0.0


def _read_named(top: Reader, values: dict[str, Any], under: InForce) -> None:
    """What is chosen from a catalogue: the rivet by its diameter, the rest by a row's id."""
    values["rivet"] = top.number_of("rivet", under.diameters, under.default("rivet_diameter"))
    if values["rivet"] not in under.diameters and "rivet" not in top.given:
        usual = ", ".join(f"{size:g}" for size in under.diameters)
        top.fault("rivet", "missing", f"one of {usual}: the catalogue of rivets has no {values['rivet']:g}")
    for key, name in (("profile", "profiles"), ("sealant", "sealants"), ("disc", "discs")):
        id_ = top.text(key, None)
        row = under.row(name, id_) if id_ else None
        values[key] = row["id"] if row else None
        if id_ and row is None:
            known = ", ".join(repr(each["id"]) for each in under.rows[name][:20])
            top.fault(key, id_, f"one of the catalogue's: {known}")
        elif key == "profile" and row and row["wall"] != values["wall"]:
            top.fault(key, id_, f"a profile of a {values['wall']} wall; this is one of a {row['wall']} wall")


def _read_rest(top: Reader, values: dict[str, Any], under: InForce) -> None:
    values["flange"] = top.length("flange", 0.2, 12, None)
    values["needs_land"] = top.length("needs_land", 0, 300, under.default("needs_land"))
    values["strip"] = top.length("strip", 0, 100, 0.0 if values["wall"] == SMOOTH_WALL else under.default("strip"))
    mass = top.table("mass", optional=True)
    for name in ("leaf", "total", "panel"):
        values[f"{name}_mass"] = mass.number(name, 1, 1000, None)
    hardware = top.table("hardware", optional=True)
    values["limit"] = hardware.one_of("limit", ("chain", "stop"), "chain")
    values["limit_from"], values["limit_to"] = hardware.span("limit_angle", 45, 180, tuple(under.default("limit")))
    for name in ("panic_bar", "closer"):
        values[name] = hardware.flag(name)
    values["glass"] = top.one_of("glass", ("none", "half", "full"), "none")
    values["fire_rated"] = top.flag("fire_rated")
    values["reversible"] = top.flag("reversible")
    values["rail"] = top.length("rail", 200, 20000, under.default("end_rail" if values["wall"] == END_WALL else "rail"))
    values["watch_minutes"] = top.number("watch_minutes", 30, 600, under.default("watch_minutes"))
    values["wind_limit"] = top.number("wind_limit", 1, 30, under.default("wind_limit"))
    holes = top.table("holes", optional=True)
    known = ("side", "sill", "head" if values["wall"] == SMOOTH_WALL else "per_flat")
    values["holes"] = {name: count for name in known if (count := holes.count(name, 1, 200)) is not None}
    tolerance = top.table("tolerance", optional=True)
    values["tolerance"] = {
        name: value
        for name in ("square", "plumb", "twist", "align", "lean")
        if (value := tolerance.length(name, 0.1, 100, None)) is not None
    }
