"""The one registry of calculators: command line, HTTP, API description and reference pages all read it."""

from fieldapp.work import (
    container,
    cut,
    dewpoint,
    fixings,
    frame,
    layout,
    opening,
    panel,
    rivet,
    seal,
    sealant,
    stance,
    wheel,
)
from fieldapp.work.calculator import Calculator

CALCULATORS: dict[str, Calculator] = {made.name: made for made in (
    stance.CALCULATOR,
    layout.CALCULATOR,
    frame.CALCULATOR,
    opening.CALCULATOR,
    panel.CALCULATOR,
    cut.CALCULATOR,
    rivet.CALCULATOR,
    fixings.CALCULATOR,
    seal.CALCULATOR,
    sealant.CALCULATOR,
    dewpoint.CALCULATOR,
    wheel.CALCULATOR,
    container.CALCULATOR,
)}
