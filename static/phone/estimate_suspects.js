// Readings that the others contradict, and the slip that explains each. Twin of
// fieldapp/trade/estimate/linear_suspects.py.
import {Others} from "./estimate_others.js";

const CLEAR = 1e-9;  // of two scores closer than this the first is taken, so that both languages take the same
const NEAR = 1e-6;  // what lies further below the best than this cannot be taken

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

// Readings of one round that can be written in each other's place, by cause: [{cause, one, other, shift}].
function pairsOf(readings, rule) {
  return rule.causes.filter(cause => cause.how === "pair").map(cause => {
    const of = [...readings.keys()].filter(at => cause.of.includes(readings[at].kind));
    const both = of.flatMap((one, i) => of.slice(i + 1)
      .filter(other => readings[one].round === readings[other].round && readings[one].kind !== readings[other].kind)
      .map(other => ({one, other, shift: readings[one].given.value - readings[other].given.value})));
    return {cause, weight: Math.log(cause.weight), both};
  });
}

// The search for the worst reading. What does not change from one to the next is kept: each reading's slips, and the
// pairs; and of many readings that contradict each other only those are looked at closely that can be the best.
class Search {
  constructor(others, rule) {
    this.others = others;
    this.rule = rule;
    this.slips = new Map();
    this.most = Math.max(...rule.causes.map(one => Math.log(one.weight)));
    this.pairs = null;
    this.taken = new Set();  // rounds in which two readings were taken for each other
  }

  // The best explained of the readings that lie too far off; null when there is none.
  worst() {
    const {others, rule} = this;
    const count = others.readings.length;
    const limit = rule.from + rule.more * Math.max(0, Math.log(Math.max(1, count - others.aside.size) / rule.of));
    const far = new Map();  // half of chi-square that setting it aside saves (no slip explains more), and if unknown
    let reached = -Infinity;
    for (let at = 0; at < count; at += 1) {
      const deviation = others.aside.has(at) ? 0 : others.deviation(at);
      if (!(deviation > limit)) continue;
      const half = 0.5 * deviation * deviation;
      const unknown = half + Math.log(rule.unknown.weight * others.doubt(at) / rule.unknown.over);
      far.set(at, {half, unknown});
      reached = Math.max(reached, unknown);
    }
    const swapped = this.swapped(far, limit * limit);
    if (far.size === 0 && swapped.length === 0) return null;
    for (const one of swapped) reached = Math.max(reached, one.score);
    return this.best(far, swapped.filter(one => one.score >= reached - NEAR), reached - NEAR);
  }

  best(far, swapped, least) {
    let best = null;
    const take = found => { if (best === null || found.score > best.score + CLEAR) best = found; };
    const ats = new Set([...far.keys(), ...swapped.map(one => one.at[0])]);
    for (const at of [...ats].sort((a, b) => a - b)) {
      const {half, unknown} = far.get(at) ?? {half: -Infinity, unknown: -Infinity};
      if (Math.max(half + this.most, unknown) >= least) {
        take({score: unknown, at: [at], cause: "unknown", likely: this.rule.unknown.likely});
        this.slipped(at).forEach(take);
      }
      swapped.filter(one => one.at[0] === at).forEach(take);
    }
    if (best !== null && best.at.length > 1) this.taken.add(this.others.readings[best.at[0]].round);
    return best;
  }

  // Every slip of one reading.
  slipped(at) {
    if (!this.slips.has(at)) this.slips.set(at, slips(this.others.readings[at], this.rule));
    return this.slips.get(at).map(slip =>
      ({score: 0.5 * this.others.gain(at, slip.off) + slip.weight, at: [at], cause: slip.cause, likely: slip.likely}));
  }

  // The best of the pairs by each cause: of those of which one lies too far off, or that explain `enough` together.
  swapped(far, enough) {
    const {others} = this;
    this.pairs ??= pairsOf(others.readings, this.rule);
    return this.pairs.flatMap(({cause, weight, both}) => {
      const made = [];
      let most = -Infinity;
      for (const {one, other, shift} of both) {
        if (others.aside.has(one) || others.aside.has(other)) continue;
        const gain = others.gainBoth(one, other, shift);
        const needed = this.taken.has(others.readings[one].round) ? Math.min(enough, cause.again ?? enough) : enough;
        if (!(far.has(one) || far.has(other) || gain > needed)) continue;
        const score = 0.5 * gain + weight;
        if (score < most - NEAR) continue;
        most = Math.max(most, score);
        made.push({score, at: far.has(one) ? [one, other] : [other, one], cause: cause.cause, likely: cause.likely});
      }
      return made.filter(one => one.score >= most - NEAR);
    });
  }
}

/** Readings set aside, in the order of the input: [{reading, off_by, cause, likely}]. */
export function suspects(table) {
  if (table.rounds.every(readings => readings.length === 0)) return [];
  const others = new Others(table);
  const search = new Search(others, table.sheet.suspects);
  const found = new Map();
  for (let left = others.readings.length; left > 0; left -= 1) {
    const best = search.worst();
    if (best === null) break;
    for (const at of best.at) {
      others.setAside(at);
      found.set(at, best);
    }
  }
  const offs = others.against([...found.keys()]);
  return [...found].map(([at, {cause, likely}], i) => ({reading: others.readings[at], off_by: offs[i], cause, likely}))
    .sort((a, b) => a.reading.round - b.reading.round || a.reading.position - b.reading.position);
}
