"""The calculator `dewpoint`: will it be wet."""

from fieldapp.plan.tables import table
from fieldapp.trade import weather
from fieldapp.work import shown_parts
from fieldapp.work.answers import Figure, Sentence, judged, said, verdict
from fieldapp.work.calculator import Calculator
from fieldapp.work.field_temperatures import doubt, temperature
from fieldapp.work.fields import Choice, Doubted, Number
from fieldapp.work.shapes import Shape

LEAST, MOST = -45, 60  # °C, the range of the formula


class Takes(Shape):
    air = temperature("the air at the steel; u 0.5 K", LEAST, MOST)
    humidity = Doubted(Number("relative humidity; u 3 %", "%", 1, 100), doubt("%"), '{"value": %, "u": %}')
    steel = temperature("the steel's surface; u 0.5 K", LEAST, MOST)
    needs = Number("how far above the dew point the steel should be", "K", 0, 100, usual=3)
    show = Choice("how sentences say lengths; in: also °F", ("mm", "in"), usual="mm")


class Gives(Shape):
    dew_point = Figure("°C")
    u_dew = Figure("its standard uncertainty, K")
    margin = Figure("steel less dew point, K")
    vapour_pressure = Figure("of the water in the air, hPa")
    verdict = verdict()
    judged = judged()
    scope = Sentence("what the rule is for")
    say = said()


CALCULATOR = Calculator(
    name="dewpoint", say="will the steel be wet: how far it stands above the dew point",
    run=lambda given: weather.dewpoint(given, table("weather")),
    takes=Takes(), gives=Gives(),
    measured=shown_parts.dewpoint,
    example={"air": {"value": 20, "u": 0.5}, "humidity": {"value": 50, "u": 3}, "steel": "54 °F", "needs": 3},
    formulas=("γ = ln(RH/100) + a·T/(b + T), a = 17.62, b = 243.12 °C (Magnus, over water)",
              "dew point = b·γ/(a − γ); margin = steel − dew point",
              "vapour pressure = 6.112·exp(a·T/(b + T))·RH/100 hPa",
              "D = a·b/(a − γ)²; u of the dew point = √((D·a·b/(b + T)²·u_air)² + (D·u_RH/RH)²)",
              "u of the margin = √(u_dew² + u_steel²)"),
    limits=("air and steel -45 to 60 °C, humidity 1 to 100 %",
            "over water: below 0 °C air the true frost point lies a little higher",
            "3 K and 85 % are a rule for paint; for sealant the maker's sheet decides: dry, free of frost, "
            "above its least temperature"),
    sources=("Magnus constants: WMO-No. 8, annex, from memory; the same constants seen second-hand",
             "3 K above the dew point and 85 %: seen second-hand, sahawatthanakit1988.com (coating application "
             "conditions); ISO 8502-4 itself only gives guidance on the probability of condensation",
             "Doubts of 0.5 K and 3 %: own figures"))
