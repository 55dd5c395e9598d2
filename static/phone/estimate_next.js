// Which reading to take next. Twin of fieldapp/trade/estimate/linear_next.py.
import {phi, TOO_CLOSE} from "./chance.js";
import {dot, doubt, way} from "./estimate_table.js";

const SURE = 1.959963984540054;  // 0.975 of the normal distribution
const SURE_BOTH = 2.241402727604945;  // 0.9875: both sides of a tolerance together leave 0.025
const CLEAR = 1e-9;

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
    if (gained <= 1e-12 * item.u * item.u || after <= 0) return 0;
    return rule.settle * settles(item, Math.sqrt(gained), after) + rule.narrow * Math.log(item.u / after);
  });
}

function say(table, undecided, kind, scores) {
  const rule = table.sheet.next;
  const most = Math.max(...scores);
  const decided = undecided.filter((_, i) => scores[i] > 0.5 * most).map(item => item.say);
  return {of: kind, ...(rule.turned.includes(kind) ? {reversed: true} : {}), why: rule.why + decided.join(rule.join)};
}

/** The kind to read next, and why; null when nothing is open, readable, or worth reading. */
export function following(table, state, quantities, given) {
  const canRead = given.can_read ?? table.sheet.next.can_read;
  const undecided = quantities.filter(item => item.verdict === TOO_CLOSE);
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
