"""What stands beside a field of the plan's form: what it means left empty, by which figure, and where that is from."""

from typing import Any

from ..plan.in_force import InForce
from ..plan.tables import table
from .office_words import NBSP, sentence
from .plan_form_fields import Asked

Json = dict[str, Any]
_DEGREES = "°"


def hint(asked: Asked, empty: bool, under: InForce) -> tuple[str, str]:
    """(what empty means, where its figure is from); the second only where the field is empty, and "" if none."""
    left = "left open" if asked.kind == "row" else "left empty"
    if asked.path in _TABLES:
        told, source = _TABLES[asked.path]()
        return f"{left}: {told}", source if empty else ""
    if not asked.default:
        return asked.hint, ""
    said, source = _default(asked.default, asked.unit, under)
    parts = [f"{left}: {said}"]
    if asked.end:
        figure, _ = _default(asked.end, asked.unit, under)
        parts.append(f"on an end wall {figure}")
        source = f"{source} On an end wall: {under.defaults[asked.end]['source']}."
    if asked.hint:
        parts.append(asked.hint)
    return "; ".join(parts), source if empty else ""


def _default(name: str, unit: str, under: InForce) -> tuple[str, str]:
    """(`6 mm`, `Common practice, no source.`) of a default, or of the end of it that is numbered after a point."""
    name, _, end = name.partition(".")
    found = under.defaults[name]
    value: Any = found["value"][int(end)] if end else found["value"]
    space = "" if unit == _DEGREES else NBSP
    return f"{value:g}{space}{unit}", f"{sentence(str(found['source']))}."


def _flange() -> tuple[str, str]:
    return f"{table('picks')['flange']['value']:g}{NBSP}mm", "Our own figure; the maker’s sheet beats it."


def _profile() -> tuple[str, str]:
    return "the usual one of the wall chosen", ""


def _sealant() -> tuple[str, str]:
    cartridge = table("sealant")["cartridge"]
    return f"neutral cure, cartridges of {cartridge:g}{NBSP}mL", "10.1 US fl oz: midwestsealantsupply.com/FAQS."


def _disc() -> tuple[str, str]:
    return f"{table('picks')['metres_a_disc']:g}{NBSP}m of cut a disc", "Common practice, no source."


# What stands where no catalogue's row or maker's figure is given, from the tables that the pick list is made with.
_TABLES = {"flange": _flange, "profile": _profile, "sealant": _sealant, "disc": _disc}
