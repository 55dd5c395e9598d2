// Readings that the others contradict, and the slip that explains each. Twin of
// fieldapp/trade/estimate/linear_suspects.py.
import {Others} from "./estimate_others.js";

const CLEAR = 1e-9;  // of two scores closer than this the first is taken, so that both languages take the same

/** What a value is off by when two neighbouring digits of its whole millimetres were swapped. */
export function swaps(value) {
  const size = Math.abs(value);
  const sign = value >= 0 ? 1 : -1;
  const made = [];
  for (let unit = 1; unit <= size; unit *= 10) {
    const low = Math.trunc(size / unit) % 10;
    const high = Math.trunc(size / (unit * 10)) % 10;
    if (low !== high) made.push(sign * 9 * unit * (high - low));
  }
  return made;
}

// The slips that could have made this reading, each with what it is off by.
function slips(reading, rule) {
  const {value} = reading.given;
  return rule.causes.filter(cause => cause.of.includes(reading.kind) && cause.how !== "pair").flatMap(cause => {
    const offs = cause.how === "amount" ? cause.off : cause.how === "sign" ? [2 * value] : swaps(value);
    const share = cause.how === "digits" ? cause.weight / offs.length : cause.weight;
    return offs.map(off => ({cause: cause.cause, off, weight: Math.log(share), likely: cause.likely}));
  });
}

function single(others, at, rule) {
  const deviation = others.deviation(at);
  const weight = rule.unknown.weight * others.doubt(at) / rule.unknown.over;
  const unknown = {score: 0.5 * deviation * deviation + Math.log(weight), at: [at], cause: "unknown", likely: rule.unknown.likely};
  return [unknown, ...slips(others.readings[at], rule).map(slip =>
    ({score: 0.5 * others.gain(at, slip.off) + slip.weight, at: [at], cause: slip.cause, likely: slip.likely}))];
}

// Both of a pair of the same round written in each other's place.
function swapped(others, at, rule) {
  const one = others.readings[at];
  const causes = rule.causes.filter(cause => cause.how === "pair" && cause.of.includes(one.kind));
  return causes.flatMap(cause => others.readings.flatMap((two, other) => {
    if (two.round !== one.round || two.kind === one.kind || !cause.of.includes(two.kind) || others.aside.has(other)) return [];
    const gain = others.gainBoth(at, other, one.given.value - two.given.value);
    return [{score: 0.5 * gain + Math.log(cause.weight), at: [at, other], cause: cause.cause, likely: cause.likely}];
  }));
}

// The best explained of the readings that lie too far off; null when there is none.
function worst(others, rule) {
  const left = others.readings.length - others.aside.size;
  const limit = rule.from + rule.more * Math.max(0, Math.log(Math.max(1, left) / rule.of));
  let best = null;
  for (let at = 0; at < others.readings.length; at += 1) {
    if (others.aside.has(at) || !(others.deviation(at) > limit)) continue;
    for (const found of [...single(others, at, rule), ...swapped(others, at, rule)]) {
      if (best === null || found.score > best.score + CLEAR) best = found;
    }
  }
  return best;
}

/** Readings set aside, in the order of the input: [{reading, off_by, cause, likely}]. */
export function suspects(table) {
  if (table.rounds.every(readings => readings.length === 0)) return [];
  const others = new Others(table);
  const found = new Map();
  for (let left = others.readings.length; left > 0; left -= 1) {
    const best = worst(others, table.sheet.suspects);
    if (best === null) break;
    for (const at of best.at) {
      others.setAside(at);
      found.set(at, best);
    }
  }
  return [...found].map(([at, {cause, likely}]) =>
    ({reading: others.readings[at], off_by: others.against(at), cause, likely}))
    .sort((a, b) => a.reading.round - b.reading.round || a.reading.position - b.reading.position);
}
