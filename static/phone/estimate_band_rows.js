// Which row of a table serves a value. Twin of fieldapp/trade/estimate/band_rows.py.
import {chanceInside, OUTSIDE, TOO_CLOSE, verdict} from "./chance.js";
import {tidy} from "./estimate_band_values.js";

const low = row => row.above ?? row.from;
const serves = (row, value) => ("above" in row ? value > row.above : value >= row.from) && value <= row.to;

// The row across the nearer end of row i, where there is a break.
function across(rows, i, value) {
  const below = value - low(rows[i]);
  const above = rows[i].to - value;
  if (above <= below) return i + 1 < rows.length && "above" in rows[i + 1] ? rows[i + 1].name : null;
  return "above" in rows[i] ? rows[i - 1].name : null;
}

function none(rows, value, chances) {
  const best = chances.indexOf(Math.max(...chances));
  const doubt = verdict(chances[best]) !== OUTSIDE;
  const why = value < rows[0].from ? "thin" : value > rows[rows.length - 1].to ? "thick" : "between";
  return {row: null, margin_below: null, margin_above: null, chance_inside: chances[best],
          verdict: doubt ? TOO_CLOSE : OUTSIDE, measure_again: doubt,
          other_row: doubt ? rows[best].name : null, why, half: null};
}

/** The row for a value of standard uncertainty u, what is left to its ends, and how sure that is. */
export function pick(rows, value, u) {
  const chances = rows.map(row => chanceInside(value, u, low(row), row.to));
  const i = rows.findIndex(row => serves(row, value));
  if (i < 0) return none(rows, value, chances);
  const row = rows[i];
  const judged = verdict(chances[i]);
  const doubt = judged === TOO_CLOSE;
  return {row: row.name, margin_below: tidy(value - row.from), margin_above: tidy(row.to - value), chance_inside: chances[i],
          verdict: judged, measure_again: doubt, other_row: doubt ? across(rows, i, value) : null,
          why: doubt ? "close" : judged, half: (row.to - low(row)) / 2};
}
