// A linear sheet evaluated: verdicts, and the whole answer. Twin of fieldapp/trade/estimate/linear.py. Knows no trade.
import {judged, said} from "./estimate_judged.js";
import {suspects} from "./estimate_suspects.js";
import {make} from "./estimate_table.js";
import {now} from "./estimate_update.js";

/** {what: verdict}; `not known` where the doubt is wider than the tolerance and it is not outside. */
export function judge(sheet, given) {
  const table = make(sheet, given);
  const state = now(table, new Set(suspects(table).map(one => one.reading)));
  return Object.fromEntries(judged(table, state).map(item => [item.what, said(item)]));
}
