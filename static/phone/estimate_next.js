// Which reading to take next. Twin of fieldapp/trade/estimate/linear_next.py.
import {phi, TOO_CLOSE} from "./chance.js";
import {dot, doubt, overlap, way} from "./estimate_table.js";

const SURE = 1.959963984540054;  // 0.975 of the normal distribution
const SURE_BOTH = 2.241402727604945;  // 0.9875: both sides of a tolerance together leave 0.025
const CLEAR = 1e-9;
const NOTICED = 0.01;  // of the variance: a reading that takes less off it neither settles nor narrows anything

// Chance that the verdict is settled when the estimate will move by `moves` (sd) and its doubt be `after`, mm.
function settles(item, moves, after) {
  const outer = item.tolerance + SURE * after;
  const inner = item.tolerance - SURE * after;
  const chance = phi((-outer - item.estimate) / moves) + phi((item.estimate - outer) / moves);
  if (item.tolerance < SURE_BOTH * after) return chance;
  return chance + (phi((inner - item.estimate) / moves) - phi((-inner - item.estimate) / moves));
}

// What a reading of this kind would do for each open verdict.
function scoresOf(table, state, undecided, kind) {
  const rule = table.sheet.next;
  const turned = rule.turned.includes(kind);
  const row = way(table, kind, null, turned);
  const own = doubt(table, kind, turned);
  const across = state.across(row);
  const variance = dot(row, across) + own * own;
  return undecided.map(item => {
    const shared = dot(item.row, across);
    const gained = Math.min(shared * shared / variance, item.u * item.u);
    const after = Math.sqrt(item.u * item.u - gained);
    if (gained <= NOTICED * item.u * item.u || after <= 0) return 0;
    return rule.settle * settles(item, Math.sqrt(gained), after) + rule.narrow * Math.log(item.u / after);
  });
}

function say(table, undecided, kind, scores) {
  const rule = table.sheet.next;
  const most = Math.max(...scores);
  const decided = undecided.filter((_, i) => scores[i] > 0.5 * most).map(item => item.say);
  return {of: kind, ...(rule.turned.includes(kind) ? {reversed: true} : {}), why: rule.why + decided.join(rule.join)};
}

// The verdicts still open. Once enough are settled, those are left out that a correction moves in any case and whose
// doubt is small enough for it: they are read again after it.
function undecidedOf(table, quantities, made) {
  const rule = table.sheet.next;
  const undecided = quantities.filter(item => item.verdict === TOO_CLOSE);
  if (quantities.length - undecided.length < rule.enough) return undecided;
  const columns = made.filter(one => one.by > 0).map(one => table.columns.get(one.do));
  return undecided.filter(item => item.u > rule.fit * item.tolerance || !columns.some(column => overlap(item.row, column) !== 0));
}

/** The kind to read next, and why; null when nothing is open, readable, or worth reading. `made`: the corrections. */
export function following(table, state, quantities, given, made) {
  const canRead = given.can_read ?? table.sheet.next.can_read;
  const undecided = undecidedOf(table, quantities, made);
  if (undecided.length === 0) return null;
  let found = null;
  let most = table.sheet.next.least;
  for (const kind of table.sheet.kinds) {
    if (!canRead.includes(kind)) continue;
    const scores = scoresOf(table, state, undecided, kind);
    const total = scores.reduce((sum, one) => sum + one, 0);
    if (total > most + CLEAR) {
      found = [kind, scores];
      most = total;
    }
  }
  return found && say(table, undecided, ...found);
}
