"""A linear sheet evaluated: verdicts, and the whole answer. Twin: static/phone/estimate_linear.js.

Knows no trade: everything it says stands in the sheet (fieldapp/trade/frame.py says what a sheet holds).
"""

from typing import Any

from fieldapp.trade.estimate.linear_judged import judged, said
from fieldapp.trade.estimate.linear_suspects import suspects
from fieldapp.trade.estimate.linear_table import make
from fieldapp.trade.estimate.linear_update import now


def judge(sheet: dict[str, Any], given: dict[str, Any]) -> dict[str, str | None]:
    """Verdict of each judged quantity; `not known` where its doubt is wider than its tolerance and it is not
    outside.
    """
    table = make(sheet, given)
    state = now(table, frozenset(one.reading for one in suspects(table)))
    return {item.what: said(item) for item in judged(table, state)}
