"""The calculator `fixings`: which rows bite at sill, sides and head, where the holes go, how many to order."""

from typing import Any

from marshmallow import ValidationError, validates_schema

from fieldapp.plan.fixings_drawing import fixings_drawing
from fieldapp.plan.tables import table
from fieldapp.trade import fixings
from fieldapp.trade.fixings import PLACES
from fieldapp.trade.measured import parted
from fieldapp.work import rivet, shown_parts
from fieldapp.work.answers import RANGE, Figure, Sentence, Whole, judged, many, said
from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.field_lengths import Length, Measured
from fieldapp.work.fields import Choice, Count, number_words
from fieldapp.work.shapes import Items, Part, Shape
from fieldapp.work.wall import SMOOTH, Profile, drawn_profile, pitch_faults, profile_of, smooth_faults, wall

MOST_HOLES = 100
LONGEST, WIDEST = 30_000, 1000  # mm of an opening, of land and edge


class Opening(Shape):
    width = Length("width of the cut", most=LONGEST)
    height = Length("height of the cut", most=LONGEST)


class Land(Shape):
    left = Measured("outer flat left between slope and cut, left; u 1 mm", 0, WIDEST)
    right = Measured("the same at the right", 0, WIDEST)


class Row(Shape):
    """Holes in a row: by their number, as the frame has them, or by how far apart they may stand."""

    stack = Items(Part(rivet.Layer), "the sheets here, where they are not those of `stack`", 1, 8, needed=False)
    stand_off = Measured("what the seal holds frame or kit off the wall by here", 0, 100, needed=False)
    count = Count("how many, a side: the frame's own holes", 2, MOST_HOLES, needed=False)
    pitch = Measured("how far apart at most, where the frame has none", 5, needed=False)
    end = Length("from the opening's corner to the first hole", 0, usual=50)


class Head(Row):
    per_flat = Count("holes in each inner flat crossed; a smooth wall takes count or pitch", 1, 10, needed=False)


class Takes(Shape):
    wall = wall()
    profile = Part(Profile, "the corrugation as measured; else by the wall", needed=False)
    opening = Part(Opening, "the opening")
    land = Part(Land, "the land as measured; a corrugated wall needs it", needed=False)
    diameter = Length("the rivet's diameter")
    stack = Items(Part(rivet.Layer), "the sheets, from the rivet's head on", 1, 8)
    edge = Measured("edge of the cut to the middle of the holes; u 0.6 mm", most=WIDEST)
    sides = Part(Row, "the jambs: count or pitch")
    head = Part(Head, "the head: per_flat, or on a smooth wall count or pitch")
    sill = Part(Row, "the sill, where it is fixed: count or pitch", needed=False)
    rows = rivet.Rows(Part(rivet.Row), "printed grip ranges; needed for diameters other than 3.2, 4, 4.8, 6.4 mm", 1,
                      100, needed=False)
    hole = rivet.Hole(rivet.HOLE, "hole to drill; needed for diameters other than 3.2, 4, 4.8, 6.4 mm", needed=False)
    metals = Part(rivet.Metals, "what rivet and sheets are of", needed=False)
    replaces = Part(rivet.Replaces, "where a rivet did not bite and was drilled out", needed=False)
    show = Choice("how sentences say lengths", ("mm", "in"), usual="mm")

    _known_size = rivet.Takes._known_size

    @validates_schema(skip_on_field_errors=False, pass_original=True)
    def _wall_fits(self, data: Json, original: Json, **_: Any) -> None:
        faults: dict[str, Any] = smooth_faults(data, original, ("land", "profile"))
        corrugated = data.get("wall") not in (None, SMOOTH)
        faults |= pitch_faults(profile_of(data, original)) if corrugated else {}
        if corrugated and "land" not in original:
            faults["land"] = ["missing; a corrugated wall needs the land left and right"]
        for name in PLACES:
            if isinstance(original.get(name), dict):
                found = _row_faults(original[name], name == "head" and corrugated, name == "head")
                found |= _too_long(data, name)
                if found:
                    faults[name] = found
        if faults:
            raise ValidationError(faults)


def _row_faults(row: Json, by_flat: bool, head: bool) -> Json:
    """Problems of a row that says its holes twice, or not at all."""
    told = [name for name in ("count", "pitch") if name in row]
    if by_flat:
        return {name: ["given for a corrugated wall, where holes go into each inner flat crossed; per_flat would be "
                       "right"] for name in told}
    found: Json = {"per_flat": ["given for a smooth insulated wall, which has no flats; count or pitch would be right"]
                   } if head and "per_flat" in row else {}
    if not told:
        found["count"] = ["missing; count or pitch would be right"]
    elif len(told) == 2:
        found["pitch"] = ["given beside count; one of the two would be right"]
    return found


