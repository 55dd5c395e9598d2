"""The record of a unit on one page: plan, as built, judged, rounds, fixings, proof, every entry."""

from typing import Any

from ..plan import as_built
from ..trade.estimate import chance
from .office_unit import Json, Known
from .office_waiting import _field_say, after_signing, quarantined
from .office_words import NM, UNIT_IS, count, sentence, signed, value, when

NOT_KNOWN = chance.NOT_KNOWN


def judged(known: Known) -> list[Json]:
    """Group B: the frame's judged quantities with vials to scale; without readings every one is not known."""
    sheet = known.sheets.get("frame")
    if sheet is None:
        return []
    verdicts = (known.state or {}).get("sheets", {}).get("frame", {}).get("verdicts", {})
    answer = {row["what"]: row for row in known.answers.get("frame", {}).get("judged", [])}
    rows = []
    for place, item in enumerate(sheet["judged"], 1):
        row, limit = answer.get(item["what"]), item["tolerance"]
        verdict = verdicts.get(item["what"]) or NOT_KNOWN
        seen = row is not None and verdict != NOT_KNOWN
        rows.append(
            {
                "number": f"B{place}",
                "what": item["what"],
                "say": sentence(item["say"]),
                "allowed": limit,
                "verdict": verdict,
                "is": signed(row["estimate"]) if seen and row else "–",
                "u": row["u"] if row else None,
                "low": bool(row and row["estimate"] < 0),
                "vial": as_built.vial(row["estimate"], row["u"], -limit, limit, verdict)
                if seen and row
                else "",
            }
        )
    return rows


def drawing(known: Known) -> str:
    """Group A: the frame as built, as SVG; empty while nothing is known."""
    sheet = known.sheets.get("frame")
    known_rows = [row for row in judged(known) if row["verdict"] != NOT_KNOWN]
    if sheet is None or not known_rows:
        return ""
    estimates = {row["what"]: row["estimate"] for row in known.answers["frame"]["judged"]}
    faults = {row["what"]: estimates[row["what"]] for row in known_rows}
    say = "; ".join(f"{row['say']} {row['is']}, {row['verdict']}" for row in known_rows)
    size = sheet["frame"]
    return as_built.drawing(size["width"], size["height"], size["hinge"], faults, say)


def summary(rows: list[Json]) -> str:
    """`six of seven inside, one too close to call`."""
    if not any(row["verdict"] != NOT_KNOWN for row in rows):
        return "frame not read yet"
    counts = {
        word: sum(row["verdict"] == word for row in rows)
        for word in ("inside", "outside", "too close to call", NOT_KNOWN)
    }
    told = [f"{count(counts['inside'])} of {count(len(rows))} inside"]
    told += [f"{count(number)} {word}" for word, number in counts.items() if number and word != "inside"]
    return ", ".join(told)


def fixings(known: Known) -> list[Json]:
    """Group D: what the other sheets answer, each with its worst verdict and its sentences."""
    rows: list[Json] = []
    for name, answer in known.answers.items():
        sheet = known.sheets[name]
        if sheet.get("kind") == "linear":
            continue
        verdicts = [row["verdict"] for row in answer.get("judged", []) if row.get("verdict")]
        verdicts += [answer["verdict"]] if answer.get("verdict") else []
        worst = next(
            (word for word in ("outside", NOT_KNOWN, "too close to call") if word in verdicts), "inside"
        )
        rows.append(
            {
                "number": f"D{len(rows) + 1}",
                "say": sentence(str(sheet.get("say", name.replace("_", " ")))),
                "verdict": worst,
                "tells": [str(text) for text in answer.get("say", [])[:3]],
            }
        )
    return rows


def holds(known: Known) -> list[Json]:
    """Group E: hold points, who looked, and whether she said so herself."""
    rows: list[Json] = []
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    for now in (known.state or {}).get("steps", []):
        step = known.steps[now["id"]]
        if not step.get("hold"):
            continue
        releases = [
            e
            for e in known.entries.values()
            if e["kind"] == "release" and e["step"] == step["id"] and e["id"] not in replaced
        ]
        rows.append(
            {
                "number": f"E{len(rows) + 1}",
                "step": step["id"],
                "say": step["say"],
                "is": now["hold"] or "not released",
                "look": step.get("look", []),
                "releases": [
                    {
                        "id": e["id"],
                        "second": known.who(e["value"]["second"]),
                        "second_id": e["value"]["second"],
                        "by": known.who(e["person"]),
                        "at": when(e["at"]),
                    }
                    for e in releases
                ],
            }
        )
    return rows


def steps(known: Known) -> list[Json]:
    """Every stage and step with its state and what stands in its fields."""
    rows = []
    for now in (known.state or {}).get("steps", []):
        step = known.steps[now["id"]]
        fields = {field["id"]: field for field in step["fields"]}
        rows.append(
            {
                "stage": step["stage"],
                "say": step["say"],
                "is": now["is"],
                "values": [
                    {
                        "say": fields[name]["say"],
                        "of": [value(known.entries[id], fields[name]) for id in ids if id in known.entries],
                    }
                    for name, ids in now["values"].items()
                    if name in fields
                ],
            }
        )
    return rows


