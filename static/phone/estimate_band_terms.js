// Which terms explain a difference, and one shift for several gaps.
// Twin of fieldapp/trade/estimate/band_terms.py and band_shift.py.
import {limit, tidy} from "./estimate_band_values.js";

const OUT = "left out";
const TWICE = "counted twice";

function chosen(terms, count) {
  if (count === 1) return terms.map(term => [term]);
  return terms.flatMap((term, i) => terms.slice(i + 1).map(other => [term, other]));
}

/** [[{term, how}], what is left over]: the fewest terms, two at most, that make up `by`. */
export function explain(by, u, terms, within) {
  const near = Math.max(within, 2 * u);
  const usable = terms.filter(term => term.mm !== 0);
  for (const count of [1, 2]) {
    let best = null;
    for (const set of chosen(usable, count)) {
      const amount = set.reduce((sum, term) => sum + term.mm, 0);
      for (const [how, left] of [[OUT, tidy(by + amount)], [TWICE, tidy(by - amount)]]) {
        if (Math.abs(left) <= near && (best === null || Math.abs(left) < Math.abs(best.left))) best = {set, how, left};
      }
    }
    if (best) return [best.set.map(term => ({term: term.term, how: best.how})), best.left];
  }
  return [[], by];
}

/** What one shift, added to every gap, can do; null while nothing can be said. */
export function shift(spec, known) {
  const low = limit(spec.from, known);
  const high = limit(spec.to, known);
  const gaps = spec.of.filter(path => path in known).map(path => known[path][0]);
  if (low === null || high === null || !gaps.length) return null;
  const widest = Math.max(...gaps);
  const narrowest = Math.min(...gaps);
  const tilt = tidy(widest - narrowest);
  const made = {low, high, tilt, shift: null, best: null};
  if (tilt <= tidy(high - low)) {
    const least = tidy(low - narrowest);
    const most = tidy(high - widest);
    made.shift = most >= least ? Math.min(Math.max(0, least), most) : least;
    made.best = tidy((low + high) / 2 - (widest + narrowest) / 2);
  }
  return made;
}
