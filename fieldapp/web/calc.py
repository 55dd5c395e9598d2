"""The calculators over HTTP and as reference pages; all of it read from the one registry, open to anyone."""

import json
from typing import Any

from flask import Blueprint, Response, make_response, render_template, request
from werkzeug.exceptions import RequestEntityTooLarge

from ..work.by_hand import built, rows
from ..work.calculator import Calculator
from ..work.lines import TOO_LONG, LineError, parse
from ..work.registry import CALCULATORS
from ..work.shapes import json_schema
from ..work.squareness import kept
from . import calc_shop
from .doors import ANYONE, door
from .problems import problem, stop, told

calc = Blueprint("calc", __name__)
Json = dict[str, Any]

_DOC_LIST = {
    "summary": "The calculators",
    "answer_schema": {"type": "object", "required": ["work"], "properties": {"work": {"type": "array", "items": {
        "type": "object", "required": ["name", "say"],
        "properties": {"name": {"type": "string"}, "say": {"type": "string"}}}}}},
}
_DOC_ONE = {
    "summary": "A calculator: an input that runs, the schemas of input and answer, its sources",
    "answer_schema": {
        "type": "object", "required": ["name", "say", "example", "input", "answer", "sources"],
        "properties": {"name": {"type": "string"}, "say": {"type": "string"}, "example": {"type": "object"},
                       "input": {"type": "object"}, "answer": {"type": "object"},
                       "sources": {"type": "array", "items": {"type": "string"}}}},
}
_DOC_RUN = {
    "summary": "Asks a calculator; changes nothing",
    "body_schema": {"anyOf": [json_schema(made.takes) | {"title": name} for name, made in CALCULATORS.items()]},
    "answer_schema": {"anyOf": [json_schema(made.gives) | {"title": name} for name, made in CALCULATORS.items()]},
}


def _calculator(name: str) -> Calculator:
    """The calculator of that name, or 404."""
    if name not in CALCULATORS:
        stop(404, "not_found", f"no calculator {told(name)}; there are {', '.join(CALCULATORS)}")
    return CALCULATORS[name]


def _json(value: Json) -> Response:
    response = make_response(json.dumps(value, ensure_ascii=False, allow_nan=False))
    response.content_type = "application/json"
    return response


@door(calc, "/api/work", who=ANYONE, doc=_DOC_LIST)
def listed() -> Response:
    """Every calculator's name and what it answers."""
    return _json({"work": [{"name": name, "say": made.say} for name, made in CALCULATORS.items()]})


@door(calc, "/api/work/<name>", who=ANYONE, doc=_DOC_ONE)
def described(name: str) -> Response:
    """One calculator: example, schemas, sources."""
    made = _calculator(name)
    return _json({"name": made.name, "say": made.say, "example": made.example, "input": made.input_schema,
                  "answer": made.answer_schema, "sources": list(made.sources)})


@door(calc, "/api/work/<name>", who=ANYONE, methods=("POST",), doc=_DOC_RUN, asks_origin=False)
def asked(name: str) -> Response:
    """The answer to one JSON object; 400 where it cannot be read, 422 with problems by dotted path."""
    made = _calculator(name)
    if request.mimetype != "application/json":
        given = told(request.mimetype or "missing")
        stop(415, "wrong_type", f"content type is {given}; application/json would be right")
    try:
        line = parse(request.get_data(cache=False))
    except RequestEntityTooLarge:
        return problem(413, "too_big", TOO_LONG, {"line": [TOO_LONG]})
    except LineError as fault:
        return problem(400, "bad_json", str(fault), {"line": [str(fault)]})
    answer, problems = made.answer(line)
    if answer is None:
        return problem(422, "bad_shape", _detail(problems), problems)
    return _json(answer)


def _detail(problems: dict[str, list[str]]) -> str:
    path, sentences = next(iter(problems.items()))
    more = len(problems) - 1
    return f"{told(path)}: {sentences[0]}" + (f" ({more} more in problems)" if more else "")


@door(calc, "/work/", who=ANYONE)
def index() -> str:
    """The reference pages."""
    return render_template("work/index.html", calculators=CALCULATORS.values())


@door(calc, "/work/frame/squareness", who=ANYONE)
def squareness() -> str:
    """Why two diagonals are not enough, in an installer's words; its figures are those of `fieldapp figures`."""
    return render_template("work/squareness.html", f=kept())


@door(calc, "/work/<name>", who=ANYONE)
def page(name: str) -> str:
    """A calculator's reference page, its form filled with what the address says, else with the worked example."""
    made = _calculator(name)
    if set(request.args) - {"show"}:
        return _page(made, built(made.takes, request.args), None, {}, filled=True,
                     gave=calc_shop.given(request.args.get("editions", "")))
    shown_in = {key: text for key, text in request.args.items() if key in made.takes.fields}
    return _page(made, made.example | shown_in, None, {})


@door(calc, "/work/<name>", who=ANYONE, methods=("POST",))
def by_hand(name: str) -> str | tuple[str, int]:
    """The same page with the answer to what was typed, by fields or as JSON."""
    made = _calculator(name)
    form = {key: value for key, value in request.form.items() if isinstance(value, str)}
    try:
        line = parse(form["json"].encode("utf-8", "surrogatepass")) if "json" in form else built(made.takes, form)
    except LineError as fault:
        return _page(made, {}, None, {"line": [str(fault)]}, form["json"]), 400
    gave = calc_shop.given(form.get("editions", ""))
    line, new = calc_shop.put(name, line, form)  # by whatever button: a row that was picked is not passed over
    gave = tuple((dict(gave) | dict(new)).items())
    put = bool(new) or "fill" in form
    if put or "more" in form:  # what was filled in is seen before anything is worked out by it
        return _page(made, line, None, {}, more=form.get("more", ""), put=put, gave=gave)
    answer, problems = made.answer(line)
    shown = _page(made, line, answer, problems, gave=gave)
    return (shown, 422) if problems else shown


def _page(made: Calculator, data: Json, answer: Json | None, problems: dict[str, list[str]],
          typed: str | None = None, filled: bool = False, more: str = "", put: bool = False,
          gave: calc_shop.Gave = ()) -> str:
    """filled: from a plan; more: the list that is to have more blank lines; put: a row was asked for; gave: the
    catalogues and editions that figures in the fields are from."""
    example, _ = made.answer(made.example)
    return render_template(
        "work/calculator.html", made=made, rows=rows(made.takes, data, problems, more), answer=answer,
        problems=problems, filled=filled, put=put, gave=calc_shop.told(gave), editions=calc_shop.written(gave),
        offers=calc_shop.offered(made.name), drawings=made.drawings(data, answer) if answer else [],
        typed=_pretty(data) if typed is None else typed, answer_text=_pretty(answer) if answer else "",
        example_text=_pretty(made.example), example_answer=_pretty(example or {}),
        example_says=(example or {}).get("say", []))


def _pretty(value: Json) -> str:
    return json.dumps(value, ensure_ascii=False, indent=1)
