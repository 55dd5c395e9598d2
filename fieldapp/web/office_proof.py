"""Who signed, who reviewed, which accounts stand against each other, which photos there are."""

from typing import Any

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
            "is": entry["value"]["is"],
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
    """Fields where two accounts stand, each with person and both clocks."""
    rows = []
    for now in (known.state or {}).get("steps", []):
        step = known.steps[now["id"]]
        for name in now["pairs"]:
            field = next(field for field in step["fields"] if field["id"] == name)
            rows.append(
                {
                    "say": f"{step['say']}: {field['say']}",
                    "of": [
                        {
                            "id": entry["id"],
                            "value": value(entry, field),
                            "who": known.who(entry["person"]),
                            "at": when(entry["at"]),
                            "received": when(entry["server"]["received"]),
                        }
                        for entry in stand(known, now["id"], name)
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
        "photos": photos(known),
    }
