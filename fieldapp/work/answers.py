"""The kinds of field that answers are made of: what `--schema` says of them."""

from typing import Any

from fieldapp.work.fields import Asked, Choice, Json
from fieldapp.work.shapes import Items, Part, Shape

VERDICTS = ("inside", "outside", "too close to call")
MANY = 1000


class Figure(Asked):
    """A finite number, not rounded."""

    def shape(self) -> Json:
        return {"type": "number"}


class Whole(Asked):
    """A whole number."""

    def shape(self) -> Json:
        return {"type": "integer"}


class Sentence(Asked):
    """A text for people."""

    def shape(self) -> Json:
        return {"type": "string"}


class Truth(Asked):
    """true or false."""

    def shape(self) -> Json:
        return {"type": "boolean"}


def many(of: Asked, say: str = "", **more: Any) -> Items:
    """A list of any length."""
    return Items(of, say, 0, MANY, **more)


def verdict() -> Choice:
    """One of the three verdicts."""
    return Choice("verdict", VERDICTS)


# `from` is no name for an attribute, so these two are made from dictionaries
JUDGED = Shape.from_dict({
    "what": Sentence("the judged quantity"), "estimate": Figure("estimate"),
    "u": Figure("standard uncertainty of the estimate"),
    "from": Figure("least allowed; null: open", nullable=True),
    "to": Figure("most allowed; null: open", nullable=True),
    "chance_inside": Figure("chance that it lies in the band"), "verdict": verdict()})
RANGE = Shape.from_dict({"from": Figure("least, mm"), "to": Figure("most, mm")})


def judged() -> Items:
    """The judged quantities of an answer."""
    return many(Part(JUDGED), "judged quantities")


def said() -> Items:
    """The sentences of an answer."""
    return many(Sentence(), "sentences, the most important first")
