"""Band sheets, first half: what the inputs say about each value of the sheet, and how surely.

A band sheet is plain JSON:

    {"name": "rivet_head", "kind": "band",
     "inputs": [{"name": path, "say": text, "unit": "mm", "u": 0.05, "from": 0.2, "to": 12,
                 "value": what stands when nothing is read, "exact_zero": true: a plain 0 has no doubt}],
     "values": [{"name": "grip", "plus": 0, "sum": [[path, 1], ...]},
                {"name": "left", "ratio": [path, path]},               100 * (1 - first / second)
                {"name": "margin", "plus": 0, "sum": [...],
                 "grid": {"times": -1, "axes": [{"of": path, "at": [...]}, ...], "table": [[...], ...]}}],
     "judged": [{"what": "left", "value": "left", "from": limit, "to": limit, "say": text}], ...}

A limit is a number, null (open), or {"least": [paths], "times": 10}: ten times the least of those inputs.
Values are in the unit of their inputs; uncertainties are standard uncertainties, carried by the first
derivatives (JCGM 100, 5.1.2, from memory).
"""

from math import floor, sqrt
from typing import Any

Json = dict[str, Any]
Known = tuple[float, float]


def tidy(x: float) -> float:
    """x without the dust of binary sums: within 1e-11 of a multiple of 1e-9 it is that multiple; never -0.

    So a limit that is reached exactly counts as reached, and all other values keep their digits.
    """
    if abs(x) >= 1e6:
        return x + 0.0
    near = floor(x * 1e9 + 0.5) / 1e9
    return (near if abs(near - x) < 1e-11 else x) + 0.0


def inputs(sheet: Json, given: Json) -> dict[str, Known]:
    """{path: (value, u)} of what is given, or stands in the sheet, each in its own unit."""
    known: dict[str, Known] = {}
    for item in sheet["inputs"]:
        raw = given.get("inputs", {}).get(item["name"])
        raw = item.get("value") if raw is None else raw
        if raw is None:
            continue
        usual = 0 if item.get("exact_zero", False) and raw == 0 else item.get("u", 0)
        read = raw if isinstance(raw, dict) else {"value": raw}
        u = read.get("u")
        known[item["name"]] = (float(read["value"]), float(usual if u is None else u))
    return known


def limit(spec: float | Json | None, known: dict[str, Known]) -> float | None:
    """A limit in the unit of what it limits; None where that side is open."""
    if not isinstance(spec, dict):
        return spec
    least = [known[path][0] for path in spec["least"] if path in known]
    return tidy(spec["times"] * min(least)) if least else None


def _between(at: list[float], x: float) -> tuple[int, float] | None:
    """Cell of the axis that holds x and how far into it, 0 to 1; None beyond the ends."""
    if not at[0] <= x <= at[-1]:
        return None
    cell = max(i for i in range(len(at) - 1) if at[i] <= x)
    return cell, (x - at[cell]) / (at[cell + 1] - at[cell])


def _grid(grid: Json, known: dict[str, Known]) -> tuple[float, dict[str, float]] | None:
    """Value and slopes of a table of one or two axes, linear between its points."""
    first, second = (*grid["axes"], None)[:2]
    cells = [_between(axis["at"], known[axis["of"]][0]) for axis in grid["axes"]]
    if any(cell is None for cell in cells):
        return None
    (i, s), *rest = [cell for cell in cells if cell is not None]
    table, width = grid["table"], first["at"][i + 1] - first["at"][i]
    if second is None:
        rise = table[i + 1] - table[i]
        return table[i] + s * rise, {first["of"]: rise / width}
    j, t = rest[0]
    near = table[i][j] + t * (table[i][j + 1] - table[i][j])
    far = table[i + 1][j] + t * (table[i + 1][j + 1] - table[i + 1][j])
    left = table[i][j] + s * (table[i + 1][j] - table[i][j])
    right = table[i][j + 1] + s * (table[i + 1][j + 1] - table[i][j + 1])
    deep = second["at"][j + 1] - second["at"][j]
    return near + s * (far - near), {first["of"]: (far - near) / width, second["of"]: (right - left) / deep}


def _paths(value: Json) -> list[str]:
    axes = value["grid"]["axes"] if "grid" in value else []
    sums = [path for path, _ in value.get("sum", [])]
    return [*value.get("ratio", []), *sums, *(axis["of"] for axis in axes)]


def _one(value: Json, known: dict[str, Known]) -> Known | None:
    if any(path not in known for path in _paths(value)):
        return None
    if "ratio" in value:
        (top, u_top), (bottom, u_bottom) = (known[path] for path in value["ratio"])
        if bottom == 0:
            return None
        u = 100 / abs(bottom) * sqrt(u_top**2 + (top / bottom * u_bottom) ** 2)
        return tidy(100 * (bottom - top) / bottom), u
    estimate = value.get("plus", 0.0)
    slopes: dict[str, float] = {}
    for path, times in value.get("sum", []):
        estimate += times * known[path][0]
        slopes[path] = slopes.get(path, 0.0) + times
    if "grid" in value:
        read = _grid(value["grid"], known)
        if read is None:
            return None
        times = value["grid"].get("times", 1)
        estimate += times * read[0]
        for path, slope in read[1].items():
            slopes[path] = slopes.get(path, 0.0) + times * slope
    return tidy(estimate), sqrt(sum((slope * known[path][1]) ** 2 for path, slope in slopes.items()))


def values(sheet: Json, known: dict[str, Known]) -> dict[str, Known]:
    """{name: (estimate, u)} of every value whose inputs are all known and inside the sheet's grid."""
    found = {value["name"]: _one(value, known) for value in sheet["values"]}
    return {name: read for name, read in found.items() if read is not None}