def _too_long(data: Json, name: str) -> Json:
    """The problem of a row whose ends leave no length between them, or which would need too many holes."""
    row, long = data.get(name), data.get("opening", {}).get("height" if name == "sides" else "width")
    if not isinstance(row, dict) or long is None:
        return {}
    end = row.get("end", table("fixings")["end"])
    if 2 * end >= long:
        return {"end": [f"{number_words(end)} mm given; less than half the opening, {number_words(long / 2)} mm, would "
                        "be right"]}
    if "pitch" in row and (long - 2 * end) / parted(row["pitch"], 0)[0] > MOST_HOLES - 1:
        return {"pitch": [f"{number_words(parted(row['pitch'], 0)[0])} mm given; at most {MOST_HOLES} holes in a row "
                          "would be right"]}
    return {}


class Hole(Shape):
    place = Choice("which place", PLACES)
    across = Figure("from the cut's left edge, mm")
    up = Figure("above the sill line, mm")


class Ordered(Shape):
    row = Sentence("the row; null: none serves", nullable=True)
    holes = Whole("holes")
    spare = Whole("one in ten, rounded up")
    order = Whole("both")
    places = many(Choice("which place", PLACES))


class Numbers(Shape):
    sill = Whole("holes at the sill", needed=False)
    sides = Whole("holes at both sides")
    head = Whole("holes at the head")


class Spacing(Shape):
    sill = Figure("least from hole to hole, mm", nullable=True, needed=False)
    sides = Figure("the same at the sides", nullable=True)
    head = Figure("the same at the head; null: one hole", nullable=True)


class Gives(Shape):
    at = many(Part(rivet.At), "each place: grip and row")
    holes = many(Part(Hole), "every hole")
    flats_crossed = Whole("inner flats that the head crosses; null on a smooth wall", nullable=True)
    numbers = Part(Numbers, "holes at each place")
    spacing = Part(Spacing, "pitch at each place")
    hole = Part(RANGE, "hole to drill")
    again = Choice("what replaces a drilled-out rivet", ("same", "next_diameter", "new_hole"), nullable=True)
    order = many(Part(Ordered), "what to order, by row")
    judged = judged()
    cautions = many(Sentence(), "said always, before any figure")
    say = said()


def drawn(given: Json, answer: Json) -> list[tuple[str, str]]:
    """The holes about the opening."""
    profile = drawn_profile(given)
    return [fixings_drawing(given, answer, profile)]


CALCULATOR = Calculator(
    name="fixings", say="the frame's fixings: which rows bite at sill, sides and head, where, and how many",
    run=lambda given: fixings.fixings(given, table("fixings"), table("rivets"), table("profiles"), table("doubt"),
                                      table("layout")["doubt"]),
    takes=Takes(), gives=Gives(), drawn=drawn, measured=shown_parts.fixings,
    example={"wall": "corrugated end", "opening": {"width": 926, "height": 2093}, "land": {"left": 93, "right": 91},
             "diameter": 4.8, "stack": [{"what": "flange", "thickness": 1.5}, {"what": "wall", "thickness": 2.0}],
             "edge": 20, "sides": {"count": 7, "end": 60}, "sill": {"count": 3, "stand_off": 1.5},
             "head": {"per_flat": 1, "stand_off": {"value": 5.6, "u": 0.2}}, "metals": {"rivet": "steel",
                                                                                        "sheet": "steel"}},
    formulas=("grip = sum of the measured stack + stand-off, at each place; rows as in rivet",
              "inner flats crossed k: land left + width + land right = k·pitch + outer",
              "inner flat n from outer + slope − land left + n·pitch, n from 0; holes at (i + ½)/per_flat of it",
              "sides and sill: count holes, or (length − 2·end)/pitch rounded up, and one; evenly spread",
              "edge from 2 d, pitch from 3 d; hole to slope from half a rivet's head",
              "spare = holes/10, rounded up, for each row"),
    limits=("judged against the least only: the handbook's most, edge 10 t and pitch 24 t, is for seams of plates and "
            "is told as information; rivet judges both",
            "jamb fixings in the land, head fixings in each inner flat crossed: another pattern only by drawing",
            "the frame's own holes beat every count here; strength, fire rating and loads are not judged",
            "at most 100 holes in a row; opening up to 30 m, land and edge up to 1 m"),
    sources=("Jambs in the land, head in the inner flats, one low each side first, head last: common practice, no "
             "source",
             "One spare in ten, 50 mm from the corner, one hole a flat: own figures",
             "Replacing a rivet: US Army TM 10-5410-223-24 para 2-12",
             "Heads of rivets: IFI-114:2003 (R2008) Table 1, a poor copy read with memory",
             *rivet.CALCULATOR.sources))
