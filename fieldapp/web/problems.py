"""The one error shape: RFC 9457 problem objects under /api/, the same codes as HTML elsewhere."""

import json
from collections.abc import Mapping
from typing import Any, NoReturn

from flask import Response, abort, make_response, render_template, request

TITLES = {
    "bad_json": "The body is not a JSON object that can be read",
    "bad_request": "The request cannot be read",
    "sign_in": "Sign in first",
    "cross_site": "This request did not come from this site's own pages",
    "not_allowed": "Your role does not let you do this",
    "not_found": "Nothing here under that name, or not for you",
    "wrong_method": "This address does not take that method",
    "too_big": "Too big",
    "wrong_type": "The body is of a type that is not taken here",
    "bad_shape": "Something in what was sent is not as it should be",
    "too_old": "This version is no longer served",
    "slow_down": "Too many tries",
    "not_now": "Not now, try again later",
}
_BY_STATUS = {
    400: "bad_request",
    401: "sign_in",
    403: "not_allowed",
    404: "not_found",
    405: "wrong_method",
    413: "too_big",
    415: "wrong_type",
    422: "bad_shape",
    426: "too_old",
    429: "slow_down",
    503: "not_now",
}

Problems = Mapping[str, list[str]]


def problem(
    status: int,
    code: str,
    detail: str,
    problems: Problems | None = None,
    retry: str = "never",
    headers: Mapping[str, str] | None = None,
    title: str | None = None,
) -> Response:
    """An error as a response.

    code: of TITLES; title: a sentence in the place of the code's own; detail: what is wrong, the value, what would be
    right; problems: sentences by the field's dotted path; retry: never, later, after_sign_in or after_update.
    """
    title = title or TITLES[code]
    if request.path.startswith("/api/"):
        body: dict[str, Any] = {
            "type": f"urn:fieldapp:{code}",
            "title": title,
            "status": status,
            "detail": detail,
            "retry": retry,
        }
        if problems:
            body["problems"] = problems
        response = make_response(json.dumps(body, ensure_ascii=True), status)
        response.content_type = "application/problem+json"
    else:
        page = render_template("error.html", title=title, detail=detail, problems=problems or {}, status=status)
        response = make_response(page, status)
    response.headers.update(dict(headers or {}))
    return response


def stop(
    status: int,
    code: str,
    detail: str,
    problems: Problems | None = None,
    retry: str = "never",
    headers: Mapping[str, str] | None = None,
    title: str | None = None,
) -> NoReturn:
    """Answer with `problem(…)` from wherever we are."""
    abort(problem(status, code, detail, problems, retry, headers, title))


def code_of(status: int) -> str:
    """The code for a status that another library gave."""
    return _BY_STATUS.get(status, "bad_request" if status < 500 else "not_now")


def told(value: object) -> str:
    """A value as it is shown in a sentence: at most 40 characters, control characters and lone surrogates escaped."""
    try:
        text = value if isinstance(value, str) else json.dumps(value)
    except (TypeError, ValueError):
        text = str(type(value).__name__)
    text = text if len(text) <= 40 else text[:39] + "…"
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)
