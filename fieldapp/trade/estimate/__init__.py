"""The engine that evaluates sheets: tables that the phone can evaluate without knowing any trade.

Its twin is static/phone/estimate.js; both read the same cases in tests/twins. Kinds: linear (trade/frame.py
says what its sheet holds), band, rule and digit (their modules here).
"""

from typing import Any

from fieldapp.trade.estimate import band, digits, linear, rules

_ENGINES: dict[str, Any] = {"linear": linear, "band": band, "rule": rules, "digit": digits}


def judge(sheet: dict[str, Any], given: dict[str, Any]) -> dict[str, str | None]:
    """Verdict of each judged quantity of a sheet; None where an input is missing."""
    verdicts: dict[str, str | None] = _ENGINES[sheet["kind"]].judge(sheet, given)
    return verdicts


def answer(sheet: dict[str, Any], given: dict[str, Any]) -> dict[str, Any]:
    """The whole answer of a sheet, as JSON."""
    said: dict[str, Any] = _ENGINES[sheet["kind"]].answer(sheet, given)
    return said
