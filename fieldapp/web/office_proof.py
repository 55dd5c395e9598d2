"""Who signed, who reviewed, which accounts stand against each other, which photos there are."""

from typing import Any

from .office_look import allowed
from .office_unit import Json, Known
from .office_words import value, when


def signed(known: Known) -> list[Json]:
    """The sign-offs that stand: who, how it is, how many entries it covers."""
    rows = []
    for each in (known.state or {}).get("signoffs", []):
        entry = known.entries[each["id"]]
        rows.append(
            {
                "id": each["id"],
                "who": known.who(entry["person"]),
                "is": each["is"],
                "missing": each["missing"],
                "covers": len(entry["value"]["covers"]),
                "at": when(entry["at"]),
                "sha256": entry["value"]["sha256"],
            }
        )
    return rows


def reviews(known: Known) -> list[Json]:
    """Every review in order of arrival."""
    return [
        {
            "kind": entry["value"]["is"],
            "because": entry["value"]["because"],
            "who": known.who(entry["person"]),
            "at": when(entry["at"]),
            "step": known.steps.get(entry["step"] or "", {}).get("say", entry["step"]),
        }
        for entry in known.entries.values()
        if entry["kind"] == "review"
    ]


def accepted(known: Known) -> Json | None:
    """The acceptance that counts: who and when."""
    for each in (known.state or {}).get("signoffs", []):
        if each["review"] and each["review"]["is"] == "accepted":
            entry = known.entries[each["review"]["id"]]
            return {"who": known.who(entry["person"]), "at": when(entry["at"])}
    return None


def accounts(known: Known) -> list[Json]:
    """Fields where two accounts stand, each with its limit, and of each account the person, phone and both clocks."""
    rows: list[Json] = []
    lines = 0
    for now in (known.state or {}).get("steps", []):
        for name in now["pairs"]:
            field = known.field(now["id"], name)
            both = []
            for entry in stand(known, now["id"], name):
                lines += 1
                both.append(
                    {
                        "number": f"T{lines}",
                        "id": entry["id"],
                        "value": value(entry, field),
                        "who": known.who(entry["person"]),
                        "phone": known.phone(entry["device"]),
                        "at": when(entry["at"]),
                        "received": when(entry["server"]["received"]),
                        "round": entry["round"],
                    }
                )
            rows.append({"say": f"{known.steps[now['id']]['say']}: {field['say']}{allowed(field)}", "of": both})
    return rows


def splits(known: Known) -> list[Json]:
    """Sheets whose rounds stand side by side, each round with who opened it, when, and how much was read in it."""
    rows = []
    for name, sheet in (known.state or {}).get("sheets", {}).items():
        opened = [known.entries[id] for id in sheet["split"] if id in known.entries]
        if opened:
            rows.append(
                {
                    "sheet": name,
                    "say": name.replace("_", " "),
                    "of": [
                        {
                            "who": known.who(entry["person"]),
                            "phone": known.phone(entry["device"]),
                            "at": when(entry["at"]),
                            "received": when(entry["server"]["received"]),
                            "readings": sum(
                                each["kind"] == "reading" and each["round"] == entry["id"]
                                for each in known.entries.values()
                            ),
                        }
                        for entry in opened
                    ],
                }
            )
    return rows


def stand(known: Known, step: str, field: str) -> list[Json]:
    """What stands in a field, by id."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    return sorted(
        (
            entry
            for entry in known.entries.values()
            if entry["step"] == step
            and entry["field"] == field
            and entry["id"] not in replaced
            and entry["kind"] != "told"
        ),
        key=lambda entry: str(entry["id"]),
    )


def photos(known: Known) -> list[str]:
    """Hashes of the photos that standing entries name."""
    replaced = {id for entry in known.entries.values() for id in entry["replaces"]}
    return [
        entry["value"]["sha256"]
        for id, entry in known.entries.items()
        if entry["kind"] == "photo" and id not in replaced
    ]


def page(known: Known) -> dict[str, Any]:
    """The part of the record's page that says who stands for it."""
    return {
        "signed": signed(known),
        "reviews": reviews(known),
        "accepted": accepted(known),
        "accounts": accounts(known),
        "splits": splits(known),
        "photos": photos(known),
    }
