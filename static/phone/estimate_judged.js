// Estimates, doubts and verdicts of a linear sheet's judged quantities. Twin of
// fieldapp/trade/estimate/linear_judged.py.
import {chanceInside, NOT_KNOWN, OUTSIDE, verdict} from "./chance.js";
import {root} from "./estimate_table.js";

function one(state, item, row) {
  const estimate = state.value(row);
  const u = root(state.variance(row));
  const tolerance = item.tolerance;
  const chance = chanceInside(estimate, u, -tolerance, tolerance);
  return {what: item.what, say: item.say, row, estimate, u, tolerance, chance, verdict: verdict(chance), known: u <= tolerance};
}

/** Every judged quantity, or only some, in the sheet's order. */
export function judged(table, state, only = null) {
  return table.sheet.judged.flatMap((item, at) =>
    only === null || only.includes(item.what) ? [one(state, item, table.judged[at])] : []);
}

/** The verdict for the record: `not known` where u is above the tolerance and it is not outside. */
export const said = item => item.known || item.verdict === OUTSIDE ? item.verdict : NOT_KNOWN;
