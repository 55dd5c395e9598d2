"""The rounds of a frame in pictures: as it was judged before the moves, where the hand went, and what that did."""

from ..plan import as_built
from ..plan.move_arrows import Move
from ..record import fold
from ..trade import estimate, lengths
from ..trade.estimate import chance
from .office_rounds import said
from .office_unit import Json, Known

MOST = 6  # the latest; earlier ones stand in the table


def pictures(known: Known, name: str = "frame") -> list[Json]:
    """[{"say", "svg", "moves"}], a picture a round, if any has moves; none where two phones split the rounds."""
    sheet = known.sheets.get(name)
    given = fold.given(known.held, known.packets, known.parts, name) if sheet and known.held else None
    if not sheet or not given or not sheet.get("corrections"):
        return []
    rounds = given["rounds"]
    made = [_picture(sheet, given, rounds, place) for place in range(len(rounds)) if rounds[place]["readings"]]
    return made[-MOST:] if any(one["moves"] for one in made) else []


def _picture(sheet: Json, given: Json, rounds: list[Json], place: int) -> Json:
    """The round at `place`: judged by all that was read until its moves; then with these counted in."""
    so_far, now = rounds[:place], rounds[place]
    unmoved = {**given, "rounds": [*so_far, {**now, "done": []}]}
    before = estimate.answer(sheet, unmoved)
    moves = [Move(one["do"], one["by"], made=True) for one in now["done"]]
    after = estimate.answer(sheet, {**given, "rounds": [*so_far, now]})["judged"] if moves else before["after"]
    if not moves and place == len(rounds) - 1:
        moves = [Move(one["do"], one["by"]) for one in before["corrections"]]
    size = sheet["frame"]
    known_of = {what for what, verdict in estimate.judge(sheet, unmoved).items() if verdict != chance.NOT_KNOWN}
    svg = as_built.drawing(
        size["width"],
        size["height"],
        size["hinge"],
        _estimates(before["judged"], known_of),
        _words(sheet, before["judged"], known_of, moves),
        moves,
        _estimates(after, known_of) if moves else None,
    )
    return {"say": _caption(place + 1, moves), "svg": svg, "moves": len(moves)}


def _estimates(judged: list[Json], known_of: set[str]) -> dict[str, float]:
    return {row["what"]: row["estimate"] for row in judged if row["what"] in known_of}


def _caption(number: int, moves: list[Move]) -> str:
    if not moves:
        return f"Round {number}, no moves"
    many = "1 move" if len(moves) == 1 else f"{len(moves)} moves"
    return f"Round {number}, {many} {'made' if moves[0].made else 'told, not made yet'}"


def _words(sheet: Json, judged: list[Json], known_of: set[str], moves: list[Move]) -> str:
    """What a screen reader says: what was judged, then each move by its number."""
    says = {item["what"]: item["say"] for item in sheet["judged"]}
    told = [
        f"{says[row['what']]} {lengths.say(row['estimate'], 'mm')}, {row['verdict']}"
        for row in judged
        if row["what"] in known_of
    ]
    told += [f"{n}: {said(sheet, move.do)} {lengths.say(move.by, 'mm')}" for n, move in enumerate(moves, 1)]
    return "; ".join(told)
