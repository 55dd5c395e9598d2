"""Reading a JSON body: bounded, unpacked where packed, strict."""

import json
import zlib
from typing import Any, NoReturn

from flask import request

from .problems import stop, told

WIRE_LIMIT = 1 << 20
UNPACKED_LIMIT = 8 << 20
DEPTH = 20


class BadJson(ValueError):
    """Not a JSON object as we take it; the text says why."""


def json_object(*, packed: bool = False) -> dict[str, Any]:
    """The body as a JSON object; answers 400, 413 or 415 itself. packed: gzip is taken too."""
    try:
        return parse(_bytes(packed))
    except BadJson as fault:
        stop(
            400,
            "bad_json",
            f"the body {fault}; one JSON object in UTF-8 would be right",
            {"line": [str(fault)]},
        )


def _bytes(packed: bool) -> bytes:
    coding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if coding not in ("identity", "", "gzip") or (coding == "gzip" and not packed):
        stop(
            415,
            "wrong_type",
            f"Content-Encoding is {told(coding)}; {'gzip or ' if packed else ''}none would be right",
        )
    if (request.content_length or 0) > WIRE_LIMIT:
        _too_big(f"{request.content_length} bytes sent; at most {WIRE_LIMIT}")
    raw = request.get_data(cache=False)
    if len(raw) > WIRE_LIMIT:
        _too_big(f"{len(raw)} bytes sent; at most {WIRE_LIMIT}")
    return _unpacked(raw) if coding == "gzip" else raw


def _unpacked(raw: bytes) -> bytes:
    unpacker = zlib.decompressobj(wbits=31)
    try:
        data = unpacker.decompress(raw, UNPACKED_LIMIT + 1)
    except zlib.error:
        raise BadJson("is said to be gzip and is not") from None
    if len(data) > UNPACKED_LIMIT:
        _too_big(f"over {UNPACKED_LIMIT} bytes when unpacked; at most {UNPACKED_LIMIT}")
    if not unpacker.eof:
        raise BadJson("is gzip cut short")
    if unpacker.unused_data:
        raise BadJson("has something after its gzip")
    return data


def _too_big(sentence: str) -> NoReturn:
    stop(413, "too_big", f"{sentence}; nothing was kept: send less in a call", {"line": [sentence]})


def parse(raw: bytes) -> dict[str, Any]:
    """A JSON object from bytes. Raises BadJson: not UTF-8, not JSON, not an object, NaN or Infinity, a key twice,
    deeper than 20."""
    try:
        found = _loaded(raw.decode("utf-8"))
    except UnicodeDecodeError:
        raise BadJson("is not UTF-8") from None
    except RecursionError:
        raise BadJson(f"is deeper than {DEPTH}") from None
    except json.JSONDecodeError as fault:
        raise BadJson(f"is not JSON ({fault.msg.lower()} at character {fault.pos})") from None
    if not isinstance(found, dict):
        raise BadJson(f"is {_kind(found)}, not an object")
    if _deeper(found, DEPTH):
        raise BadJson(f"is deeper than {DEPTH}")
    return found


def _loaded(text: str) -> Any:
    try:
        return json.loads(text, object_pairs_hook=_object, parse_constant=_constant)
    except (json.JSONDecodeError, BadJson):
        raise
    except ValueError:  # more digits than Python reads: looked at again, more slowly
        return json.loads(text, object_pairs_hook=_object, parse_constant=_constant, parse_int=_whole)


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        raise BadJson(f"has the key {told(next(n for n in names if names.count(n) > 1))} twice")
    return found


def _constant(word: str) -> NoReturn:
    raise BadJson(f"holds {word}, which is no JSON number")


def _whole(digits: str) -> int | float:
    # Beyond what anything here takes; as a float it is refused where it stands, by name.
    return int(digits) if len(digits) < 400 else float("inf")


def _kind(value: object) -> str:
    return {list: "a list", str: "a text", bool: "true or false", type(None): "null"}.get(type(value), "a number")


def _deeper(value: dict[str, Any] | list[Any], left: int) -> bool:
    """Whether containers are nested more than `left` deep."""
    if left == 0:
        return True
    items = value.values() if isinstance(value, dict) else value
    return any(isinstance(item, (dict, list)) and _deeper(item, left - 1) for item in items)
