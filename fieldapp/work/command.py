"""`fieldapp work`: lists the calculators; runs one over JSON Lines; prints an example or the schemas."""

import json
import os
from collections.abc import Iterator
from io import TextIOBase
from typing import IO, Any

from fieldapp.work.calculator import Calculator, Json
from fieldapp.work.lines import MOST_BYTES, LineError, parse
from fieldapp.work.registry import CALCULATORS

USAGE = """usage: fieldapp work                  list the calculators
       fieldapp work NAME             read JSON Lines on standard input, write one answer a line
       fieldapp work NAME --example   print an input that runs
       fieldapp work NAME --schema    print the JSON Schemas of input and answer"""
BLANK = b" \t\r\n"


def run(argv: list[str], stdin: IO[Any], stdout: IO[Any], stderr: IO[str]) -> int:
    """Runs `fieldapp work ARGV`; text or binary streams. 0; 1 when a line had problems; 2 for a wrong call."""
    out = getattr(stdout, "buffer", stdout)
    if not argv:
        width = max(map(len, CALCULATORS))
        _write(out, "\n".join(f"{name:{width}}  {made.say}" for name, made in CALCULATORS.items()))
        return 0
    if argv[0] in ("-h", "--help"):
        _write(out, USAGE)
        return 0
    name, *options = argv
    fault = _fault(name, options)
    if fault:
        print(fault, file=stderr)
        return 2
    if options:
        _write(out, _shown(CALCULATORS[name], options[0]))
        return 0
    try:
        return _lines(CALCULATORS[name], getattr(stdin, "buffer", stdin), out)
    except BrokenPipeError:
        # whoever read the answers has gone; nothing is left to flush when the program ends
        os.dup2(os.open(os.devnull, os.O_WRONLY), stdout.fileno())
        return 1


def _fault(name: str, options: list[str]) -> str | None:
    if name not in CALCULATORS:
        return f"fieldapp work: no calculator {name!r}; there are {', '.join(CALCULATORS)}"
    if len(options) > 1 or (options and options[0] not in ("--example", "--schema")):
        return f"fieldapp work {name}: {' '.join(options)!r} is no option; --example or --schema would be right"
    return None


def _shown(calculator: Calculator, option: str) -> str:
    if option == "--example":
        return _json(calculator.example)
    return json.dumps({"input": calculator.input_schema, "answer": calculator.answer_schema}, ensure_ascii=False)


def _lines(calculator: Calculator, source: IO[Any], out: IO[Any]) -> int:
    """One answer for each line that is not blank, flushed at once; 1 when any had problems."""
    code = 0
    for raw in _read(source):
        if not raw.strip(BLANK):
            continue
        answer, problems = one(calculator, raw)
        code = 1 if problems else code
        _write(out, _json(answer if answer is not None else {"problems": problems}))
    return code


def one(calculator: Calculator, raw: bytes) -> tuple[Json | None, dict[str, list[str]]]:
    """(answer, {}) or (None, problems) of one line."""
    try:
        line = parse(raw)
    except LineError as fault:
        return None, {"line": [str(fault)]}
    return calculator.answer(line)


def _read(source: IO[Any]) -> Iterator[bytes]:
    """Lines without their ends; of one that is too long just enough to tell, the rest is passed over."""
    while piece := source.readline(MOST_BYTES + 2):
        raw = piece.encode("utf-8", "surrogatepass") if isinstance(piece, str) else piece
        while not piece.endswith("\n" if isinstance(piece, str) else b"\n"):
            piece = source.readline(MOST_BYTES)
            if not piece:
                break
        yield raw.removesuffix(b"\n").removesuffix(b"\r")


def _json(value: Json) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _write(out: Any, text: str) -> None:
    line = text + "\n"
    out.write(line if isinstance(out, TextIOBase) else line.encode("utf-8"))
    out.flush()
