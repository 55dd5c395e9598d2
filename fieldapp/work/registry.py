"""The one registry of calculators: command line, HTTP, API description and reference pages all read it."""

from fieldapp.work import container, dewpoint, frame, opening, rivet, seal, wheel
from fieldapp.work.calculator import Calculator

CALCULATORS: dict[str, Calculator] = {made.name: made for made in (
    frame.CALCULATOR,
    opening.CALCULATOR,
    rivet.CALCULATOR,
    seal.CALCULATOR,
    dewpoint.CALCULATOR,
    wheel.CALCULATOR,
    container.CALCULATOR,
)}
