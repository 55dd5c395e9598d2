"""The calculator `container`: is the number right."""

from typing import Any

from marshmallow import ValidationError

from fieldapp.trade import containers
from fieldapp.work import shown_parts
from fieldapp.work.answers import Sentence, Truth, Whole, many, said
from fieldapp.work.calculator import Calculator
from fieldapp.work.fields import Choice, Text
from fieldapp.work.shapes import Part, Shape


class Identification(Text):
    """Ten or eleven of A-Z and 0-9, however spaced."""

    right = containers.WANTED

    def take(self, value: Any) -> str:
        text: str = super().take(value)
        fault = containers.fault(text)
        if fault:
            raise ValidationError(fault)
        return text


class Takes(Shape):
    identification = Identification("owner, category, serial and check digit; spaces, dashes, full stops and case do "
                                    "not matter")
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")


class Likely(Shape):
    identification = Sentence("a right identification one slip away")
    how = Choice("the slip", tuple(containers.HOWS))


class Gives(Shape):
    owner = Sentence("three letters")
    category = Sentence("U, J or Z")
    serial = Sentence("six digits")
    check_digit = Whole("what it would be", nullable=True)
    given = Whole("what was given", nullable=True)
    valid = Truth("they agree; null without a check digit", nullable=True)
    remainder = Whole("of the sum, modulo 11", nullable=True)
    because = many(Choice("what is wrong", ("letters", "digits", "category", "check_digit")), "what is wrong")
    likely = many(Part(Likely), "right identifications one slip away")
    say = said()


CALCULATOR = Calculator(
    name="container", say="is a container's number right, and what it may have been",
    run=containers.container, takes=Takes(), gives=Gives(), example={"identification": "CSQU3054383"},
    measured=shown_parts.container,
    formulas=("A 10, B 12 … Z 38 without 11, 22, 33; sum of value·2^i from the left, i = 0 … 9; modulo 11; 10 counts "
              "as 0",),
    limits=("ten characters (no check digit) or eleven", "a right number does not prove that the box exists"),
    sources=("ISO 6346, letters and weights as at prefixlist.com/?p=1055",
             "Which characters are taken for each other: own list"))
