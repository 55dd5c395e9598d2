"""Lists: `?limit=` and `?after=`, and query parameters in general."""

from collections.abc import Callable

from flask import request

from .problems import stop, told

LIMIT, MOST = 200, 500


def only(*names: str) -> None:
    """Refuse query parameters of other names, and one given twice."""
    problems = {}
    for name, values in request.args.lists():
        if name not in names:
            problems[told(name)] = [
                f"no parameter of that name is known here; {', '.join(names) or 'none'} would be right"
            ]
        elif len(values) > 1:
            problems[name] = [f"given {len(values)} times; once would be right"]
    if problems:
        path, sentences = next(iter(problems.items()))
        stop(422, "bad_shape", f"{path}: {sentences[0]}", problems)


def limit() -> int:
    """`?limit=`, 1 to 500, 200 where it is left out."""
    text = request.args.get("limit")
    if text is None:
        return LIMIT
    if not (text.isascii() and text.isdecimal() and len(text) < 10 and 1 <= int(text) <= MOST):
        sentence = f"{told(text)}: a whole number from 1 to {MOST} would be right"
        stop(422, "bad_shape", f"limit: {sentence}", {"limit": [sentence]})
    return int(text)


def after(fits: Callable[[str], bool]) -> str | None:
    """`?after=`, the `next` of an answer before, None where it is left out."""
    text = request.args.get("after")
    if text is None:
        return None
    if not fits(text):
        sentence = f"{told(text)}: the `next` of an answer before would be right"
        stop(422, "bad_shape", f"after: {sentence}", {"after": [sentence]})
    return text
