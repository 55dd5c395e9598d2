"""The record of a unit on one page: plan, as built, judged, rounds, fixings, proof, every entry."""

from typing import Any

from ..plan import as_built
from ..trade import lengths
from ..trade.estimate import chance
from . import deciders_form, office_entries, office_look, office_pictures, office_proof, office_rounds, unit_works
from .office_plan_words import worked
from .office_reality import page as compared
from .office_standing import quarantined
from .office_unit import Json, Known
from .office_words import NBSP, NO_STATE, UNIT_IS, count, sentence, signed, value, when

NOT_KNOWN = chance.NOT_KNOWN
COVERS = 1.96  # standard uncertainties each way: 19 times in 20 (JCGM 100, G.1.3), as the bar beside it is drawn


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
                "say": office_rounds.named(known, "frame", item["what"]),
                "allowed": lengths.say(limit, "mm"),
                "verdict": verdict,
                "is": _doubted(row["estimate"], row["u"]) if seen and row else "–",
                "u": row["u"] if row else None,
                "low": bool(row and row["estimate"] < 0),
                "vial": as_built.vial(row["estimate"], row["u"], -limit, limit, verdict) if seen and row else "",
            }
        )
    return rows


def _doubted(mm: float, u: float) -> str:
    """`+0.3 ± 0.7 mm`: an estimate with its sign, and where it lies 19 times in 20."""
    return f"{signed(mm).removesuffix(NBSP + 'mm')} ±{NBSP}{lengths.say(COVERS * u, 'mm')}"


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
    told = [f"{count(counts['inside']) if counts['inside'] else 'none'} of {count(len(rows))} inside"]
    told += [f"{count(number)} {word}" for word, number in counts.items() if number and word != "inside"]
    return ", ".join(told)


def odd(known: Known) -> str:
    """What else the headline must say: steps outside beside the frame, changed after signing, returned to the crew."""
    state = known.state or {}
    frame = {item["what"] for item in known.sheets.get("frame", {}).get("judged", [])}
    out = [now for now in state.get("steps", []) if set(now["outside"]) - frame]
    told = []
    for word, passed in (("outside", False), ("outside by a concession", True)):
        says = [known.steps[now["id"]]["say"] for now in out if (now["is"] == "passed") == passed]
        told += [f"{word}: {', '.join(says)}"] if says else []
    told += {"stale": ["changed after signing"], "returned": ["returned to the crew"]}.get(state.get("is", ""), [])
    return "".join(f"; {text}" for text in told)


def fixings(known: Known) -> list[Json]:
    """Group D: what the other sheets answer, each with its worst verdict and its sentences."""
    rows: list[Json] = []
    for name, answer in known.answers.items():
        sheet = known.sheets[name]
        if sheet.get("kind") == "linear":
            continue
        verdicts = (known.state or {}).get("sheets", {}).get(name, {}).get("verdicts", {}).values()
        order = ("outside", NOT_KNOWN, chance.TOO_CLOSE, chance.INSIDE)
        worst = next((word for word in order if word in verdicts), NOT_KNOWN)
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
    """Group S: every stage and step with its state and what stands in its fields; the number is the plan's order."""
    rows: list[Json] = []
    for now in (known.state or {}).get("steps", []):
        step = known.steps[now["id"]]
        fields = {field["id"]: field for field in step["fields"]}
        rows.append(
            {
                "number": f"S{len(rows) + 1}",
                "stage": step["stage"],
                "say": step["say"],
                "is": now["is"],
                "signed": step.get("signed", True),
                "values": [
                    {
                        "say": fields[name]["say"],
                        "of": [value(known.entries[id], fields[name]) for id in ids if id in known.entries],
                    }
                    for name in fields  # in the plan's order, as on the phone
                    if (ids := now["values"].get(name))
                ],
            }
        )
    return rows


def in_doubt(known: Known, entry: Json) -> str:
    """A quarantined entry in a line: who, where, what it says, when its phone says it was made."""
    field = known.field(entry["step"], entry["field"])
    where = ": ".join(filter(None, [known.steps.get(entry["step"], {}).get("say", entry["step"]), field.get("say")]))
    told = office_entries.tells(known, entry, field)
    return f"{known.who(entry['person'])}, {known.phone(entry['device'])}, {when(entry['at'])}: {where}: {told}"


def page(known: Known) -> dict[str, Any]:
    """All that templates/office/record.html shows."""
    rows = judged(known)
    state = known.state or {}
    return {
        "known": known,
        "unit": known.unit,
        "works": unit_works.links(known.unit),
        "state": state,
        "judged": rows,
        "drawing": drawing(known),
        "title": f"{known.label()}: {summary(rows)}{odd(known)}",
        "is": UNIT_IS.get(state.get("is", ""), NO_STATE),
        "fixings": fixings(known),
        "holds": holds(known),
        "steps": steps(known),
        "entries": office_entries.entries(known),
        "first": office_look.look_first(known, rows, holds(known)),
        "late": office_look.late(known),
        "quarantined": [{"id": entry["id"], "say": in_doubt(known, entry)} for entry in quarantined(known)],
        "rounds": office_rounds.table(known),
        "pictures": office_pictures.pictures(known),
        "plans": worked(known),
        **compared(known),
        "deciders": deciders_form.summary(known),
        **office_proof.page(known),
    }