def entries(known: Known) -> list[Json]:
    """Group G: every entry in order of arrival, what was replaced struck out in words."""
    replaced = {id: entry["id"] for entry in known.entries.values() for id in entry["replaces"]}
    rows: list[Json] = []
    for entry in known.entries.values():
        step = known.steps.get(entry["step"] or "", {})
        field = next((f for f in step.get("fields", []) if f["id"] == entry["field"]), None)
        place = " · ".join(
            filter(None, [step.get("say", entry["step"]), field["say"] if field else entry["field"]])
        )
        standing = entry["server"]["standing"]
        rows.append(
            {
                "number": f"G{len(rows) + 1}",
                "at": when(entry["at"]),
                "who": known.who(entry["person"]),
                "kind": entry["kind"],
                "place": place,
                "value": tells(known, entry, field),
                "note": "quarantined"
                if standing == "quarantined"
                else "replaced"
                if entry["id"] in replaced
                else "",
            }
        )
    return rows


def tells(known: Known, entry: Json, field: Json | None) -> str:
    """What an entry says, in a line."""
    held, kind = entry["value"], entry["kind"]
    if kind == "move":
        return f"{held['do'].replace('_', ' ')} {signed(held['nm'] / NM)}"
    if kind == "told":
        moves = "; ".join(f"{m['do'].replace('_', ' ')} {m['nm'] / NM:g} mm" for m in held.get("moves", []))
        verdicts = ", ".join(
            f"{what.replace('_', ' ')} {word}" for what, word in sorted(held["verdicts"].items())
        )
        return "; ".join(
            filter(None, [moves, f"chosen {held['chosen']}" if held.get("chosen") else "", verdicts])
        )
    if kind in ("release", "ask", "signoff"):
        second = f"{known.who(held['second'])} looked, " if kind == "release" else ""
        because = f", because {held['because']}" if held.get("because") else ""
        return f"{second}covers {len(held['covers'])}{because}"
    if kind == "review":
        return f"{held['is']}: {held['because']}"
    if kind == "issue":
        return f"plan {held['packet'][:12]}: {held.get('because') or ''}"
    return {
        "round": "next round opened",
        "confirm": "confirms the second look",
        "moved": "belongs to another unit",
    }.get(kind) or value(entry, field)


def look_first(known: Known, rows: list[Json]) -> list[Json]:
    """What the reviewer should look at before anything else."""
    found = [
        {
            "vial": row["verdict"],
            "low": row["low"],
            "say": f"{row['number']} {row['say']}: {row['verdict']}",
            "tells": f"{row['is']} of ± {row['allowed']} mm",
        }
        for row in rows
        if row["verdict"] in ("outside", "too close to call")
    ]
    for now in (known.state or {}).get("steps", []):
        title = known.steps[now["id"]]["say"]
        for name in now["outside"]:
            if not any(row["what"] == name for row in rows):
                found.append(
                    {
                        "vial": "outside",
                        "say": f"{title}: {_field_say(known, now['id'], name)} outside",
                        "tells": _values(known, now, name),
                    }
                )
        if now["pairs"]:
            found.append(
                {"two": True, "say": f"{title}: two accounts", "tells": "both stand; neither saw the other"}
            )
    found += [
        {
            "mark": "stated",
            "say": f"{row['number']} {row['say']}: stated only",
            "tells": "not confirmed by the second person's own entry",
        }
        for row in holds(known)
        if row["is"] == "stated"
    ]
    if late := after_signing(known):
        found.append(
            {
                "mark": "stale",
                "say": "Changed after signing",
                "tells": ", ".join(
                    dict.fromkeys(str(known.steps.get(e["step"], {}).get("say", e["kind"])) for e in late)
                ),
            }
        )
    return found


def _values(known: Known, now: Json, name: str) -> str:
    field = next((f for f in known.steps[now["id"]]["fields"] if f["id"] == name), None)
    told = [value(known.entries[id], field) for id in now["values"].get(name, []) if id in known.entries]
    return "; ".join(told)


def page(known: Known) -> dict[str, Any]:
    """All that templates/office/record.html shows."""
    rows = judged(known)
    state = known.state or {}
    return {
        "known": known,
        "unit": known.unit,
        "state": state,
        "judged": rows,
        "drawing": drawing(known),
        "title": f"{known.label()}: {summary(rows)}",
        "is": UNIT_IS.get(state.get("is", ""), "state not known"),
        "fixings": fixings(known),
        "holds": holds(known),
        "steps": steps(known),
        "entries": entries(known),
        "first": look_first(known, rows),
        "late": after_signing(known),
        "quarantined": quarantined(known),
    }
