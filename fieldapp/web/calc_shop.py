"""A site's catalogues beside the calculators by hand: rows to pick from, and which editions filled the fields in."""

from collections.abc import Iterable, Mapping

from flask import g

from ..plan.catalogue import CATALOGUES
from ..site import editions
from ..work import shop_rows
from ..work.shop_rows import Json, Offer

PICK = "row."  # a pick's name in the form, before its catalogue's
Gave = tuple[tuple[str, int], ...]


def offered(calculator: str) -> list[Offer]:
    """The rows in force, for whoever is signed in: makers' figures are the shop's own business."""
    return shop_rows.offers(calculator, editions.now()) if _may(calculator) else []


def put(calculator: str, data: Json, form: Mapping[str, str]) -> tuple[Json, Gave]:
    """(the input with the figures of the rows picked in the form, which catalogues of which editions gave them)."""
    picked = {key.removeprefix(PICK): value for key, value in form.items() if key.startswith(PICK) and value}
    if not picked or not _may(calculator):
        return data, ()
    under = editions.now()
    made, gave = shop_rows.filled(calculator, data, picked, under)
    return made, tuple((name, under.numbers[name]) for name in gave)


def _may(calculator: str) -> bool:
    return bool(calculator in shop_rows.OFFERED and g.visitor and not g.visitor.revoked)


def written(gave: Iterable[tuple[str, int]]) -> str:
    """Catalogues and editions as an address or a form carries them: `profiles.2 rivets.0`."""
    return " ".join(f"{name}.{number}" for name, number in gave)


def given(text: str) -> Gave:
    """What `written` wrote; anything else in it is passed over."""
    found = {}
    for one in text.split(" "):
        name, _, number = one.partition(".")
        if name in CATALOGUES and number.isascii() and number.isdigit() and len(number) < 6:
            found[name] = int(number)
    return tuple(found.items())


def told(gave: Gave) -> str:
    """`wall profiles edition 2, rivets edition 0`."""
    return ", ".join(f"{CATALOGUES[name].say.lower()} edition {number}" for name, number in gave)
